//! The drift of many valves, each by itself, in one call.

use crate::boundary::boundary;
use crate::columns::{Column, Rows, enough};
use crate::error::lw_error;
use crate::judging::{lw_limits, lw_rule};
use crate::past_readings::lw_past_readings;
use crate::pointers::{Record, optional_room, record, room, seen, spare};
use crate::status::lw_status;
use lashwork::history::{DriftRow, drift_columns};

/// Where the drifts go, one valve per row. Every column except `look` may be NULL; with no valves, that one too.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_drift_columns {
    /// Size of this structure, `sizeof(lw_drift_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// As `rate` of `lw_drift`; NaN for a refused row, and with too few readings.
    pub rate: *mut f64,
    /// Its standard uncertainty; NaN likewise.
    pub rate_uncertainty: *mut f64,
    /// When to look next: values of `lw_look`; `LW_LOOK_REFUSED` for a refused row.
    pub look: *mut u8,
    /// The time that goes with it; NaN where none does.
    pub look_at: *mut f64,
    /// Values of `lw_status`: `LW_STATUS_OK`, or why the valve was refused.
    pub status: *mut u32,
}

// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_drift_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}

/// The drift of many valves in one call, each by its own readings alone: of any engines.
///
/// Every valve gets what `lw_drift_of_record` gives for its rows as those of a single valve, to the bit. Rows of a valve
/// stand together, in the order of time, and the valves in the order of their numbers, 0 to `valves` less one; a valve
/// without rows has too few. A valve with a row that is no reading, or lies before another, is marked in `look` and
/// `status`, and the others are still worked out; the call then returns `LW_STATUS_ROWS_REFUSED`, with the first such
/// valve in the error (`lw_error_row`). Any other failure means that nothing was written, but after
/// `LW_STATUS_PANIC` some rows may have been written. Columns must not overlap. Valves of one engine know more together:
/// `lw_drift_of_record`. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_drift_of_columns(
    readings: *const lw_past_readings,
    valves: usize,
    limits: *const lw_limits,
    rule: *const lw_rule,
    found: *const lw_drift_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (past, limits, rule, found) = unsafe {
            (
                record("readings", readings)?.typed()?,
                seen("limits", limits, &mut spare())?.typed()?,
                seen("rule", rule, &mut spare())?.typed()?,
                record("found", found)?,
            )
        };
        enough("found.rows", found.rows, valves)?;
        // SAFETY: as above.
        let (mut look, mut rate, mut u, mut at, mut status) = unsafe {
            let number = |name, data| optional_room(name, data, valves).map(Column);
            (
                Column(Some(room("found.look", found.look, valves)?)),
                number("found.rate", found.rate)?,
                number("found.rate_uncertainty", found.rate_uncertainty)?,
                number("found.look_at", found.look_at)?,
                Column(optional_room("found.status", found.status, valves)?),
            )
        };
        let mut done = Rows::default();
        let readings = past.readings();
        let write = |valve: usize, one: &DriftRow, why| {
            look.set(valve, one.look_number());
            rate.set(valve, one.rate);
            u.set(valve, one.u);
            at.set(valve, one.at);
            status.set(valve, done.status(valve, why) as u32);
        };
        drift_columns(&readings, valves, &limits, &rule, &past.choice, write)?;
        done.told()
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
