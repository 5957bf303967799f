//! The condenser: what the contacts say of its capacity, what it loses, and the voltage it takes up.

use super::coil::relative;
use super::{ElectricsAssumption, ElectricsError};
use crate::quantity::{BriefTime, Capacitance, Current, Inductance, Resistance, Voltage};
use crate::tolerance::Estimate;
use crate::tolerance::known::{normal, together};
use serde::Serialize;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::ElectricalResistance;
use uom::si::ratio::ratio;

/// Which contact has grown a peak, the other having lost the metal.
///
/// ```
/// use lashwork::ignition::electrics::BuildUp;
/// assert_ne!(BuildUp::OnArm, BuildUp::OnFixed);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum BuildUp {
    /// The moving, insulated one on the arm.
    OnArm,
    /// The fixed, earthed one.
    OnFixed,
}

/// Which pole of the battery is at the frame.
///
/// ```
/// use lashwork::ignition::electrics::Earth;
/// assert_ne!(Earth::Negative, Earth::Positive);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Earth {
    /// The negative one: the arm is positive.
    Negative,
    /// The positive one: the arm is negative.
    Positive,
}

/// What the capacity of the condenser may be.
///
/// ```
/// use lashwork::ignition::electrics::Capacity;
/// assert_ne!(Capacity::TooSmall, Capacity::TooLarge);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Capacity {
    /// Too small.
    TooSmall,
    /// Too large.
    TooLarge,
}

/// What metal that went from one contact to the other says of the condenser; a possibility to be measured,
/// never a verdict. With the positive pole at the frame, or where that is not stated, nothing is said: the
/// two rules in use contradict each other there.
///
/// # Source
/// A tractor club's page on condensers: too much capacity builds up metal on the fixed side, too little on
/// the arm. From memory: metal missing from the negative contact means too little. They agree where the
/// arm is positive.
///
/// ```
/// use lashwork::ignition::electrics::{BuildUp, Capacity, Earth, metal_transfer};
/// let says = |where_to| metal_transfer(where_to, Some(Earth::Negative));
/// assert_eq!(says(BuildUp::OnArm), Some(Capacity::TooSmall));
/// assert_eq!(says(BuildUp::OnFixed), Some(Capacity::TooLarge));
/// assert_eq!(metal_transfer(BuildUp::OnArm, Some(Earth::Positive)), None);
/// ```
#[must_use]
pub const fn metal_transfer(build_up: BuildUp, earth: Option<Earth>) -> Option<Capacity> {
    match (earth, build_up) {
        (Some(Earth::Negative), BuildUp::OnArm) => Some(Capacity::TooSmall),
        (Some(Earth::Negative), BuildUp::OnFixed) => Some(Capacity::TooLarge),
        _ => None,
    }
}

/// Which share of its charge a leaking condenser loses in a time: `1 - exp(-t / (R C))`.
///
/// # Source
/// TM 10-3930-607-15, p. 121: the condenser does its work in about 1/12,000 s, so that a small leak is no
/// matter; the discharge of a condenser through a resistance.
///
/// ```
/// use lashwork::ignition::electrics::charge_lost;
/// use lashwork::quantity::{BriefTime, Capacitance, Resistance};
/// let (c, work) = (Capacitance::parse("0.2 uF")?, BriefTime::from_milliseconds(1.0 / 12.0)?);
/// assert!(charge_lost(c, Resistance::parse("1 Mohm")?, work) < 0.001);
/// assert!(charge_lost(c, Resistance::parse("1 kohm")?, work) > 0.3);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn charge_lost(capacitance: Capacitance, insulation: Resistance, time: BriefTime) -> f64 {
    let constants = time.si() / (insulation.si() * capacitance.si());
    -libm::expm1(-constants.get::<ratio>())
}

/// The voltage to which the coil drives condenser and open contacts: `I sqrt(L / C)`, all energy of the
/// coil in the condenser. An upper bound, and that is listed.
///
/// # Errors
/// [`ElectricsError::OneSided`].
///
/// # Source
/// Energy of a coil and of a condenser, one into the other.
///
/// ```
/// use lashwork::ignition::electrics::peak_primary_voltage;
/// use lashwork::quantity::{Capacitance, Current, Inductance};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let (i, l) = (Current::parse("4 A")?, Inductance::parse("10 mH")?);
/// let c = Capacitance::parse("0.25 uF")?;
/// let (peak, _) = peak_primary_voltage(
///     &Estimate::between(i, i, Uncertainty::from_number(0.1)?)?,
///     &Estimate::between(l, l, Uncertainty::ZERO)?,
///     &Estimate::between(c, c, Uncertainty::ZERO)?,
/// )?;
/// assert!((peak.centre().unwrap().volts() - 800.0).abs() < 1e-9);
/// assert!((peak.standard_uncertainty().unwrap().number() - 20.0).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn peak_primary_voltage(
    current: &Estimate<Current>,
    inductance: &Estimate<Inductance>,
    capacitance: &Estimate<Capacitance>,
) -> Result<(Estimate<Voltage>, ElectricsAssumption), ElectricsError> {
    let (i, i_u) = relative(current, "the current")?;
    let (l, l_u) = relative(inductance, "the inductance")?;
    let (c, c_u) = relative(capacitance, "the capacitance")?;
    // The square root of uom is not there without the standard library; of ohms squared it is ohms.
    let square = l.si() / c.si() / ElectricalResistance::new::<ohm>(1.0);
    let impedance = ElectricalResistance::new::<ohm>(libm::sqrt(square.get::<ohm>()));
    let volts = Voltage::of_si(i.si() * impedance)?.volts();
    let u = volts * together([i_u, 0.5 * l_u, 0.5 * c_u]);
    Ok((normal(volts, u)?, ElectricsAssumption::NoLosses))
}
