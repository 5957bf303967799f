//! What stands in for what is not stated of cam, rocker and rule.

use super::request::Clearance;
use crate::adjust::Adjuster;
use crate::clearance::AsFound;
use crate::engine::ASSUMED_ROCKER_RATIO;
use crate::job::assumptions::Assumptions;
use crate::job::text::rule_words;
use crate::quantity::shown::travel;
use crate::quantity::{CrankAngle, Lash, LengthUnit};
use crate::thermal::Metal;
use crate::tolerance::{DecisionRule, HasLimits};
use crate::valve::{
    ASSUMED_GUARD, ASSUMED_LIFT_MM, CamEvents, EVENTS_UNSTATED, Printed, Specification, ValveKind,
    ValveLimits,
};
use alloc::format;
use alloc::string::String;

/// The rocker ratio, where it is used and not stated. A screw that needs it gets no turn instead.
pub(super) fn ratio(stated: Option<f64>, metal: &Metal, assumptions: &mut Assumptions) {
    if stated.is_none() && matches!(metal, Metal::Chain { .. }) {
        assumptions.add(
            "adjust.ratio",
            format!(
                "rocker ratio not stated: {ASSUMED_ROCKER_RATIO} taken for the parts that grow"
            ),
        );
    }
}

/// What is taken of limits that a book does not print whole; `of` says which valves, with a blank in front.
pub(super) fn band(
    limits: &ValveLimits,
    (whose, of): (&str, &str),
    unit: LengthUnit,
    assumptions: &mut Assumptions,
) {
    if let Some(taken) = limits.taken(unit) {
        let code = match limits.printed() {
            Printed::Range => "tolerance.set-to",
            _ => "tolerance.set-band",
        };
        assumptions.bears_on_verdict(code, format!("{whose} prints{of} {taken}"));
    }
}

/// Pads that nobody looked at are taken as flat.
pub(super) fn pads<'f>(
    adjuster: &Adjuster,
    mut found: impl Iterator<Item = &'f AsFound>,
    assumptions: &mut Assumptions,
) {
    let has_pad = !matches!(adjuster, Adjuster::Shim { .. });
    if has_pad && found.any(|found| found.hollow.is_none()) {
        assumptions.bears_on_verdict(
            "feeler.hollow",
            "pads taken as flat: a hollow worn into a rocker pad or valve tip is bridged by the leaf, and \
             the gap is then wider by its depth",
        );
    }
}

/// The cam events at the lash the books set, or wide ones.
pub(super) fn events(asked: &Clearance, inches: bool, assumptions: &mut Assumptions) -> CamEvents {
    let Some(stated) = asked.events else {
        assumptions.bears_on_place(
            "valve.events",
            "cam events not stated: intake 40 BTDC to 80 ABDC, exhaust 80 BBDC to 40 ATDC \
             taken, wider than usual",
        );
        return CamEvents::assumed();
    };
    let events = stated.at_running_lash(
        running(&asked.specifications, ValveKind::Intake),
        running(&asked.specifications, ValveKind::Exhaust),
    );
    let text = match stated.holds_at() {
        None => Some(format!(
            "lash or lift at which the cam events hold not stated: every valve is taken to be off its \
             base circle {} deg longer at both ends",
            EVENTS_UNSTATED.degrees()
        )),
        Some(_) => corrected(&events, inches),
    };
    if let Some(text) = text {
        assumptions.bears_on_place("valve.events-at", text);
    }
    events
}

/// The least lash a kind of valve is set to: with it the valve is off its base circle longest. Without a
/// book that is no lash.
fn running(books: &[Specification], kind: ValveKind) -> Lash {
    let set = books.iter().map(|b| b.limits(kind).set_to().mm());
    let least = set.min_by(f64::total_cmp);
    least
        .and_then(|mm| Lash::from_mm(mm).ok())
        .unwrap_or(Lash::ZERO)
}

/// What the model of the lift makes of events at a larger lash, where it makes anything.
fn corrected(events: &CamEvents, inches: bool) -> Option<String> {
    let (intake, exhaust) = (
        events.early(ValveKind::Intake).degrees(),
        events.early(ValveKind::Exhaust).degrees(),
    );
    let lift = match events.greatest_lift() {
        Some(lift) => format!("greatest lift {}", travel(lift.mm(), inches)),
        None => format!(
            "greatest lift not stated, {} taken",
            travel(ASSUMED_LIFT_MM, inches)
        ),
    };
    (intake > 0.0 || exhaust > 0.0).then(|| {
        format!(
            "cam events hold at more than the lash the engine runs with: by harmonic lift ({lift}) \
             intake valves are off their base circle {intake:.1} deg longer at both ends, exhaust \
             valves {exhaust:.1} deg; the ramps are left to the guard"
        )
    })
}

/// The guard against the cam ramps, or the usual one.
pub(super) fn guard(stated: Option<CrankAngle>, assumptions: &mut Assumptions) -> CrankAngle {
    stated.unwrap_or_else(|| {
        assumptions.add(
            "valve.guard",
            format!(
                "guard against the cam ramps not stated: {} deg taken at both ends of the base circle",
                ASSUMED_GUARD.degrees()
            ),
        );
        ASSUMED_GUARD
    })
}

/// The decision rule, or the default.
pub(super) fn rule(stated: Option<DecisionRule>, assumptions: &mut Assumptions) -> DecisionRule {
    stated.unwrap_or_else(|| {
        let rule = Lash::USUAL_RULE;
        let words = rule_words(rule.name());
        assumptions.bears_on_verdict(
            "tolerance.rule",
            format!("decision rule not stated; taken: {words}"),
        );
        rule
    })
}
