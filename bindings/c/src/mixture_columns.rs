//! Many readings of exhaust gas or of the air in one call, from columns into columns.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, Rows, enough};
use crate::error::lw_error;
use crate::exhaust_gas::{contradiction, hydrocarbons, lw_hydrocarbons, tester};
use crate::fuel::lw_fuel;
use crate::pointers::{Record, items, optional_room, record, room, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::mixture::air::{AirColumns, DensityRow, density_columns};
use lashwork::mixture::gas::{Fuel, GasColumns, LambdaRow, lambda_columns};
use lashwork::quantity::TemperatureDifference;
use lashwork::tolerance::Uncertainty;

/// Analyses by one tester on one fuel, one per row; columns as in `lw_reading_columns`.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_gas_columns {
    /// Size of this structure, `sizeof(lw_gas_columns)`.
    pub struct_size: usize,
    /// How many analyses.
    pub rows: usize,
    /// Carbon dioxide in per cent, as `co2_percent` of `lw_exhaust_gas`.
    pub co2_percent: *const f64,
    /// Carbon monoxide in per cent.
    pub co_percent: *const f64,
    /// Oxygen in per cent.
    pub o2_percent: *const f64,
    /// Hydrocarbons in ppm.
    pub hc_ppm: *const f64,
    /// As `hc_factor` of `lw_exhaust_gas`, for all rows.
    pub hc_factor: f64,
    /// What was counted as one of the hydrocarbons, for all rows: a value of `lw_hydrocarbons`; in columns they
    /// must have been read.
    pub hydrocarbons: u32,
    /// Class of the tester: a value of `lw_tester`.
    pub tester: u32,
}

/// Where lambda goes, one per row. Every column except `lambda` may be NULL; with no rows, that one too.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_lambda_columns {
    /// Size of this structure, `sizeof(lw_lambda_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// As `lambda` of `lw_lambda`; NaN for a refused row.
    pub lambda: *mut f64,
    /// Its standard uncertainty; NaN for a refused row.
    pub uncertainty: *mut f64,
    /// The first thing that does not fit: a value of `lw_gas_contradiction`; 0 if all does.
    pub contradiction: *mut u8,
    /// Values of `lw_status`: `LW_STATUS_OK`, or why the row was refused.
    pub status: *mut u32,
}

/// Readings of the air with the same instruments, one per row; columns as in `lw_reading_columns`.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_air_columns {
    /// Size of this structure, `sizeof(lw_air_columns)`.
    pub struct_size: usize,
    /// How many readings.
    pub rows: usize,
    /// Pressure of the place in kilopascals, not that of a barometer set to sea level.
    pub pressure_kpa: *const f64,
    /// Temperature in degrees Celsius.
    pub celsius: *const f64,
    /// Relative humidity in per cent.
    pub humidity_percent: *const f64,
    /// Standard uncertainty of all pressures in kilopascals.
    pub pressure_uncertainty_kpa: f64,
    /// Standard uncertainty of all temperatures in kelvin.
    pub uncertainty_kelvin: f64,
    /// Standard uncertainty of all humidities in per cent.
    pub humidity_uncertainty_percent: f64,
}

/// Where the densities go, one per row. Every column except `density_kg_m3` may be NULL; with no rows, that one
/// too.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_density_columns {
    /// Size of this structure, `sizeof(lw_density_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// Density in kilograms a cubic metre; NaN for a refused row.
    pub density_kg_m3: *mut f64,
    /// Its standard uncertainty; NaN for a refused row.
    pub uncertainty_kg_m3: *mut f64,
    /// As `altitude_m` of `lw_air_density`; NaN for a refused row as well.
    pub altitude_m: *mut f64,
    /// Values of `lw_status`: `LW_STATUS_OK`, or why the row was refused.
    pub status: *mut u32,
}

// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_gas_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_lambda_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_air_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_density_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_gas_columns {
    /// # Safety
    /// The columns have the rows they say.
    unsafe fn typed<'c>(&self, fuel: Fuel) -> Outcome<GasColumns<'c>> {
        let name = "gas.hydrocarbons";
        let Some(factor) = hydrocarbons(name, self.hydrocarbons, self.hc_factor)? else {
            return choose::<GasColumns<'c>>(name, lw_hydrocarbons::NotRead as u32, &[]);
        };
        // SAFETY: passed on under the same contract.
        unsafe {
            Ok(GasColumns {
                co2: items("gas.co2_percent", self.co2_percent, self.rows)?,
                co: items("gas.co_percent", self.co_percent, self.rows)?,
                o2: items("gas.o2_percent", self.o2_percent, self.rows)?,
                hc_ppm: items("gas.hc_ppm", self.hc_ppm, self.rows)?,
                factor,
                class: tester("gas.tester", self.tester)?,
                fuel,
            })
        }
    }
}

impl lw_air_columns {
    /// # Safety
    /// The columns have the rows they say.
    unsafe fn typed<'c>(&self) -> Outcome<AirColumns<'c>> {
        // SAFETY: passed on under the same contract.
        unsafe {
            Ok(AirColumns {
                kpa: items("air.pressure_kpa", self.pressure_kpa, self.rows)?,
                celsius: items("air.celsius", self.celsius, self.rows)?,
                percent: items("air.humidity_percent", self.humidity_percent, self.rows)?,
                pressure_u: Uncertainty::from_number(self.pressure_uncertainty_kpa)?,
                temperature_u: TemperatureDifference::from_kelvin(self.uncertainty_kelvin)?,
                humidity_u: Uncertainty::from_number(self.humidity_uncertainty_percent)?,
            })
        }
    }
}

/// Lambda of many analyses in one call.
///
/// Every row gets what `lw_lambda_of_gas` gives for it, to the bit. A row that is no exhaust gas (no carbon
/// dioxide, NaN, more oxygen than air has) is marked in `status`, and the others are still worked out; the call
/// then returns `LW_STATUS_ROWS_REFUSED`, with the first such row in the error (`lw_error_row`). Any other failure
/// means that nothing was written, but after `LW_STATUS_PANIC` some rows may have been written. No memory is
/// allocated unless a row is refused. Columns must not overlap. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_lambda_of_columns(
    gas: *const lw_gas_columns,
    fuel: *const lw_fuel,
    found: *const lw_lambda_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (gas, fuel, found) = unsafe {
            (
                record("gas", gas)?,
                seen("fuel", fuel, &mut spare())?.typed()?,
                record("found", found)?,
            )
        };
        let rows = gas.rows;
        enough("found.rows", found.rows, rows)?;
        // SAFETY: as above.
        let (readings, mut lambda, mut u, mut doubt, mut status) = unsafe {
            (
                gas.typed(fuel)?,
                Column(Some(room("found.lambda", found.lambda, rows)?)),
                Column(optional_room("found.uncertainty", found.uncertainty, rows)?),
                Column(optional_room(
                    "found.contradiction",
                    found.contradiction,
                    rows,
                )?),
                Column(optional_room("found.status", found.status, rows)?),
            )
        };
        let mut done = Rows::default();
        lambda_columns(&readings, |row, one: &LambdaRow, why| {
            lambda.set(row, one.lambda);
            u.set(row, one.u);
            let first = one.contradiction.as_ref();
            doubt.set(row, first.map_or(0, |what| contradiction(what) as u8));
            status.set(row, done.status(row, why) as u32);
        })?;
        done.told()
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The density of the air of many readings in one call.
///
/// Every row gets what `lw_density_of_air` gives for a reading of the pressure of the place with its humidity, to
/// the bit. A row that no engine breathes (outside 20 to 120 kPa or -60 to 80 degrees Celsius, NaN) is marked in
/// `status`, and the others are still worked out; the call then returns `LW_STATUS_ROWS_REFUSED`, with the first
/// such row in the error (`lw_error_row`). Any other failure means that nothing was written, but after
/// `LW_STATUS_PANIC` some rows may have been written. No memory is allocated unless a row is refused. Columns must
/// not overlap. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_density_of_columns(
    air: *const lw_air_columns,
    found: *const lw_density_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (air, found) = unsafe { (record("air", air)?, record("found", found)?) };
        let rows = air.rows;
        enough("found.rows", found.rows, rows)?;
        // SAFETY: as above.
        let (readings, mut density, mut u, mut altitude, mut status) = unsafe {
            (
                air.typed()?,
                Column(Some(room(
                    "found.density_kg_m3",
                    found.density_kg_m3,
                    rows,
                )?)),
                Column(optional_room(
                    "found.uncertainty_kg_m3",
                    found.uncertainty_kg_m3,
                    rows,
                )?),
                Column(optional_room("found.altitude_m", found.altitude_m, rows)?),
                Column(optional_room("found.status", found.status, rows)?),
            )
        };
        let mut done = Rows::default();
        density_columns(&readings, |row, one: &DensityRow, why| {
            density.set(row, one.density);
            u.set(row, one.u);
            altitude.set(row, one.altitude);
            status.set(row, done.status(row, why) as u32);
        })?;
        done.told()
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
