//! The cam: printed events, and how steep it is where the lash is taken up.

use super::answer::EventsMoveReport;
use super::one::Pair;
use super::{Elsewhere, Events, at, words};
use crate::condition::compression::{Cranking, Exponent};
use crate::engine::ASSUMED_ROCKER_RATIO;
use crate::events::{EventsError, EventsFound, Flank, RunningEvents, RunningValve};
use crate::job::assumptions::Assumptions;
use crate::job::condition::place::EventsField;
use crate::job::problem::Problem;
use crate::quantity::shown::travel;
use crate::quantity::{CrankAngle, Lash, Length};
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, normal};
use crate::valve::{ASSUMED_LIFT_MM, CamEvent, CamEvents, EventsAt, ValveKind};
use alloc::format;

/// Standard uncertainty of printed events, in degrees. This library's choice.
pub(super) const PRINTED: f64 = 5.0;
/// So much more lash its effect is told for: 0.10 mm, or 0.004 in.
const MORE: f64 = 0.10;
const MORE_INCHES: f64 = 0.1016;

/// A cam on its engine.
pub(super) struct Cam<'r> {
    elsewhere: Elsewhere<'r>,
    printed: CamEvents,
    holds_at: EventsAt,
    /// Opening and closing.
    intake: [Flank; 2],
    exhaust: [Flank; 2],
    /// Whether any flank is taken as harmonic.
    pub(super) is_harmonic: bool,
    rocker: f64,
}

impl<'r> Cam<'r> {
    pub(super) fn of(
        asked: &Events,
        elsewhere: Elsewhere<'r>,
        assumptions: &mut Assumptions,
    ) -> Result<Self, Problem> {
        let not_printed = |what: &str| {
            Problem::new(
                at(EventsField::Section),
                "condition.events-not-printed",
                format!(
                    "{what}, so where the valves open and close at another lash cannot be told"
                ),
                "give \"events\" with \"at\" among the valves of the clearance section",
            )
        };
        let printed = elsewhere.printed;
        let printed = printed.ok_or_else(|| not_printed("no cam events are stated"))?;
        let holds_at = printed.holds_at();
        let holds_at = holds_at.ok_or_else(|| {
            not_printed("it is not stated at which lash or lift the cam events hold")
        })?;
        let harmonic = |kind: ValveKind| {
            let lift = printed.greatest_lift();
            let lift = lift.map_or_else(|| Length::from_mm(ASSUMED_LIFT_MM), Ok);
            let span = printed
                .span(kind, book(elsewhere, kind))
                .unwrap_or(CrankAngle::ZERO);
            let made = lift.map_err(EventsError::from);
            let made = made.and_then(|lift| Flank::harmonic(lift, span));
            made.map_err(|why| Problem::at(at(EventsField::Section), &why))
        };
        let sides = |kind, opening: Option<Flank>, closing: Option<Flank>| {
            let opening = opening.map_or_else(|| harmonic(kind), Ok)?;
            Ok([opening, closing.unwrap_or(opening)])
        };
        let is_harmonic = asked.intake.is_none() || asked.exhaust.is_none();
        if is_harmonic {
            let lift = match printed.greatest_lift() {
                Some(lift) => format!("greatest lift {}", travel(lift.mm(), elsewhere.inches)),
                None => format!(
                    "greatest lift not stated, {} taken",
                    travel(ASSUMED_LIFT_MM, elsewhere.inches)
                ),
            };
            assumptions.add(
                "condition.events-harmonic",
                format!(
                    "the ramp of the cam is not stated: harmonic lift taken ({lift}), which moves the events less than a ramp does"
                ),
            );
        }
        if elsewhere.rocker.is_none() && !(asked.intake.is_none() && asked.exhaust.is_none()) {
            assumptions.add(
                "condition.events-rocker",
                format!(
                    "rocker ratio not stated: {ASSUMED_ROCKER_RATIO} taken between ramp and valve"
                ),
            );
        }
        assumptions.add(
            "condition.events-as-read",
            "the lash is taken as read, at the temperature the book asks for; running, the metal changes it further",
        );
        Ok(Self {
            elsewhere,
            printed,
            holds_at,
            intake: sides(ValveKind::Intake, asked.intake, asked.intake_closing)?,
            exhaust: sides(ValveKind::Exhaust, asked.exhaust, asked.exhaust_closing)?,
            is_harmonic,
            rocker: elsewhere.rocker.unwrap_or(ASSUMED_ROCKER_RATIO),
        })
    }

    /// The events at a lash.
    pub(super) fn running(&self, lash: &Pair) -> Result<EventsFound, EventsError> {
        let valve = |lash: Estimate<Lash>, [opening, closing]: [Flank; 2]| RunningValve {
            lash,
            holds_at: self.holds_at,
            opening,
            closing,
            rocker: self.rocker,
        };
        let events = RunningEvents {
            printed: self.printed,
            intake: valve(lash.intake, self.intake),
            exhaust: valve(lash.exhaust, self.exhaust),
            ratio: self.elsewhere.ratio,
            crank: self.elsewhere.crank,
        };
        events.found()
    }

    /// Where the intake closes as printed.
    pub(super) fn closes_printed(&self) -> f64 {
        self.printed.closes(ValveKind::Intake).degrees() - 540.0
    }

    /// What more lash on every valve does; none where the ramp ends before it.
    pub(super) fn more(&self, lash: &Pair) -> Result<Option<EventsMoveReport>, EventsError> {
        let inches = self.elsewhere.inches;
        let step = if inches { MORE_INCHES } else { MORE };
        let wider = |one: &Estimate<Lash>| {
            let what = "the lash";
            let (mm, u) = known(one).ok_or(EventsError::OneSided { what })?;
            Ok::<_, EventsError>(normal(mm + step, u)?)
        };
        let wide = Pair {
            intake: wider(&lash.intake)?,
            exhaust: wider(&lash.exhaust)?,
        };
        let (now, then) = (self.running(lash)?, self.running(&wide)?);
        let [_, closes, ..] = &now.events;
        let [_, closes_then, ..] = &then.events;
        let ends = known(&closes.running).zip(known(&closes_then.running));
        let overlaps = known(&now.overlap).zip(known(&then.overlap));
        let (Some(((from, _), (to, _))), Some(((most, _), (least, _)))) = (ends, overlaps) else {
            return Ok(None);
        };
        let ratios = now.effective_ratio.zip(then.effective_ratio);
        let mut made = EventsMoveReport {
            lash: Lash::from_mm(step)?,
            intake_closes_earlier: CrankAngle::from_degrees(from - to)?,
            overlap_less: CrankAngle::from_degrees(most - least)?,
            effective_ratio_more: ratios.map(|(now, then)| then.running - now.running),
            compression_more_percent: self.over(from, to),
            text: alloc::string::String::new(),
        };
        made.text = words::more(&made, self.is_harmonic, inches);
        Ok(Some(made))
    }

    /// How much more a compression gauge should show with the one closing than with the other, in per cent.
    pub(super) fn over(&self, from: f64, to: f64) -> Option<f64> {
        let (from, to) = self.shown(from).zip(self.shown(to))?;
        Some(100.0 * (to / from - 1.0))
    }

    /// What a compression gauge should show with that closing, in kilopascals.
    fn shown(&self, closes: f64) -> Option<f64> {
        let closes: Estimate<CrankAngle> = normal(closes, 0.0).ok()?;
        let engine = Cranking {
            ratio: self.elsewhere.ratio?,
            ratio_u: 0.0,
            crank: self.elsewhere.crank,
            intake_closes_abdc: Some(closes),
            air: None,
        };
        let shown = engine.expected(Exponent::usual()).ok()?;
        Some(shown.centre()?.kilopascals())
    }
}

/// What the book sets a kind of valve to.
fn book(elsewhere: Elsewhere<'_>, kind: ValveKind) -> Lash {
    let mut own = elsewhere.lash.iter().filter(|one| one.kind == kind);
    own.find_map(|one| one.book).unwrap_or(Lash::ZERO)
}

/// An event in a few letters.
pub(super) const fn short(event: CamEvent) -> (&'static str, &'static str) {
    match event {
        CamEvent::IntakeOpens => ("intake opens", "BTDC"),
        CamEvent::IntakeCloses => ("closes", "ABDC"),
        CamEvent::ExhaustOpens => ("exhaust opens", "BBDC"),
        CamEvent::ExhaustCloses => ("closes", "ATDC"),
    }
}
