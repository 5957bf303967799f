//! How evenly carburettors or throttles share the work: which screw, which way and how far.

mod advise;
mod answer;
pub(super) mod sheet;
mod words;

pub use answer::{BalanceReport, BalanceShaftReport, BalanceTurnReport, ThrottleReport};

use super::VacuumUnit;
use super::place::{BalanceField, MixturePlace};
use crate::job::assumptions::{Assumptions, TakenForGranted};
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing};
use crate::mixture::balance::{
    BalanceAnswer, BalanceAssumption, BalanceCheck, BalanceError, Joint, Linkage, Shown,
};
use crate::quantity::{AbsolutePressure, AirFlow, Vacuum};
use crate::tolerance::{Measurand, Verdict};
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;
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
    /// What was read; its air is that around, where none is stated.
    pub read: Option<BalanceRead>,
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

/// Works it out.
pub(super) fn report(
    asked: &Balance,
    ambient: Option<AbsolutePressure>,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<BalanceReport> {
    let made = Linkage::new(asked.throttles.len(), &[asked.reference], &asked.joints);
    let mut linkage = noted(made, problems)?;
    if asked.screws_alike {
        linkage = linkage.screws_alike();
    }
    match &asked.read {
        None => Some(advise::not_read(before)),
        Some(BalanceRead::Vacuum(check)) => {
            let say = |kilopascals: f64| asked.unit.say(kilopascals);
            let words = Words::of(asked, "kpa", &say);
            worked_out(
                check,
                &linkage,
                ambient,
                &words,
                before,
                assumptions,
                problems,
            )
        }
        Some(BalanceRead::Flow(check)) => {
            let say = |kilograms: f64| format!("{kilograms:.2} kg/h");
            let words = Words::of(asked, "kg_per_h", &say);
            worked_out(
                check,
                &linkage,
                ambient,
                &words,
                before,
                assumptions,
                problems,
            )
        }
    }
}

fn worked_out<R: Shown>(
    check: &BalanceCheck<R>,
    linkage: &Linkage,
    ambient: Option<AbsolutePressure>,
    words: &Words<'_>,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<BalanceReport> {
    let mut check = check.clone();
    check.ambient = check.ambient.or(ambient);
    let is_open =
        |why: &BalanceError| matches!(why, BalanceError::NotRead { .. } | BalanceError::NoScatter);
    let answer: BalanceAnswer<R> = match check.worked_out(linkage) {
        // While throttles are still being read there is nothing wrong with that.
        Err(refused) if refused.iter().all(is_open) => {
            let means = noted(
                check.means(linkage.count()).map_err(|why| vec![why]),
                problems,
            )?;
            let means: Vec<Option<f64>> = means.iter().map(|one| one.map(R::number)).collect();
            let lacks = lacks(&refused, words);
            return Some(advise::begun(
                &means,
                linkage.reference(),
                lacks,
                words,
                before,
            ));
        }
        found => noted(found, problems)?,
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
    let allowed = check.allowed.map(Measurand::number);
    Some(advise::told(&answer, linkage, allowed, words, before))
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

fn noted<T>(made: Result<T, Vec<BalanceError>>, problems: &mut Vec<Problem>) -> Option<T> {
    made.map_err(|refused| {
        problems.extend(refused.iter().map(|why| Problem::at(place(why), why)));
    })
    .ok()
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &BalanceReport) -> (Standing, String) {
    let standing = match &found.spread {
        None => Standing::NotKnown,
        Some(spread) if spread.verdict == Verdict::InBand => Standing::Settled,
        Some(_) => Standing::NotSettled,
    };
    (standing, found.verdict_text.clone())
}

/// Where a refusal belongs.
fn place(why: &BalanceError) -> Place {
    use BalanceError as E;
    use BalanceField as F;
    Place::Mixture(MixturePlace::Balance(match why {
        E::Count { .. } => F::Throttles,
        E::NoReference | E::TwoReferences { .. } => F::Reference,
        E::JoinedToItself { joint } | E::Loop { joint, .. } => F::Joint(*joint),
        E::NoPath { .. } => F::Joints,
        E::NoTurn { trial } => F::Trial(*trial),
        E::AgainstSense { .. } | E::NoSuchScrew { .. } => F::Trials,
        E::Allowed { .. } => F::Allowed,
        E::NoSuchThrottle { .. }
        | E::NotRead { .. }
        | E::ReadTwice { .. }
        | E::NoScatter
        | E::BeyondAmbient { .. }
        | E::Nothing { .. } => F::Readings,
        E::Share { .. } | E::Quantity(_) | E::Tolerance(_) => F::Section,
    }))
}
