//! Work for assigning shims.

use lashwork::adjust::{ShimSeries, ShimSlot, ShimStock, StockShim};
use lashwork::quantity::{Lash, LengthUnit, Marked, Nominal, ShimThickness};
use lashwork::tolerance::{Estimate, HasLimits, Limits, Uncertainty, judge};
use std::error::Error;

/// Sizes as many makers sell them.
///
/// # Errors
/// None with these values.
pub fn series() -> Result<ShimSeries, Box<dyn Error>> {
    let [first, last, step] = ["2.00 mm", "3.00 mm", "0.05 mm"].map(Marked::parse);
    Ok(ShimSeries::new(first?, last?, step?)?)
}

/// Ten of each of fifty sizes.
///
/// # Errors
/// None with a series that holds them.
pub fn stock(series: &ShimSeries) -> Result<ShimStock, Box<dyn Error>> {
    let mut shims = Vec::new();
    for i in 0..50 {
        let size = Nominal::from_nanometres(2_250_000 + i * 10_000)?;
        let size = Marked::new(size, LengthUnit::Millimetre, 2);
        shims.push(StockShim::new(size, None, 10, None)?);
    }
    ShimStock::new(shims, Some(series)).map_err(|faults| format!("{faults:?}").into())
}

/// Valves out of band, with shims and lash spread about.
///
/// # Errors
/// None with these values.
pub fn slots(count: u32) -> Result<Vec<ShimSlot>, Box<dyn Error>> {
    let (low, high) = (Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?);
    let mut slots = Vec::new();
    for i in 0..i64::from(count) {
        let shim = Nominal::from_nanometres(2_300_000 + i * 7919 % 41 * 10_000)?;
        let lash = Nominal::from_nanometres(i * 104_729 % 500_000)?;
        let lash = Lash::from_nominal(lash)?;
        let lash = Estimate::between(lash, lash, Uncertainty::from_mm(0.005)?)?;
        let set = Limits::between(low, high)?;
        slots.push(ShimSlot {
            fitted: ShimThickness::from_nominal(shim)?,
            fitted_uncertainty: Uncertainty::ZERO,
            lash,
            set_to: Marked::parse("0.20 mm")?,
            set,
            found: judge(&lash, &set, &Lash::USUAL_RULE),
        });
    }
    Ok(slots)
}
