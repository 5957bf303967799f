//! The valves section.

use super::{value, warm};
use crate::document::{EventsDoc, KindDoc, ScrewDoc, SeatDoc, ShimDoc, TurningInDoc, ValvesDoc};
use lashwork::adjust::Adjuster;
use lashwork::adjust::{ScrewSeat, Thread};
use lashwork::engine::{CamRing, Engine};
use lashwork::job::Problem;
use lashwork::quantity::CrankAngle;
use lashwork::valve::{CamEvent, CamEvents, ValveId, ValveKind};

/// The valves section in typed values.
pub(super) struct Valves {
    pub(super) intake: u8,
    pub(super) exhaust: u8,
    pub(super) events: Option<CamEvents>,
    pub(super) guard: Option<CrankAngle>,
    pub(super) rocker_ratio: Option<f64>,
    pub(super) adjuster: Adjuster,
    pub(super) cam_ring: Option<CamRing>,
}

/// The valves, checked by the core.
pub(super) fn valves(doc: &ValvesDoc, problems: &mut Vec<Problem>) -> Option<Valves> {
    let before = problems.len();
    let events = doc.events.as_ref().and_then(|e| events(e, problems));
    let adjuster = adjuster(doc.screw.as_ref(), doc.shim.as_ref(), problems);
    let cam_ring = doc.cam_ring.as_ref();
    let cam_ring = cam_ring.and_then(|ring| super::crank_train::ring(ring, problems));
    if problems.len() > before {
        return None;
    }
    Some(Valves {
        intake: doc.intake_per_cylinder,
        exhaust: doc.exhaust_per_cylinder,
        events,
        guard: doc.guard.map(|g| g.0),
        rocker_ratio: doc.rocker_ratio,
        adjuster: adjuster?,
        cam_ring,
    })
}

/// The cam's events, each checked at its field.
fn events(doc: &EventsDoc, problems: &mut Vec<Problem>) -> Option<CamEvents> {
    let fields = [
        (
            CamEvent::IntakeOpens,
            "intake_opens_btdc",
            doc.intake_opens_btdc.0,
        ),
        (
            CamEvent::IntakeCloses,
            "intake_closes_abdc",
            doc.intake_closes_abdc.0,
        ),
        (
            CamEvent::ExhaustOpens,
            "exhaust_opens_bbdc",
            doc.exhaust_opens_bbdc.0,
        ),
        (
            CamEvent::ExhaustCloses,
            "exhaust_closes_atdc",
            doc.exhaust_closes_atdc.0,
        ),
    ];
    for (event, field, angle) in fields {
        if let Err(e) = event.check(angle) {
            let place = format!("/valves/events/{field}");
            super::fault!(problems, place, e);
        }
    }
    let [opens, closes, opens_exhaust, closes_exhaust] = fields.map(|(_, _, angle)| angle);
    CamEvents::new(opens, closes, opens_exhaust, closes_exhaust).ok()
}

/// What sets the lash, if that is said.
pub(crate) fn adjuster(
    screw: Option<&ScrewDoc>,
    shim: Option<&ShimDoc>,
    problems: &mut Vec<Problem>,
) -> Option<Adjuster> {
    match (screw, shim) {
        (None, None) => Some(Adjuster::Unstated),
        (Some(screw), None) => self::screw(screw, problems),
        (None, Some(shim)) => super::shims::shim(shim, problems),
        (Some(_), Some(_)) => {
            problems.push(Problem::new(
                "/valves",
                "adjust.two-ways",
                "both a screw and a shim are given",
                "keep the one that sets the lash",
            ));
            None
        }
    }
}

fn screw(doc: &ScrewDoc, problems: &mut Vec<Problem>) -> Option<Adjuster> {
    let thread = match (doc.pitch, doc.threads_per_inch) {
        (Some(pitch), None) => value!(problems, "/valves/screw/pitch", Thread::metric(pitch.0)),
        (None, Some(tpi)) => {
            value!(
                problems,
                "/valves/screw/threads_per_inch",
                Thread::per_inch(tpi)
            )
        }
        _ => {
            problems.push(Problem::new(
                "/valves/screw",
                "adjust.thread",
                "a screw has either a pitch or threads per inch",
                "give exactly one of \"pitch\" and \"threads_per_inch\"",
            ));
            None
        }
    };
    let seat = match doc.seat {
        SeatDoc::ValveSide => ScrewSeat::ValveSide,
        SeatDoc::CamSide => ScrewSeat::CamSide,
    };
    Some(Adjuster::Screw {
        thread: thread?,
        seat,
        inward_closes: doc.turning_in.map(|t| t == TurningInDoc::Closes),
        lock_nut: match &doc.lock_nut {
            Some(nut) => Some(warm::lock_nut(nut, problems)?),
            None => None,
        },
    })
}

/// The kind of that name.
pub(crate) fn kind(doc: KindDoc) -> ValveKind {
    match doc {
        KindDoc::Intake => ValveKind::Intake,
        KindDoc::Exhaust => ValveKind::Exhaust,
    }
}

/// The valve that a cylinder's label, a kind and a number name; which of several must be said.
pub(super) fn valve(
    (label, kind, number): (&str, KindDoc, Option<u8>),
    engine: Option<&Engine>,
    valves: Option<&Valves>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<ValveId> {
    let at = format!("{place}/cylinder");
    let cylinder = engine.and_then(|e| super::cylinder(e, label, &at, problems));
    let count = valves.map(|v| match kind {
        KindDoc::Intake => v.intake,
        KindDoc::Exhaust => v.exhaust,
    });
    let kind = self::kind(kind);
    if number.is_none() && count.is_some_and(|c| c > 1) {
        problems.push(Problem::new(
            place,
            "job.which-valve",
            format!(
                "each cylinder has several {} valves and none is named",
                kind.word()
            ),
            "add \"number\", counted from 1",
        ));
    }
    Some(ValveId {
        cylinder: cylinder?,
        kind,
        number: number.unwrap_or(1),
    })
}
