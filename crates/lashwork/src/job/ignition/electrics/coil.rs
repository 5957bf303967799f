//! The coil at speed.

use super::answer::{ChargeReport, WeakReport};
use super::resistors::Resistor;
use crate::ignition::breaker::{BreakerCam, Dwell, DwellChange, DwellShown};
use crate::ignition::electrics::{ElectricsError, PrimaryCircuit, Weak};
use crate::job::assumptions::Assumptions;
use crate::quantity::{CrankSpeed, Inductance, Resistance, Voltage};
use crate::tolerance::{Estimate, Measurand, Uncertainty};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// The coil at speed; its resistance is the sum of the resistors in the primary circuit.
///
/// ```
/// use lashwork::ignition::breaker::DwellShown;
/// use lashwork::job::ignition::Coil;
/// use lashwork::quantity::{Inductance, Voltage};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let (v, l) = (Voltage::parse("12 V")?, Inductance::parse("8 mH")?);
/// let v = Estimate::between(v, v, Uncertainty::from_number(0.2)?)?;
/// let l = Estimate::between(l, l, Uncertainty::from_number(0.4)?)?;
/// let coil = Coil::new(v, l, DwellShown::parse("60 deg")?);
/// assert!(coil.speeds.is_empty());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Coil {
    /// The voltage with the contacts closed.
    pub supply: Estimate<Voltage>,
    /// The inductance of the primary winding.
    pub inductance: Estimate<Inductance>,
    /// The dwell.
    pub dwell: DwellShown,
    /// Its standard uncertainty; 1 degree if not stated.
    pub dwell_uncertainty: Option<DwellChange>,
    /// Speeds of the crank at which to say what it holds.
    pub speeds: Vec<CrankSpeed>,
    /// From when it is called weak.
    pub weak: Option<Weak>,
}

impl Coil {
    /// What is needed, the rest not stated.
    #[must_use]
    pub const fn new(
        supply: Estimate<Voltage>,
        inductance: Estimate<Inductance>,
        dwell: DwellShown,
    ) -> Self {
        Self {
            supply,
            inductance,
            dwell,
            dwell_uncertainty: None,
            speeds: Vec::new(),
            weak: None,
        }
    }

    fn dwell(&self, cam: BreakerCam) -> Result<Estimate<Dwell>, ElectricsError> {
        let dwell = self.dwell.dwell(None, cam.lobes)?;
        let u = self.dwell_uncertainty.map_or(1.0, DwellChange::degrees);
        Ok(Estimate::between(
            dwell,
            dwell,
            Uncertainty::from_number(u)?,
        )?)
    }
}

/// The primary circuit as it runs.
pub(super) fn circuit(
    coil: &Coil,
    resistors: &[Resistor],
    assumptions: &mut Assumptions,
) -> Result<PrimaryCircuit, ElectricsError> {
    let what = "the resistance of the primary circuit";
    let (mut ohms, mut u): (f64, f64) = (0.0, 0.0);
    for one in resistors.iter().filter(|one| one.in_primary) {
        let runs_at = one.runs_at.unwrap_or_else(|| one.taken_at());
        let there = one.at(runs_at, assumptions)?;
        let (Some(value), Some(own)) = (there.centre(), there.standard_uncertainty()) else {
            return Err(ElectricsError::OneSided { what });
        };
        ohms += value.ohms();
        u = libm::hypot(u, own.number());
        if one.runs_at.is_none() {
            let text = format!(
                "how warm {} runs is not stated: as warm as it was measured; hot copper lets less current flow",
                one.name
            );
            assumptions.add("ignition.running-temperature", text);
        }
    }
    // Without one the sum is zero, which no resistance is.
    let total = Resistance::from_ohms(ohms)?;
    Ok(PrimaryCircuit {
        supply: coil.supply,
        resistance: Estimate::between(total, total, Uncertainty::from_number(u)?)?,
        inductance: coil.inductance,
    })
}

/// What it holds at each speed.
pub(super) fn at_speeds(
    coil: &Coil,
    circuit: &PrimaryCircuit,
    cam: BreakerCam,
    assumptions: &mut Assumptions,
) -> Result<Vec<ChargeReport>, ElectricsError> {
    let dwell = coil.dwell(cam)?;
    let mut made = Vec::new();
    for speed in &coil.speeds {
        let charge = circuit.at_speed(cam, &dwell, *speed)?;
        assumptions.add_all([&charge.assumption]);
        let (current, current_u) = known(&charge.current)?;
        let (energy, energy_u) = known(&charge.energy)?;
        let text = format!(
            "at {:.0} rpm closed for {:.1} ms: {:.2} A, {:.0} % of the full current, {:.0} mJ, u {:.0} mJ",
            speed.rpm(),
            charge.closed.milliseconds(),
            current.amperes(),
            100.0 * charge.share_of_current,
            energy.millijoules(),
            energy_u
        );
        made.push(ChargeReport {
            speed: *speed,
            closed: charge.closed,
            current,
            current_u,
            energy,
            energy_u,
            share_of_current: charge.share_of_current,
            text,
        });
    }
    Ok(made)
}

/// From which speed it is weak.
pub(super) fn weak_from(
    coil: &Coil,
    circuit: &PrimaryCircuit,
    cam: BreakerCam,
) -> Result<Option<WeakReport>, ElectricsError> {
    let Some(weak) = coil.weak else {
        return Ok(None);
    };
    let from = circuit.speed_at(weak, cam, &coil.dwell(cam)?)?;
    let (speed, uncertainty) = known(&from)?;
    Ok(Some(WeakReport {
        speed,
        uncertainty,
        text: format!(
            "above {:.0} rpm, u {:.0}, it holds less than {}",
            tens(speed.rpm()),
            tens(uncertainty),
            words(weak)
        ),
    }))
}

/// To the nearest ten, as a tachometer is read.
fn tens(rpm: f64) -> f64 {
    10.0 * libm::rint(rpm / 10.0)
}

fn words(weak: Weak) -> String {
    match weak {
        Weak::BelowShareOfCurrent(share) => format!("{:.0} % of its full current", 100.0 * share),
        Weak::BelowShareOfEnergy(share) => format!("{:.0} % of its full energy", 100.0 * share),
        Weak::BelowCurrent(current) => current.to_string(),
        Weak::BelowEnergy(energy) => energy.to_string(),
    }
}

fn known<Q: Measurand>(of: &Estimate<Q>) -> Result<(Q, f64), ElectricsError> {
    let what = "the coil";
    match (of.centre(), of.standard_uncertainty()) {
        (Some(value), Some(u)) => Ok((value, u.number())),
        _ => Err(ElectricsError::OneSided { what }),
    }
}
