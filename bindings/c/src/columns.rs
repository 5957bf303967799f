//! Many readings judged in one call, from columns into columns.
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere knows nothing of the registers this processor has"
)]

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::judging::{lw_limits, lw_rule};
use crate::pointers::{Record, items, optional_items, optional_room, record, room, seen, spare};
use crate::status::lw_status;
use crate::thermal::lw_warmth;
use lashwork::clearance::{
    ClearanceError, MetalColumns, ROWS_AT_ONCE, ReadingColumns, ReadingRows, judge_columns,
};
use lashwork::tolerance::{Column as Numbers, DecisionRule, JudgedRow, ToleranceError};
use std::mem::{MaybeUninit, offset_of};

/// Readings, one per row. A column is a contiguous array of `rows` items: a later release can add a
/// column at the end of the structure, so the size of a row never changes. With no rows the columns are
/// ignored and may be NULL.
///
/// The columns from `lower_mm` on may be NULL. Where `warmth` and all columns of temperature and coefficient
/// are NULL, the ends are taken to be the lash at the temperature for which the limits hold.
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
    /// Lower limits in millimetres, -10000 to 10000, instead of the one of all rows; infinite or NaN where there
    /// is none.
    pub lower_mm: *const f64,
    /// Upper limits, likewise. A row needs one of the two.
    pub upper_mm: *const f64,
    /// Temperatures of the metal as `at_celsius` of `lw_warmth`, instead of the one of all rows; NaN where it
    /// was not taken.
    pub at_celsius: *const f64,
    /// As `at_uncertainty_kelvin` of `lw_warmth`.
    pub at_uncertainty_kelvin: *const f64,
    /// As `reference_celsius` of `lw_warmth`. Of limits for a cold engine, with no temperature printed, 20; and
    /// 10 K over the root of three goes into the uncertainty of the temperature, as the root of the sum of
    /// squares.
    pub reference_celsius: *const f64,
    /// As `mm_per_kelvin` of `lw_warmth`; NaN where nothing says how the lash follows.
    pub mm_per_kelvin: *const f64,
    /// As `mm_per_kelvin_uncertainty` of `lw_warmth`.
    pub mm_per_kelvin_uncertainty: *const f64,
    /// What holds for all rows, where its column is NULL. NULL: not known.
    pub warmth: *const lw_warmth,
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
    /// Lower ends at the temperature for which the limits hold, in millimetres; minus infinity where there is
    /// none, NaN for a refused row. This and what follows is of readings of lash: `lw_judge_columns` alone
    /// writes it.
    pub low_mm: *mut f64,
    /// Upper ends, likewise.
    pub high_mm: *mut f64,
    /// Standard uncertainties of these ends, in millimetres.
    pub uncertainty_mm: *mut f64,
    /// 1 where the ends hold at the temperature for which the limits do; else 0: nothing says how the lash
    /// follows, the uncertainty has what that may do to it, and the verdict is `LW_VERDICT_CANNOT_SAY`, as
    /// with `lw_warmth_not_known`. 0 for a refused row.
    pub at_reference: *mut u8,
}

// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_reading_columns {
    const FIRST_SIZE: usize = offset_of!(Self, lower_mm);
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_judgement_columns {
    const FIRST_SIZE: usize = offset_of!(Self, low_mm);
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

impl<T: Copy> Column<'_, T> {
    /// Writes rows from one on, as many as there are.
    #[inline(always)]
    fn set_from<const N: usize>(&mut self, row: usize, values: &[T; N]) {
        let rest = self.0.as_mut().and_then(|column| column.get_mut(row..));
        let rest = rest.unwrap_or_default();
        if let Some(whole) = rest.first_chunk_mut::<N>() {
            for (place, value) in whole.iter_mut().zip(values) {
                place.write(*value);
            }
            return;
        }
        for (place, value) in rest.iter_mut().zip(values) {
            place.write(*value);
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

/// The columns to write that only readings of lash have.
struct Ends<'a> {
    numbers: [Column<'a, f64>; 3],
    at_reference: Column<'a, u8>,
}

impl Ends<'_> {
    #[inline(always)]
    fn write(&mut self, rows: &ReadingRows<'_>) {
        for (column, values) in self.numbers.iter_mut().zip([rows.low, rows.high, rows.u]) {
            column.set_from(rows.from, values);
        }
        self.at_reference
            .set_from(rows.from, &rows.at_reference.map(u8::from));
    }
}

impl lw_judgement_columns {
    /// # Safety
    /// The columns are as the structure describes them.
    unsafe fn ends<'a>(&self, rows: usize) -> Outcome<Ends<'a>> {
        // SAFETY: passed on under the same contract.
        unsafe {
            let number = |name, data| optional_room(name, data, rows).map(Column);
            Ok(Ends {
                numbers: [
                    number("judgements.low_mm", self.low_mm)?,
                    number("judgements.high_mm", self.high_mm)?,
                    number("judgements.uncertainty_mm", self.uncertainty_mm)?,
                ],
                at_reference: Column(optional_room(
                    "judgements.at_reference",
                    self.at_reference,
                    rows,
                )?),
            })
        }
    }
}

impl lw_reading_columns {
    /// # Safety
    /// The columns and structures are as described, or NULL; so is `limits`.
    unsafe fn typed<'a>(&self, limits: *const lw_limits) -> Outcome<ReadingColumns<'a>> {
        let rows = self.rows;
        // SAFETY: passed on under the same contract.
        unsafe {
            let column = |name, data, all| -> Outcome<Numbers<'a>> {
                Ok(optional_items(name, data, rows)?.map_or(all, Numbers::Each))
            };
            let own_limits = !self.lower_mm.is_null() || !self.upper_mm.is_null();
            let [lower, upper] = if limits.is_null() && own_limits {
                [Numbers::NONE; 2]
            } else {
                seen("limits", limits, &mut spare())?.typed()?.as_columns()
            };
            Ok(ReadingColumns {
                rows,
                low: Numbers::Each(items("readings.low_mm", self.low_mm, rows)?),
                high: Numbers::Each(items("readings.high_mm", self.high_mm, rows)?),
                uncertainty: Numbers::Each(items(
                    "readings.uncertainty_mm",
                    self.uncertainty_mm,
                    rows,
                )?),
                lower: column("readings.lower_mm", self.lower_mm, lower)?,
                upper: column("readings.upper_mm", self.upper_mm, upper)?,
                metal: self.metal()?,
            })
        }
    }

    /// # Safety
    /// As [`Self::typed`].
    unsafe fn metal<'a>(&self) -> Outcome<Option<MetalColumns<'a>>> {
        let columns = [
            ("readings.at_celsius", self.at_celsius),
            ("readings.at_uncertainty_kelvin", self.at_uncertainty_kelvin),
            ("readings.reference_celsius", self.reference_celsius),
            ("readings.mm_per_kelvin", self.mm_per_kelvin),
            (
                "readings.mm_per_kelvin_uncertainty",
                self.mm_per_kelvin_uncertainty,
            ),
        ];
        if self.warmth.is_null() && columns.iter().all(|(_, data)| data.is_null()) {
            return Ok(None);
        }
        // SAFETY: passed on under the same contract.
        unsafe {
            let mut all = [Numbers::NONE; 5];
            if !self.warmth.is_null() {
                let w = record("readings.warmth", self.warmth)?;
                all = [
                    w.at_celsius,
                    w.at_uncertainty_kelvin,
                    w.reference_celsius,
                    w.mm_per_kelvin,
                    w.mm_per_kelvin_uncertainty,
                ]
                .map(Numbers::All);
            }
            for (column, (name, data)) in all.iter_mut().zip(columns) {
                if let Some(each) = optional_items(name, data, self.rows)? {
                    *column = Numbers::Each(each);
                }
            }
            let [
                celsius,
                uncertainty,
                reference,
                mm_per_kelvin,
                mm_per_kelvin_uncertainty,
            ] = all;
            Ok(Some(MetalColumns {
                celsius,
                uncertainty,
                reference,
                mm_per_kelvin,
                mm_per_kelvin_uncertainty,
            }))
        }
    }
}

/// [`judge_columns`], by the widest registers this processor has.
fn judge_here(
    columns: &ReadingColumns<'_>,
    rule: &DecisionRule,
    write: impl FnMut(&ReadingRows<'_>),
) -> Result<(), ToleranceError> {
    #[cfg(target_arch = "x86_64")]
    {
        use lashwork::clearance::{judge_columns_by_avx2, judge_columns_by_avx512};
        use std::arch::is_x86_feature_detected as has;
        if has!("avx512f") && has!("avx512bw") && has!("avx512dq") && has!("avx512vl") {
            // SAFETY: the processor has them.
            return unsafe { judge_columns_by_avx512(columns, rule, write) };
        }
        if has!("avx2") {
            // SAFETY: the processor has AVX2.
            return unsafe { judge_columns_by_avx2(columns, rule, write) };
        }
    }
    judge_columns(columns, rule, write)
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

    #[inline(always)]
    fn write_rows(&mut self, rows: &ReadingRows<'_>, done: &mut Rows<ClearanceError>) {
        self.verdict.set_from(rows.from, rows.verdict);
        self.provable
            .set_from(rows.from, &rows.provable.map(u8::from));
        for (column, values) in self.probabilities.iter_mut().zip(rows.probabilities) {
            column.set_from(rows.from, values);
        }
        self.status
            .set_from(rows.from, &[lw_status::Ok as u32; ROWS_AT_ONCE]);
        for (row, why) in rows.refused {
            let status = done.status(*row, Some(why.clone()));
            self.status.set(*row, status as u32);
        }
    }
}

/// Judges many readings, each brought to the temperature of its limits, under one rule.
///
/// Every row gets what `lw_warmth_shift`, `lw_estimate_changed` with minus the change, and `lw_judge` give for
/// it, to the bit; where nothing says how the lash follows the temperature, what `lw_warmth_not_known` says.
/// `limits` are those of all rows, and may be NULL where the readings have a column of limits. A row that
/// cannot be judged (crossed ends or limits, NaN, no end or no limit at all, no reference) is marked in
/// `verdict` and `status`, and the others are still judged; the call then returns `LW_STATUS_ROWS_REFUSED`,
/// with the first such row in the error (`lw_error_row`). Any other failure means that nothing was written,
/// but after `LW_STATUS_PANIC` some rows may have been written. No memory is allocated unless a row is
/// refused. Columns to write must not overlap. Rows do not depend on one another: several threads may each
/// judge a part. `error` may be NULL. Any thread.
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
        let (columns, rule, mut output, mut ends) = unsafe {
            let columns = record("readings", readings)?.typed(limits)?;
            let rule = seen("rule", rule, &mut spare())?.typed()?;
            let judgements = record("judgements", judgements)?;
            let rows = columns.rows;
            (
                columns,
                rule,
                judgements.checked(rows)?,
                judgements.ends(rows)?,
            )
        };
        let mut done = Rows::default();
        let write = |rows: &ReadingRows<'_>| {
            output.write_rows(rows, &mut done);
            ends.write(rows);
        };
        judge_here(&columns, &rule, write)?;
        done.told()
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
