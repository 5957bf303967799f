//! A winding at another temperature, and what a coil holds at a speed.

use super::super::electrics::{ResistanceLimitsDoc, WeakDoc, weak_below};
use super::found::{Found, Judged, Taken, stated, take};
use crate::about::about;
use crate::band::band;
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::ignition::breaker::{BreakerCam, CamSpeed, DwellChange, DwellShown, Lobes};
use lashwork::ignition::electrics::{Conductor, PrimaryCircuit, resistance_at};
use lashwork::quantity::{
    BriefTime, CrankSpeed, Current, Energy, Inductance, Resistance, Temperature,
    TemperatureDifference, Voltage,
};
use serde::Serialize;

parts! {
    /// A resistance that was read at one temperature, at another.
    WindingCheckDoc {
        of: W<Conductor>,
        reads: Q<Resistance>,
        /// Standard uncertainty.
        uncertainty: Q<Resistance>,
        /// How warm it was.
        at: Q<Temperature>,
        /// Standard uncertainty of that.
        within: Q<TemperatureDifference>,
        /// The temperature at which the book's limits hold.
        book_at: Q<Temperature>,
        /// The book's resistance.
        limits: Option<ResistanceLimitsDoc>,
    }
    /// The primary circuit of a coil, and the breaker that closes it.
    CoilCheckDoc {
        /// Across coil, ballast and leads with the contacts closed.
        supply: Q<Voltage>,
        supply_uncertainty: Q<Voltage>,
        /// Of all of them together, as warm as they run.
        resistance: Q<Resistance>,
        resistance_uncertainty: Q<Resistance>,
        /// Of the primary winding.
        inductance: Q<Inductance>,
        inductance_uncertainty: Q<Inductance>,
        dwell: Q<DwellShown>,
        /// Standard uncertainty of the dwell.
        dwell_uncertainty: Q<DwellChange>,
        /// Lobes of the cam.
        lobes: u8,
        /// What turns the cam.
        cam: W<CamSpeed>,
        /// Speeds of the crank at which to say what it holds.
        speeds: Option<Vec<Q<CrankSpeed>>>,
        /// From when it is called weak.
        weak_below: Option<WeakDoc>,
    }
}

/// The resistance at the book's temperature.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct WindingFound {
    /// The resistance there.
    resistance: Found<Resistance>,
    /// Against the book.
    judged: Option<Judged>,
}

/// What a coil holds.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct CoilFound {
    /// At each speed that was asked for.
    charges: Vec<ChargeFound>,
    /// The speed of the crank above which it is weak.
    weak_above: Option<Found<CrankSpeed>>,
}

/// What a coil holds at a speed when the contacts open.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct ChargeFound {
    /// Speed of the crank.
    speed: CrankSpeed,
    /// How long the contacts are closed.
    closed: BriefTime,
    /// The current.
    current: Found<Current>,
    /// The energy.
    energy: Found<Energy>,
    /// The current over what it would be in the end.
    share_of_current: f64,
    /// The energy over what it would be in the end.
    share_of_energy: f64,
}

pub(super) fn winding(
    doc: WindingCheckDoc,
    taken: &mut Vec<Taken>,
    problems: &mut Vec<Problem>,
) -> Option<WindingFound> {
    let place = "/winding";
    let read = about(doc.reads, doc.uncertainty, place, problems);
    let limits = doc
        .limits
        .map(|limits| band(limits.from, limits.to, format!("{place}/limits"), problems));
    let there = resistance_at(&read?, doc.at.0, doc.within.0, doc.book_at.0, doc.of.0);
    let there = value(problems, place, there)?;
    if let Some(assumption) = &there.assumption {
        take(assumption.code(), assumption, taken);
    }
    let judged = limits
        .flatten()
        .map(|limits| Judged::of(&there.resistance, &limits));
    Some(WindingFound {
        resistance: Found::of(&there.resistance)?,
        judged,
    })
}

pub(super) fn found(
    doc: &CoilCheckDoc,
    taken: &mut Vec<Taken>,
    problems: &mut Vec<Problem>,
) -> Option<CoilFound> {
    let place = "/coil";
    let faults = problems.len();
    let lobes = value(problems, format!("{place}/lobes"), Lobes::new(doc.lobes));
    let supply = about(doc.supply, doc.supply_uncertainty, place, problems);
    let resistance = about(doc.resistance, doc.resistance_uncertainty, place, problems);
    let inductance = about(doc.inductance, doc.inductance_uncertainty, place, problems);
    let speeds = doc.speeds.as_deref().unwrap_or_default();
    let weak = doc.weak_below.as_ref();
    let weak = weak.and_then(|weak| weak_below(weak, place, problems));
    if !is_short(speeds, &format!("{place}/speeds"), problems) || problems.len() > faults {
        return None;
    }
    let cam = BreakerCam {
        lobes: lobes?,
        speed: doc.cam.0,
    };
    let at_dwell = format!("{place}/dwell");
    let dwell = value(problems, &at_dwell, doc.dwell.0.dwell(None, cam.lobes))?;
    let dwell = stated(
        dwell,
        doc.dwell_uncertainty.0.degrees(),
        &at_dwell,
        problems,
    )?;
    let circuit = PrimaryCircuit {
        supply: supply?,
        resistance: resistance?,
        inductance: inductance?,
    };
    let mut charges = Vec::new();
    for (i, speed) in speeds.iter().enumerate() {
        let charge = circuit.at_speed(cam, &dwell, speed.0);
        let Some(charge) = value(problems, format!("{place}/speeds/{i}"), charge) else {
            continue;
        };
        take(charge.assumption.code(), &charge.assumption, taken);
        charges.push(ChargeFound {
            speed: speed.0,
            closed: charge.closed,
            current: Found::of(&charge.current)?,
            energy: Found::of(&charge.energy)?,
            share_of_current: charge.share_of_current,
            share_of_energy: charge.share_of_energy,
        });
    }
    let weak_above = match weak {
        Some(weak) => {
            let place = format!("{place}/weak_below");
            Found::of(&value(
                problems,
                place,
                circuit.speed_at(weak, cam, &dwell),
            )?)
        }
        None => None,
    };
    Some(CoilFound {
        charges,
        weak_above,
    })
}
