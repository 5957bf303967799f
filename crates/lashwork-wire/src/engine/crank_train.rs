//! Crank, rods and cam ring.

use super::cylinder;
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::Refusal;
use lashwork::engine::{
    ArticulatedRodError, CamRing, CamRingError, CylinderLabel, Engine, LinkRod, LinkRods,
    LinkRodsError, RingSense, SliderCrank, SliderCrankError,
};
use lashwork::quantity::{AxisAngle, Length, PinOffset, Quoted};

named!(RingSense as "RingSenseDoc" {
    /// With the crank.
    Same = "same",
    /// Against the crank.
    Opposite = "opposite",
});

parts! {
    /// Crank and rod.
    CrankDoc {
        /// From the crank's centre to the crankpin's: half the stroke without offset.
        throw: Q<Length>,
        /// Length of the rod between centres.
        rod: Q<Length>,
        /// How far the piston pin's line misses the crank's centre; positive toward the side the
        /// crankpin moves to in the first half turn.
        offset: Q<PinOffset>,
    }
    /// Master and link rods, the same in all rows.
    LinkRodsDoc {
        throw: Q<Length>,
        master_rod: Q<Length>,
        /// From the crankpin's centre to a knuckle pin's.
        knuckle_radius: Q<Length>,
        link_rod: Q<Length>,
        /// One for each master rod.
        rows: Vec<RowDoc>,
        /// Link rods that differ, or whose knuckle pin is not at the bank angle.
        knuckles: Option<Vec<KnuckleDoc>>,
    }
    /// A master rod and its link rods.
    RowDoc {
        /// Label of the cylinder with the master rod.
        master: String,
        /// Labels of the cylinders with link rods; if not stated, all others on the same crankpin.
        links: Option<Vec<String>>,
    }
    /// A link rod of its own.
    KnuckleDoc {
        cylinder: String,
        /// Direction of the knuckle pin from the crankpin, with the master at its top, on the scale
        /// of the bank angles.
        at: Option<Q<AxisAngle>>,
        radius: Option<Q<Length>>,
        link_rod: Option<Q<Length>>,
    }
    /// A cam ring.
    CamRingDoc {
        /// Lobes for one kind of valve.
        lobes: u8,
        crank_turns_per_ring_turn: f64,
        sense: W<RingSense>,
    }
}

/// Crank and rod of one cylinder, with its own offset if it has one.
pub(crate) fn crank(
    doc: Option<&CrankDoc>,
    own: Option<Q<PinOffset>>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<SliderCrank> {
    let Some(doc) = doc else {
        if own.is_some() {
            problems.push(Problem::new(
                format!("{place}/offset"),
                "engine.offset-unused",
                "an offset is given without throw and rod",
                "add \"crank\" with throw and rod to the engine, or leave the offset out",
            ));
        }
        return None;
    };
    let offset = own.map_or(doc.offset.0, |q| q.0);
    let made = SliderCrank::new(doc.throw.0, doc.rod.0, offset);
    match made {
        Ok(crank) => Some(crank),
        // The fault is the engine's unless this cylinder has an offset of its own.
        Err(error) => {
            let at = own.map_or_else(|| "/engine/crank".into(), |_| format!("{place}/offset"));
            let known = problems
                .iter()
                .any(|p| p.place == at && p.code == error.code());
            if !known {
                problems.push(Problem::at(at, &error));
            }
            None
        }
    }
}

/// Whether the lists of link rods are short enough; those that are not are reported.
pub(crate) fn has_short_lists(doc: &LinkRodsDoc, problems: &mut Vec<Problem>) -> bool {
    let mut short = is_short(&doc.rows, "/engine/link_rods/rows", problems);
    for (i, row) in doc.rows.iter().enumerate() {
        let links = row.links.as_deref().unwrap_or_default();
        let place = format!("/engine/link_rods/rows/{i}/links");
        short &= is_short(links, &place, problems);
    }
    let knuckles = doc.knuckles.as_deref().unwrap_or_default();
    short && is_short(knuckles, "/engine/link_rods/knuckles", problems)
}

/// The engine with its rods.
pub(crate) fn with_link_rods(
    engine: &Engine,
    doc: &LinkRodsDoc,
    problems: &mut Vec<Problem>,
) -> Option<Engine> {
    let before = problems.len();
    let place = "/engine/link_rods";
    let knuckles = doc.knuckles.as_deref().unwrap_or_default();
    let mut rows = Vec::new();
    let mut linked: Vec<CylinderLabel> = Vec::new();
    for (i, row) in doc.rows.iter().enumerate() {
        let at = format!("{place}/rows/{i}");
        let index = cylinder(engine, &row.master, &format!("{at}/master"), problems);
        let Some((index, master)) = index.and_then(|i| Some((i, engine.cylinder(i)?))) else {
            continue;
        };
        let cylinders: Vec<CylinderLabel> = match &row.links {
            None => {
                let row = engine.row_of(index).into_iter();
                row.filter(|label| *label != master.label).collect()
            }
            Some(labels) => {
                let labels = labels.iter().enumerate();
                let named = labels.filter_map(|(k, label)| {
                    cylinder(engine, label, &format!("{at}/links/{k}"), problems)
                });
                let named = named.filter_map(|i| Some(engine.cylinder(i)?.label.clone()));
                named.collect()
            }
        };
        linked.extend(cylinders.iter().cloned());
        rows.push(LinkRods {
            master: master.label.clone(),
            crank_radius: doc.throw.0,
            master_rod: doc.master_rod.0,
            links: cylinders
                .into_iter()
                .map(|label| link(doc, label, knuckles))
                .collect(),
        });
    }
    check_knuckles(engine, knuckles, &linked, problems);
    if problems.len() > before {
        return None;
    }
    let made = engine.clone().with_link_rods(&rows);
    made.map_err(|errors| {
        for e in errors {
            let at = place_of(&e, engine, knuckles);
            problems.push(Problem::at(at, &e));
        }
    })
    .ok()
}

/// The field that a fault of the rods is about.
fn place_of(error: &LinkRodsError, engine: &Engine, knuckles: &[KnuckleDoc]) -> String {
    let rods = "/engine/link_rods";
    match error {
        LinkRodsError::NoGeometry { cylinder } | LinkRodsError::OwnCrank { cylinder } => {
            let mut labels = engine.cylinders().iter().map(|c| &c.label);
            labels
                .position(|label| label == cylinder)
                .map_or_else(|| rods.into(), |i| format!("/engine/cylinders/{i}"))
        }
        LinkRodsError::Unknown { .. }
        | LinkRodsError::Twice { .. }
        | LinkRodsError::Missing { .. }
        | LinkRodsError::OtherCrankpin { .. } => format!("{rods}/rows"),
        LinkRodsError::Master { problem, .. } => match problem {
            SliderCrankError::CrankRadius { .. } => format!("{rods}/throw"),
            _ => format!("{rods}/master_rod"),
        },
        LinkRodsError::Link { cylinder, problem } => {
            let own = |k: &KnuckleDoc| k.cylinder.trim() == cylinder.as_str();
            let own = knuckles.iter().position(own);
            match (problem, own) {
                (ArticulatedRodError::NoCrankRadius, _) => format!("{rods}/throw"),
                (ArticulatedRodError::MasterTooShort { .. }, _) => format!("{rods}/master_rod"),
                (_, Some(i)) => format!("{rods}/knuckles/{i}"),
                (ArticulatedRodError::LinkTooShort { .. }, None) => format!("{rods}/link_rod"),
                (ArticulatedRodError::NoDeadCentre { .. }, None) => {
                    format!("{rods}/knuckle_radius")
                }
                (_, None) => rods.into(),
            }
        }
        _ => rods.into(),
    }
}

/// Each must name a cylinder with a link rod, once.
fn check_knuckles(
    engine: &Engine,
    knuckles: &[KnuckleDoc],
    linked: &[CylinderLabel],
    problems: &mut Vec<Problem>,
) {
    for (i, knuckle) in knuckles.iter().enumerate() {
        let at = format!("/engine/link_rods/knuckles/{i}/cylinder");
        let Some(index) = cylinder(engine, &knuckle.cylinder, &at, problems) else {
            continue;
        };
        let label = engine.cylinder(index).map(|c| &c.label);
        let earlier = knuckles.iter().take(i);
        if earlier
            .filter(|k| k.cylinder.trim() == knuckle.cylinder.trim())
            .count()
            > 0
        {
            problems.push(Problem::new(
                at,
                "engine.link-rods-twice",
                format!(
                    "the link rod of cylinder {} is described twice",
                    Quoted(&knuckle.cylinder)
                ),
                "keep one description",
            ));
        } else if !linked.iter().any(|l| Some(l) == label) {
            problems.push(Problem::new(
                at,
                "engine.link-rods-missing",
                format!("cylinder {} has no link rod", Quoted(&knuckle.cylinder)),
                "describe knuckle pins of link rods only",
            ));
        }
    }
}

fn link(doc: &LinkRodsDoc, cylinder: CylinderLabel, knuckles: &[KnuckleDoc]) -> LinkRod {
    let own = knuckles
        .iter()
        .find(|k| k.cylinder.trim() == cylinder.as_str());
    LinkRod {
        knuckle_radius: own.and_then(|k| k.radius).unwrap_or(doc.knuckle_radius).0,
        knuckle: own.and_then(|k| k.at).map(|q| q.0),
        length: own.and_then(|k| k.link_rod).unwrap_or(doc.link_rod).0,
        cylinder,
    }
}

/// The cam ring by itself.
pub(crate) fn ring(doc: &CamRingDoc, problems: &mut Vec<Problem>) -> Option<CamRing> {
    let made = CamRing::new(doc.lobes, doc.crank_turns_per_ring_turn, doc.sense.0);
    made.map_err(|e| {
        let place = match e {
            CamRingError::Lobes { .. } => "/clearance/valves/cam_ring/lobes",
            CamRingError::Speed { .. } => "/clearance/valves/cam_ring/crank_turns_per_ring_turn",
            _ => "/clearance/valves/cam_ring",
        };
        problems.push(Problem::at(place, &e));
    })
    .ok()
}

/// The engine with its cam ring, if it has one.
pub(crate) fn with_ring(
    engine: Engine,
    ring: Option<CamRing>,
    problems: &mut Vec<Problem>,
) -> Option<Engine> {
    match ring {
        None => Some(engine),
        Some(ring) => value(
            problems,
            "/clearance/valves/cam_ring",
            engine.with_cam_ring(ring),
        ),
    }
}
