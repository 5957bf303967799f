//! Leak-down: the area through which a cylinder leaks, of one reading and of columns.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, Rows, enough};
use crate::compression::about;
use crate::error::lw_error;
use crate::pointers::{
    Record, items, optional_room, place, record, record_place, room, seen, spare,
};
use crate::status::lw_status;
use lashwork::condition::leak::{Leak, LeakColumns, LeakRow, Tester, leak_columns};
use lashwork::quantity::{AbsolutePressure, Area, GaugePressure, Length};
use lashwork::tolerance::Uncertainty;

/// A leak-down tester: a regulator, an orifice, and a gauge on the cylinder behind it.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_leak_tester {
    /// Size of this structure, `sizeof(lw_leak_tester)`.
    pub struct_size: usize,
    /// What the regulator shows, in kilopascals over the air around, 100 to 1500.
    pub supply_kpa: f64,
    /// Its standard uncertainty in kilopascals.
    pub supply_uncertainty_kpa: f64,
    /// Diameter of the orifice in millimetres, 0.2 to 6.
    pub orifice_mm: f64,
    /// Its standard uncertainty in millimetres.
    pub orifice_uncertainty_mm: f64,
}

/// How large a leak is.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_leak {
    /// Size of this structure, `sizeof(lw_leak)`.
    pub struct_size: usize,
    /// The area through which the cylinder leaks, in square millimetres: what may be compared and kept.
    pub area_mm2: f64,
    /// Its standard uncertainty.
    pub uncertainty_mm2: f64,
    /// Diameter of one round hole as large, in millimetres.
    pub hole_mm: f64,
    /// Area over that of the tester's orifice.
    pub over_orifice: f64,
    /// Part of the supply that this tester shows as lost, in per cent; another shows another.
    pub percent_lost: f64,
    /// 1 if the flow through the orifice is choked, else 0.
    pub orifice_choked: u32,
    /// 1 if the flow through the leak is choked, else 0.
    pub leak_choked: u32,
}

/// Readings with one tester, one per row, each in the air of its day; columns as in `lw_reading_columns`.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_leak_reading_columns {
    /// Size of this structure, `sizeof(lw_leak_reading_columns)`.
    pub struct_size: usize,
    /// How many readings.
    pub rows: usize,
    /// What stood in the cylinder, in kilopascals over the air around.
    pub shown_kpa: *const f64,
    /// Pressure of the air around in kilopascals, 30 to 110.
    pub air_kpa: *const f64,
    /// Standard uncertainty of all that is shown, in kilopascals.
    pub shown_uncertainty_kpa: f64,
    /// Standard uncertainty of all pressures of the air, in kilopascals.
    pub air_uncertainty_kpa: f64,
}

/// Where the areas go, one per row. Every column except `area_mm2` may be NULL; with no rows, that one too.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_leak_columns {
    /// Size of this structure, `sizeof(lw_leak_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// As `area_mm2` of `lw_leak`; NaN for a refused row.
    pub area_mm2: *mut f64,
    /// Its standard uncertainty; NaN for a refused row.
    pub uncertainty_mm2: *mut f64,
    /// As `hole_mm` of `lw_leak`; NaN for a refused row.
    pub hole_mm: *mut f64,
    /// Values of `lw_status`: `LW_STATUS_OK`, or why the row was refused.
    pub status: *mut u32,
}

// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_leak_tester {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_leak {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_leak_reading_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_leak_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_leak_tester {
    fn typed(&self) -> Outcome<Tester> {
        let supply = about(self.supply_kpa, self.supply_uncertainty_kpa)?;
        let mm = Length::from_mm;
        let (bore, u) = (mm(self.orifice_mm)?, mm(self.orifice_uncertainty_mm)?);
        Ok(Tester::of_diameter(supply, bore, u)?)
    }
}

impl From<&Leak> for lw_leak {
    fn from(found: &Leak) -> Self {
        let area = found.area;
        Self {
            struct_size: 0,
            area_mm2: area.centre().map_or(f64::NAN, Area::square_millimetres),
            uncertainty_mm2: area.normal_uncertainty().number(),
            hole_mm: found.hole.mm(),
            over_orifice: found.over_orifice,
            percent_lost: found.percent_lost,
            orifice_choked: found.orifice_choked.into(),
            leak_choked: found.leak_choked.into(),
        }
    }
}

/// How large a leak is, by the two pressures on the tester, its orifice and the air around.
///
/// Hold the crank before air is let in: it turns it, and a propeller with it. `shown_kpa` is what stands in the
/// cylinder over the air around, 2 % of the supply up to all of it; `air_kpa` the pressure of the air, 30 to 110; each
/// with its standard uncertainty. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_leak_area(
    tester: *const lw_leak_tester,
    shown_kpa: f64,
    shown_uncertainty_kpa: f64,
    air_kpa: f64,
    air_uncertainty_kpa: f64,
    leak: *mut lw_leak,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (tester, leak) = unsafe {
            (
                seen("tester", tester, &mut spare())?.typed()?,
                record_place("leak", leak)?,
            )
        };
        let shown = about(shown_kpa, shown_uncertainty_kpa)?;
        let air = about(air_kpa, air_uncertainty_kpa)?;
        leak.write(&(&tester.leak(&shown, &air)?).into());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// What a tester would show of a leak of so many square millimetres, in kilopascals over the air around.
///
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `tester` states its size, or is NULL; `shown_kpa` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_tester_would_show(
    tester: *const lw_leak_tester,
    area_mm2: f64,
    air_kpa: f64,
    shown_kpa: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (tester, shown) = unsafe {
            (
                seen("tester", tester, &mut spare())?.typed()?,
                place("shown_kpa", shown_kpa)?,
            )
        };
        let area = Area::from_square_millimetres(area_mm2)?;
        let air = AbsolutePressure::from_kilopascals(air_kpa)?;
        shown.write(tester.would_show(area, air)?.kilopascals());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The areas of many leaks in one call.
///
/// Every row gets what `lw_leak_area` gives for it, to the bit. A row that is no reading of this tester (over the
/// supply, under 2 % of it, air outside 30 to 110 kPa, NaN) is marked in `status`, and the others are still worked
/// out; the call then returns `LW_STATUS_ROWS_REFUSED`, with the first such row in the error (`lw_error_row`). Any
/// other failure means that nothing was written, but after `LW_STATUS_PANIC` some rows may have been written. No
/// memory is allocated unless a row is refused. Columns must not overlap. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_leak_of_columns(
    tester: *const lw_leak_tester,
    readings: *const lw_leak_reading_columns,
    found: *const lw_leak_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (tester, readings, found) = unsafe {
            (
                seen("tester", tester, &mut spare())?.typed()?,
                record("readings", readings)?,
                record("found", found)?,
            )
        };
        let rows = readings.rows;
        enough("found.rows", found.rows, rows)?;
        // SAFETY: as above.
        let (columns, mut area, mut u, mut hole, mut status) = unsafe {
            (
                LeakColumns {
                    tester,
                    shown: items("readings.shown_kpa", readings.shown_kpa, rows)?,
                    air: items("readings.air_kpa", readings.air_kpa, rows)?,
                    shown_u: Uncertainty::<GaugePressure>::from_number(
                        readings.shown_uncertainty_kpa,
                    )?,
                    air_u: Uncertainty::from_number(readings.air_uncertainty_kpa)?,
                },
                Column(Some(room("found.area_mm2", found.area_mm2, rows)?)),
                Column(optional_room(
                    "found.uncertainty_mm2",
                    found.uncertainty_mm2,
                    rows,
                )?),
                Column(optional_room("found.hole_mm", found.hole_mm, rows)?),
                Column(optional_room("found.status", found.status, rows)?),
            )
        };
        let mut done = Rows::default();
        leak_columns(&columns, |row, one: &LeakRow, why| {
            area.set(row, one.area);
            u.set(row, one.u);
            hole.set(row, one.hole);
            status.set(row, done.status(row, why) as u32);
        })?;
        done.told()
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
