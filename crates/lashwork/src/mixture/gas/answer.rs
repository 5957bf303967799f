//! Lambda from four or five gases.

use super::atoms::Atoms;
use super::contradiction::contradictions;
use super::{ExhaustGas, Fuel, GasAssumption, GasDoubt, GasError, GasUncertainty};
use crate::quantity::Lambda;
use crate::tolerance::Estimate;
use crate::tolerance::known::normal;
use alloc::vec;
use alloc::vec::Vec;
use serde::Serialize;

/// Lambda of the exhaust gas, and what speaks against it.
///
/// ```
/// use lashwork::mixture::gas::{AnalyserClass, ExhaustGas, Fuel, HydrocarbonFactor, Hydrocarbons, lambda};
/// use lashwork::quantity::VolumeShare;
/// let share = VolumeShare::from_percent;
/// let hc = Hydrocarbons { read: VolumeShare::parse("250 ppm")?, factor: HydrocarbonFactor::Hexane };
/// let gas = ExhaustGas::new(share(12.5)?, share(3.5)?, share(0.6)?, Some(hc))?;
/// let u = AnalyserClass::Class0.uncertainty(&gas)?;
/// let found = lambda(&gas, &u, &Fuel::TESTER_PETROL)?;
/// assert!((found.lambda.centre().unwrap().ratio() - 0.9184).abs() < 5e-5);
/// assert!((found.lambda.standard_uncertainty().unwrap().number() - 0.0040).abs() < 5e-5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LambdaOfGas {
    /// By Brettschneider's balance of atoms, with the uncertainty of the tester. The formula's number: see
    /// `contradictions` for whether it is that of the engine.
    pub lambda: Estimate<Lambda>,
    /// By Spindt, which knows no oxygen in the fuel; `None` for a fuel with more than an atom for ten of
    /// carbon.
    pub spindt: Option<Lambda>,
    /// Lambda times the air-fuel ratio that burns this fuel, by mass.
    pub air_fuel_ratio: f64,
    /// What does not fit together; empty where all does.
    pub contradictions: Vec<GasDoubt>,
    /// What was taken for granted.
    pub assumptions: Vec<GasAssumption>,
}

/// A fuel with more atoms of oxygen than this, for one of carbon, is not Spindt's.
const SPINDT_OXYGEN: f64 = 0.1;

/// Lambda from four or five gases, with its uncertainty by JCGM 100 and with what does not fit together.
///
/// # Errors
/// [`GasError::Quantity`] never for a gas of [`ExhaustGas::new`].
///
/// # Source
/// J. Brettschneider, Bosch Technische Berichte 6 (1979) 4, 177-186; R. S. Spindt, SAE 650507 (1965).
pub fn lambda(gas: &ExhaustGas, u: &GasUncertainty, fuel: &Fuel) -> Result<LambdaOfGas, GasError> {
    let atoms = Atoms::of(gas, fuel);
    let (ratio, blur) = lambda_numbers(gas, u, fuel);
    // A check that comes to no lambda is none; it refuses nothing.
    let spindt = (fuel.oxygen() <= SPINDT_OXYGEN)
        .then(|| Lambda::from_ratio(atoms.spindt()).ok())
        .flatten();
    let mut assumptions = vec![GasAssumption::WaterGas, GasAssumption::Dry];
    assumptions.push(
        gas.hc()
            .map_or(GasAssumption::NoHydrocarbons, |hc| GasAssumption::Factor {
                factor: hc.factor.number(),
            }),
    );
    if gas.no().is_none() {
        assumptions.push(GasAssumption::NoNitricOxide);
    }
    let contradictions = contradictions(gas, u, fuel, ratio);
    if contradictions.is_empty() {
        assumptions.push(GasAssumption::NoAirAdded);
    }
    Ok(LambdaOfGas {
        lambda: normal(ratio, blur)?,
        spindt,
        air_fuel_ratio: ratio * fuel.air_fuel_ratio(),
        contradictions,
        assumptions,
    })
}

/// Lambda and its standard uncertainty as plain numbers.
pub(super) fn lambda_numbers(gas: &ExhaustGas, u: &GasUncertainty, fuel: &Fuel) -> (f64, f64) {
    let found = Atoms::of(gas, fuel).lambda();
    (found.value, found.uncertainty(u.numbers()))
}
