//! What another fuel does through the same jets.

use super::head::column;
use super::{FloatAssumption, FloatError, Immersion, Nozzle};
use crate::mixture::gas::Fuel;
use crate::quantity::{Density, FuelLevel, Lambda};
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, normal, together};
use alloc::vec;
use alloc::vec::Vec;
use serde::Serialize;
use uom::si::ratio::ratio;

/// A fuel with its density.
///
/// ```
/// use lashwork::mixture::float::FuelInUse;
/// use lashwork::mixture::gas::Fuel;
/// use lashwork::quantity::Density;
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let density = Density::parse("0.745 kg/l")?;
/// let density = Estimate::between(density, density, Uncertainty::from_number(5.0)?)?;
/// let petrol = FuelInUse { fuel: Fuel::PETROL, density };
/// assert!(petrol.fuel.air_fuel_ratio() > 14.5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FuelInUse {
    /// What it is made of.
    pub fuel: Fuel,
    /// Its density.
    pub density: Estimate<Density>,
}

/// What another fuel does with the same jets and the same float.
///
/// ```
/// use lashwork::mixture::float::{FuelInUse, Immersion, Nozzle, change_fuel};
/// use lashwork::mixture::gas::Fuel;
/// use lashwork::quantity::{Density, Lambda, Length, Vacuum};
/// use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
/// fn about<Q: Measurand>(number: f64, u: f64) -> Estimate<Q> {
///     let value = Q::from_number(number).unwrap();
///     Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
/// }
/// let e10 = FuelInUse { fuel: Fuel::named("E10")?, density: about(749.4, 5.0) };
/// let sits = Immersion::new(Length::from_mm(15.0)?, Length::from_mm(1.0)?, about(745.0, 5.0))?;
/// let nozzle = Nozzle { depression: Vacuum::parse("3 kPa")?, lift: Length::parse("5 mm")? };
/// let now = about::<Lambda>(0.90, 0.01);
/// let found = change_fuel(Fuel::PETROL, &sits, &nozzle, &now, &e10)?;
/// assert!((found.lambda.centre().unwrap().ratio() - 0.935).abs() < 0.001, "4 % leaner");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FuelChange {
    /// How much higher the fuel stands.
    pub level: Estimate<FuelLevel>,
    /// Mass of fuel over that before.
    pub mass_flow: f64,
    /// The air-fuel ratio that burns it, over that of the fuel before.
    pub needs: f64,
    /// Lambda with the other fuel.
    pub lambda: Estimate<Lambda>,
    /// What was taken for granted.
    pub assumptions: Vec<FloatAssumption>,
}

/// What another fuel does: its level, its flow through the same jet, and the lambda they make together.
///
/// # Errors
/// [`FloatError::OneSided`], [`FloatError::NoFlow`].
pub fn change_fuel(
    from: Fuel,
    sits: &Immersion,
    nozzle: &Nozzle,
    lambda: &Estimate<Lambda>,
    to: &FuelInUse,
) -> Result<FuelChange, FloatError> {
    let one_sided = |what| FloatError::OneSided { what };
    let (now, now_u) = known(lambda).ok_or(one_sided("lambda"))?;
    let level = sits.level_change(&to.density)?;
    let (change, _) = known(&level).ok_or(one_sided("the level"))?;
    let (before, before_u) = known(&sits.fuel()).ok_or(one_sided("the density"))?;
    let (after, after_u) = known(&to.density).ok_or(one_sided("the density"))?;
    let density = Density::from_kilograms_per_cubic_metre;
    let mass_flow = nozzle.mass_flow(
        density(before)?,
        density(after)?,
        FuelLevel::from_mm(change)?,
    )?;
    let needs = to.fuel.air_fuel_ratio() / from.air_fuel_ratio();
    let value = now / needs / mass_flow;
    // Slopes of the flow, as parts of it. The level is the densities' own doing, so it is put in: lift and
    // depth draw on one depression.
    let ((deep, deep_u), lift) = (sits.depth(), nozzle.lift.mm());
    let drawn = |fuel: f64, lift: f64| -> Result<f64, FloatError> {
        let left = nozzle.left(density(fuel)?, lift)?;
        // Of a millimetre of fuel of 1 kg/m3, over what is left.
        Ok((column(1.0, density(1.0)?) / left).get::<ratio>())
    };
    let (there, here) = (drawn(after, lift - change)?, drawn(before, lift)?);
    let by_after = 0.5 * (1.0 / after - (lift + deep) * there);
    let by_before = 0.5 * (deep * there + lift * here - 1.0 / before);
    let by_depth = 0.5 * (before - after) * there;
    let u = value
        * together([
            now_u / now,
            by_after * after_u,
            by_before * before_u,
            by_depth * deep_u,
        ]);
    Ok(FuelChange {
        level,
        mass_flow,
        needs,
        lambda: normal(value, u)?,
        assumptions: vec![
            FloatAssumption::EvenFloat,
            FloatAssumption::SameNeedle,
            FloatAssumption::SameDepression,
            FloatAssumption::NoViscosity,
        ],
    })
}
