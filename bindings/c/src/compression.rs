//! Cranking compression of one cylinder: what an engine should show.

use crate::boundary::{Outcome, boundary};
use crate::crank::lw_slider_crank;
use crate::error::lw_error;
use crate::pointers::{Record, place, record_place, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::condition::compression::{Cranking, Exponent, in_other_air};
use lashwork::engine::{CompressionRatio, SliderCrank};
use lashwork::quantity::{AbsolutePressure, CrankAngle, GaugePressure};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};

/// An engine that is cranked, and where.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_cranking {
    /// Size of this structure, `sizeof(lw_cranking)`.
    pub struct_size: usize,
    /// The printed compression ratio, 3 to 25.
    pub ratio: f64,
    /// Its standard uncertainty: skimmed heads, carbon.
    pub ratio_uncertainty: f64,
    /// Where the intake closes at the running lash, in degrees after bottom dead centre; of a two-stroke, where the
    /// exhaust port closes. Ignored if it is not known.
    pub intake_closes_abdc_deg: f64,
    /// Its standard uncertainty in degrees; ignored if it is not known.
    pub closes_uncertainty_deg: f64,
    /// Pressure of the place in kilopascals, not that of a barometer set to sea level; ignored if it is not known.
    pub air_kpa: f64,
    /// Its standard uncertainty in kilopascals; ignored if it is not known.
    pub air_uncertainty_kpa: f64,
    /// Crank and rod; NULL for the usual proportion of 1 to 3.5.
    pub crank: *const lw_slider_crank,
    /// 1 if it is known where the intake closes, else 0: 30 to 70 degrees are then taken.
    pub closes_known: u32,
    /// 1 if the pressure of the place is known, else 0: that of sea level is then taken.
    pub air_known: u32,
}

/// What a gauge should show.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_compression {
    /// Size of this structure, `sizeof(lw_compression)`.
    pub struct_size: usize,
    /// With the lower exponent, in kilopascals over the air around.
    pub low_kpa: f64,
    /// With the upper exponent.
    pub high_kpa: f64,
    /// Standard uncertainty of both ends in kilopascals: ratio, closing and air.
    pub uncertainty_kpa: f64,
    /// How many times the charge is compressed from where the intake closes.
    pub effective_ratio: f64,
}

// SAFETY: repr(C), the size in front, integers, floats and a raw pointer only.
unsafe impl Record for lw_cranking {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_compression {
    const FIRST_SIZE: usize = size_of::<Self>();
}

/// A value with its standard uncertainty, in the base unit of the quantity.
pub(crate) fn about<Q: Measurand>(value: f64, u: f64) -> Outcome<Estimate<Q>> {
    let value = Q::from_number(value)?;
    Ok(Estimate::between(
        value,
        value,
        Uncertainty::from_number(u)?,
    )?)
}

/// A value of which it is stated whether it is known.
pub(crate) fn if_known<Q: Measurand>(
    name: &'static str,
    known: u32,
    (value, u): (f64, f64),
) -> Outcome<Option<Estimate<Q>>> {
    if choose(name, known, &[(0, false), (1, true)])? {
        about(value, u).map(Some)
    } else {
        Ok(None)
    }
}

/// Crank and rod, if they are known.
///
/// # Safety
/// `crank` states its size, or is NULL.
pub(crate) unsafe fn crank_of(
    name: &'static str,
    crank: *const lw_slider_crank,
) -> Outcome<Option<SliderCrank>> {
    if crank.is_null() {
        return Ok(None);
    }
    // SAFETY: passed on under the same contract.
    unsafe { seen(name, crank, &mut spare())?.typed() }.map(Some)
}

impl lw_cranking {
    /// # Safety
    /// Its crank states its size, or is NULL.
    pub(crate) unsafe fn typed(&self) -> Outcome<Cranking> {
        let closes = (self.intake_closes_abdc_deg, self.closes_uncertainty_deg);
        let air = (self.air_kpa, self.air_uncertainty_kpa);
        Ok(Cranking {
            ratio: CompressionRatio::new(self.ratio)?,
            ratio_u: self.ratio_uncertainty,
            // SAFETY: passed on under the same contract.
            crank: unsafe { crank_of("engine.crank", self.crank) }?,
            intake_closes_abdc: if_known::<CrankAngle>(
                "engine.closes_known",
                self.closes_known,
                closes,
            )?,
            air: if_known::<AbsolutePressure>("engine.air_known", self.air_known, air)?,
        })
    }
}

/// What a compression gauge should show of a good cylinder, at the end of the strokes, throttle open, all plugs out.
///
/// `exponent_low` to `exponent_high` is the exponent of compression, 1 (isothermal) to 1.41 (adiabatic); 1.15 to 1.30
/// is what printed pressures imply with printed ratios, and the good cylinders of the engine say it better
/// (`lw_implied_exponent`). `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL, and so does the crank; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_expected_compression(
    engine: *const lw_cranking,
    exponent_low: f64,
    exponent_high: f64,
    expected: *mut lw_compression,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (engine, expected) = unsafe {
            (
                seen("engine", engine, &mut spare())?.typed()?,
                record_place("expected", expected)?,
            )
        };
        let shown = engine.expected(Exponent::between(exponent_low, exponent_high)?)?;
        let end = |end: Option<GaugePressure>| end.map_or(f64::NAN, GaugePressure::kilopascals);
        expected.write(&lw_compression {
            struct_size: 0,
            low_kpa: end(shown.low()),
            high_kpa: end(shown.high()),
            uncertainty_kpa: shown.normal_uncertainty().number(),
            effective_ratio: engine.effective_ratio()?,
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The exponent of compression that a reading implies, and its standard uncertainty.
///
/// `shown_kpa` is what the gauge shows over the air around, `shown_uncertainty_kpa` its standard uncertainty. An
/// exponent under 1 or over 1.41 is no exponent: ratio, closing, air or gauge are not as stated, or the cylinder
/// leaks. `error` may be NULL. Any thread.
///
/// # Safety
/// `engine` states its size, or is NULL, and so does its crank; the outputs are writable or NULL; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_implied_exponent(
    engine: *const lw_cranking,
    shown_kpa: f64,
    shown_uncertainty_kpa: f64,
    exponent: *mut f64,
    uncertainty: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (engine, exponent, uncertainty) = unsafe {
            (
                seen("engine", engine, &mut spare())?.typed()?,
                place("exponent", exponent)?,
                place("uncertainty", uncertainty)?,
            )
        };
        let (n, u) = engine.implied(&about(shown_kpa, shown_uncertainty_kpa)?)?;
        exponent.write(n);
        uncertainty.write(u);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// What the gauge would show in other air, with all else the same: it goes with the pressure of the air, not with its
/// density, for which some printed factors are.
///
/// Pressures of the air 30 to 110 kPa. `error` may be NULL. Any thread.
///
/// # Safety
/// `there_shows_kpa` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_compression_in_other_air(
    shown_kpa: f64,
    here_kpa: f64,
    there_kpa: f64,
    there_shows_kpa: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let found = unsafe { place("there_shows_kpa", there_shows_kpa)? };
        let air = AbsolutePressure::from_kilopascals;
        let shown = GaugePressure::from_kilopascals(shown_kpa)?;
        found.write(in_other_air(shown, air(here_kpa)?, air(there_kpa)?)?.kilopascals());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
