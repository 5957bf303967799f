//! The engine section.

use crate::problem::{Problem, is_short, unknown, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::engine::{
    Cylinder, CylinderIndex, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, Pulley,
    Rotation, Sense,
};
use lashwork::job::{FiredBy, Machine, StandsIn, StartedBy};
use lashwork::quantity::{AxisAngle, CrankAngle, Cycle, Length, PinOffset, Quoted};

pub(crate) mod crank_train;

use crank_train::{CrankDoc, LinkRodsDoc};

named!(Cycle as "CycleDoc" { TwoStroke = "two_stroke", FourStroke = "four_stroke" });
named!(Sense as "SenseDoc" { Clockwise = "clockwise", Anticlockwise = "anticlockwise" });
named!(End as "EndDoc" { Free = "free_end", Output = "output_end" });
named!(StandsIn as "StandsInDoc" {
    Vehicle = "vehicle",
    Boat = "boat",
    Aircraft = "aircraft",
    Stationary = "stationary",
});
named!(FiredBy as "IgnitionDoc" {
    Battery = "battery",
    Electronic = "electronic",
    Magneto = "magneto",
    Diesel = "diesel",
});
named!(StartedBy as "StartedByDoc" {
    Starter = "starter",
    HandCrank = "hand_crank",
    Kick = "kick",
});
words!(FiringDoc {
    /// Equal intervals.
    Even = "even",
    /// The intervals in `intervals`.
    Listed = "listed",
    /// From bank and crankpin angles.
    FromGeometry = "from_geometry",
});

parts! {
    /// The engine.
    EngineDoc {
        cycle: W<Cycle>,
        /// Engine serial number, to decide which specification applies.
        number: Option<u64>,
        cylinders: Vec<CylinderDoc>,
        /// Cylinder labels in firing order.
        firing_order: Vec<String>,
        firing: FiringDoc,
        /// From each firing to the next, in the order; with `"firing": "listed"` only.
        intervals: Option<Vec<Q<CrankAngle>>>,
        rotation: RotationDoc,
        /// `free_end`, `output_end`, or a sentence that states the convention.
        numbering: String,
        /// What the engine stands in; the cautions follow it.
        machine: Option<W<StandsIn>>,
        /// What lights the charge; the cautions follow it.
        ignition: Option<W<FiredBy>>,
        /// How the engine is started; the cautions follow it.
        started_by: Option<W<StartedBy>>,
        /// Diameter of the pulley that carries the marks.
        pulley_diameter: Option<Q<Length>>,
        /// Crank and rod, the same in all cylinders.
        crank: Option<CrankDoc>,
        /// Master and link rods of a radial engine.
        link_rods: Option<LinkRodsDoc>,
    }
    /// A cylinder.
    CylinderDoc {
        label: String,
        /// The side of the engine from which its valves are reached.
        side: Option<String>,
        /// Direction of the bore around the crank axis, in the running direction.
        bank: Option<Q<AxisAngle>>,
        /// Direction of its crankpin, on the same scale.
        crankpin: Option<Q<AxisAngle>>,
        /// Its own piston pin offset, instead of the one of `crank`.
        offset: Option<Q<PinOffset>>,
    }
    /// Running direction and the end it is seen from.
    RotationDoc { sense: W<Sense>, seen_from: W<End> }
}

/// What is said of the machine.
pub(crate) fn machine(doc: &EngineDoc) -> Machine {
    Machine {
        stands_in: doc.machine.map(|word| word.0),
        ignition: doc.ignition.map(|word| word.0),
        started_by: doc.started_by.map(|word| word.0),
    }
}

/// The pulley, if its diameter is given.
pub(crate) fn pulley(doc: &EngineDoc, problems: &mut Vec<Problem>) -> Option<Pulley> {
    let diameter = doc.pulley_diameter?.0;
    value(problems, "/engine/pulley_diameter", Pulley::new(diameter))
}

/// Whether the engine's lists are short enough; those that are not are reported.
fn has_short_lists(doc: &EngineDoc, problems: &mut Vec<Problem>) -> bool {
    let cylinders = is_short(&doc.cylinders, "/engine/cylinders", problems);
    let order = is_short(&doc.firing_order, "/engine/firing_order", problems);
    let rods = doc.link_rods.as_ref();
    let rods = rods.is_none_or(|rods| crank_train::has_short_lists(rods, problems));
    cylinders && order && rods
}

/// The engine, checked by the core.
pub(crate) fn engine(doc: EngineDoc, problems: &mut Vec<Problem>) -> Option<Engine> {
    let before = problems.len();
    if !has_short_lists(&doc, problems) {
        return None;
    }
    let (crank, link_rods) = (doc.crank, doc.link_rods);
    let mut cylinders = Vec::new();
    for (i, c) in doc.cylinders.into_iter().enumerate() {
        let place = format!("/engine/cylinders/{i}");
        if let Some(label) = value(
            problems,
            format!("{place}/label"),
            CylinderLabel::new(&c.label),
        ) {
            if c.bank.is_some() != c.crankpin.is_some() {
                problems.push(Problem::new(
                    place.as_str(),
                    "engine.half-geometry",
                    "bank and crankpin can only be used together",
                    "give both or neither",
                ));
            }
            let crank = crank_train::crank(crank.as_ref(), c.offset, &place, problems);
            cylinders.push(Cylinder {
                label,
                side: c.side,
                bank: c.bank.map(|q| q.0),
                crankpin: c.crankpin.map(|q| q.0),
                crank,
            });
        }
    }
    let order = doc
        .firing_order
        .iter()
        .enumerate()
        .filter_map(|(i, label)| {
            value(
                problems,
                format!("/engine/firing_order/{i}"),
                CylinderLabel::new(label),
            )
        })
        .collect();
    let intervals = intervals(doc.firing, doc.intervals, problems);
    if problems.len() > before {
        return None;
    }
    let parts = EngineParts {
        cycle: doc.cycle.0,
        cylinders,
        order,
        intervals: intervals?,
        rotation: Rotation {
            sense: doc.rotation.sense.0,
            seen_from: doc.rotation.seen_from.0,
        },
        numbering: match doc.numbering.as_str() {
            "free_end" => Numbering::FromFreeEnd,
            "output_end" => Numbering::FromOutputEnd,
            _ => Numbering::Stated(doc.numbering),
        },
    };
    let engine = Engine::new(parts)
        .map_err(|errors| {
            for e in errors {
                problems.push(Problem::at("/engine", &e));
            }
        })
        .ok()?;
    match link_rods {
        Some(rods) => crank_train::with_link_rods(&engine, &rods, problems),
        None => Some(engine),
    }
}

/// How the firings are spaced.
fn intervals(
    firing: FiringDoc,
    listed: Option<Vec<Q<CrankAngle>>>,
    problems: &mut Vec<Problem>,
) -> Option<Intervals> {
    let listed = listed.map(|list| list.into_iter().map(|q| q.0).collect());
    match (firing, listed) {
        (FiringDoc::Even, None) => Some(Intervals::Even),
        (FiringDoc::FromGeometry, None) => Some(Intervals::FromGeometry),
        (FiringDoc::Listed, Some(list)) => Some(Intervals::Listed(list)),
        (FiringDoc::Listed, None) => {
            problems.push(Problem::new(
                "/engine",
                "document.missing-field",
                "listed firing needs the field \"intervals\"",
                "add the intervals in firing order",
            ));
            None
        }
        (_, Some(_)) => {
            problems.push(Problem::new(
                "/engine/intervals",
                "engine.intervals-unused",
                "intervals are given but \"firing\" does not say \"listed\"",
                "set \"firing\" to \"listed\", or leave the intervals out",
            ));
            None
        }
    }
}

/// Finds a cylinder by its label, or names the nearest one.
pub(crate) fn cylinder(
    engine: &Engine,
    label: &str,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<CylinderIndex> {
    let found = CylinderLabel::new(label)
        .ok()
        .and_then(|l| engine.index_of(&l));
    if found.is_none() {
        let known: Vec<&str> = engine
            .cylinders()
            .iter()
            .map(|c| c.label.as_str())
            .collect();
        let message = format!("there is no cylinder {}", Quoted(label));
        problems.push(unknown(
            place.to_owned(),
            "job.no-such-cylinder",
            &message,
            label,
            &known,
        ));
    }
    found
}
