//! Lambda of one analysis of the exhaust gas.

use crate::boundary::boundary;
use crate::error::lw_error;
use crate::exhaust_gas::{contradiction, lw_exhaust_gas, lw_gas_cause};
use crate::fuel::lw_fuel;
use crate::judging::lw_span;
use crate::pointers::{Record, record_place, seen, spare};
use crate::status::lw_status;
use lashwork::mixture::gas::{GasCause, LambdaOfGas, lambda, lambda_from_co};
use lashwork::quantity::{Lambda, VolumeShare};
use lashwork::tolerance::Uncertainty;

/// Lambda of one analysis, with what speaks against it.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_lambda {
    /// Size of this structure, `sizeof(lw_lambda)`.
    pub struct_size: usize,
    /// Lambda by Brettschneider's balance of atoms. It is the engine's mixture only if `contradictions` is 0.
    pub lambda: f64,
    /// Its standard uncertainty, from the class of the tester.
    pub uncertainty: f64,
    /// Lambda by Spindt; NaN for a fuel with much oxygen, of which that formula knows nothing.
    pub spindt: f64,
    /// Lambda times the air-fuel ratio that burns this fuel, by mass.
    pub air_fuel_ratio: f64,
    /// If air at the probe may be behind it: the least lambda of the mixture before that air; else NaN.
    pub behind_air_low: f64,
    /// The most lambda of it; NaN if it is not known.
    pub behind_air_high: f64,
    /// What does not fit: the sum of values of `lw_gas_contradiction`; 0 if all does.
    pub contradictions: u32,
    /// What the gases speak for most as the cause of the first of them: a value of `lw_gas_cause`, or 0.
    pub cause: u32,
}

/// Lambda from carbon monoxide alone.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_lambda_range {
    /// Size of this structure, `sizeof(lw_lambda_range)`.
    pub struct_size: usize,
    /// Which ends it has: a value of `lw_span`; at least, where there is little carbon monoxide.
    pub span: u32,
    /// Zero.
    pub reserved: u32,
    /// The lower end, of a burn that leaves hydrocarbons.
    pub low: f64,
    /// The upper end, of a burn that leaves oxygen; NaN if there is none.
    pub high: f64,
    /// Standard uncertainty of the ends.
    pub uncertainty: f64,
    /// Lambda with neither left.
    pub burnt_out: f64,
    /// Carbon dioxide that goes with it, in per cent.
    pub co2_percent: f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_lambda {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_lambda_range {
    const FIRST_SIZE: usize = size_of::<Self>();
}

const fn cause(found: &GasCause) -> lw_gas_cause {
    match found {
        GasCause::AirAtProbe { .. } => lw_gas_cause::AirAtProbe,
        GasCause::MissedFiring => lw_gas_cause::MissedFiring,
        GasCause::UnevenCylinders => lw_gas_cause::UnevenCylinders,
        GasCause::AirInjection => lw_gas_cause::AirInjection,
        GasCause::TesterOff => lw_gas_cause::TesterOff,
        GasCause::OtherFuel => lw_gas_cause::OtherFuel,
        _ => lw_gas_cause::SomethingElse,
    }
}

impl From<&LambdaOfGas> for lw_lambda {
    fn from(found: &LambdaOfGas) -> Self {
        let number = |lambda: Option<Lambda>| lambda.map_or(f64::NAN, Lambda::ratio);
        let doubts = &found.contradictions;
        let causes = doubts.first().map_or(&[][..], |first| &first.causes);
        let behind = causes.iter().find_map(|cause| match cause {
            GasCause::AirAtProbe { low, high } => Some((*low, *high)),
            _ => None,
        });
        let (low, high) = behind.unwrap_or((None, None));
        let bits = doubts.iter().map(|doubt| contradiction(&doubt.what) as u32);
        Self {
            struct_size: 0,
            lambda: number(found.lambda.centre()),
            uncertainty: found.lambda.normal_uncertainty().number(),
            spindt: number(found.spindt),
            air_fuel_ratio: found.air_fuel_ratio,
            behind_air_low: number(low),
            behind_air_high: number(high),
            contradictions: bits.fold(0, |all, bit| all | bit),
            cause: causes.first().map_or(0, |first| cause(first) as u32),
        }
    }
}

/// Lambda of one analysis of the exhaust gas, and what does not fit together.
///
/// Taken for granted: dry gas, hydrogen by the water-gas equilibrium, an exact factor of the hydrocarbons, and,
/// where nothing contradicts it, that no air was added before the probe. With a contradiction the number is that
/// of the formula, not the engine's: do not lean a mixture out by it. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_lambda_of_gas(
    gas: *const lw_exhaust_gas,
    fuel: *const lw_fuel,
    found: *mut lw_lambda,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let ((gas, class), fuel, found) = unsafe {
            (
                seen("gas", gas, &mut spare())?.typed()?,
                seen("fuel", fuel, &mut spare())?.typed()?,
                record_place("found", found)?,
            )
        };
        found.write(&(&lambda(&gas, &class.uncertainty(&gas)?, &fuel)?).into());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Lambda from carbon monoxide alone; the other gases follow from the fuel.
///
/// `co_percent` 0 to 16, with its standard uncertainty. Taken for granted: hydrogen by the water-gas equilibrium,
/// a good burn, which leaves a little oxygen or hydrocarbons at most, and that no air was added before the
/// probe. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_lambda_of_co(
    co_percent: f64,
    co_uncertainty_percent: f64,
    fuel: *const lw_fuel,
    found: *mut lw_lambda_range,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (fuel, place) = unsafe {
            (
                seen("fuel", fuel, &mut spare())?.typed()?,
                record_place("found", found)?,
            )
        };
        let co = VolumeShare::from_percent(co_percent)?;
        let u = Uncertainty::from_number(co_uncertainty_percent)?;
        let found = lambda_from_co(co, u, &fuel)?;
        let number = |end: Option<Lambda>| end.map_or(f64::NAN, Lambda::ratio);
        let span = match found.lambda.high() {
            Some(_) => lw_span::Between,
            None => lw_span::AtLeast,
        };
        place.write(&lw_lambda_range {
            struct_size: 0,
            span: span as u32,
            reserved: 0,
            low: number(found.lambda.low()),
            high: number(found.lambda.high()),
            uncertainty: found.lambda.normal_uncertainty().number(),
            burnt_out: found.burnt_out.ratio(),
            co2_percent: found.co2.percent(),
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
