//! What a past service found and left at the valves.

use super::{WhenDoc, used};
use crate::engine::cylinder;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::feeler::{FeelerError, Leaf, Reading, Stack};
use lashwork::history::Reset;
use lashwork::job::Request;
use lashwork::job::clearance::Clearance;
use lashwork::job::history::{LashRead, LashVisit};
use lashwork::quantity::{Lash, Marked};
use lashwork::tolerance::Uncertainty;
use lashwork::valve::{ValveId, ValveKind};

named!(Reset as "ResetDoc" {
    /// It was set; its parts stayed.
    Set = "set",
    /// It was set after parts were renewed, ground or retorqued, which bed in.
    Renewed = "renewed",
});

parts! {
    /// What was found, done and left at one valve.
    LashVisitDoc {
        cylinder: String,
        valve: W<ValveKind>,
        /// Which of its kind in the cylinder, from 1; needed where there are several.
        number: Option<u8>,
        /// Before anything was done.
        found: Option<LashReadDoc>,
        /// What was done; set, if there is a reading after it.
        done: Option<W<Reset>>,
        /// After it was done.
        left: Option<LashReadDoc>,
        /// When that was read, if not at the service itself.
        left_at: Option<WhenDoc>,
    }
    /// A lash as a service wrote it down: `goes` and/or `refuses`, or `drags`, or `lash`.
    LashReadDoc {
        /// The leaf that goes.
        goes: Option<Q<Marked>>,
        /// The leaf that does not.
        refuses: Option<Q<Marked>>,
        /// The leaf that drags lightly.
        drags: Option<Q<Marked>>,
        /// A number.
        lash: Option<Q<Lash>>,
        /// Its standard uncertainty; 0.010 mm is assumed, and listed, if not stated.
        uncertainty: Option<Q<Marked>>,
    }
}

/// What a service found and left, in typed values.
pub(super) fn visits(
    list: Vec<LashVisitDoc>,
    request: &Request,
    at: &str,
    problems: &mut Vec<Problem>,
) -> Vec<LashVisit> {
    let mut made = Vec::new();
    for (j, doc) in list.into_iter().enumerate() {
        let at = format!("{at}/lash/{j}");
        let clearance = request.clearance.as_ref();
        if doc.number.is_none() && several(clearance, doc.valve.0) {
            problems.push(Problem::new(
                at.as_str(),
                "job.which-valve",
                format!(
                    "each cylinder has several {} valves, and which one is not stated",
                    doc.valve.0.word()
                ),
                "add \"number\", counted from 1",
            ));
        }
        let place = format!("{at}/cylinder");
        let Some(cylinder) = cylinder(&request.engine, &doc.cylinder, &place, problems) else {
            continue;
        };
        let mut visit = LashVisit::of(ValveId {
            cylinder,
            kind: doc.valve.0,
            number: doc.number.unwrap_or(1),
        });
        visit.done = doc.done.map(|word| word.0);
        if let Some(doc) = doc.found {
            visit.found = read(&doc, &format!("{at}/found"), problems);
        }
        if let Some(doc) = doc.left {
            visit.left = read(&doc, &format!("{at}/left"), problems);
        }
        if let Some(doc) = doc.left_at {
            visit.left_at = used(&doc, &format!("{at}/left_at"), problems);
        }
        made.push(visit);
    }
    made
}

fn several(clearance: Option<&Clearance>, kind: ValveKind) -> bool {
    clearance.is_some_and(|asked| match kind {
        ValveKind::Intake => asked.intake_valves > 1,
        ValveKind::Exhaust => asked.exhaust_valves > 1,
    })
}

fn read(doc: &LashReadDoc, at: &str, problems: &mut Vec<Problem>) -> Option<LashRead> {
    let leaf = |mark: Q<Marked>| Stack::new(vec![Leaf::new(mark.0)]);
    let between = |low: Q<Marked>, high: Q<Marked>| -> Result<Reading, FeelerError> {
        Reading::between(leaf(low)?, leaf(high)?)
    };
    let felt = match (doc.goes, doc.refuses, doc.drags, doc.lash, doc.uncertainty) {
        (Some(low), Some(high), None, None, None) => between(low, high),
        (Some(low), None, None, None, None) => leaf(low).map(Reading::goes),
        (None, Some(high), None, None, None) => leaf(high).map(Reading::refuses),
        (None, None, Some(drags), None, None) => {
            leaf(drags).and_then(|stack| Reading::drags(stack, None))
        }
        (None, None, None, Some(lash), u) => {
            let place = format!("{at}/uncertainty");
            let uncertainty = match u {
                None => None,
                Some(u) => Some(value(problems, place, Uncertainty::from_mm(u.0.mm()))?),
            };
            return Some(LashRead::Number {
                lash: lash.0,
                uncertainty,
            });
        }
        _ => {
            problems.push(Problem::new(
                at,
                "feeler.reading",
                "these fields do not form one reading",
                "give \"goes\" and/or \"refuses\", or \"drags\", or \"lash\" with or without \"uncertainty\"",
            ));
            return None;
        }
    };
    value(problems, at, felt).map(LashRead::Felt)
}
