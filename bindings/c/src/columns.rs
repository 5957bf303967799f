//! Many readings judged in one call, from columns into columns.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::judging::{lw_limits, lw_rule};
use crate::pointers::{Record, items, optional_room, record, room, seen, spare};
use crate::status::lw_status;
use lashwork::tolerance::{JudgedRow, ToleranceError, judge_columns};
use std::mem::MaybeUninit;

/// Readings, one per row. A column is a contiguous array of `rows` items: a later release can add a
/// column at the end of the structure, so the size of a row never changes. With no rows the columns are
/// ignored and may be NULL.
///
/// A row has no temperature: its ends are the lash at the temperature for which the limits hold. Of a warm
/// engine, take off before what `lw_warmth_shift` gives and add its uncertainty as the root of the sum of
/// squares; where nothing says how the lash follows, ask `lw_warmth_not_known`.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_reading_columns {
    /// Size of this structure, `sizeof(lw_reading_columns)`.
    pub struct_size: usize,
    /// How many readings.
    pub rows: usize,
    /// Lower ends in millimetres, as `low_mm` of `lw_estimate`; minus infinity where there is none.
    pub low_mm: *const f64,
    /// Upper ends in millimetres, as `high_mm` of `lw_estimate`; infinity where there is none.
    pub high_mm: *const f64,
    /// Standard uncertainties of the ends in millimetres, 0 to 40.
    pub uncertainty_mm: *const f64,
}

/// Where the verdicts go, one per row. Every column except `verdict` may be NULL; with no rows, that one
/// too.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_judgement_columns {
    /// Size of this structure, `sizeof(lw_judgement_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// Values of `lw_verdict`; `LW_VERDICT_REFUSED` for a refused row.
    pub verdict: *mut u8,
    /// As `provable` of `lw_judgement`; 0 for a refused row.
    pub provable: *mut u8,
    /// As `below_least` of `lw_judgement`; NaN for a refused row, like all probabilities.
    pub below_least: *mut f64,
    /// As `below_most` of `lw_judgement`.
    pub below_most: *mut f64,
    /// As `in_band_least`.
    pub in_band_least: *mut f64,
    /// As `in_band_most`.
    pub in_band_most: *mut f64,
    /// As `above_least`.
    pub above_least: *mut f64,
    /// As `above_most`.
    pub above_most: *mut f64,
    /// Values of `lw_status`: `LW_STATUS_OK`, or why the row was refused.
    pub status: *mut u32,
}

// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_reading_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_judgement_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}

/// A column of the caller, or none.
pub(crate) struct Column<'a, T>(pub(crate) Option<&'a mut [MaybeUninit<T>]>);

impl<T> Column<'_, T> {
    pub(crate) fn set(&mut self, row: usize, value: T) {
        if let Some(place) = self.0.as_mut().and_then(|column| column.get_mut(row)) {
            place.write(value);
        }
    }
}

/// Whether a structure of columns has room for the rows.
pub(crate) fn enough(name: &'static str, room: usize, rows: usize) -> Outcome {
    if room >= rows {
        return Ok(());
    }
    Err(lw_error::of(lw_status::ShortBuffer, name, || {
        format!("room for {room} rows, {rows} are needed")
    }))
}

/// Whether each row is done, and the first that is not.
pub(crate) struct Rows<E>(Option<(usize, E)>);

impl<E> Default for Rows<E> {
    fn default() -> Self {
        Self(None)
    }
}

impl<E> Rows<E>
where
    Box<lw_error>: From<E>,
{
    /// The status of a row that is done, or refused for a reason.
    pub(crate) fn status(&mut self, row: usize, why: Option<E>) -> lw_status {
        match why {
            None => lw_status::Ok,
            Some(why) => {
                self.0.get_or_insert((row, why));
                lw_status::Refused
            }
        }
    }

    /// What the call comes to.
    pub(crate) fn told(self) -> Outcome {
        match self.0 {
            None => Ok(()),
            Some((row, why)) => Err(Box::<lw_error>::from(why).in_row(row)),
        }
    }
}

/// The columns to write, checked.
pub(crate) struct Output<'a> {
    verdict: Column<'a, u8>,
    provable: Column<'a, u8>,
    probabilities: [Column<'a, f64>; 6],
    status: Column<'a, u32>,
}

impl lw_judgement_columns {
    /// # Safety
    /// The columns are as the structure describes them.
    pub(crate) unsafe fn checked<'a>(&self, rows: usize) -> Outcome<Output<'a>> {
        enough("judgements.rows", self.rows, rows)?;
        // SAFETY: passed on under the same contract.
        unsafe {
            let number = |name, data| optional_room(name, data, rows).map(Column);
            Ok(Output {
                verdict: Column(Some(room("judgements.verdict", self.verdict, rows)?)),
                provable: Column(optional_room("judgements.provable", self.provable, rows)?),
                probabilities: [
                    number("judgements.below_least", self.below_least)?,
                    number("judgements.below_most", self.below_most)?,
                    number("judgements.in_band_least", self.in_band_least)?,
                    number("judgements.in_band_most", self.in_band_most)?,
                    number("judgements.above_least", self.above_least)?,
                    number("judgements.above_most", self.above_most)?,
                ],
                status: Column(optional_room("judgements.status", self.status, rows)?),
            })
        }
    }
}

impl Output<'_> {
    pub(crate) fn write(&mut self, row: usize, found: &JudgedRow, status: lw_status) {
        self.verdict.set(row, found.verdict);
        self.provable.set(row, u8::from(found.provable));
        for (column, value) in self.probabilities.iter_mut().zip(found.probabilities) {
            column.set(row, value);
        }
        self.status.set(row, status as u32);
    }
}

/// Judges many readings against one pair of limits under one rule.
///
/// Every row gets what `lw_judge` gives for it, to the bit. A row that cannot be judged (crossed ends,
/// NaN, no end at all) is marked in `verdict` and `status`, and the others are still judged; the call then
/// returns `LW_STATUS_ROWS_REFUSED`, with the first such row in the error (`lw_error_row`). Any other
/// failure means that nothing was written, but after `LW_STATUS_PANIC` some rows may have been written. No memory
/// is allocated unless a row is refused. Columns must not overlap. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_judge_columns(
    readings: *const lw_reading_columns,
    limits: *const lw_limits,
    rule: *const lw_rule,
    judgements: *const lw_judgement_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (readings, limits, rule, judgements) = unsafe {
            (
                record("readings", readings)?,
                seen("limits", limits, &mut spare())?.typed()?,
                seen("rule", rule, &mut spare())?.typed()?,
                record("judgements", judgements)?,
            )
        };
        let rows = readings.rows;
        // SAFETY: as above.
        let (low, high, u, mut output) = unsafe {
            (
                items("readings.low_mm", readings.low_mm, rows)?,
                items("readings.high_mm", readings.high_mm, rows)?,
                items("readings.uncertainty_mm", readings.uncertainty_mm, rows)?,
                judgements.checked(rows)?,
            )
        };
        let mut done = Rows::default();
        let write = |row, found: &JudgedRow, why: Option<ToleranceError>| {
            output.write(row, found, done.status(row, why));
        };
        judge_columns(low, high, u, &limits, &rule, write)?;
        done.told()
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
