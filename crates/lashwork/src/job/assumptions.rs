//! What a request leaves open, what is taken instead, and the list of it.

use super::{Adjuster, Assumption, Metal, Request, ShimRules};
use crate::adjust::ShimStock;
use crate::feeler::assumed_leaf_tolerance;
use crate::quantity::CrankAngle;
use crate::quantity::Lash;
use crate::rockers::{Cause, CrankCheck, WrongCall};
use crate::thermal::{ASSUMED_THERMOMETER_KELVIN, UNSTATED_HALF_WIDTH};
use crate::tolerance::{DecisionRule, HasLimits};
use crate::valve::{ASSUMED_GUARD_DEGREES, CamEvents};
use alloc::format;
use alloc::string::String;
use alloc::string::ToString;
use alloc::vec::Vec;

/// The assumptions of one run, each once.
#[derive(Default)]
pub(super) struct Assumptions(Vec<Assumption>);

impl Assumptions {
    /// Those that a request's open ends make necessary, whatever its readings.
    pub(super) fn of(request: &Request) -> Self {
        let mut all = Self::default();
        for assumption in request.engine.assumptions() {
            all.add(assumption.code(), assumption.to_string());
        }
        for id in &request.reference_assumed {
            let text = "states no reference temperature: 20 C taken (ISO 1)";
            all.add("tolerance.reference", format!("specification {id} {text}"));
        }
        for name in &request.thermometer_assumed {
            all.add(
                "thermal.thermometer",
                format!(
                    "uncertainty of the temperature of {name} not stated: \
                     {ASSUMED_THERMOMETER_KELVIN} K taken"
                ),
            );
        }
        match &request.metal {
            Metal::Unstated => all.add(
                "thermal.unstated",
                "metal temperature not stated: readings taken to be at each specification's \
                 reference temperature",
            ),
            Metal::At { temperature, .. } => {
                let celsius = temperature.celsius();
                all.add(
                    "thermal.no-rule",
                    format!(
                        "metal at {celsius:.1} C, but neither parts nor a coefficient say how \
                         lash follows: readings judged uncorrected"
                    ),
                );
            }
            Metal::Chain { .. } => {
                let percent = UNSTATED_HALF_WIDTH * 100.0;
                all.add(
                    "thermal.coefficients",
                    format!(
                        "expansion coefficients whose source states no uncertainty: half-width \
                         {percent:.0} % taken"
                    ),
                );
            }
            Metal::Coefficient { .. } => {}
        }
        if request.warm.compared.is_some() {
            all.add(
                "thermal.comparison",
                "parts and measured lash are held against each other as independent results",
            );
        }
        if request.warm.cooling.is_some() {
            all.add(
                "thermal.cooling",
                "the stated temperatures are taken to be those of the last cooling reading, and to \
                 fall together, each keeping its share of the difference to the surroundings",
            );
        }
        if let Some(check) = &request.crank_check {
            all.crank_check(check);
        }
        if let Adjuster::Screw {
            inward_closes: None,
            ..
        } = request.adjuster
        {
            all.add(
                "adjust.sense",
                "sense of the screw not stated: turning it in is taken to close the gap",
            );
        }
        if let Adjuster::Shim { rules, stock, .. } = &request.adjuster {
            all.of_shims(request, rules, stock);
        }
        all.lock_nut(&request.adjuster);
        let ratio_used = matches!(request.adjuster, Adjuster::Screw { .. })
            || matches!(request.metal, Metal::Chain { .. });
        if request.rocker_ratio.is_none() && ratio_used {
            all.add("adjust.ratio", "rocker ratio not stated: 1 taken");
        }
        all
    }

    fn of_shims(&mut self, request: &Request, rules: &ShimRules, stock: &ShimStock) {
        if rules.rounding.is_none() {
            self.add(
                "adjust.rounding",
                "rounding of shims not stated: of two sizes the one that is never tighter than \
                 the value to set if it lands in the set band, else the nearer",
            );
        }
        if rules.swap.is_none() {
            self.add(
                "adjust.swap",
                "use of fitted shims not stated: only those of valves out of band are moved",
            );
        }
        let is_open = request
            .readings
            .iter()
            .any(|r| r.shim.is_some() && r.shim_uncertainty.is_none())
            || stock.shims().iter().any(|s| s.uncertainty.is_none());
        if rules.size_uncertainty.is_none() && is_open {
            self.add(
                "adjust.shim-thickness",
                "shims whose thickness states no uncertainty: taken as exact",
            );
        }
    }

    /// What is taken of a lock nut's shift.
    fn lock_nut(&mut self, adjuster: &Adjuster) {
        let Adjuster::Screw { lock_nut, .. } = adjuster else {
            return;
        };
        let pairs = lock_nut.as_ref().map_or(0, crate::adjust::LockNut::pairs);
        if pairs == 0 {
            self.add(
                "adjust.lock-nut",
                "shift of the gap when the lock nut is tightened not known: none taken",
            );
            return;
        }
        if pairs == 1 {
            self.add(
                "adjust.lock-nut-spread",
                "one pair of gaps does not show how much the shift on locking varies: no chance to \
                 land in the band is given",
            );
        }
        self.add(
            "adjust.lock-nut-feel",
            "a gap set before locking is taken to be as uncertain as those of the pairs; the hand's \
             scatter in the pairs is not taken out of their spread",
        );
    }

    /// What weighing rockers takes for granted.
    fn crank_check(&mut self, check: &CrankCheck) {
        if check.wrong_call.is_none() {
            let percent = 100.0 * WrongCall::assumed().get();
            self.add(
                "valve.wrong-call",
                format!("chance of a wrong call not stated: {percent:.0} % for each rocker felt"),
            );
        }
        let shares = Cause::PRIOR_PERCENT.map(|(cause, percent)| {
            let word = match cause {
                Cause::AsBelieved => "as believed",
                Cause::OneTurnOut => "one turn out",
                Cause::NeighbouringMark => "a neighbouring mark",
                Cause::CountedBackwards => "counted backwards",
                Cause::OtherOrder => "another firing order",
            };
            format!("{word} {percent:.0} %")
        });
        let shares = shares.join(", ");
        self.add(
            "valve.crank-prior",
            format!("before any rocker is felt the crank is taken to stand so: {shares}"),
        );
    }

    /// The cam events, or wide ones.
    pub(super) fn events(&mut self, request: &Request) -> CamEvents {
        request.events.unwrap_or_else(|| {
            self.add(
                "valve.events",
                "cam events not stated: intake 40 BTDC to 80 ABDC, exhaust 80 BBDC to 40 ATDC \
                 taken, wider than usual",
            );
            CamEvents::assumed()
        })
    }

    /// The guard for ramps, or the usual one.
    pub(super) fn guard(&mut self, request: &Request) -> CrankAngle {
        request.guard.unwrap_or_else(|| {
            self.add(
                "valve.guard",
                format!(
                    "guard for ramps not stated: {ASSUMED_GUARD_DEGREES} deg taken at both ends \
                     of the base circle"
                ),
            );
            CrankAngle::from_degrees(ASSUMED_GUARD_DEGREES).unwrap_or(CrankAngle::ZERO)
        })
    }

    /// Where the crank can be stopped was not stated.
    pub(super) fn places(&mut self, text: &str) {
        self.add("valve.places", text);
    }

    /// Where the crank stands was not stated, or the cylinder to start with not used.
    pub(super) fn stands(&mut self, text: String) {
        self.add("valve.start", text);
    }

    /// The decision rule, or the default.
    pub(super) fn rule(&mut self, request: &Request) -> DecisionRule {
        request.rule.unwrap_or_else(|| {
            let rule = Lash::USUAL_RULE;
            let name = rule.name();
            self.add(
                "tolerance.rule",
                format!("decision rule not stated: {name}"),
            );
            rule
        })
    }

    /// A leaf without a stated tolerance was used.
    pub(super) fn leaf_tolerance(&mut self) {
        let taken = assumed_leaf_tolerance();
        self.add(
            "feeler.tolerance",
            format!("leaf tolerance not stated: +/- {taken} taken"),
        );
    }

    /// What the readings together were weighed by.
    pub(super) fn diagnosis(&mut self, taken: &[(&'static str, String)]) {
        for (code, text) in taken {
            self.add(code, text.clone());
        }
    }

    /// The list, in order of codes.
    pub(super) fn list(mut self) -> Vec<Assumption> {
        self.0.sort();
        self.0.dedup();
        self.0
    }

    fn add(&mut self, code: &str, text: impl Into<String>) {
        self.0.push(Assumption {
            code: code.to_string(),
            text: text.into(),
        });
    }
}
