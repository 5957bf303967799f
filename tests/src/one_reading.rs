//! What one reading gets on its own way: freed of what the temperature of the metal did, then judged.

use lashwork::Refusal;
use lashwork::clearance::ReadingRow;
use lashwork::quantity::{Lash, LashChange, Temperature, TemperatureDifference};
use lashwork::thermal::{LashCoefficient, Metal, MetalTemperature, Reference};
use lashwork::tolerance::{
    DecisionRule, Estimate, JudgedRow, Limits, ToleranceError, Uncertainty, Verdict, judge,
};

/// Low, high, uncertainty, limits, temperature with its uncertainty, reference, coefficient with its own.
pub type Row = [f64; 10];

/// A refusal by its code, or what one reading gets.
///
/// # Errors
/// The code of the refusal.
pub fn alone(row: &Row, rule: &DecisionRule) -> Result<ReadingRow, &'static str> {
    let [
        low,
        high,
        u,
        lower,
        upper,
        celsius,
        kelvin,
        reference,
        slope,
        slope_u,
    ] = *row;
    let code = |why: &dyn Refusal| why.code();
    let read = Estimate::<Lash>::from_numbers(low, high, u).map_err(|why| code(&why))?;
    let mark = |mm: f64| mm.is_finite().then(|| format!("{mm} mm"));
    let text = match (mark(lower), mark(upper)) {
        (Some(low), Some(high)) => format!("{low} to {high}"),
        (Some(low), None) => format!("at least {low}"),
        (None, Some(high)) => format!("at most {high}"),
        (None, None) => return Err("tolerance.no-limit"),
    };
    let limits: Limits<Lash> = text.parse().map_err(|why: ToleranceError| code(&why))?;
    let at = |celsius| Temperature::from_celsius(celsius).map_err(|why| code(&why));
    let reference = at(reference)?;
    let metal = if celsius.is_nan() {
        Metal::Unstated
    } else {
        let is = at(celsius)?;
        let kelvin = TemperatureDifference::from_kelvin(kelvin).map_err(|why| code(&why))?;
        let temperature = MetalTemperature::known(is, kelvin);
        if slope.is_nan() {
            Metal::At(temperature)
        } else {
            let coefficient =
                LashCoefficient::new(slope, slope_u, None).map_err(|why| code(&why))?;
            Metal::Coefficient {
                coefficient,
                temperature,
            }
        }
    };
    let correction = metal.correction(reference).map_err(|why| code(&why))?;
    let off = metal
        .not_at(Reference::At(reference))
        .map_err(|why| code(&why))?;
    let estimate = match (&correction, &off) {
        (Some(correction), _) => {
            let u = Uncertainty::from_mm(correction.standard_uncertainty_mm());
            read.shifted(-correction.change, u.map_err(|_| "thermal.uncertainty")?)
        }
        (None, Some(off)) => {
            let u = Uncertainty::from_mm(off.uncertainty_mm).map_err(|why| code(&why))?;
            read.shifted(LashChange::ZERO, u)
        }
        (None, None) => read,
    };
    let mut found = judge(&estimate, &limits, rule);
    if off.is_some() {
        found.verdict = Verdict::CannotSay;
    }
    Ok(ReadingRow {
        low: estimate.low().map_or(-f64::INFINITY, Lash::mm),
        high: estimate.high().map_or(f64::INFINITY, Lash::mm),
        u: estimate.normal_uncertainty().mm(),
        at_reference: off.is_none(),
        judged: JudgedRow::from(&found),
    })
}
