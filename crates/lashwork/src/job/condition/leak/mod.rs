//! Leak-down: how large each leak is, by the printed rule or by its area, and where it goes.

mod advise;
mod answer;
pub(super) mod sheet;
mod tester;

pub use answer::{LeakCylinderReport, LeakDownReport};
pub use tester::{LeakTester, OrificeKnown};

use super::ground::{Ground, stranger};
use super::place::{ConditionPlace, LeakField};
use super::{ForRecord, GaugeUnit};
use crate::condition::leak::{Hiss, LeakError, LeakReading, LeakRule, LeakTest, RuleBy};
use crate::engine::CylinderLabel;
use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing, WorkAdvice};
use crate::quantity::{Area, GaugePressure, Length};
use crate::tolerance::{Estimate, Uncertainty, Verdict};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What a tester showed of the cylinders.
///
/// ```
/// use lashwork::condition::leak::RuleBy;
/// use lashwork::job::condition::LeakDown;
/// let asked = LeakDown::default();
/// assert!(asked.rule.is_none() && asked.by == RuleBy::Area);
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct LeakDown {
    /// The tester of the readings that name none of their own.
    pub tester: Option<LeakTester>,
    /// One for each cylinder that was read.
    pub readings: Vec<LeakDownReading>,
    /// A printed rule.
    pub rule: Option<LeakDownRule>,
    /// What the rule is held against: the area, if not stated.
    pub by: RuleBy,
    /// Standard deviation of the tester's gauge.
    pub gauge: Option<Uncertainty<GaugePressure>>,
    /// Whether the engine was warm.
    pub warm: Option<bool>,
    /// The unit in which pressures are said.
    pub unit: GaugeUnit,
}

impl Default for LeakDown {
    fn default() -> Self {
        Self {
            tester: None,
            readings: Vec::new(),
            rule: None,
            by: RuleBy::Area,
            gauge: None,
            warm: None,
            unit: GaugeUnit::default(),
        }
    }
}

/// What a tester showed of a cylinder.
///
/// ```
/// use lashwork::engine::CylinderLabel;
/// use lashwork::job::condition::LeakDownReading;
/// use lashwork::quantity::GaugePressure;
/// let shown = GaugePressure::parse("72 psi")?;
/// let one = LeakDownReading {
///     cylinder: CylinderLabel::numbered(1), tester: None, shown, held: true, hisses: vec![],
/// };
/// assert!(one.held);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct LeakDownReading {
    /// The cylinder.
    pub cylinder: CylinderLabel,
    /// The tester, if it is another than that of the rest.
    pub tester: Option<LeakTester>,
    /// What stands in the cylinder.
    pub shown: GaugePressure,
    /// The piston was held at top dead centre of its compression stroke.
    pub held: bool,
    /// Where it hissed.
    pub hisses: Vec<Hiss>,
}

/// A printed rule for leak-down.
///
/// ```
/// use lashwork::job::condition::LeakDownRule;
/// assert_ne!(LeakDownRule::OfBore, LeakDownRule::Printed {
///     supply: "80 psi".parse()?, orifice: "0.040 in".parse()?, least: "60 psi".parse()?,
/// });
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum LeakDownRule {
    /// 60 of 80 psi with the orifice for the bore, as quoted from FAA AC 43.13-1B.
    OfBore,
    /// Another.
    Printed {
        /// What is supplied.
        supply: GaugePressure,
        /// Diameter of the orifice of the rule's tester.
        orifice: Length,
        /// The least that must stand in the cylinder.
        least: GaugePressure,
    },
}

/// Works it out; `valves` is where the valve clearances stand.
pub(super) fn report(
    asked: &LeakDown,
    ground: &Ground<'_>,
    valves: Option<Standing>,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<LeakDownReport> {
    let count = problems.len();
    for (i, one) in asked.readings.iter().enumerate() {
        problems.extend(stranger(
            ground.engine,
            &one.cylinder,
            at(LeakField::Cylinder(i)),
        ));
    }
    let testers = tester::Testers {
        asked,
        ground,
        gauge: asked.gauge,
    };
    let mut readings = Vec::new();
    for (i, one) in asked.readings.iter().enumerate() {
        let found = testers.of(i, one, assumptions);
        match found {
            Ok(tester) => readings.push(LeakReading {
                cylinder: one.cylinder.clone(),
                tester,
                shown: one.shown,
                held: one.held,
                hisses: one.hisses.clone(),
            }),
            Err(problem) if problems.contains(&problem) => {}
            Err(problem) => problems.push(problem),
        }
    }
    let rule = match asked.rule {
        None => None,
        Some(rule) => made(rule, (ground, asked.unit), problems),
    };
    if problems.len() > count {
        return None;
    }
    let test = LeakTest {
        readings,
        rows: ground.rows.clone(),
        air: ground.air,
        gauge: asked.gauge,
        rule: rule.map(|rule| (rule, asked.by)),
        warm: asked.warm,
    };
    let answer = test.answered();
    let answer = answer.map_err(|why| problems.push(refused(place(&why, asked), &why, asked.unit)));
    let answer = answer.ok()?;
    assumptions.add_all(&answer.assumptions);
    let read: Vec<&CylinderLabel> = asked.readings.iter().map(|one| &one.cylinder).collect();
    let told = advise::Told {
        asked,
        answer: &answer,
        rule: rule.as_ref(),
        ground,
        valves,
        before,
        not_read: ground.not_in(&read),
    };
    Some(told.report())
}

fn made(
    rule: LeakDownRule,
    (ground, unit): (&Ground<'_>, GaugeUnit),
    problems: &mut Vec<Problem>,
) -> Option<LeakRule> {
    let rule = match (rule, ground.bore) {
        (
            LeakDownRule::Printed {
                supply,
                orifice,
                least,
            },
            _,
        ) => LeakRule::new(supply, orifice, least),
        (LeakDownRule::OfBore, Some(bore)) => LeakRule::ac_43_13(bore),
        (LeakDownRule::OfBore, None) => {
            problems.push(no_bore(LeakField::Rule));
            return None;
        }
    };
    let rule = rule
        .map_err(|why| problems.push(refused(Place::Condition(at(LeakField::Rule)), &why, unit)));
    rule.ok()
}

/// A refusal that says pressures in the unit of the document.
fn refused(place: Place, why: &LeakError, unit: GaugeUnit) -> Problem {
    let mut problem = Problem::at(place, why);
    let said = |pressure: GaugePressure| unit.shown(pressure);
    let message = match why {
        LeakError::OverSupply { shown, supply } => format!(
            "{} in the cylinder is over the {} that is supplied",
            said(*shown),
            said(*supply)
        ),
        LeakError::HoldsNothing { shown, supply } => format!(
            "{} of {} in the cylinder is nothing: a valve is open, or the air goes elsewhere",
            said(*shown),
            said(*supply)
        ),
        LeakError::Supply { supply, min, max } => format!(
            "a supply of {} is outside {} to {}",
            said(*supply),
            unit.say(*min),
            unit.say(*max)
        ),
        LeakError::Rule { least, supply } => format!(
            "a least of {} with a supply of {} is no rule",
            said(*least),
            said(*supply)
        ),
        LeakError::OtherSupply { rule, tester } => format!(
            "the rule is for a supply of {}, the tester has {}",
            said(*rule),
            said(*tester)
        ),
        _ => return problem,
    };
    problem.message = message;
    problem
}

/// That a bore is needed.
fn no_bore(field: LeakField) -> Problem {
    Problem::new(
        Place::Condition(at(field)),
        "condition.leak-no-bore",
        "what goes by the bore needs the bore",
        "give \"bore\" in the condition section, or the orifice itself",
    )
}

const fn at(field: LeakField) -> ConditionPlace {
    ConditionPlace::Leak(field)
}

/// The area of each leak, for the record of the years, or why it does not go there.
pub(super) fn areas(asked: &LeakDown, found: &LeakDownReport) -> Result<ForRecord<Area>, String> {
    if asked.warm == Some(false) {
        return Err(String::from(
            "the engine was cold: cold rings leak more than warm ones",
        ));
    }
    let tester = |read: &LeakDownReading| read.tester.or(asked.tester);
    let first = asked.readings.first().and_then(tester);
    let usual = asked.tester.or(first);
    let (mut readings, mut others) = (Vec::new(), Vec::new());
    for (read, one) in asked.readings.iter().zip(&found.cylinders) {
        if tester(read) != usual {
            others.push(one.name.as_str());
        } else if let Ok(area) = Estimate::from_numbers(one.area_mm2, one.area_mm2, one.area_u_mm2)
        {
            readings.push((read.cylinder.clone(), area));
        }
    }
    let but = (!others.is_empty()).then(|| {
        format!(
            "the leak of {} does not count here: it was read with another tester",
            others.join(", ")
        )
    });
    Ok(ForRecord { readings, but })
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &LeakDownReport) -> (Standing, String) {
    let judged = || found.cylinders.iter().filter_map(|one| one.judged.as_ref());
    let standing = if judged().any(|one| one.verdict != Verdict::InBand) {
        Standing::NotSettled
    } else if found.provisional.is_some()
        || !found.not_read.is_empty()
        || judged().count() < found.cylinders.len()
    {
        Standing::NotKnown
    } else {
        Standing::Settled
    };
    let lead = found.provisional.as_ref().map_or("", |_| "provisional: ");
    (standing, format!("{lead}{}", found.verdict_text))
}

/// Whether there is nothing to do on its account for now.
pub(super) fn may_stay(found: &LeakDownReport) -> bool {
    matches!(found.advice, WorkAdvice::Leave { .. })
}

/// Where a refusal belongs.
fn place(why: &LeakError, asked: &LeakDown) -> Place {
    use LeakError as E;
    use LeakField as F;
    let last = |label: &CylinderLabel, field: fn(usize) -> F| {
        let at = asked.readings.iter().rposition(|r| r.cylinder == *label);
        at.map_or(F::Readings, field)
    };
    let showing = |shown: &GaugePressure| {
        let at = asked.readings.iter().position(|r| r.shown == *shown);
        at.map_or(F::Readings, F::Shown)
    };
    let field = match why {
        E::NoReading => F::Readings,
        E::ReadTwice { cylinder } => last(cylinder, F::Cylinder),
        E::NotHeld { cylinder } => last(cylinder, F::Held),
        E::OverSupply { shown, .. } | E::HoldsNothing { shown, .. } => showing(shown),
        E::Supply { .. } | E::Orifice { .. } => F::Tester,
        E::Rule { .. } | E::OtherSupply { .. } | E::OtherOrifice { .. } => F::Rule,
        E::TwoTesters { other, .. } => last(other, F::Reading),
        E::Air { .. } => return Place::Condition(ConditionPlace::Air),
        _ => F::Section,
    };
    Place::Condition(at(field))
}
