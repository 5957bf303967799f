//! How temperature changes the lash, by a coefficient.

use crate::boundary::boundary;
use crate::error::lw_error;
use crate::pointers::{Record, place, record};
use crate::status::lw_status;
use lashwork::quantity::{Temperature, TemperatureDifference};
use lashwork::thermal::{LashCoefficient, Metal, MetalTemperature, Reference};

/// How the lash of a valve follows temperature, and the temperature of the engine when it was read.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_warmth {
    /// Size of this structure, `sizeof(lw_warmth)`.
    pub struct_size: usize,
    /// Change of lash in millimetres per kelvin; positive if the gap opens as the engine warms. Finite;
    /// the change it leads to is -40 to 40 mm.
    pub mm_per_kelvin: f64,
    /// Standard uncertainty of that, 0 or more.
    pub mm_per_kelvin_uncertainty: f64,
    /// Temperature of the engine when read, degrees Celsius, -273.15 to 2000.
    pub at_celsius: f64,
    /// Standard uncertainty of that in kelvin, 0 to 2500.
    pub at_uncertainty_kelvin: f64,
    /// Reference temperature of the specification, degrees Celsius, -273.15 to 2000.
    pub reference_celsius: f64,
}

// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_warmth {
    const FIRST_SIZE: usize = size_of::<Self>();
}

/// The change of lash from the reference to the temperature of the reading, and its standard
/// uncertainty, in millimetres. Subtract it from a reading: `lw_estimate_changed` with minus the change.
///
/// No memory is allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// `warmth` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_warmth_shift(
    warmth: *const lw_warmth,
    change_mm: *mut f64,
    change_uncertainty_mm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (warmth, change, uncertainty) = unsafe {
            (
                record("warmth", warmth)?,
                place("change_mm", change_mm)?,
                place("change_uncertainty_mm", change_uncertainty_mm)?,
            )
        };
        let uncertainty_of_it = warmth.mm_per_kelvin_uncertainty;
        let coefficient = LashCoefficient::new(warmth.mm_per_kelvin, uncertainty_of_it, None)?;
        let (by, u) = coefficient.shift(
            Temperature::from_celsius(warmth.at_celsius)?,
            TemperatureDifference::from_kelvin(warmth.at_uncertainty_kelvin)?,
            Temperature::from_celsius(warmth.reference_celsius)?,
        )?;
        change.write(by.mm());
        uncertainty.write(u.mm());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Whether a lash may be judged by limits that hold at another temperature, where nothing says how it
/// follows: 1 if the engine is near the reference and known to be; else 0, and then the verdict is
/// `LW_VERDICT_CANNOT_SAY` whatever `lw_judge` says, for a single reading as for a row of columns.
///
/// `at_celsius` and its standard uncertainty as in `lw_warmth`; `uncertainty_mm` gets the standard
/// uncertainty of what the difference may do to the lash, 0 where it may be judged. No memory is
/// allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// The outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_warmth_not_known(
    at_celsius: f64,
    at_uncertainty_kelvin: f64,
    reference_celsius: f64,
    may_judge: *mut u32,
    uncertainty_mm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (may_judge, uncertainty) = unsafe {
            (
                place("may_judge", may_judge)?,
                place("uncertainty_mm", uncertainty_mm)?,
            )
        };
        let metal = Metal::At(MetalTemperature::known(
            Temperature::from_celsius(at_celsius)?,
            TemperatureDifference::from_kelvin(at_uncertainty_kelvin)?,
        ));
        let reference = Reference::At(Temperature::from_celsius(reference_celsius)?);
        let off = metal.not_at(reference)?;
        may_judge.write(u32::from(off.is_none()));
        uncertainty.write(off.map_or(0.0, |off| off.uncertainty_mm));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
