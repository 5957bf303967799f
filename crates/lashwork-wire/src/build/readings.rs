//! The readings.

use super::shims::uncertainty;
use super::value;
use super::valves::{Valves, valve};
use crate::document::ReadingDoc;
use crate::problems::Part;
use crate::quantity::Q;
use lashwork::engine::Engine;
use lashwork::feeler::{Hollow, Leaf, LeafSet, Reading, Stack};
use lashwork::job::{Problem, ValveReading};
use lashwork::quantity::Marked;
use lashwork::valve::ValveId;

/// All readings. Without engine or leaves only what needs neither is checked.
pub(super) fn all(
    list: Vec<Part<ReadingDoc>>,
    engine: Option<&Engine>,
    valves: Option<&Valves>,
    leaves: Option<&LeafSet>,
    problems: &mut Vec<Problem>,
) -> Vec<ValveReading> {
    let mut made = Vec::new();
    for (i, part) in list.into_iter().enumerate() {
        let place = format!("/readings/{i}");
        if let Some(doc) = part.take(None, problems) {
            let named = (doc.cylinder.as_str(), doc.valve, doc.number);
            let valve = valve(named, engine, valves, &place, problems);
            made.extend(at_valve(valve, &doc, leaves, &place, problems));
        }
    }
    made
}

/// One reading, at the valve it is of.
pub(crate) fn at_valve(
    valve: Option<ValveId>,
    doc: &ReadingDoc,
    leaves: Option<&LeafSet>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<ValveReading> {
    let reading = leaves.and_then(|set| reading(doc, set, place, problems));
    let hollow = doc.hollow.as_ref().map(|h| Hollow {
        depth: h.depth.0,
        uncertainty: h.uncertainty.0,
    });
    let at = format!("{place}/shim_uncertainty");
    let shim_uncertainty = uncertainty(doc.shim_uncertainty, &at, problems);
    Some(ValveReading {
        valve: valve?,
        reading: reading?,
        hollow,
        shim: doc.shim.map(|s| s.0),
        shim_uncertainty,
    })
}

fn reading(
    doc: &ReadingDoc,
    set: &LeafSet,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Reading> {
    let mut stack_of = |field: &str, marks: &Option<Vec<Q<Marked>>>| -> Option<Option<Stack>> {
        match marks {
            None => Some(None),
            Some(marks) => stack(set, marks, &format!("{place}/{field}"), problems).map(Some),
        }
    };
    let goes = stack_of("goes", &doc.goes);
    let refuses = stack_of("refuses", &doc.refuses);
    let drags = stack_of("drags", &doc.drags);
    let (goes, refuses, drags) = (goes?, refuses?, drags?);
    let nothing = doc.nothing_goes.unwrap_or(false);
    let everything = doc.everything_goes.unwrap_or(false);
    match (goes, refuses, drags, doc.spread, nothing, everything) {
        (Some(g), Some(r), None, None, false, false) => {
            value!(problems, place, Reading::between(g, r))
        }
        (Some(g), None, None, None, false, false) => Some(Reading::goes(g)),
        (None, Some(r), None, None, false, false) => Some(Reading::refuses(r)),
        (None, None, Some(d), Some(spread), false, false) => {
            value!(
                problems,
                format!("{place}/spread"),
                Reading::drags(d, spread.0)
            )
        }
        (None, None, None, None, true, false) => Some(Reading::nothing_goes(set)),
        (None, None, None, None, false, true) => Some(Reading::everything_goes(set)),
        _ => {
            problems.push(Problem::new(
                place,
                "feeler.reading",
                "these fields do not make one reading",
                "give \"goes\" and/or \"refuses\", or \"drags\" with \"spread\", or \"nothing_goes\": true, or \"everything_goes\": true",
            ));
            None
        }
    }
}

/// A stack of leaves, each of which must be in the set.
fn stack(
    set: &LeafSet,
    marks: &[Q<Marked>],
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Stack> {
    let mut found: Vec<Leaf> = Vec::new();
    for (i, mark) in marks.iter().enumerate() {
        if let Some(leaf) = set.find(mark.0.nominal()) {
            found.push(leaf);
        } else {
            let known: Vec<String> = set.leaves().iter().map(|l| l.mark.to_string()).collect();
            problems.push(Problem::new(
                format!("{place}/{i}"),
                "feeler.leaf-not-in-set",
                format!("there is no {} leaf in the gauge set", mark.0),
                format!("the set has: {}", known.join(", ")),
            ));
        }
    }
    if found.len() < marks.len() {
        return None;
    }
    value!(problems, place, Stack::new(found))
}
