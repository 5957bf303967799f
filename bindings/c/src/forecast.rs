//! What valves of one kind will be found at, and how one departs from its kind.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, enough};
use crate::drift::{NO_FIGURE, fitted};
use crate::error::lw_error;
use crate::past_readings::lw_past_readings;
use crate::pointers::{Record, optional_room, place, record, room};
use crate::status::lw_status;
use lashwork::history::{DriftAnswer, Forecast};

/// Where what will be found goes, one valve per row. Every column except `found_mm` may be NULL. NaN where nothing is
/// said of a valve.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_forecast_columns {
    /// Size of this structure, `sizeof(lw_forecast_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// Where a reading will be, in millimetres: as likely below as above.
    pub found_mm: *mut f64,
    /// Standard uncertainty of it, with the scatter from service to service, but without what a leaf adds.
    pub found_uncertainty_mm: *mut f64,
    /// It is above this with 97.5 %.
    pub found_low_mm: *mut f64,
    /// It is below this with 97.5 %.
    pub found_high_mm: *mut f64,
    /// Where the line itself is.
    pub line_mm: *mut f64,
    /// Standard uncertainty of that.
    pub line_uncertainty_mm: *mut f64,
}

/// Where departures of one valve go, in the order of time. Every column except `off` may be NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_departure_columns {
    /// Size of this structure, `sizeof(lw_departure_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column; there are never more than rows of readings.
    pub rows: usize,
    /// When it was read.
    pub at: *mut f64,
    /// How far it is off what its kind does since the reading before, in standard deviations.
    pub off: *mut f64,
    /// Running sum above.
    pub above: *mut f64,
    /// Running sum below.
    pub below: *mut f64,
}

// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_forecast_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_departure_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}

/// What valves of one kind of one engine will be found at, at a time, in the unit of the count.
///
/// `readings` and `valves` as in `lw_drift_of_record`; `at` not before the first reading since a valve was last set.
/// With too few readings, and for valves of which nothing is said, all is NaN. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_forecast_of_record(
    readings: *const lw_past_readings,
    valves: usize,
    at: f64,
    found: *const lw_forecast_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (past, found) = unsafe {
            (
                record("readings", readings)?.typed()?,
                record("found", found)?,
            )
        };
        enough("found.rows", found.rows, valves)?;
        // SAFETY: as above.
        let mut numbers = unsafe {
            let number = |name, data| optional_room(name, data, valves).map(Column);
            [
                Column(Some(room("found.found_mm", found.found_mm, valves)?)),
                number("found.found_uncertainty_mm", found.found_uncertainty_mm)?,
                number("found.found_low_mm", found.found_low_mm)?,
                number("found.found_high_mm", found.found_high_mm)?,
                number("found.line_mm", found.line_mm)?,
                number("found.line_uncertainty_mm", found.line_uncertainty_mm)?,
            ]
        };
        let none = Forecast {
            at,
            line: NO_FIGURE,
            found: NO_FIGURE,
        };
        let forecasts: Outcome<Vec<Forecast>> = match fitted(&past, valves)? {
            DriftAnswer::TooFew(_) => Ok(vec![none; valves]),
            DriftAnswer::Fitted(answer) => (0..valves)
                .map(|valve| Ok(answer.predicted(valve, at)?.unwrap_or(none)))
                .collect(),
        };
        for (valve, one) in forecasts?.iter().enumerate() {
            let row = [
                one.found.value,
                one.found.standard_uncertainty,
                one.found.low,
                one.found.high,
                one.line.value,
                one.line.standard_uncertainty,
            ];
            for (column, number) in numbers.iter_mut().zip(row) {
                column.set(valve, number);
            }
        }
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// How one valve departs from the rate of its kind from service to service, with the running sums of that (CUSUM, slack
/// one half), for a chart; whether it is odd, `lw_drift_of_record` says.
///
/// `readings` and `valves` as there; `valve` from 0. `count` gets how many departures there are; none with too few
/// readings. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `count` is writable or NULL;
/// `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_departures_of_record(
    readings: *const lw_past_readings,
    valves: usize,
    valve: usize,
    found: *const lw_departure_columns,
    count: *mut usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (past, found, count) = unsafe {
            (
                record("readings", readings)?.typed()?,
                record("found", found)?,
                place("count", count)?,
            )
        };
        if valve >= valves {
            return Err(lw_error::of(lw_status::OutOfBounds, "valve", || {
                format!("valve {valve} of {valves}, from 0")
            }));
        }
        let departures = match fitted(&past, valves)? {
            DriftAnswer::TooFew(_) => Vec::new(),
            DriftAnswer::Fitted(answer) => answer.departures(valve),
        };
        let rows = departures.len();
        count.write(rows);
        enough("found.rows", found.rows, rows)?;
        // SAFETY: as above.
        let mut numbers = unsafe {
            let number = |name, data| optional_room(name, data, rows).map(Column);
            [
                number("found.at", found.at)?,
                Column(Some(room("found.off", found.off, rows)?)),
                number("found.above", found.above)?,
                number("found.below", found.below)?,
            ]
        };
        for (row, one) in departures.iter().enumerate() {
            let row_of = [one.at, one.off, one.above, one.below];
            for (column, number) in numbers.iter_mut().zip(row_of) {
                column.set(row, number);
            }
        }
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
