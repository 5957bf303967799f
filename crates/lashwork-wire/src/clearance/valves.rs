//! The valves section.

use super::lock_nut::{self, LockNutDoc};
use super::shims::{self, ShimDoc};
use crate::engine::crank_train::{self, CamRingDoc};
use crate::engine::cylinder;
use crate::in_whole::InWhole;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use lashwork::adjust::Adjuster;
use lashwork::adjust::{ScrewSeat, Thread};
use lashwork::engine::{CamRing, Engine};
use lashwork::quantity::{CrankAngle, Lash, Length};
use lashwork::valve::{CamEvent, CamEvents, EventsAt, ValveError, ValveId, ValveKind};

named!(ValveKind as "KindDoc" { Intake = "intake", Exhaust = "exhaust" });
words!(SeatDoc {
    /// At the valve, or with no rocker between.
    ValveSide = "valve_side",
    /// At the pushrod or cam.
    CamSide = "cam_side",
    /// The nut on the stud a rocker pivots on.
    Pivot = "pivot",
    /// An eccentric shaft or bush, which has no thread; no angle is told of it.
    Eccentric = "eccentric",
});
words!(TurningInDoc {
    /// As on most rockers.
    Closes = "closes_gap",
    /// As on a tappet that lengthens when its screw is turned out.
    Opens = "opens_gap",
});

parts! {
    /// The valves and how they are adjusted.
    ValvesDoc {
        intake_per_cylinder: u8,
        exhaust_per_cylinder: u8,
        events: Option<EventsDoc>,
        /// Guard: kept clear at both ends of the base circle, in crank degrees.
        guard: Option<Q<CrankAngle>>,
        /// Rocker ratio: valve movement over cam-side movement.
        rocker_ratio: Option<f64>,
        screw: Option<ScrewDoc>,
        shim: Option<ShimDoc>,
        /// The cam ring of each row of a radial engine.
        cam_ring: Option<CamRingDoc>,
    }
    /// Cam events in crank degrees; negative on the other side of dead centre. They are taken at the
    /// lash or lift in `at`.
    EventsDoc {
        intake_opens_btdc: Q<CrankAngle>,
        intake_closes_abdc: Q<CrankAngle>,
        exhaust_opens_bbdc: Q<CrankAngle>,
        exhaust_closes_atdc: Q<CrankAngle>,
        /// At which lash or lift they hold, as printed beside them. Not stated: valves are taken to be
        /// off their base circle 25 deg longer at both ends; listed as an assumption.
        at: Option<EventsAtDoc>,
        /// Greatest lift of the valves, which tells how fast they lift; 8 mm taken if not stated and
        /// needed.
        greatest_lift: Option<Q<Length>>,
    }
    /// The lash the valves were set to, or the lift they had, when the events were taken.
    EventsAtDoc {
        lash: Option<Q<Lash>>,
        lift: Option<Q<Length>>,
    }
    /// An adjusting screw: its pitch or its threads per inch, which an eccentric has none of.
    ScrewDoc { pitch: Option<Q<Length>>, threads_per_inch: Option<f64>, seat: SeatDoc,
        /// How turning the screw in changes the gap.
        turning_in: Option<TurningInDoc>,
        /// How tightening its lock nut changes the gap.
        lock_nut: Option<InWhole<LockNutDoc>>,
    }
}

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
    let adjuster = adjuster(
        doc.screw.as_ref(),
        doc.shim.as_ref(),
        "/clearance/valves",
        problems,
    );
    let cam_ring = doc.cam_ring.as_ref();
    let cam_ring = cam_ring.and_then(|ring| crank_train::ring(ring, problems));
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
            let place = format!("/clearance/valves/events/{field}");
            problems.push(Problem::at(place, &e));
        }
    }
    let [opens, closes, opens_exhaust, closes_exhaust] = fields.map(|(_, _, angle)| angle);
    let events = CamEvents::new(opens, closes, opens_exhaust, closes_exhaust).ok()?;
    let Some(at) = &doc.at else {
        return Some(events);
    };
    let place = "/clearance/valves/events/at";
    let at = match (at.lash, at.lift) {
        (Some(lash), None) => EventsAt::Lash(lash.0),
        (None, Some(lift)) => EventsAt::Lift(lift.0),
        _ => {
            problems.push(Problem::new(
                place,
                "valve.events-at",
                "events hold at either a lash or a lift",
                "give exactly one of \"lash\" and \"lift\"",
            ));
            return None;
        }
    };
    let made = events.holding_at(at, doc.greatest_lift.map(|lift| lift.0));
    made.map_err(|e| {
        let place = match e {
            ValveError::GreatestLift { .. } => "/clearance/valves/events/greatest_lift",
            _ => place,
        };
        problems.push(Problem::at(place, &e));
    })
    .ok()
}

/// What sets the lash, if that is said; `at` is the object in which screw or shim stand.
pub(crate) fn adjuster(
    screw: Option<&ScrewDoc>,
    shim: Option<&ShimDoc>,
    at: &str,
    problems: &mut Vec<Problem>,
) -> Option<Adjuster> {
    match (screw, shim) {
        (None, None) => Some(Adjuster::Unstated),
        (Some(screw), None) => self::screw(screw, &format!("{at}/screw"), problems),
        (None, Some(shim)) => shims::shim(shim, &format!("{at}/shim"), problems),
        (Some(_), Some(_)) => {
            problems.push(Problem::new(
                at,
                "adjust.two-ways",
                "both a screw and a shim are given",
                "keep the one that sets the lash",
            ));
            None
        }
    }
}

fn screw(doc: &ScrewDoc, at: &str, problems: &mut Vec<Problem>) -> Option<Adjuster> {
    let seat = match doc.seat {
        SeatDoc::ValveSide => ScrewSeat::ValveSide,
        SeatDoc::CamSide => ScrewSeat::CamSide,
        SeatDoc::Pivot => ScrewSeat::Pivot,
        SeatDoc::Eccentric => return eccentric(doc, at, problems),
    };
    let thread = match (doc.pitch, doc.threads_per_inch) {
        (Some(pitch), None) => value(problems, format!("{at}/pitch"), Thread::metric(pitch.0)),
        (None, Some(tpi)) => value(
            problems,
            format!("{at}/threads_per_inch"),
            Thread::per_inch(tpi),
        ),
        _ => {
            problems.push(Problem::new(
                at,
                "adjust.thread",
                "a screw has either a pitch or threads per inch",
                "give exactly one of \"pitch\" and \"threads_per_inch\"",
            ));
            None
        }
    };
    Some(Adjuster::Screw {
        thread: thread?,
        seat,
        inward_closes: doc.turning_in.map(|t| t == TurningInDoc::Closes),
        lock_nut: match &doc.lock_nut {
            Some(nut) => Some(lock_nut::lock_nut(
                &nut.0,
                &format!("{at}/lock_nut"),
                problems,
            )?),
            None => None,
        },
    })
}

/// An eccentric, of which nothing is asked that belongs to a thread.
fn eccentric(doc: &ScrewDoc, at: &str, problems: &mut Vec<Problem>) -> Option<Adjuster> {
    let given = [
        ("pitch", doc.pitch.is_some()),
        ("threads_per_inch", doc.threads_per_inch.is_some()),
        ("turning_in", doc.turning_in.is_some()),
        ("lock_nut", doc.lock_nut.is_some()),
    ];
    let unused = given.into_iter().find(|(_, is_given)| *is_given);
    if let Some((field, _)) = unused {
        problems.push(Problem::new(
            format!("{at}/{field}"),
            "adjust.eccentric",
            "an eccentric has no thread, and no turn is told of it",
            "leave this out, or state where the screw sits",
        ));
        return None;
    }
    Some(Adjuster::Eccentric)
}

/// The valve that a cylinder's label, a kind and a number name; which of several must be said.
pub(super) fn valve(
    (label, kind, number): (&str, ValveKind, Option<u8>),
    engine: Option<&Engine>,
    valves: Option<&Valves>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<ValveId> {
    let at = format!("{place}/cylinder");
    let cylinder = engine.and_then(|e| cylinder(e, label, &at, problems));
    let count = valves.map(|v| match kind {
        ValveKind::Intake => v.intake,
        ValveKind::Exhaust => v.exhaust,
    });
    if number.is_none() && count.is_some_and(|c| c > 1) {
        problems.push(Problem::new(
            place,
            "job.which-valve",
            format!(
                "each cylinder has several {} valves, and which one is not stated",
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
