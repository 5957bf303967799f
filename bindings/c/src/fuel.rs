//! Fuel: what it is made of, and the air that burns it.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::pointers::{Record, place, record_place, seen, spare, text};
use crate::status::lw_status;
use lashwork::mixture::gas::Fuel;
use std::ffi::c_char;

/// A fuel by the atoms of other elements for each atom of carbon. `lw_parse_fuel` fills it for a name.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_fuel {
    /// Size of this structure, `sizeof(lw_fuel)`.
    pub struct_size: usize,
    /// Atoms of hydrogen, 0 to 4.
    pub hydrogen: f64,
    /// Atoms of oxygen, 0 to 2.
    pub oxygen: f64,
    /// Atoms of nitrogen, 0 to 2.
    pub nitrogen: f64,
}

// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_fuel {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_fuel {
    pub(crate) fn typed(&self) -> Outcome<Fuel> {
        Ok(Fuel::from_atoms(self.hydrogen, self.oxygen, self.nitrogen)?)
    }
}

/// Reads what a fuel is made of: a share of ethanol such as "E10", "ethanol", "methanol", "propane", "LPG",
/// "methane", "CNG", "nitromethane", or a formula such as "C8H18" or "CH1.85".
///
/// "petrol" is refused: what is sold as such holds up to 10 % of ethanol, and that changes the air it needs by
/// 4 %. `name` is `len` bytes. `error` may be NULL. Any thread.
///
/// # Safety
/// `name` is readable for `len` bytes or NULL; `fuel` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_parse_fuel(
    name: *const c_char,
    len: usize,
    fuel: *mut lw_fuel,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (name, fuel) = unsafe { (text("name", name, len)?, record_place("fuel", fuel)?) };
        let found = Fuel::named(name)?;
        fuel.write(&lw_fuel {
            struct_size: 0,
            hydrogen: found.hydrogen(),
            oxygen: found.oxygen(),
            nitrogen: found.nitrogen(),
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The mass of dry air that burns a mass of the fuel.
///
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `fuel` states its size, or is NULL; `air_fuel_ratio` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_air_fuel_ratio(
    fuel: *const lw_fuel,
    air_fuel_ratio: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (fuel, ratio) = unsafe {
            (
                seen("fuel", fuel, &mut spare())?.typed()?,
                place("air_fuel_ratio", air_fuel_ratio)?,
            )
        };
        ratio.write(fuel.air_fuel_ratio());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
