//! The readings.

use super::shims::uncertainty;
use super::valves::{Valves, valve};
use crate::part::Part;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::clearance::AsFound;
use lashwork::engine::Engine;
use lashwork::feeler::{Hollow, Leaf, LeafSet, Reading, Stack};
use lashwork::job::clearance::ValveReading;
use lashwork::quantity::{Marked, ShimThickness};
use lashwork::valve::ValveKind;

parts! {
    /// What was found at one valve: `goes` and/or `refuses`, or `drags`, or
    /// `nothing_goes`, or `everything_goes`. Several leaves are a stack.
    ReadingDoc {
        cylinder: String,
        valve: W<ValveKind>,
        /// Which of its kind in the cylinder, from 1; needed where there are several.
        number: Option<u8>,
        goes: Option<Vec<Q<Marked>>>,
        refuses: Option<Vec<Q<Marked>>>,
        drags: Option<Vec<Q<Marked>>>,
        /// Standard spread of the feel of a light drag; 0.010 mm is assumed, and listed, if it is not stated.
        spread: Option<Q<Marked>>,
        /// Standard uncertainty of the hand at each end of this reading; if not stated, that of the gauge.
        hand: Option<Q<Marked>>,
        nothing_goes: Option<bool>,
        everything_goes: Option<bool>,
        hollow: Option<HollowDoc>,
        /// The shim fitted there.
        shim: Option<Q<ShimThickness>>,
        /// Standard uncertainty of its thickness.
        shim_uncertainty: Option<Q<Marked>>,
        /// What the valve read after it was set; judged beside what was found, and of no weight in what
        /// all readings say together. A hollow is still there unless another one is stated, a shim is the
        /// one fitted then.
        left: Option<FoundDoc>,
    }
    /// What was found at one valve, without its name: `goes` and/or `refuses`, or `drags`, or
    /// `nothing_goes`, or `everything_goes`. Several leaves are a stack.
    FoundDoc {
        goes: Option<Vec<Q<Marked>>>,
        refuses: Option<Vec<Q<Marked>>>,
        drags: Option<Vec<Q<Marked>>>,
        /// Standard spread of the feel of a light drag; 0.010 mm is assumed, and listed, if it is not stated.
        spread: Option<Q<Marked>>,
        /// Standard uncertainty of the hand at each end of this reading; if not stated, that of the gauge.
        hand: Option<Q<Marked>>,
        nothing_goes: Option<bool>,
        everything_goes: Option<bool>,
        hollow: Option<HollowDoc>,
        /// The shim fitted there.
        shim: Option<Q<ShimThickness>>,
        /// Standard uncertainty of its thickness.
        shim_uncertainty: Option<Q<Marked>>,
    }
    /// A hollow worn into the pad, which a flat leaf bridges.
    HollowDoc { depth: Q<Marked>, uncertainty: Q<Marked> }
}

impl ReadingDoc {
    /// What was found, without the valve, and what it read after it was set.
    fn found(self) -> (FoundDoc, Option<FoundDoc>) {
        let found = FoundDoc {
            goes: self.goes,
            refuses: self.refuses,
            drags: self.drags,
            spread: self.spread,
            hand: self.hand,
            nothing_goes: self.nothing_goes,
            everything_goes: self.everything_goes,
            hollow: self.hollow,
            shim: self.shim,
            shim_uncertainty: self.shim_uncertainty,
        };
        (found, self.left)
    }
}

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
        let place = format!("/clearance/readings/{i}");
        if let Some(doc) = part.take(None, problems) {
            let named = (doc.cylinder.as_str(), doc.valve.0, doc.number);
            let valve = valve(named, engine, valves, &place, problems);
            let (found, left) = doc.found();
            let Some(set) = leaves else { continue };
            let found = as_found(&found, set, &place, problems);
            let after = format!("{place}/left");
            let left = left.map(|left| as_found(&left, set, &after, problems));
            if let (Some(valve), Some(found)) = (valve, found) {
                let left = left.flatten();
                made.push(ValveReading { valve, found, left });
            }
        }
    }
    made
}

/// What was found at a valve.
pub(crate) fn as_found(
    doc: &FoundDoc,
    leaves: &LeafSet,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<AsFound> {
    let reading = reading(doc, leaves, place, problems);
    let at = format!("{place}/shim_uncertainty");
    let shim_uncertainty = uncertainty(doc.shim_uncertainty, &at, problems);
    let mut found = AsFound::new(reading?);
    found.hand = doc.hand.map(|hand| hand.0);
    found.hollow = doc.hollow.as_ref().map(|h| Hollow {
        depth: h.depth.0,
        uncertainty: h.uncertainty.0,
    });
    found.shim = doc.shim.map(|s| s.0);
    found.shim_uncertainty = shim_uncertainty;
    Some(found)
}

fn reading(
    doc: &FoundDoc,
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
            value(problems, place, Reading::between(g, r))
        }
        (Some(g), None, None, None, false, false) => Some(Reading::goes(g)),
        (None, Some(r), None, None, false, false) => Some(Reading::refuses(r)),
        (None, None, Some(d), spread, false, false) if doc.hand.is_none() => value(
            problems,
            format!("{place}/spread"),
            Reading::drags(d, spread.map(|spread| spread.0)),
        ),
        (None, None, None, None, true, false) => Some(Reading::nothing_goes(set)),
        (None, None, None, None, false, true) => Some(Reading::everything_goes(set)),
        _ => {
            problems.push(Problem::new(
                place,
                "feeler.reading",
                "these fields do not form one reading",
                "give \"goes\" and/or \"refuses\" with or without \"hand\", or \"drags\" with or without \"spread\", or \"nothing_goes\": true, or \"everything_goes\": true",
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
    value(problems, place, set.lay(found))
}
