//! The voltage a plug needs, by two formulas that do not quite agree.

use super::paschen::product;
use super::{ElectricsAssumption, ElectricsError, Paschen};
use crate::quantity::{AbsolutePressure, PlugGap, Temperature, Voltage};
use crate::tolerance::known::known;
use crate::tolerance::{Estimate, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// By which share each formula is taken as right: at the pressures of an engine they agree within that,
/// no better.
pub const FORMULA_DOUBT: f64 = 0.2;

/// Volts for each atmosphere and centimetre, and volts besides, of the straight line.
const LINE: (f64, f64) = (30_000.0, 1_350.0);
/// cm Torr of an atmosphere and a centimetre.
const ATMOSPHERE: f64 = 760.0;

/// The voltage that breaks down a gap at a pressure by a straight line, the gas at 20 C.
///
/// # Errors
/// [`ElectricsError::Quantity`] if over a megavolt.
///
/// # Source
/// 30 kV for each atmosphere and centimetre and 1.35 kV: the page named at [`Paschen::AIR`].
///
/// ```
/// use lashwork::ignition::electrics::linear_breakdown;
/// use lashwork::quantity::{AbsolutePressure, PlugGap};
/// let volts = linear_breakdown(PlugGap::parse("1 mm")?, AbsolutePressure::parse("1 atm")?)?;
/// assert!((volts.volts() - 4350.0).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn linear_breakdown(
    gap: PlugGap,
    pressure: AbsolutePressure,
) -> Result<Voltage, ElectricsError> {
    line(product(gap, pressure.kilopascals())).map(|(v, _)| v)
}

/// As [`Paschen::at`].
fn line(product: f64) -> Result<(Voltage, f64), ElectricsError> {
    let rising = LINE.0 * product / ATMOSPHERE;
    let volts = rising + LINE.1;
    Ok((Voltage::from_volts(volts)?, rising / volts))
}

/// The voltage a plug needs.
///
/// ```
/// use lashwork::ignition::electrics::{Paschen, breakdown};
/// use lashwork::quantity::{AbsolutePressure, PlugGap};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let gap = PlugGap::parse("0.6 mm")?;
/// let gap = Estimate::between(gap, gap, Uncertainty::from_number(0.02)?)?;
/// let p = AbsolutePressure::parse("8 atm")?;
/// let p = Estimate::between(p, p, Uncertainty::from_number(40.0)?)?;
/// let needed = breakdown(&gap, &p, None, &Paschen::AIR)?;
/// assert!((needed.linear.volts() - 15_750.0).abs() < 1.0);
/// assert!((needed.paschen.volts() - 18_820.0).abs() < 50.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Breakdown {
    /// By the law of Paschen.
    pub paschen: Voltage,
    /// By the straight line.
    pub linear: Voltage,
    /// What follows from both: anywhere from [`FORMULA_DOUBT`] below the lower to as much above the higher,
    /// with what gap and pressure leave uncertain.
    pub voltage: Estimate<Voltage>,
    /// What is taken for granted.
    pub assumptions: Vec<ElectricsAssumption>,
}

/// The voltage a plug needs at a pressure. With the temperature of the gas the pressure is taken to
/// 20 C, because it is the density that counts; without it the gas is taken as cold, which overstates the
/// voltage, and that is listed.
///
/// # Errors
/// [`ElectricsError::OneSided`], [`ElectricsError::UnderPaschenMinimum`].
pub fn breakdown(
    gap: &Estimate<PlugGap>,
    pressure: &Estimate<AbsolutePressure>,
    gas: Option<Temperature>,
    law: &Paschen,
) -> Result<Breakdown, ElectricsError> {
    let one_sided = |what| ElectricsError::OneSided { what };
    let (mm, gap_u) = known(gap).ok_or_else(|| one_sided("the plug gap"))?;
    let (kpa, pressure_u) = known(pressure).ok_or_else(|| one_sided("the pressure"))?;
    let thinner = gas.map_or(1.0, |gas| Temperature::ISO_1.kelvin() / gas.kelvin());
    let product = product(PlugGap::from_mm(mm)?, kpa * thinner);
    let (paschen, by_paschen) = law.at(product)?;
    let (linear, by_linear) = line(product)?;
    let (low, high) = (
        paschen.volts().min(linear.volts()),
        paschen.volts().max(linear.volts()),
    );
    // Gap and pressure act as their product does; the steeper of the two formulas is taken.
    let relative = libm::hypot(gap_u / mm, pressure_u / kpa);
    let u = relative * (paschen.volts() * by_paschen).max(linear.volts() * by_linear);
    let mut assumptions = alloc::vec![ElectricsAssumption::FormulaDoubt];
    if gas.is_none() {
        assumptions.push(ElectricsAssumption::GasCold);
    }
    Ok(Breakdown {
        paschen,
        linear,
        voltage: Estimate::between(
            Voltage::from_volts((1.0 - FORMULA_DOUBT) * low)?,
            Voltage::from_volts((1.0 + FORMULA_DOUBT) * high)?,
            Uncertainty::from_number(u)?,
        )?,
        assumptions,
    })
}
