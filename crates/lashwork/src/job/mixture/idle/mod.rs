//! Idle speed and mixture: where the screw is best, and what to turn next.

mod advise;
mod answer;
mod by_gas;
mod rise;
pub(super) mod sheet;

pub use answer::{
    IdleCrownReport, IdlePointReport, IdleReadReport, IdleReport, IdleRiseReport, RiseRuleReport,
};
pub use rise::Rise;

use super::of_idle::OfIdle;
use super::place::{IdleField, MixturePlace};
use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing};
use crate::mixture::idle::{
    Crown, Fitted, IdleCurve, IdleError, IdleReading, IdleRound, MixtureScrew, Side,
};
use crate::quantity::{Altitude, CrankSpeed, TurnsOut};
use crate::tolerance::{Estimate, Limits, Uncertainty};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Standard uncertainty of a speed that is read off once, where none is stated. Common practice, no source.
const USUAL_SPEED: f64 = 10.0;
/// Points of the curve for drawing.
const DRAWN: usize = 33;

/// Where the book wants the mixture screw.
///
/// ```
/// use lashwork::job::mixture::IdleRule;
/// assert_eq!(IdleRule::default(), IdleRule::Highest);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub enum IdleRule {
    /// Where the engine runs fastest.
    #[default]
    Highest,
    /// So far under the highest speed, on one side.
    Beside(Side, CrankSpeed),
}

/// What was read of the idle, and what the book asks for.
///
/// ```
/// use lashwork::job::mixture::Idle;
/// use lashwork::mixture::idle::MixtureScrew;
/// let asked = Idle::of(MixtureScrew::Fuel, "800 rpm to 900 rpm".parse()?);
/// assert!(asked.now.is_none() && asked.readings.is_empty());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Idle {
    /// What the mixture screw does.
    pub screw: MixtureScrew,
    /// The book's idle speed.
    pub wanted: Limits<CrankSpeed>,
    /// Where the book wants the screw; where the engine runs fastest, and listed, if not stated.
    pub rule: Option<IdleRule>,
    /// Speed against the place of the screw, the throttle stop untouched since.
    pub readings: Vec<IdleReading>,
    /// Standard uncertainty of each; seen from the curve if not stated.
    pub scatter: Option<Uncertainty<CrankSpeed>>,
    /// Where the screw stands now, and how fast the engine runs.
    pub now: Option<IdleReading>,
    /// How far the speed rises on leaning, to be judged by the published rules; not asked if not stated.
    pub rise: Option<Rise>,
}

impl Idle {
    /// The screw and the book's speed, the rest not stated.
    #[must_use]
    pub const fn of(screw: MixtureScrew, wanted: Limits<CrankSpeed>) -> Self {
        Self {
            screw,
            wanted,
            rule: None,
            readings: Vec::new(),
            scatter: None,
            now: None,
            rise: None,
        }
    }
}

/// What the rest of the section says.
#[derive(Clone, Copy)]
pub(super) struct Elsewhere {
    /// How high the place lies.
    pub(super) height: Option<Altitude>,
    /// What the exhaust gas says of the idle mixture.
    pub(super) gas: Option<OfIdle>,
}

/// What the readings came to.
struct Seen {
    curve: Option<IdleCurve>,
    crown: Option<Crown>,
    target: Option<Fitted<TurnsOut>>,
    points: Vec<IdlePointReport>,
    is_lopsided: bool,
}

/// Works it out.
pub(super) fn report(
    asked: &Idle,
    elsewhere: Elsewhere,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<IdleReport> {
    let rule = asked.rule.unwrap_or_else(|| {
        assumptions.add(
            "mixture.idle-rule-assumed",
            "where the book wants the mixture screw is not stated: where the engine runs fastest taken",
        );
        IdleRule::Highest
    });
    let seen = noted(seen(asked, rule, assumptions), problems)?;
    let step = match asked.now {
        None => None,
        Some(now) => {
            let speed = noted(speed(asked, now, assumptions), problems)?;
            let round = IdleRound {
                speed,
                wanted: asked.wanted,
                place: now.place,
                crown: seen.crown,
                target: seen.target,
            };
            let step = noted(round.next_step(), problems)?;
            Some((speed, step))
        }
    };
    // Gas that was read on ground that is not settled sets nothing.
    let gas = elsewhere.gas.filter(|_| before.settle.is_none());
    let by_gas = step.and_then(|(_, step)| by_gas::by_gas(step, gas, asked.screw));
    let found = advise::Found {
        asked,
        rule,
        crown: seen.crown,
        is_lopsided: seen.is_lopsided,
        by_gas,
        before,
    };
    let mut made = found.told(step);
    if let Some(rise) = &asked.rise {
        let stands = rise::Stands {
            is_as_wanted: made.is_done == Some(true) && by_gas.is_none(),
            rule,
        };
        let told = rise::told(
            rise,
            asked,
            seen.curve.as_ref(),
            stands,
            elsewhere.height,
            assumptions,
        );
        let at = Place::Mixture(MixturePlace::Idle(IdleField::Rise));
        let told = told.map_err(|why| problems.push(Problem::at(at, &why)));
        let mut told = told.ok()?;
        if by_gas.is_some() {
            told.text.push_str("; the gas goes before these rules");
        }
        made.rise = Some(told);
    }
    made.points = seen.points;
    // An amount like any other: not on ground that is not settled.
    if before.settle.is_none() && (by_gas.is_none() || asked.rule.is_some()) {
        let target = seen.target.map(|target| target.value.turns());
        made.wanted_turns = target.or_else(|| made.crown.as_ref().map(|top| top.best_turns));
    }
    Some(made)
}

fn seen(asked: &Idle, rule: IdleRule, assumptions: &mut Assumptions) -> Result<Seen, IdleError> {
    let mut made = Seen {
        curve: None,
        crown: None,
        target: None,
        points: Vec::new(),
        is_lopsided: false,
    };
    // While they are still being read there is no curve yet, and nothing wrong with that.
    if asked.readings.len() < IdleCurve::FEWEST {
        return Ok(made);
    }
    let curve = IdleCurve::fitted(&asked.readings, asked.scatter, asked.screw)?;
    let crown = curve.crown()?;
    if matches!(crown, Crown::Seen(_))
        && let IdleRule::Beside(side, by) = rule
    {
        made.target = Some(curve.beside(side, by.rpm())?);
    }
    assumptions.add_all(&curve.assumptions());
    made.crown = Some(crown);
    made.is_lopsided = curve.lopsided().is_some_and(|found| found.clear);
    let points = curve.points(DRAWN)?;
    made.points = points.iter().map(IdlePointReport::of).collect();
    made.curve = Some(curve);
    Ok(made)
}

fn speed(
    asked: &Idle,
    now: IdleReading,
    assumptions: &mut Assumptions,
) -> Result<Estimate<CrankSpeed>, IdleError> {
    let u = if let Some(u) = asked.scatter {
        u
    } else {
        assumptions.bears_on_verdict(
            "mixture.idle-speed-uncertainty",
            format!("uncertainty of the idle speed not stated: {USUAL_SPEED} rpm taken; common practice, no source"),
        );
        Uncertainty::from_number(USUAL_SPEED)?
    };
    Ok(Estimate::between(now.speed, now.speed, u)?)
}

fn noted<T>(made: Result<T, IdleError>, problems: &mut Vec<Problem>) -> Option<T> {
    made.map_err(|why| problems.push(Problem::at(place(&why), &why)))
        .ok()
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &IdleReport) -> (Standing, String) {
    let standing = match found.is_done {
        None => Standing::NotKnown,
        Some(true) => Standing::Settled,
        Some(false) => Standing::NotSettled,
    };
    (standing, found.verdict_text.clone())
}

/// Whether the mixture screw stands where the speed wants it, or is left to the gas against the speed.
pub(super) fn is_left(found: &IdleReport) -> bool {
    found.is_done == Some(true) && found.crown.is_some()
}

/// Where a refusal belongs.
const fn place(why: &IdleError) -> Place {
    use IdleError as E;
    Place::Mixture(MixturePlace::Idle(match why {
        E::Stalled { reading } => IdleField::Reading(*reading),
        E::Change { .. } => IdleField::Rule,
        E::Readings { .. } | E::Places { .. } => IdleField::Readings,
        _ => IdleField::Section,
    }))
}
