//! How evenly carburettors or throttles share the work: which screw, which way and how far.

mod advise;
mod answer;
mod before;
mod cylinders;
mod place;
pub(super) mod sheet;
mod words;

pub use answer::{
    BalanceBeforeReport, BalanceReport, BalanceShaftReport, BalanceTurnReport,
    ThrottleCylinderReport, ThrottleReport,
};
pub use cylinders::{Cylinders, OpeningKnown, ThrottleFlow};

use super::VacuumUnit;
use super::place::{BalanceField, BalanceWay, MixturePlace};
use crate::engine::CylinderLabel;
use crate::job::assumptions::{Assumptions, TakenForGranted};
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing, WorkAdvice};
use crate::mixture::balance::{
    BalanceAnswer, BalanceAssumption, BalanceCheck, BalanceError, Beforehand, Joint, Linkage, Shown,
};
use crate::quantity::{AbsolutePressure, AirFlow, Vacuum};
use crate::tolerance::{DecisionRule, HasLimits, Measurand, Verdict};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use before::Ground;
use words::Words;

/// The throttles, what joins them, and what was read.
///
/// ```
/// use lashwork::job::mixture::Balance;
/// use lashwork::mixture::balance::Joint;
/// let mut asked = Balance::default();
/// asked.throttles = vec!["left".into(), "right".into()];
/// asked.joints = vec![Joint::screw(0, 1)];
/// assert!(asked.read.is_none());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Balance {
    /// Their names.
    pub throttles: Vec<String>,
    /// The one to which the others are set, counted from 0.
    pub reference: usize,
    /// What joins them.
    pub joints: Vec<Joint>,
    /// Whether a turn of any screw does as much as one of any other.
    pub screws_alike: bool,
    /// What must be right beforehand. Where nothing is said of clearances, ignition or fuel level, their
    /// steps say it; compression is also what was found for the vacuum gauge.
    pub beforehand: Beforehand,
    /// What was read; its air is that around, where none is stated.
    pub read: Option<BalanceRead>,
    /// What is known of the openings and of the cylinders, so that what is no matter of a throttle is told.
    pub cylinders: Option<Cylinders>,
    /// The unit in which vacuum is said.
    pub unit: VacuumUnit,
}

/// What the throttles are compared by.
///
/// ```
/// use lashwork::job::mixture::BalanceRead;
/// use lashwork::mixture::balance::BalanceCheck;
/// use lashwork::quantity::Vacuum;
/// let check = BalanceCheck::<Vacuum> {
///     readings: Vec::new(), scatter: None, between_gauges: None, trials: Vec::new(),
///     allowed: None, rule: None, ambient: None,
/// };
/// assert!(matches!(BalanceRead::Vacuum(check), BalanceRead::Vacuum(_)));
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum BalanceRead {
    /// The vacuum behind each.
    Vacuum(BalanceCheck<Vacuum>),
    /// The flow through each.
    Flow(BalanceCheck<AirFlow>),
}

/// What the rest of the document says.
#[derive(Clone, Copy)]
pub(super) struct Elsewhere<'r> {
    pub(super) ambient: Option<AbsolutePressure>,
    /// Where the steps before it stand.
    pub(super) valves: Option<Standing>,
    pub(super) timing: Option<Standing>,
    pub(super) float: Option<Standing>,
    /// Whether compression was found even.
    pub(super) compression: Option<bool>,
    /// How many cylinders the engine has.
    pub(super) cylinders: usize,
    /// Cylinders of which that is certain, and whether it is wrong.
    pub(super) by_cylinder: &'r [(CylinderLabel, bool)],
}

/// Works it out.
pub(super) fn report(
    asked: &Balance,
    elsewhere: Elsewhere<'_>,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<BalanceReport> {
    let made = Linkage::new(asked.throttles.len(), &[asked.reference], &asked.joints);
    let mut linkage = made
        .map_err(|refused| note(&refused, place::of_linkage, problems))
        .ok()?;
    if asked.screws_alike {
        linkage = linkage.screws_alike();
    }
    let ground = Ground::of(asked.beforehand, elsewhere, before);
    let asking = Asking {
        linkage: &linkage,
        ambient: elsewhere.ambient,
        ground: &ground,
    };
    match &asked.read {
        None => Some(advise::not_read(&ground)),
        Some(BalanceRead::Vacuum(check)) => {
            let say = |kilopascals: f64| asked.unit.say(kilopascals);
            let words = Words::of(asked, "kpa", &say);
            let (mut made, answer) =
                asking.worked_out(check, BalanceWay::Vacuum, &words, assumptions, problems)?;
            if let (Some(cylinders), Some(answer)) = (&asked.cylinders, answer) {
                let throttles = &asked.throttles;
                let cylinders =
                    &cylinders::with_compression(cylinders, throttles, elsewhere, assumptions);
                let read = cylinders::report(
                    cylinders,
                    &answer,
                    &ground,
                    &words,
                    elsewhere.ambient,
                    assumptions,
                    problems,
                )?;
                let wrong = cylinders::found_wrong(&cylinders.found, &words);
                advise::with_cylinders(&mut made, read, wrong);
            }
            Some(made)
        }
        Some(BalanceRead::Flow(check)) => {
            if asked.cylinders.is_some() {
                problems.push(cylinders::needs_vacuum());
                return None;
            }
            let say = |kilograms: f64| format!("{kilograms:.2} kg/h");
            let words = Words::of(asked, "kg_per_h", &say);
            let made = asking.worked_out(check, BalanceWay::Flow, &words, assumptions, problems);
            made.map(|(made, _)| made)
        }
    }
}

/// What is asked, whatever it was read in.
struct Asking<'r> {
    linkage: &'r Linkage,
    ambient: Option<AbsolutePressure>,
    ground: &'r Ground,
}

impl Asking<'_> {
    fn worked_out<R: Shown>(
        &self,
        check: &BalanceCheck<R>,
        way: BalanceWay,
        words: &Words<'_>,
        assumptions: &mut Assumptions,
        problems: &mut Vec<Problem>,
    ) -> Option<(BalanceReport, Option<BalanceAnswer<R>>)> {
        let mut check = check.clone();
        check.ambient = check.ambient.or(self.ambient);
        let place = |why: &BalanceError| place::of_readings(why, &check, way);
        let is_open = |why: &BalanceError| {
            matches!(why, BalanceError::NotRead { .. } | BalanceError::NoScatter)
        };
        let answer = match check.worked_out(self.linkage) {
            // While throttles are still being read there is nothing wrong with that.
            Err(refused) if refused.iter().all(is_open) => {
                let means = check.means(self.linkage.count());
                let means = means.map_err(|why| note(&[why], place, problems)).ok()?;
                let means: Vec<Option<f64>> = means.iter().map(|one| one.map(R::number)).collect();
                let lacks = lacks(&refused, words);
                let reference = self.linkage.reference();
                let begun = advise::begun(&means, reference, lacks, words, self.ground);
                return Some((begun, None));
            }
            found => found
                .map_err(|refused| note(&refused, place, problems))
                .ok()?,
        };
        // Whether the scatter is stated bears on every verdict; the rest on amounts.
        for one in &answer.assumptions {
            if matches!(
                one,
                BalanceAssumption::ScatterFromReadings | BalanceAssumption::OneGauge
            ) {
                assumptions.bears_on_verdict(one.short_name(), format!("{one}"));
            } else {
                assumptions.add_all([one]);
            }
        }
        let rule = check
            .allowed
            .is_some()
            .then(|| rule::<R>(check.rule, assumptions));
        let allowed = check.allowed.map(Measurand::number);
        let made = advise::told(&answer, self.linkage, (allowed, rule), words, self.ground);
        Some((made, Some(answer)))
    }
}

/// What is still to be read.
fn lacks(refused: &[BalanceError], words: &Words<'_>) -> String {
    let unread = refused.iter().filter_map(|why| match why {
        BalanceError::NotRead { throttle } => Some(words.name(*throttle)),
        _ => None,
    });
    let unread: Vec<String> = unread.collect();
    if unread.is_empty() {
        return String::from(
            "read at least one throttle once more, or state by how much single readings differ: how sure a reading \
             is cannot be told yet",
        );
    }
    format!(
        "read {} too, at the same speed of the engine",
        unread.join(", ")
    )
}

/// The rule of the verdicts in words.
fn rule<R: Shown>(stated: Option<DecisionRule>, assumptions: &mut Assumptions) -> &'static str {
    let taken = stated.unwrap_or(R::Difference::USUAL_RULE);
    let words = words::rule(taken.name());
    if stated.is_none() {
        assumptions.bears_on_verdict(
            "mixture.balance-rule",
            format!("decision rule of the balance not stated; taken: {words}"),
        );
    }
    words
}

fn note(
    refused: &[BalanceError],
    place: impl Fn(&BalanceError) -> BalanceField,
    problems: &mut Vec<Problem>,
) {
    problems.extend(refused.iter().map(|why| Problem::at(at(place(why)), why)));
}

const fn at(field: BalanceField) -> Place {
    Place::Mixture(MixturePlace::Balance(field))
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &BalanceReport) -> (Standing, String) {
    let is_ground_wrong = found.beforehand.iter().any(before::is_wrong);
    let standing = match &found.spread {
        _ if is_ground_wrong || matches!(found.advice, WorkAdvice::FindCause { .. }) => {
            Standing::NotSettled
        }
        None => Standing::NotKnown,
        Some(spread) if spread.shown() == Verdict::InBand => Standing::Settled,
        Some(_) => Standing::NotSettled,
    };
    (standing, found.verdict_text.clone())
}
