//! The balance in a document.

mod cylinders;
mod read;

use crate::problem::{Problem, is_short, unknown};
use crate::quantity::Q;
use crate::word::W;
use cylinders::{BeforehandDoc, CylindersDoc, beforehand, cylinders};
use lashwork::job::mixture::{Balance, BalanceField, BalanceRead, BalanceWay, VacuumUnit};
use lashwork::mixture::balance::{JoinedBy, Joint};
use lashwork::quantity::{AirFlow, AirFlowDifference, PressureDifference, ScrewAngle, Vacuum};
use lashwork::tolerance::{DecisionRule, Measurand};
use read::{ReadDoc, TrialDoc, check, read_doc};

/// How the verdicts are decided.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum BalanceRule {
    Simple,
    Iso14253,
}

named!(BalanceRule as "BalanceRuleDoc" {
    /// JCGM 106 simple acceptance.
    Simple = "simple",
    /// ISO 14253-1: 95 % conformance probability.
    Iso14253 = "iso_14253_1",
});

/// What joins two throttles.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum JoinedByWord {
    Screw,
    Shaft,
}

named!(JoinedByWord as "JoinedByDoc" {
    /// An adjusting screw, which moves everything beyond it, seen from the reference.
    Screw = "screw",
    /// A common shaft: nothing to adjust.
    Shaft = "shaft",
});

/// What a turn does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TurnWord {
    Opens,
    Shuts,
}

named!(TurnWord as "ClockwiseDoc" {
    /// It opens what is beyond.
    Opens = "opens",
    /// It shuts it.
    Shuts = "shuts",
});

named!(VacuumUnit as "VacuumUnitDoc" {
    /// Kilopascals.
    Kilopascal = "kpa",
    /// Millibars.
    Millibar = "mbar",
    /// Inches of mercury.
    InchOfMercury = "inhg",
    /// Millimetres of mercury.
    MillimetreOfMercury = "mmhg",
    /// Inches of water.
    InchOfWater = "inh2o",
});

parts! {
    /// Carburettors or throttles: what joins them, and vacuum or flow as read at each.
    BalanceDoc {
        /// Their names, 2 to 12.
        throttles: Vec<String>,
        /// The one to which the others are set: the one that has no screw of its own.
        reference: String,
        /// What joins them, without a loop; a throttle with a stop screw alone is joined to the reference
        /// by that screw.
        joints: Vec<JointDoc>,
        /// Whether a turn of any screw does as much as one of any other; not taken if not stated.
        screws_alike: Option<bool>,
        /// The vacuum behind each.
        vacuum: Option<BalanceVacuumDoc>,
        /// The flow through each.
        flow: Option<BalanceFlowDoc>,
        /// What must be right beforehand and is no step of its own; what is left out is not known.
        #[cfg_attr(feature = "schema", schemars(default))]
        beforehand: Option<BeforehandDoc>,
        /// What is known of openings and cylinders, with the vacuum, so that what is no matter of a throttle
        /// is told.
        #[cfg_attr(feature = "schema", schemars(default))]
        cylinders: Option<CylindersDoc>,
        /// The decision rule of the verdicts; simple acceptance, and listed, if not stated.
        rule: Option<W<BalanceRule>>,
        /// The unit in which vacuum is said; kPa if not stated.
        unit: Option<W<VacuumUnit>>,
    }
    /// Two throttles and what joins them.
    JointDoc {
        /// Their names.
        between: Vec<String>,
        by: W<JoinedByWord>,
        /// What a clockwise turn of the screw does, if that is known.
        clockwise: Option<W<TurnWord>>,
    }
    /// Vacuum as read behind each throttle, at one speed of the engine.
    BalanceVacuumDoc {
        /// One list for each throttle.
        readings: Vec<ThrottleVacuumDoc>,
        /// Standard deviation of a single reading; from the readings if neither it nor a swing is stated.
        scatter: Option<Q<PressureDifference>>,
        /// The ends between which the needle swings.
        swing: Option<VacuumSwingDoc>,
        /// Standard deviation from gauge to gauge where each throttle has its own; one gauge is assumed,
        /// and listed, if not stated.
        between_gauges: Option<Q<PressureDifference>>,
        /// Screws turned by a known amount.
        trials: Option<Vec<VacuumTrialDoc>>,
        /// By how much the greatest may be over the least.
        allowed: Option<Q<PressureDifference>>,
    }
    /// What a gauge showed behind a throttle, once for each look.
    ThrottleVacuumDoc { throttle: String, shows: Vec<Q<Vacuum>> }
    /// The ends between which a needle swings.
    VacuumSwingDoc { from: Q<Vacuum>, to: Q<Vacuum> }
    /// A screw turned by a known amount.
    VacuumTrialDoc {
        /// The throttles on either side of the screw.
        between: Vec<String>,
        /// How far, positive clockwise.
        turn: Q<ScrewAngle>,
        /// What a throttle beyond it showed before.
        before: Q<Vacuum>,
        /// And after.
        after: Q<Vacuum>,
        /// What a throttle that did not move showed before.
        unmoved_before: Option<Q<Vacuum>>,
        /// And after.
        unmoved_after: Option<Q<Vacuum>>,
    }
    /// Flow as read through each throttle, at one speed of the engine.
    BalanceFlowDoc {
        /// One list for each throttle.
        readings: Vec<ThrottleFlowDoc>,
        /// Standard deviation of a single reading; from the readings if neither it nor a swing is stated.
        scatter: Option<Q<AirFlowDifference>>,
        /// The ends between which the needle swings.
        swing: Option<FlowSwingDoc>,
        /// Standard deviation from gauge to gauge where each throttle has its own; one gauge is assumed,
        /// and listed, if not stated.
        between_gauges: Option<Q<AirFlowDifference>>,
        /// Screws turned by a known amount.
        trials: Option<Vec<FlowTrialDoc>>,
        /// By how much the greatest may be over the least.
        allowed: Option<Q<AirFlowDifference>>,
    }
    /// What a gauge showed at a throttle, once for each look.
    ThrottleFlowDoc { throttle: String, shows: Vec<Q<AirFlow>> }
    /// The ends between which a needle swings.
    FlowSwingDoc { from: Q<AirFlow>, to: Q<AirFlow> }
    /// A screw turned by a known amount.
    FlowTrialDoc {
        /// The throttles on either side of the screw.
        between: Vec<String>,
        /// How far, positive clockwise.
        turn: Q<ScrewAngle>,
        /// What a throttle beyond it showed before.
        before: Q<AirFlow>,
        /// And after.
        after: Q<AirFlow>,
        /// What a throttle that did not move showed before.
        unmoved_before: Option<Q<AirFlow>>,
        /// And after.
        unmoved_after: Option<Q<AirFlow>>,
    }
}

const AT: &str = "/mixture/balance";

/// The balance in typed values.
pub(super) fn balance(doc: BalanceDoc, problems: &mut Vec<Problem>) -> Option<Balance> {
    let faults = problems.len();
    let mut made = Balance::default();
    for (i, name) in doc.throttles.iter().enumerate() {
        if doc.throttles.iter().take(i).any(|other| other == name) {
            problems.push(Problem::new(
                format!("{AT}/throttles/{i}"),
                "mixture.same-throttle-name",
                format!("two throttles are called \"{name}\""),
                "give each its own name",
            ));
        }
    }
    let names = &doc.throttles;
    let reference = named(names, &doc.reference, format!("{AT}/reference"), problems);
    made.reference = reference.unwrap_or(0);
    if is_short(&doc.joints, &format!("{AT}/joints"), problems) {
        for (i, joint) in doc.joints.iter().enumerate() {
            let place = format!("{AT}/joints/{i}/between");
            let Some(between) = pair(names, &joint.between, &place, problems) else {
                continue;
            };
            let clockwise_opens = joint.clockwise.map(|word| word.0 == TurnWord::Opens);
            let by = match joint.by.0 {
                JoinedByWord::Screw => JoinedBy::Screw { clockwise_opens },
                JoinedByWord::Shaft => JoinedBy::Rigidly,
            };
            made.joints.push(Joint { between, by });
        }
    }
    made.screws_alike = doc.screws_alike.unwrap_or(false);
    made.unit = doc.unit.map_or_else(VacuumUnit::default, |word| word.0);
    made.beforehand = doc.beforehand.as_ref().map(beforehand).unwrap_or_default();
    if let Some(doc) = doc.cylinders {
        made.cylinders = cylinders(doc, names, problems);
    }
    if problems.len() > faults {
        return None;
    }
    let rule = doc.rule.map(|word| match word.0 {
        BalanceRule::Simple => DecisionRule::simple(),
        BalanceRule::Iso14253 => DecisionRule::iso_14253_1(),
    });
    made.read = match (doc.vacuum, doc.flow) {
        (None, None) => None,
        (Some(doc), None) => {
            let check = check(
                read_doc!(doc),
                names,
                &made.joints,
                rule,
                "vacuum",
                problems,
            )?;
            Some(BalanceRead::Vacuum(check))
        }
        (None, Some(doc)) => {
            let check = check(read_doc!(doc), names, &made.joints, rule, "flow", problems)?;
            Some(BalanceRead::Flow(check))
        }
        (Some(_), Some(_)) => {
            problems.push(Problem::new(
                AT,
                "mixture.one-way-of-reading",
                "the throttles are read both by vacuum and by flow",
                "give one of vacuum and flow",
            ));
            None
        }
    };
    made.throttles = doc.throttles;
    (problems.len() == faults).then_some(made)
}

fn pair(
    names: &[String],
    pair: &[String],
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<[usize; 2]> {
    let [one, other] = pair else {
        problems.push(Problem::new(
            place,
            "mixture.two-throttles",
            format!(
                "{} throttles are named, a screw or shaft sits between two",
                pair.len()
            ),
            "name two throttles",
        ));
        return None;
    };
    let one = named(names, one, format!("{place}/0"), problems);
    let other = named(names, other, format!("{place}/1"), problems);
    Some([one?, other?])
}

fn named(
    names: &[String],
    name: &str,
    place: String,
    problems: &mut Vec<Problem>,
) -> Option<usize> {
    let found = names.iter().position(|own| own == name);
    if found.is_none() {
        let known: Vec<&str> = names.iter().map(String::as_str).collect();
        let message = format!("no throttle is called \"{name}\"");
        problems.push(unknown(
            place,
            "mixture.no-such-throttle",
            &message,
            name,
            &known,
        ));
    }
    found
}

/// Where a field stands in the mixture section.
pub(super) fn pointer(field: BalanceField) -> String {
    use BalanceField as F;
    let read = |way: BalanceWay, rest: &str| match way {
        BalanceWay::Flow => format!("/flow{rest}"),
        _ => format!("/vacuum{rest}"),
    };
    let rest = match field {
        F::Throttles => "/throttles".into(),
        F::Reference => "/reference".into(),
        F::Joints => "/joints".into(),
        F::Joint(i) => format!("/joints/{i}"),
        F::Readings(way) => read(way, "/readings"),
        F::Reading(way, i) => read(way, &format!("/readings/{i}")),
        F::Shown(way, i, j) => read(way, &format!("/readings/{i}/shows/{j}")),
        F::Trials(way) => read(way, "/trials"),
        F::Trial(way, i) => read(way, &format!("/trials/{i}")),
        F::Allowed(way) => read(way, "/allowed"),
        F::Cylinders(field) => format!("/cylinders{}", cylinders::pointer(field)),
        _ => String::new(),
    };
    format!("/balance{rest}")
}
