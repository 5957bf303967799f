//! What a gauge showed at the throttles, in vacuum or in flow, and the screws that were tried.

use super::{AT, named, pair};
use crate::problem::{Problem, is_short, value};
use lashwork::mixture::balance::{
    BalanceCheck, Joint, Shown, ThrottleReading, TrialTurn, scatter_of_swing,
};
use lashwork::quantity::ScrewAngle;
use lashwork::tolerance::{DecisionRule, Uncertainty};

/// What was read, whatever it is read in.
pub(super) struct ReadDoc<R: Shown> {
    pub(super) readings: Vec<(String, Vec<R>)>,
    pub(super) scatter: Option<f64>,
    pub(super) swing: Option<(R, R)>,
    pub(super) between_gauges: Option<f64>,
    pub(super) trials: Vec<TrialDoc<R>>,
    pub(super) allowed: Option<R::Difference>,
}

pub(super) struct TrialDoc<R> {
    pub(super) between: Vec<String>,
    pub(super) turn: ScrewAngle,
    pub(super) before: R,
    pub(super) after: R,
    pub(super) unmoved: (Option<R>, Option<R>),
}

/// Takes the fields from a document of either kind.
macro_rules! read_doc {
    ($doc:ident) => {
        ReadDoc {
            readings: $doc
                .readings
                .into_iter()
                .map(|one| (one.throttle, one.shows.into_iter().map(|it| it.0).collect()))
                .collect(),
            scatter: $doc.scatter.map(|it| it.0.number()),
            swing: $doc.swing.map(|it| (it.from.0, it.to.0)),
            between_gauges: $doc.between_gauges.map(|it| it.0.number()),
            trials: $doc
                .trials
                .unwrap_or_default()
                .into_iter()
                .map(|one| TrialDoc {
                    between: one.between,
                    turn: one.turn.0,
                    before: one.before.0,
                    after: one.after.0,
                    unmoved: (
                        one.unmoved_before.map(|it| it.0),
                        one.unmoved_after.map(|it| it.0),
                    ),
                })
                .collect(),
            allowed: $doc.allowed.map(|it| it.0),
        }
    };
}
pub(super) use read_doc;

/// The readings in typed values.
pub(super) fn check<R: Shown>(
    doc: ReadDoc<R>,
    names: &[String],
    joints: &[Joint],
    rule: Option<DecisionRule>,
    way: &str,
    problems: &mut Vec<Problem>,
) -> Option<BalanceCheck<R>> {
    let faults = problems.len();
    let at = |rest: &str| format!("{AT}/{way}{rest}");
    let mut readings = Vec::new();
    if is_short(&doc.readings, &at("/readings"), problems) {
        for (i, (name, shown)) in doc.readings.into_iter().enumerate() {
            let place = at(&format!("/readings/{i}/throttle"));
            if let Some(throttle) = named(names, &name, place, problems)
                && is_short(&shown, &at(&format!("/readings/{i}/shows")), problems)
            {
                readings.push(ThrottleReading { throttle, shown });
            }
        }
    }
    let mut trials = Vec::new();
    if is_short(&doc.trials, &at("/trials"), problems) {
        for (i, one) in doc.trials.into_iter().enumerate() {
            let place = at(&format!("/trials/{i}/between"));
            let Some(between) = pair(names, &one.between, &place, problems) else {
                continue;
            };
            let [a, b] = between;
            let is_it = |joint: &Joint| joint.between == [a, b] || joint.between == [b, a];
            match joints.iter().position(is_it) {
                Some(joint) => trials.push(TrialTurn {
                    joint,
                    turn: one.turn,
                    before: one.before,
                    after: one.after,
                    unmoved: one.unmoved.0.zip(one.unmoved.1),
                }),
                None => problems.push(Problem::new(
                    place,
                    "mixture.no-such-joint",
                    "no joint is between these two throttles",
                    "name the two throttles on either side of the screw that was turned",
                )),
            }
        }
    }
    let uncertainty = |number: Option<f64>, field: &str, problems: &mut Vec<Problem>| {
        number.and_then(|number| value(problems, at(field), Uncertainty::from_number(number)))
    };
    let stated = uncertainty(doc.scatter, "/scatter", problems);
    let swung = doc
        .swing
        .and_then(|(from, to)| value(problems, at("/swing"), scatter_of_swing(from, to)));
    if stated.is_some() && swung.is_some() {
        problems.push(Problem::new(
            at("/swing"),
            "mixture.scatter-twice",
            "how far the gauge scatters is stated twice",
            "give scatter or swing",
        ));
    }
    let between_gauges = uncertainty(doc.between_gauges, "/between_gauges", problems);
    (problems.len() == faults).then_some(BalanceCheck {
        readings,
        scatter: stated.or(swung),
        between_gauges,
        trials,
        allowed: doc.allowed,
        rule,
        ambient: None,
    })
}
