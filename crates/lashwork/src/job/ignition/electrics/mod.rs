//! Coil, condenser and plugs: what was measured against the book, and how strong the spark is.

mod advise;
mod answer;
mod coil;
mod plug;
mod resistors;
pub(super) mod sheet;

pub use answer::{
    ChargeReport, CondenserReport, ElectricsReport, PlugReport, ResistorReport, WeakReport,
};
pub use coil::Coil;
pub use plug::{Charge, Plug, Pressure};
pub use resistors::Resistor;

use super::cam::cam;
use super::request::Distributor;
use super::{ElectricsField, IgnitionPlace};
use crate::Refusal;
use crate::ignition::electrics::{BuildUp, Capacity, Earth, metal_transfer};
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Sides, Standing, judged};
use crate::quantity::Capacitance;
use crate::tolerance::{Estimate, HasLimits, Limits, Measurand, Verdict};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Coil, condenser and plugs: what was measured, and what the book asks for.
///
/// ```
/// use lashwork::job::ignition::Electrics;
/// let asked = Electrics::default();
/// assert!(asked.resistors.is_empty() && asked.plug.is_none());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Electrics {
    /// Windings, ballast and leads.
    pub resistors: Vec<Resistor>,
    /// The condenser.
    pub condenser: Option<Condenser>,
    /// The coil at speed.
    pub coil: Option<Coil>,
    /// The plugs.
    pub plug: Option<Plug>,
}

/// The condenser.
///
/// ```
/// use lashwork::job::ignition::Condenser;
/// assert!(Condenser::default().read.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Condenser {
    /// What was measured.
    pub read: Option<Estimate<Capacitance>>,
    /// What the book asks for.
    pub limits: Option<Limits<Capacitance>>,
    /// Which contact has grown a peak.
    pub build_up: Option<BuildUp>,
    /// Which pole of the battery is at the frame.
    pub earth: Option<Earth>,
}

/// Works it out.
pub(super) fn report(
    asked: &Electrics,
    known: Known<'_>,
    distributor: &Distributor,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<ElectricsReport> {
    let faults = problems.len();
    let mut resistors = Vec::new();
    for (i, one) in asked.resistors.iter().enumerate() {
        let made = resistors::report(one, known.shown.temperature, assumptions);
        resistors.extend(noted(made, ElectricsField::Resistor(i), problems));
    }
    let mut charges = Vec::new();
    let mut weak = None;
    if let Some(coil) = &asked.coil {
        let cam = cam(known, distributor, assumptions, problems)?;
        let circuit = coil::circuit(coil, &asked.resistors, assumptions);
        if let Some(circuit) = noted(circuit, ElectricsField::Coil, problems) {
            let made = coil::at_speeds(coil, &circuit, cam, assumptions);
            charges = noted(made, ElectricsField::Coil, problems).unwrap_or_default();
            let from = coil::weak_from(coil, &circuit, cam);
            weak = noted(from, ElectricsField::Coil, problems).flatten();
        }
    }
    let plug = asked.plug.as_ref().and_then(|plug| {
        let made = plug::report(plug, known, assumptions);
        noted(made, ElectricsField::Plug, problems)
    });
    if problems.len() > faults {
        return None;
    }
    let mut made = ElectricsReport {
        resistors,
        condenser: asked.condenser.as_ref().map(condenser),
        charges,
        weak,
        plug,
        advice: Vec::new(),
    };
    made.advice = advise::advise(&made, known.shown.inches);
    Some(made)
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &ElectricsReport) -> (Standing, String) {
    let verdicts: Vec<Verdict> = found.verdicts().collect();
    let good = verdicts.iter().filter(|v| **v == Verdict::InBand).count();
    let all = verdicts.len();
    let enough = found.plug.as_ref().and_then(|plug| plug.enough);
    let is_weak = enough.is_some_and(|enough| enough < advise::ENOUGH);
    let text = format!("{good} of {all} found in band");
    if all == 0 && enough.is_none() {
        (Standing::NotKnown, String::from("not judged"))
    } else if good == all && !is_weak {
        (Standing::Settled, text)
    } else {
        (Standing::NotSettled, text)
    }
}

const CAPACITY: Sides = Sides {
    below: "too small",
    above: "too large",
};

fn condenser(asked: &Condenser) -> CondenserReport {
    let read = asked.read.as_ref().zip(asked.limits.as_ref());
    let judged = read.map(|(read, limits)| {
        let said = said(read, 3);
        judged(said, read, limits, &Capacitance::USUAL_RULE, CAPACITY)
    });
    let contacts = asked.build_up.map(|build_up| {
        let text = match metal_transfer(build_up, asked.earth) {
            Some(Capacity::TooSmall) => {
                "the peak on the arm points to a condenser of too little capacity; measure it"
            }
            Some(Capacity::TooLarge) => {
                "the peak on the fixed contact points to a condenser of too much capacity; measure it"
            }
            None => {
                "what a peak on a contact says of the condenser is known for a negative earth only; measure it"
            }
        };
        String::from(text)
    });
    CondenserReport { judged, contacts }
}

/// An estimate in words.
fn said<Q: Measurand>(read: &Estimate<Q>, decimals: usize) -> String {
    let (Some(value), Some(u)) = (read.centre(), read.standard_uncertainty()) else {
        return String::from("one end only");
    };
    let (value, u) = (value.number(), u.number());
    format!("{value:.decimals$} {0}, u {u:.decimals$} {0}", Q::UNIT)
}

/// The value, or the refusal noted at its field.
fn noted<T, E: Refusal>(
    made: Result<T, E>,
    field: ElectricsField,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    let place = || Place::Ignition(IgnitionPlace::Electrics(field));
    made.map_err(|refused| problems.push(Problem::at(place(), &refused)))
        .ok()
}
