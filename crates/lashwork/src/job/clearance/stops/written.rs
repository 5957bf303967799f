//! Plans as the report has them.

use super::Stops;
use super::answer::{
    Against, CheckReport, LastFired, PlanReport, StopReport, UnreachableReport, WatchReport,
};
use crate::engine::{CylinderIndex, Engine};
use crate::job::text::{ValveNames, whole_degrees};
use crate::quantity::{CrankAngle, CyclePosition, Quoted};
use crate::valve::{MayBeOff, Movement, Sign, Stop, StopPlan, StoppingPoints};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Where the crank can be stopped, in words.
pub(super) fn places(places: &StoppingPoints) -> String {
    match places {
        StoppingPoints::Marks(marks) => {
            let labels: Vec<String> = marks
                .list()
                .iter()
                .map(|m| format!("{} at {} deg", Quoted(m.label()), m.at().degrees()))
                .collect();
            format!("the pulley's marks {}", labels.join(", "))
        }
        StoppingPoints::DeadCentres => "each cylinder's top dead centre".into(),
        StoppingPoints::AnyAngle => "any angle, with a degree wheel".into(),
    }
}

/// A plan with what speaks against it.
pub(super) fn plan(
    asked: Stops<'_>,
    places: &StoppingPoints,
    plan: &StopPlan,
    against: Vec<Against>,
) -> PlanReport {
    let unreachable_why: Vec<UnreachableReport> = plan
        .unreachable
        .iter()
        .map(|u| UnreachableReport {
            valve: asked.names.of(u.valve),
            why: u.why,
            text: u.why.words().into(),
        })
        .collect();
    PlanReport {
        method: plan.method,
        from: plan.from,
        stops: plan.stops.iter().map(|s| stop(asked, places, s)).collect(),
        total_turn: plan.total_turn,
        walks: plan.walks,
        smallest_margin: plan.smallest_margin,
        unreachable: unreachable_why.iter().map(|u| u.valve.clone()).collect(),
        unreachable_why,
        exact: plan.exact,
        against,
    }
}

fn stop(asked: Stops<'_>, places: &StoppingPoints, stop: &Stop) -> StopReport {
    let engine = asked.train.engine();
    let label = |c: CylinderIndex| engine.cylinder(c).map(|c| c.label.to_string());
    let start = CyclePosition::new(engine.cycle(), CrankAngle::ZERO);
    let from_first = start.forward_to(stop.position);
    let within_turn = from_first.degrees() % 360.0;
    let rim = CrankAngle::computed(within_turn);
    let check = stop.checks.iter().map(|c| {
        let cylinder = engine.cylinder(c.valve.cylinder);
        CheckReport {
            valve: asked.names.of(c.valve),
            cylinder: cylinder.map(|c| c.label.to_string()).unwrap_or_default(),
            side: cylinder.and_then(|c| c.side.clone()),
            kind: c.valve.kind,
            number: c.valve.number,
            margin: c.margin,
            may_be_off: c.may_be_off,
        }
    });
    let (firing, overlap) = (
        stop.firing_tdc.and_then(label),
        stop.overlap_tdc.and_then(label),
    );
    StopReport {
        text: shown_by(firing.as_deref(), overlap.as_deref(), stop.may_be_off),
        position: stop.position,
        turn: stop.turn,
        firing_tdc: firing,
        overlap_tdc: overlap,
        last_fired: last_fired(engine, stop),
        mark: places.mark_at(stop.position).map(String::from),
        watch: stop
            .signs
            .iter()
            .map(|sign| watch(asked.names, stop, *sign))
            .collect(),
        rotor: from_first.at_distributor(engine.cycle()),
        pulley_mark_mm: asked.pulley.map(|p| p.arc(rim).mm()),
        check: check.collect(),
        may_be_off: stop.may_be_off,
    }
}

/// What the valves at a top dead centre do, which tells it from the one a turn away, and how far off the
/// crank may be.
fn shown_by(firing: Option<&str>, overlap: Option<&str>, room: MayBeOff) -> String {
    let seen = match (firing, overlap) {
        (Some(shut), Some(rock)) => format!("both valves of {shut} shut, those of {rock} rock; "),
        (Some(shut), None) => format!("both valves of {shut} shut; "),
        (None, Some(rock)) => format!("valves of {rock} rock; "),
        (None, None) => String::new(),
    };
    let (before, after) = (at_most(room.before), at_most(room.after));
    format!("{seen}good from {before} deg before to {after} deg after")
}

/// Whole degrees, and never more than there are, the last bits of a sum apart.
pub(in crate::job) fn at_most(room: CrankAngle) -> String {
    whole_degrees(libm::floor(room.degrees() + 1e-6))
}

fn last_fired(engine: &Engine, stop: &Stop) -> LastFired {
    let since = |c: CylinderIndex| engine.dead_centre(c).forward_to(stop.position);
    // What stands at firing TDC has just been there, rounding apart.
    let last = stop.firing_tdc.map(|c| (c, CrankAngle::ZERO)).or_else(|| {
        let all = engine.order().iter().map(|c| (*c, since(*c)));
        all.min_by(|a, b| a.1.degrees().total_cmp(&b.1.degrees()))
    });
    let label = last.and_then(|(c, _)| engine.cylinder(c));
    LastFired {
        cylinder: label.map(|c| c.label.to_string()).unwrap_or_default(),
        turn: last.map_or(CrankAngle::ZERO, |(_, turn)| turn),
    }
}

/// What to watch for, and what it tells to check.
fn watch(names: ValveNames<'_>, stop: &Stop, sign: Sign) -> WatchReport {
    let label = |c: CylinderIndex| names.engine.cylinder(c).map_or("?", |c| c.label.as_str());
    let (cylinder, kind) = (label(sign.cylinder), sign.kind.word());
    let set = stop.checks.iter().map(|c| c.valve);
    let set = set.filter(|v| v.cylinder == sign.sets && v.kind == sign.sets_kind);
    WatchReport {
        cylinder: cylinder.to_string(),
        kind: sign.kind,
        movement: sign.movement,
        text: match sign.movement {
            Movement::BeginsToOpen => format!("{kind} of {cylinder} just begins to open"),
            Movement::HasJustClosed => format!("{kind} of {cylinder} has just closed"),
            Movement::FullyOpen => format!("{kind} of {cylinder} is fully open"),
        },
        check: set.map(|v| names.of(v)).collect(),
    }
}
