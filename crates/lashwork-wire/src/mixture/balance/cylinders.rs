//! What must be right before a balance, and what is known of the cylinders behind the throttles.

use super::named;
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::job::mixture::{Cylinders, CylindersField, OpeningKnown, ThrottleFlow};
use lashwork::mixture::balance::{Beforehand, CylinderFindings};
use lashwork::quantity::{AirFlow, AirFlowDifference};
use lashwork::tolerance::{Measurand, Uncertainty};

/// What was found of something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RightWord {
    Right,
    NotRight,
}

named!(RightWord as "FoundRightDoc" {
    /// It was looked at and is right.
    Right = "right",
    /// It was looked at and is not right.
    NotRight = "not_right",
});

parts! {
    /// What must be right before throttles are balanced.
    BeforehandDoc {
        /// Compression, on every cylinder; as found for the vacuum gauge, if not stated here.
        compression: Option<W<RightWord>>,
        /// That no air is drawn in behind a throttle.
        sealing: Option<W<RightWord>>,
        /// The idle speed.
        idle_speed: Option<W<RightWord>>,
    }
    /// What is known of the openings of the throttles, in one of two ways, and of the cylinders.
    CylindersDoc {
        /// How nearly alike the throttles were set by a pin, a drill or a feeler: standard deviation as a
        /// share of the opening, as in 0.02.
        set_alike: Option<f64>,
        /// The flow through each at the same time as the vacuum.
        flow: Option<Vec<FlowBesideDoc>>,
        /// What was found of single cylinders.
        found: Option<Vec<CylinderFoundDoc>>,
        /// From what share on a difference matters; 0.05 is assumed, and listed, if not stated.
        matters_from: Option<f64>,
    }
    /// The flow through a throttle.
    FlowBesideDoc {
        throttle: String,
        shows: Q<AirFlow>,
        /// Its standard uncertainty.
        uncertainty: Q<AirFlowDifference>,
    }
    /// What was found of the cylinder behind a throttle.
    CylinderFoundDoc {
        throttle: String,
        compression: Option<W<RightWord>>,
        /// Its valve clearances.
        clearances: Option<W<RightWord>>,
        /// That no air is drawn in behind its throttle.
        sealing: Option<W<RightWord>>,
    }
}

const AT: &str = "/mixture/balance/cylinders";

/// What is known beforehand.
pub(super) fn beforehand(doc: &BeforehandDoc) -> Beforehand {
    let right = |word: Option<W<RightWord>>| word.map(|word| word.0 == RightWord::Right);
    Beforehand {
        compression: right(doc.compression),
        sealing: right(doc.sealing),
        idle_speed: right(doc.idle_speed),
        ..Beforehand::default()
    }
}

/// What is known of openings and cylinders.
pub(super) fn cylinders(
    doc: CylindersDoc,
    names: &[String],
    problems: &mut Vec<Problem>,
) -> Option<Cylinders> {
    let opening = match (doc.set_alike, doc.flow) {
        (Some(share), None) => OpeningKnown::Alike(share),
        (None, Some(flows)) => OpeningKnown::Flow(flows_of(flows, names, problems)?),
        _ => {
            problems.push(Problem::new(
                AT,
                "mixture.one-way-of-openings",
                "how far the throttles are open is known in none of two ways, or in both",
                "give one of set_alike and flow",
            ));
            return None;
        }
    };
    let mut made = Cylinders::of(opening);
    made.matters_from = doc.matters_from;
    let found = doc.found.unwrap_or_default();
    if is_short(&found, &format!("{AT}/found"), problems) {
        for (i, one) in found.into_iter().enumerate() {
            let place = format!("{AT}/found/{i}/throttle");
            let Some(throttle) = named(names, &one.throttle, place, problems) else {
                continue;
            };
            if made.found.iter().any(|(own, _)| *own == throttle) {
                problems.push(Problem::new(
                    format!("{AT}/found/{i}/throttle"),
                    "mixture.cylinder-found-twice",
                    "what was found of this cylinder stands in two places",
                    "put all that was found of a cylinder in one",
                ));
            }
            let wrong = |word: Option<W<RightWord>>| word.map(|word| word.0 == RightWord::NotRight);
            let found = CylinderFindings {
                compression_wrong: wrong(one.compression),
                lash_wrong: wrong(one.clearances),
                leak_found: wrong(one.sealing),
            };
            made.found.push((throttle, found));
        }
    }
    Some(made)
}

fn flows_of(
    flows: Vec<FlowBesideDoc>,
    names: &[String],
    problems: &mut Vec<Problem>,
) -> Option<Vec<ThrottleFlow>> {
    if !is_short(&flows, &format!("{AT}/flow"), problems) {
        return None;
    }
    let mut made = Vec::new();
    for (i, one) in flows.into_iter().enumerate() {
        let place = |field: &str| format!("{AT}/flow/{i}/{field}");
        let throttle = named(names, &one.throttle, place("throttle"), problems);
        let u = Uncertainty::from_number(one.uncertainty.0.number());
        let u = value(problems, place("uncertainty"), u);
        if let Some((throttle, standard_uncertainty)) = throttle.zip(u) {
            made.push(ThrottleFlow {
                throttle,
                flow: one.shows.0,
                standard_uncertainty,
            });
        }
    }
    Some(made)
}

/// Where a field stands in its part.
pub(super) fn pointer(field: CylindersField) -> String {
    match field {
        CylindersField::SetAlike => "/set_alike".into(),
        CylindersField::Flows => "/flow".into(),
        CylindersField::Flow(i) => format!("/flow/{i}"),
        CylindersField::MattersFrom => "/matters_from".into(),
        _ => String::new(),
    }
}
