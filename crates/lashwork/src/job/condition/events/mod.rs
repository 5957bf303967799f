//! Valve events at the lash that was read: where the valves open and close, what compression that leaves, and how
//! both move when valves are set.

mod answer;
mod cam;
mod one;
pub(super) mod sheet;
mod words;

pub use answer::{
    EventAtLashReport, EventsAtLashReport, EventsCylinderReport, EventsMoveReport, EventsReport,
};

use super::place::{ConditionPlace, EventsField};
use crate::engine::{CompressionRatio, CylinderLabel, Engine, SliderCrank};
use crate::events::{EventsError, Flank};
use crate::job::assumptions::Assumptions;
use crate::job::clearance::LashNow;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::quantity::CrankAngle;
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, normal, together};
use crate::valve::{CamEvent, CamEvents};
use alloc::string::String;
use alloc::vec::Vec;
use cam::Cam;
use one::One;
pub(super) use words::moves;

/// How steep the cam is where the lash is taken up; a side that is left out closes as it opens.
///
/// ```
/// use lashwork::events::Flank;
/// use lashwork::job::condition::Events;
/// use lashwork::quantity::Length;
/// let mut asked = Events::default();
/// asked.intake = Some(Flank::ramp(Length::from_mm(0.3)?, Length::from_mm(0.01)?)?);
/// assert!(asked.intake_closing.is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Events {
    /// Where the intake takes up its lash on opening; harmonic lift, if not stated.
    pub intake: Option<Flank>,
    /// Where it comes back on closing.
    pub intake_closing: Option<Flank>,
    /// Where the exhaust takes up its lash on opening; harmonic lift, if not stated.
    pub exhaust: Option<Flank>,
    /// Where it comes back on closing.
    pub exhaust_closing: Option<Flank>,
}

/// What the rest of the document says.
#[derive(Clone, Copy)]
pub(super) struct Elsewhere<'r> {
    pub(super) engine: &'r Engine,
    pub(super) inches: bool,
    pub(super) printed: Option<CamEvents>,
    pub(super) rocker: Option<f64>,
    pub(super) lash: &'r [LashNow],
    pub(super) ratio: Option<CompressionRatio>,
    pub(super) crank: Option<SliderCrank>,
    /// Why the clearances do not stand, if something took them back.
    pub(super) valves_back: Option<&'r str>,
}

/// Where the intake closes by the lash.
pub(super) struct Running {
    /// On the mean of the cylinders.
    pub(super) mean: Estimate<CrankAngle>,
    /// On each cylinder of which that is known on both sides, as far as the lash leaves it open.
    pub(super) each: Vec<(CylinderLabel, Estimate<CrankAngle>)>,
}

/// What is worked out, and where the intake closes by it.
pub(super) type Found = (EventsReport, Option<Running>);

/// Works it out.
pub(super) fn report(
    asked: &Events,
    elsewhere: Elsewhere<'_>,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<Found> {
    let made = found(asked, elsewhere, assumptions);
    made.map_err(|problem| problems.push(problem)).ok()
}

fn found(
    asked: &Events,
    elsewhere: Elsewhere<'_>,
    assumptions: &mut Assumptions,
) -> Result<Found, Problem> {
    let cam = Cam::of(asked, elsewhere, assumptions)?;
    let (cylinders, not_told) = one::gathered(elsewhere, assumptions);
    let Some(first) = cylinders.first() else {
        return Err(Problem::new(
            at(EventsField::Section),
            "condition.events-no-lash",
            "of no cylinder is the lash of both valves known, so where they open and close cannot be told",
            "read an intake and an exhaust valve of one cylinder in the clearance section, between two leaves each",
        ));
    };
    let refused = |why: EventsError| Problem::at(place(&why, asked), &why);
    let mut told = Vec::new();
    let mut closings = Vec::new();
    let mut each = Vec::new();
    for one in &cylinders {
        let now = cam.running(&one.now).map_err(refused)?;
        let set = one.set.as_ref().map(|set| cam.running(set));
        let set = set.transpose().map_err(refused)?;
        assumptions.add_all(&now.assumptions);
        let [_, closes, ..] = &now.events;
        closings.push(known(&closes.running));
        each.push((one.label.clone(), closes.running));
        told.push(words::cylinder(one, &now, set.as_ref(), elsewhere.inches));
    }
    let mean = mean_lash(&cylinders).unwrap_or(first.now);
    let more = cam.more(&mean).map_err(refused)?;
    let closes = closing(&closings).map_err(refused)?;
    if let Some((mean, _)) = closes.as_ref().and_then(known) {
        for (one, (closes, _)) in told.iter_mut().zip(closings.iter().flatten()) {
            one.compression_over_mean_percent = cam.over(mean, *closes);
            one.text
                .extend(one.compression_over_mean_percent.map(words::over_mean));
        }
    }
    let report = EventsReport {
        verdict_text: words::verdict(&told, closes.as_ref(), cam.closes_printed()),
        provisional: elsewhere.valves_back.map(String::from),
        intake_closes: closes.as_ref().and_then(Estimate::centre),
        intake_closes_u: closes.as_ref().map(|it| it.normal_uncertainty().number()),
        cylinders: told,
        more,
        not_told,
    };
    let stands = closes.filter(|_| elsewhere.valves_back.is_none());
    Ok((report, stands.map(|mean| Running { mean, each })))
}

/// The mean lash of the cylinders, of each kind.
fn mean_lash(cylinders: &[One]) -> Option<one::Pair> {
    let mean = |pick: fn(&One) -> Option<(f64, f64)>| {
        let all: Vec<(f64, f64)> = cylinders.iter().filter_map(pick).collect();
        let n = all.len() as f64;
        let sum = all
            .iter()
            .fold((0.0, 0.0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
        normal(sum.0 / n, sum.1 / n).ok()
    };
    let intake = mean(|one| known(&one.now.intake))?;
    let exhaust = mean(|one| known(&one.now.exhaust))?;
    Some(one::Pair { intake, exhaust })
}

/// Where the intake closes on the mean of the cylinders; none if it has one end on any. Its doubt is that of the
/// printed events, of the lash, and how far the cylinders differ.
fn closing(closings: &[Option<(f64, f64)>]) -> Result<Option<Estimate<CrankAngle>>, EventsError> {
    let all: Option<Vec<(f64, f64)>> = closings.iter().copied().collect();
    let Some(all) = all else {
        return Ok(None);
    };
    let n = all.len() as f64;
    let mean = all.iter().map(|one| one.0).sum::<f64>() / n;
    let lash = all.iter().map(|one| one.1).sum::<f64>() / n;
    let square = |one: &(f64, f64)| (one.0 - mean) * (one.0 - mean);
    let apart = libm::sqrt(all.iter().map(square).sum::<f64>() / n);
    Ok(Some(normal(mean, together([cam::PRINTED, lash, apart]))?))
}

const fn at(field: EventsField) -> Place {
    Place::Condition(ConditionPlace::Events(field))
}

/// Where a refusal belongs.
const fn place(why: &EventsError, asked: &Events) -> Place {
    use EventsError as E;
    use EventsField as F;
    let field = match why {
        E::BothBeyondRamp { event } => match event {
            CamEvent::IntakeCloses if asked.intake_closing.is_some() => F::IntakeClosing,
            CamEvent::IntakeOpens | CamEvent::IntakeCloses => F::Intake,
            CamEvent::ExhaustCloses if asked.exhaust_closing.is_some() => F::ExhaustClosing,
            CamEvent::ExhaustOpens | CamEvent::ExhaustCloses => F::Exhaust,
        },
        E::Ratio(_) => return Place::Condition(ConditionPlace::Ratio),
        E::Rocker { .. } => return Place::RockerRatio,
        _ => F::Section,
    };
    at(field)
}
