//! What stands in for what is not stated of cam, rocker and rule.

use crate::adjust::Adjuster;
use crate::engine::ASSUMED_ROCKER_RATIO;
use crate::job::assumptions::Assumptions;
use crate::job::text::rule_words;
use crate::quantity::{CrankAngle, Lash};
use crate::thermal::Metal;
use crate::tolerance::{DecisionRule, HasLimits};
use crate::valve::{ASSUMED_GUARD, CamEvents};
use alloc::format;

/// The rocker ratio, where it is used and not stated.
pub(super) fn ratio(
    stated: Option<f64>,
    adjuster: &Adjuster,
    metal: &Metal,
    assumptions: &mut Assumptions,
) {
    let is_used =
        matches!(adjuster, Adjuster::Screw { .. }) || matches!(metal, Metal::Chain { .. });
    if stated.is_none() && is_used {
        assumptions.add(
            "adjust.ratio",
            format!("rocker ratio not stated: {ASSUMED_ROCKER_RATIO} taken"),
        );
    }
}

/// The cam events, or wide ones.
pub(super) fn events(stated: Option<CamEvents>, assumptions: &mut Assumptions) -> CamEvents {
    stated.unwrap_or_else(|| {
        assumptions.add(
            "valve.events",
            "cam events not stated: intake 40 BTDC to 80 ABDC, exhaust 80 BBDC to 40 ATDC \
             taken, wider than usual",
        );
        CamEvents::assumed()
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
        assumptions.add(
            "tolerance.rule",
            format!("decision rule not stated; taken: {words}"),
        );
        rule
    })
}
