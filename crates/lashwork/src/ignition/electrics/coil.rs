//! How far the current in a coil has risen when the contacts open.
//!
//! # Method
//! `i = V/R (1 - exp(-t R / L))` and `E = L i^2 / 2`, with the resistance of coil, ballast and leads
//! together as hot as they run. Uncertainties by the law of propagation (JCGM 100:2008, 5.1.2).

use super::{ElectricsAssumption, ElectricsError};
use crate::ignition::breaker::{BreakerCam, Dwell};
use crate::quantity::{BriefTime, CrankSpeed, Current, Energy, Inductance, Resistance, Voltage};
use crate::tolerance::known::{known, normal, together};
use crate::tolerance::{Estimate, Measurand};
use serde::Serialize;
use uom::si::f64::{ElectricCurrent, ElectricPotential, ElectricalResistance};
use uom::si::ratio::ratio;

/// The primary circuit: what drives the coil and what limits it.
///
/// ```
/// use lashwork::ignition::breaker::{BreakerCam, CamSpeed, Dwell, Lobes};
/// use lashwork::ignition::electrics::PrimaryCircuit;
/// use lashwork::quantity::{CrankSpeed, Inductance, Resistance, Voltage};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let volts = Voltage::parse("12 V")?;
/// let ohms = Resistance::parse("3 ohm")?;
/// let henries = Inductance::parse("10 mH")?;
/// let circuit = PrimaryCircuit {
///     supply: Estimate::between(volts, volts, Uncertainty::from_number(0.2)?)?,
///     resistance: Estimate::between(ohms, ohms, Uncertainty::from_number(0.05)?)?,
///     inductance: Estimate::between(henries, henries, Uncertainty::from_number(0.5)?)?,
/// };
/// let cam = BreakerCam { lobes: Lobes::new(4)?, speed: CamSpeed::HalfCrank };
/// let dwell = Dwell::from_degrees(60.0)?;
/// let dwell = Estimate::between(dwell, dwell, Uncertainty::from_number(1.0)?)?;
/// let charge = circuit.at_speed(cam, &dwell, CrankSpeed::from_rpm(3000.0)?)?;
/// assert!((charge.current.centre().unwrap().amperes() - 3.4587).abs() < 5e-5);
/// assert!((charge.energy.centre().unwrap().millijoules() - 59.81).abs() < 5e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PrimaryCircuit {
    /// The voltage across coil, ballast and leads with the contacts closed.
    pub supply: Estimate<Voltage>,
    /// The resistance of all of them together, as warm as they run.
    pub resistance: Estimate<Resistance>,
    /// The inductance of the primary winding.
    pub inductance: Estimate<Inductance>,
}

/// What the coil holds when the contacts open.
///
/// ```
/// use lashwork::ignition::electrics::Charge;
/// fn full(charge: &Charge) -> bool {
///     charge.share_of_current > 0.99
/// }
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Charge {
    /// How long the contacts were closed.
    pub closed: BriefTime,
    /// The current.
    pub current: Estimate<Current>,
    /// The energy.
    pub energy: Estimate<Energy>,
    /// The current over what it would be in the end.
    pub share_of_current: f64,
    /// The energy over what it would be in the end.
    pub share_of_energy: f64,
    /// What is taken for granted.
    pub assumption: ElectricsAssumption,
}

/// The circuit in plain quantities, with the relative standard uncertainties.
pub(super) struct Plain {
    pub(super) supply: Voltage,
    pub(super) resistance: Resistance,
    pub(super) inductance: Inductance,
    pub(super) supply_u: f64,
    pub(super) resistance_u: f64,
    pub(super) inductance_u: f64,
}

impl PrimaryCircuit {
    /// What the coil holds at a speed.
    ///
    /// # Errors
    /// [`ElectricsError::OneSided`], [`ElectricsError::NoSupply`], and those of
    /// [`BreakerCam::closed_time`].
    pub fn at_speed(
        &self,
        cam: BreakerCam,
        dwell: &Estimate<Dwell>,
        speed: CrankSpeed,
    ) -> Result<Charge, ElectricsError> {
        let what = "the dwell";
        let (degrees, u) = known(dwell).ok_or(ElectricsError::OneSided { what })?;
        let closed = cam.closed_time(Dwell::from_degrees(degrees)?, speed)?;
        self.charged(closed, u / degrees)
    }

    /// What the coil holds after a time.
    ///
    /// # Errors
    /// [`ElectricsError::OneSided`], [`ElectricsError::NoSupply`].
    ///
    /// ```
    /// use lashwork::ignition::electrics::PrimaryCircuit;
    /// use lashwork::quantity::{BriefTime, Inductance, Resistance, Voltage};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let (v, r) = (Voltage::parse("12 V")?, Resistance::parse("3 ohm")?);
    /// let l = Inductance::parse("10 mH")?;
    /// let circuit = PrimaryCircuit {
    ///     supply: Estimate::between(v, v, Uncertainty::ZERO)?,
    ///     resistance: Estimate::between(r, r, Uncertainty::ZERO)?,
    ///     inductance: Estimate::between(l, l, Uncertainty::ZERO)?,
    /// };
    /// let charge = circuit.after(BriefTime::from_milliseconds(10.0 / 3.0)?)?;
    /// assert!((charge.share_of_current - 0.6321).abs() < 5e-5);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn after(&self, closed: BriefTime) -> Result<Charge, ElectricsError> {
        self.charged(closed, 0.0)
    }

    fn charged(&self, closed: BriefTime, time_u: f64) -> Result<Charge, ElectricsError> {
        let plain = self.plain()?;
        let (v, r, l): (ElectricPotential, ElectricalResistance, _) = (
            plain.supply.si(),
            plain.resistance.si(),
            plain.inductance.si(),
        );
        // Time over the time constant.
        let x = (closed.si() * r / l).get::<ratio>();
        let share = -libm::expm1(-x);
        let full: ElectricCurrent = v / r;
        let current = full * share;
        let energy = 0.5 * l * current * current;
        // How the current follows each input, relative to both: x exp(-x) / (1 - exp(-x)) by the time.
        let by_time = if x > 0.0 {
            x * (1.0 - share) / share
        } else {
            1.0
        };
        let shares = |current: f64, inductance: f64| {
            together([
                current * plain.supply_u,
                current * (by_time - 1.0) * plain.resistance_u,
                (inductance - current * by_time) * plain.inductance_u,
                current * by_time * time_u,
            ])
        };
        let current = Current::of_si(current)?;
        let energy = Energy::of_si(energy)?;
        Ok(Charge {
            closed,
            current: normal(current.number(), current.number() * shares(1.0, 0.0))?,
            energy: normal(energy.number(), energy.number() * shares(2.0, 1.0))?,
            share_of_current: share,
            share_of_energy: share * share,
            assumption: ElectricsAssumption::InductanceConstant,
        })
    }

    pub(super) fn plain(&self) -> Result<Plain, ElectricsError> {
        let (supply, supply_u) = relative(&self.supply, "the supply")?;
        let (resistance, resistance_u) = relative(&self.resistance, "the resistance")?;
        let (inductance, inductance_u) = relative(&self.inductance, "the inductance")?;
        if supply.volts() <= 0.0 {
            return Err(ElectricsError::NoSupply);
        }
        Ok(Plain {
            supply,
            resistance,
            inductance,
            supply_u,
            resistance_u,
            inductance_u,
        })
    }
}

/// Value and relative standard uncertainty.
pub(super) fn relative<Q: Measurand>(
    estimate: &Estimate<Q>,
    what: &'static str,
) -> Result<(Q, f64), ElectricsError> {
    let (value, u) = known(estimate).ok_or(ElectricsError::OneSided { what })?;
    let share = if value > 0.0 { u / value } else { 0.0 };
    Ok((Q::from_number(value)?, share))
}
