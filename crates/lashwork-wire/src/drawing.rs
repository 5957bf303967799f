//! For whoever draws a report: the shape of an estimate, and gaps and temperatures in the unit that
//! is wanted.

use crate::problem::Problem;
use lashwork::Refusal;
use lashwork::quantity::{Lash, LengthUnit, Temperature, TemperatureUnit};
use lashwork::tolerance::{Estimate, Uncertainty};

/// Most decimals that are written.
const MAX_DECIMALS: usize = 9;

fn refused(why: &impl Refusal) -> Problem {
    Problem::at("", why)
}

/// Fills `out` with the chance that a lash lies in each of as many equal bins from `from` to `to`:
/// [`Estimate::shares`]. All numbers are millimetres; `low` and `high` are the ends of the lash
/// and `uncertainty` is the standard uncertainty of the ends, `normal_uncertainty_mm` in a report.
///
/// # Errors
/// [`Problem`] for numbers that make no estimate or no picture; `out` is then untouched.
///
/// ```
/// let mut out = [0.0; 4];
/// lashwork_wire::shares((0.15, 0.25), 0.0, (0.10, 0.30), &mut out).map_err(|p| p.message)?;
/// assert!((out[1] - 0.5).abs() < 1e-12 && out[0] == 0.0);
/// let refused = lashwork_wire::shares((0.25, 0.15), 0.0, (0.10, 0.30), &mut out).unwrap_err();
/// assert_eq!(refused.code, "tolerance.crossed-estimate");
/// # Ok::<(), String>(())
/// ```
pub fn shares(
    (low, high): (f64, f64),
    uncertainty: f64,
    (from, to): (f64, f64),
    out: &mut [f64],
) -> Result<(), Problem> {
    let lash = |mm| Lash::from_mm(mm).map_err(|e| refused(&e));
    let u = Uncertainty::from_mm(uncertainty).map_err(|e| refused(&e))?;
    let estimate = Estimate::between(lash(low)?, lash(high)?, u).map_err(|e| refused(&e))?;
    let shares = estimate
        .shares(lash(from)?, lash(to)?, out.len())
        .map_err(|e| refused(&e))?;
    for (place, share) in out.iter_mut().zip(shares.unwrap_or_default()) {
        *place = share;
    }
    Ok(())
}

/// A gap of so many millimetres as text in a unit (`mm`, `um`, `in` or `thou`), with so many decimals.
///
/// # Errors
/// [`Problem`] for a gap outside the range of gaps, a unit that is not known, and more decimals than
/// a number has.
///
/// ```
/// assert_eq!(lashwork_wire::lash_text(0.254, "in", 4).as_deref(), Ok("0.0100 in"));
/// assert_eq!(lashwork_wire::lash_text(0.2, "ft", 4).unwrap_err().code, "quantity.unknown-unit");
/// ```
pub fn lash_text(mm: f64, unit: &str, decimals: usize) -> Result<String, Problem> {
    let lash = Lash::from_mm(mm).map_err(|e| refused(&e))?;
    let unit = LengthUnit::parse("lash", unit).map_err(|e| refused(&e))?;
    may_be_written(decimals)?;
    Ok(lash.show(unit, decimals))
}

/// A temperature of so many degrees Celsius as text in a unit (`C`, `F` or `K`), with so many
/// decimals.
///
/// # Errors
/// [`Problem`] for what is no temperature, a unit that is not known, and more decimals than a number
/// has.
///
/// ```
/// assert_eq!(lashwork_wire::temperature_text(20.0, "F", 0).as_deref(), Ok("68 F"));
/// assert_eq!(lashwork_wire::temperature_text(-300.0, "C", 0).unwrap_err().code, "quantity.out-of-range");
/// ```
pub fn temperature_text(celsius: f64, unit: &str, decimals: usize) -> Result<String, Problem> {
    let temperature = Temperature::from_celsius(celsius).map_err(|e| refused(&e))?;
    let unit = TemperatureUnit::parse("temperature", unit).map_err(|e| refused(&e))?;
    may_be_written(decimals)?;
    Ok(temperature.show(unit, decimals))
}

fn may_be_written(decimals: usize) -> Result<(), Problem> {
    if decimals > MAX_DECIMALS {
        return Err(Problem::new(
            "",
            "document.too-fine",
            format!("{decimals} decimals of a number"),
            format!("ask for {MAX_DECIMALS} at most"),
        ));
    }
    Ok(())
}
