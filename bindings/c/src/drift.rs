//! The drift of valves of one kind, of one engine: rates, and when to look next.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, enough};
use crate::error::lw_error;
use crate::judging::{lw_limits, lw_rule};
use crate::past_readings::{Past, lw_past_readings};
use crate::pointers::{Record, optional_room, record, record_place, room, seen, spare};
use crate::status::lw_status;
use lashwork::history::{
    Drift, DriftAnswer, Figure, Look, PastReadings, TooFew, WhenToLook, drift,
};
use lashwork::quantity::Lash;

/// When to look at a valve next.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_look {
    /// Nothing: the row was refused.
    Refused = 0,
    /// The rule does not accept it even now.
    Now = 1,
    /// At the time that is given, at the latest.
    At = 2,
    /// Not before the time that is given, which is as far as is looked ahead.
    NotBefore = 3,
    /// It was not read since it was last set, or from one side only.
    NotKnown = 4,
    /// Fewer readings than a drift takes.
    TooFew = 5,
}

/// The drift of all the valves together, odd ones left out. Rates are millimetres in a unit of the count, negative
/// where the lash closes; with too few readings they are NaN.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_drift {
    /// Size of this structure, `sizeof(lw_drift)`.
    pub struct_size: usize,
    /// The rate, as likely passed as not.
    pub rate: f64,
    /// Its standard uncertainty; of very few readings it may be large beside the interval.
    pub rate_uncertainty: f64,
    /// The rate is above this with 97.5 %.
    pub rate_low: f64,
    /// The rate is below this with 97.5 %.
    pub rate_high: f64,
    /// How far readings scatter about the lines, in millimetres, besides what they state.
    pub scatter_mm: f64,
    /// How far the rates of the valves lie apart, as a standard deviation.
    pub spread: f64,
    /// Readings that it lacks, at other times without a setting between; 0 if there are enough.
    pub lacking: usize,
}

/// Where the valves go, one per row. Every column except `look` may be NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_valve_drift_columns {
    /// Size of this structure, `sizeof(lw_valve_drift_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// The rate of each valve, as `rate` of `lw_drift`.
    pub rate: *mut f64,
    /// Its standard uncertainty.
    pub rate_uncertainty: *mut f64,
    /// As `rate_low`.
    pub rate_low: *mut f64,
    /// As `rate_high`.
    pub rate_high: *mut f64,
    /// When to look next: values of `lw_look`.
    pub look: *mut u8,
    /// The time that goes with it; NaN where none does.
    pub look_at: *mut f64,
    /// How many times more probable its readings are if it moves unlike its mates; NaN with too few mates.
    pub odd_evidence: *mut f64,
    /// How many times it takes to say so; NaN likewise.
    pub odd_needed: *mut f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_drift {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_valve_drift_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
pub(crate) const NO_FIGURE: Figure = Figure {
    value: f64::NAN,
    standard_uncertainty: f64::NAN,
    low: f64::NAN,
    high: f64::NAN,
};

impl lw_drift {
    fn of(found: &Drift<Lash>) -> Self {
        let rate = found.rate();
        Self {
            struct_size: 0,
            rate: rate.value,
            rate_uncertainty: rate.standard_uncertainty,
            rate_low: rate.low,
            rate_high: rate.high,
            scatter_mm: found.scatter(),
            spread: found.spread(),
            lacking: 0,
        }
    }

    const fn lacking(few: &TooFew) -> Self {
        Self {
            struct_size: 0,
            rate: f64::NAN,
            rate_uncertainty: f64::NAN,
            rate_low: f64::NAN,
            rate_high: f64::NAN,
            scatter_mm: f64::NAN,
            spread: f64::NAN,
            lacking: few.more,
        }
    }
}

/// Fits the drift of so many valves, which are all of one kind.
pub(crate) fn fitted(past: &Past<'_>, valves: usize) -> Outcome<DriftAnswer<Lash>> {
    let record = past.record(valves)?;
    Ok(drift(&record, PastReadings::KIND, &past.choice)?)
}

/// Its number, and the time that goes with it.
fn told(look: &Look) -> (u8, f64) {
    let (what, at) = match look {
        Look::Now(due) => (WhenToLook::Now, due.at),
        Look::At(due) => (WhenToLook::At, due.at),
        Look::NotBefore(at) => (WhenToLook::NotBefore, *at),
        Look::NotKnown(_) => (WhenToLook::NotKnown, f64::NAN),
    };
    (what.number(), at)
}

/// Fits how fast the lash of the valves of one kind of one engine changes, and says when to look at each next: when the
/// chance of finding it out of the limits passes what the rule allows.
///
/// `readings` are those of `valves` valves, up to 1024, that are taken to change at like rates, such as all exhaust valves; those
/// with few readings borrow from their mates, and one that moves unlike them is told (`odd_evidence`, at most 5 % of
/// kinds have a false one). With too few readings the answer says how many it lacks, and `look` is
/// `LW_LOOK_TOO_FEW`. A row that is no reading, or lies before another, refuses the call, and the error names it
/// (`lw_error_row`). Taken for granted: that the change between settings is steady. It says when to look, not that a
/// valve is good until then. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_drift_of_record(
    readings: *const lw_past_readings,
    valves: usize,
    limits: *const lw_limits,
    rule: *const lw_rule,
    whole: *mut lw_drift,
    found: *const lw_valve_drift_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (past, limits, rule, whole, found) = unsafe {
            (
                record("readings", readings)?.typed()?,
                seen("limits", limits, &mut spare())?.typed()?,
                seen("rule", rule, &mut spare())?.typed()?,
                record_place("whole", whole)?,
                record("found", found)?,
            )
        };
        enough("found.rows", found.rows, valves)?;
        // SAFETY: as above.
        let (mut look, mut numbers) = unsafe {
            let number = |name, data| optional_room(name, data, valves).map(Column);
            (
                Column(Some(room("found.look", found.look, valves)?)),
                [
                    number("found.rate", found.rate)?,
                    number("found.rate_uncertainty", found.rate_uncertainty)?,
                    number("found.rate_low", found.rate_low)?,
                    number("found.rate_high", found.rate_high)?,
                    number("found.look_at", found.look_at)?,
                    number("found.odd_evidence", found.odd_evidence)?,
                    number("found.odd_needed", found.odd_needed)?,
                ],
            )
        };
        let mut write = |valve: usize, what: u8, row: [f64; 7]| {
            look.set(valve, what);
            for (column, number) in numbers.iter_mut().zip(row) {
                column.set(valve, number);
            }
        };
        let answer = match fitted(&past, valves)? {
            DriftAnswer::TooFew(few) => {
                (0..valves).for_each(|valve| {
                    write(valve, WhenToLook::TooFew.number(), [f64::NAN; 7]);
                });
                whole.write(&lw_drift::lacking(&few));
                return Ok(());
            }
            DriftAnswer::Fitted(answer) => answer,
        };
        let standings: Vec<_> = answer.standings().collect();
        for valve in 0..valves {
            let (what, at) = told(&answer.look_next(valve, &limits, &rule)?);
            let rate = answer.rate_of(valve).unwrap_or(NO_FIGURE);
            let odd = standings.iter().find(|standing| standing.subject == valve);
            let (evidence, needed) =
                odd.map_or((f64::NAN, f64::NAN), |odd| (odd.evidence, odd.needed));
            let row = [
                rate.value,
                rate.standard_uncertainty,
                rate.low,
                rate.high,
                at,
                evidence,
                needed,
            ];
            write(valve, what, row);
        }
        whole.write(&lw_drift::of(&answer));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
