//! The engine section.

use super::{crank_train, value};
use crate::document::{CycleDoc, EndDoc, EngineDoc, FiringDoc, SenseDoc};
use crate::quantity::Q;
use lashwork::engine::{
    Cylinder, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, Pulley, Rotation,
    Sense,
};
use lashwork::job::Problem;
use lashwork::quantity::{CrankAngle, Cycle};

/// The pulley, if its diameter is given.
pub(super) fn pulley(doc: &EngineDoc, problems: &mut Vec<Problem>) -> Option<Pulley> {
    let diameter = doc.pulley_diameter?.0;
    value!(problems, "/engine/pulley_diameter", Pulley::new(diameter))
}

/// Whether the engine's lists are short enough; those that are not are reported.
fn has_short_lists(doc: &EngineDoc, problems: &mut Vec<Problem>) -> bool {
    let cylinders = super::is_short(&doc.cylinders, "/engine/cylinders", problems);
    let order = super::is_short(&doc.firing_order, "/engine/firing_order", problems);
    let rods = doc.link_rods.as_ref();
    let rods = rods.is_none_or(|rods| super::crank_train::has_short_lists(rods, problems));
    cylinders && order && rods
}

/// The engine, checked by the core.
pub(super) fn engine(doc: EngineDoc, problems: &mut Vec<Problem>) -> Option<Engine> {
    let before = problems.len();
    if !has_short_lists(&doc, problems) {
        return None;
    }
    let (crank, link_rods) = (doc.crank, doc.link_rods);
    let mut cylinders = Vec::new();
    for (i, c) in doc.cylinders.into_iter().enumerate() {
        let place = format!("/engine/cylinders/{i}");
        if let Some(label) = value!(
            problems,
            format!("{place}/label"),
            CylinderLabel::new(&c.label)
        ) {
            if c.bank.is_some() != c.crankpin.is_some() {
                problems.push(Problem::new(
                    place.as_str(),
                    "engine.half-geometry",
                    "bank and crankpin only mean something together",
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
            value!(
                problems,
                format!("/engine/firing_order/{i}"),
                CylinderLabel::new(label)
            )
        })
        .collect();
    let intervals = intervals(doc.firing, doc.intervals, problems);
    if problems.len() > before {
        return None;
    }
    let parts = EngineParts {
        cycle: match doc.cycle {
            CycleDoc::TwoStroke => Cycle::TwoStroke,
            CycleDoc::FourStroke => Cycle::FourStroke,
        },
        cylinders,
        order,
        intervals: intervals?,
        rotation: Rotation {
            sense: match doc.rotation.sense {
                SenseDoc::Clockwise => Sense::Clockwise,
                SenseDoc::Anticlockwise => Sense::Anticlockwise,
            },
            seen_from: match doc.rotation.seen_from {
                EndDoc::Free => End::Free,
                EndDoc::Output => End::Output,
            },
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
                super::fault!(problems, "/engine", e);
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
