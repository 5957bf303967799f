//! What every question of the condition section knows of the engine and its air.

use super::Elsewhere;
use super::events::Running;
use super::place::ConditionPlace;
use super::request::Condition;
use crate::condition::compression::{Cranking, HeadRows};
use crate::engine::{CylinderLabel, Engine, SliderCrank};
use crate::job::assumptions::Assumptions;
use crate::job::mixture::MixturePlace;
use crate::job::mixture::around;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::quantity::{AbsolutePressure, CrankAngle, Length, Volume};
use crate::tolerance::{Estimate, Uncertainty};
use crate::valve::ValveKind;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Standard uncertainty of a barometer, and of what the height alone says, in kilopascals. Common practice, no
/// source.
const BAROMETER: f64 = 0.3;
const WEATHER: f64 = 1.0;
/// That of a printed compression ratio, and of a printed closing, in degrees. This library's choice.
const RATIO: f64 = 0.1;
const CLOSING: f64 = 5.0;
/// Most of a ratio's that is taken.
const MOST_RATIO_U: f64 = 2.0;

/// What is known of the engine and its air.
pub(super) struct Ground<'r> {
    pub(super) engine: &'r Engine,
    /// Its dimensions, if the ratio is stated.
    pub(super) cranking: Option<Cranking>,
    pub(super) air: Option<Estimate<AbsolutePressure>>,
    pub(super) crank: Option<SliderCrank>,
    pub(super) bore: Option<Length>,
    /// Where the intake closes on each cylinder whose lash was read.
    pub(super) closings: Vec<(CylinderLabel, Estimate<CrankAngle>)>,
    /// Whether lengths are said in inches.
    pub(super) inches: bool,
    pub(super) swept: Option<Volume>,
    pub(super) rows: HeadRows,
    /// Cylinders of which leak-down was read.
    pub(super) leak_read: Vec<&'r CylinderLabel>,
}

impl<'r> Ground<'r> {
    /// Gathers it.
    pub(super) fn of(
        asked: &'r Condition,
        elsewhere: Elsewhere<'r>,
        running: Option<&Running>,
        assumptions: &mut Assumptions,
        problems: &mut Vec<Problem>,
    ) -> Option<Self> {
        let leak_read = asked.leak.iter().flat_map(|leak| &leak.readings);
        let air = air(asked, elsewhere, assumptions, problems)?;
        let mean = running.map(|running| running.mean);
        let closes = closes(asked, elsewhere, mean, assumptions);
        let crank = crank(elsewhere.engine);
        if let Some(u) = asked.ratio_u
            && !(0.0..=MOST_RATIO_U).contains(&u)
        {
            problems.push(Problem::new(
                Place::Condition(ConditionPlace::RatioUncertainty),
                "condition.ratio-uncertainty",
                format!("a standard uncertainty of {u} of the compression ratio is outside 0 to {MOST_RATIO_U}"),
                "give by how much the ratio may be off, such as 0.2",
            ));
            return None;
        }
        let cranking = asked.ratio.map(|ratio| {
            if asked.ratio_u.is_none() {
                assumptions.add(
                    "condition.ratio-uncertainty-assumed",
                    format!(
                        "the compression ratio is taken as right to a standard deviation of {RATIO}"
                    ),
                );
            }
            Cranking {
                ratio,
                ratio_u: asked.ratio_u.unwrap_or(RATIO),
                crank,
                intake_closes_abdc: closes,
                air,
            }
        });
        let rows = match &asked.heads {
            Some(rows) => {
                let labels = rows.rows().iter().flatten();
                let place = ConditionPlace::Heads;
                let strangers = labels.filter_map(|l| stranger(elsewhere.engine, l, place));
                let strangers: Vec<Problem> = strangers.collect();
                if !strangers.is_empty() {
                    problems.extend(strangers);
                    return None;
                }
                rows.clone()
            }
            None => rows(elsewhere.engine, assumptions),
        };
        Some(Self {
            engine: elsewhere.engine,
            cranking,
            air,
            crank,
            bore: asked.bore,
            closings: running.map_or_else(Vec::new, |running| running.each.clone()),
            inches: elsewhere.inches,
            swept: asked.swept,
            rows,
            leak_read: leak_read.map(|one| &one.cylinder).collect(),
        })
    }

    /// Cylinders of the engine that are not in a list.
    pub(super) fn not_in(&self, read: &[&CylinderLabel]) -> Vec<String> {
        let all = self.engine.cylinders().iter().map(|c| &c.label);
        let others = all.filter(|label| !read.contains(label));
        others.map(|label| format!("cylinder {label}")).collect()
    }
}

/// That a cylinder is none of the engine's.
pub(super) fn stranger(
    engine: &Engine,
    label: &CylinderLabel,
    place: ConditionPlace,
) -> Option<Problem> {
    if engine.index_of(label).is_some() {
        return None;
    }
    let known = engine.cylinders().iter().map(|c| c.label.as_str());
    let known: Vec<&str> = known.collect();
    Some(Problem::new(
        Place::Condition(place),
        "job.no-such-cylinder",
        format!("there is no cylinder {label}"),
        format!("known: {}", known.join(", ")),
    ))
}

/// The crank, if all cylinders have one and the same.
pub(super) fn crank(engine: &Engine) -> Option<SliderCrank> {
    let mut all = engine.cylinders().iter().map(|c| c.crank);
    let first = all.next()??;
    all.all(|other| other == Some(first)).then_some(first)
}

#[expect(
    clippy::option_option,
    reason = "outside: whether what was stated can be; inside: whether any was"
)]
fn air(
    asked: &Condition,
    elsewhere: Elsewhere<'_>,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<Option<Estimate<AbsolutePressure>>> {
    let own = asked
        .air
        .map(|air| (air, Place::Condition(ConditionPlace::Air)));
    let other = elsewhere
        .air
        .map(|air| (air, Place::Mixture(MixturePlace::Air)));
    let Some((stated, place)) = own.or(other) else {
        return Some(None);
    };
    let found = around(&stated, place.clone(), assumptions, problems)?;
    let u = if stated.barometer.is_some() {
        BAROMETER
    } else {
        WEATHER
    };
    let u = Uncertainty::from_number(u);
    let made = u.and_then(|u| Estimate::between(found.pressure, found.pressure, u));
    match made {
        Ok(made) => Some(Some(made)),
        Err(why) => {
            problems.push(Problem::at(place, &why));
            None
        }
    }
}

/// Where the intake closes: as it is stated, as the lash lets it, or as it is printed for the valves.
fn closes(
    asked: &Condition,
    elsewhere: Elsewhere<'_>,
    running: Option<Estimate<CrankAngle>>,
    assumptions: &mut Assumptions,
) -> Option<Estimate<CrankAngle>> {
    let usual = Uncertainty::from_number(CLOSING).ok()?;
    if let Some(stated) = asked.intake_closes {
        if asked.intake_closes_u.is_none() {
            assumptions.add(
                "condition.closing-uncertainty",
                format!(
                    "the closing of the intake is taken as right to a standard deviation of {CLOSING} degrees"
                ),
            );
        }
        let u = asked.intake_closes_u.unwrap_or(usual);
        return Estimate::between(stated, stated, u).ok();
    }
    if let Some(running) = running {
        assumptions.add(
            "condition.closing-running",
            "the intake is taken to close where the lash that was read lets it, on the mean of the cylinders",
        );
        return Some(running);
    }
    let events = elsewhere.printed?;
    let printed = events.closes(ValveKind::Intake).degrees() - 540.0;
    let printed = CrankAngle::from_degrees(printed).ok()?;
    assumptions.add(
        "condition.closing-printed",
        format!(
            "the intake is taken to close as printed for the valves, right to a standard deviation of {CLOSING} degrees; more clearance closes it earlier"
        ),
    );
    Estimate::between(printed, printed, usual).ok()
}

/// Rows by the layout.
fn rows(engine: &Engine, assumptions: &mut Assumptions) -> HeadRows {
    let rows = HeadRows::of_engine(engine);
    if rows.rows().iter().any(|row| row.len() > 1) {
        let said = |row: &Vec<CylinderLabel>| {
            let labels: Vec<&str> = row.iter().map(CylinderLabel::as_str).collect();
            labels.join("-")
        };
        let said: Vec<String> = rows.rows().iter().map(said).collect();
        assumptions.add(
            "condition.rows-as-listed",
            format!(
                "cylinders are taken to stand as they are listed, those of a row under one head: {}",
                said.join(", ")
            ),
        );
    }
    rows
}
