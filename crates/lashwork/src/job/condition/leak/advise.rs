//! What to do about what leak-down says.

use super::answer::{LeakCylinderReport, LeakDownReport};
use super::{LeakDown, LeakDownReading};
use crate::condition::leak::{
    CylinderLeak, LeakAnswer, LeakPath, LeakRule, RuleBy, turning_torque,
};
use crate::job::condition::ground::Ground;
use crate::job::text::percent;
use crate::job::work::{Before, Sides, Standing, WorkAdvice, told};
use crate::quantity::shown::reckoned;
use crate::quantity::{Area, CrankAngle};
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// So many degrees off the top the turning of the crank is told for.
const OFF_TOP: f64 = 5.0;
/// By its pressure a leak is below the rule, by its area above.
const SIDES: Sides = Sides {
    below: "leaks too much",
    above: "leaks too much",
};

/// What was found, on its way into words.
pub(super) struct Told<'r> {
    pub(super) asked: &'r LeakDown,
    pub(super) answer: &'r LeakAnswer,
    pub(super) rule: Option<&'r LeakRule>,
    pub(super) ground: &'r Ground<'r>,
    /// Where the valve clearances stand.
    pub(super) valves: Option<Standing>,
    pub(super) before: &'r Before,
    /// Cylinders without a reading.
    pub(super) not_read: Vec<String>,
}

impl Told<'_> {
    pub(super) fn report(self) -> LeakDownReport {
        let both = self.asked.readings.iter().zip(&self.answer.cylinders);
        let cylinders: Vec<LeakCylinderReport> = both
            .map(|(read, found)| self.cylinder(read, found))
            .collect();
        LeakDownReport {
            verdict_text: self.verdict(&cylinders),
            provisional: self.provisional(),
            turning_text: self.turning(),
            advice: self.advice(&cylinders),
            cylinders,
            worst: format!("cylinder {}", self.answer.worst),
            not_read: self.not_read,
        }
    }

    fn provisional(&self) -> Option<String> {
        if let Some(settle) = &self.before.settle {
            return Some(format!("{settle}; then read again"));
        }
        (self.valves != Some(Standing::Settled)).then(|| {
            String::from(
                "nothing says that the valve clearances were settled: a valve that is too tight leaks",
            )
        })
    }

    /// How hard the air turns the crank.
    fn turning(&self) -> Option<String> {
        let (bore, crank) = (self.ground.bore?, self.ground.crank?);
        let supply = self.answer.cylinders.first()?;
        let read = self
            .asked
            .readings
            .iter()
            .find(|r| r.cylinder == supply.cylinder)?;
        let tester = read.tester.or(self.asked.tester)?;
        let off = CrankAngle::from_degrees(OFF_TOP).ok()?;
        let torque = turning_torque(tester.supply, bore, &crank, off).ok()?;
        Some(format!(
            "{} on the piston turns the crank with {:.0} Nm only {OFF_TOP:.0} degrees off top dead centre: hands and tools off",
            self.asked.unit.shown(tester.supply),
            torque.newton_metres()
        ))
    }

    fn cylinder(&self, read: &LeakDownReading, found: &CylinderLeak) -> LeakCylinderReport {
        let unit = self.asked.unit;
        let (area, u) = size(found);
        let shown = unit.shown(read.shown);
        let judged = found.by_rule.as_ref().map(|judged| {
            let (found, limits) = self.said(&shown, area);
            told(found, limits, judged, SIDES)
        });
        let by_rule = judged.iter().zip(&found.by_rule).map(|(said, judged)| {
            let p = judged.probabilities.in_band.most;
            format!(
                "; {}: {} ({} that it is met)",
                said.limits,
                said.verdict_text.replace("in band", "met"),
                percent(p)
            )
        });
        let by_rule: String = by_rule.collect();
        let paths: Vec<String> = found.paths.iter().map(ToString::to_string).collect();
        let heard = if paths.is_empty() {
            String::new()
        } else {
            format!("; by where it hissed: {}", paths.join(", "))
        };
        LeakCylinderReport {
            name: format!("cylinder {}", read.cylinder),
            shown: read.shown,
            area_mm2: area,
            area_u_mm2: u,
            hole: found.leak.hole,
            percent_lost: found.leak.percent_lost,
            judged,
            paths: found.paths.clone(),
            text: format!(
                "{shown}, {:.0} % lost on this tester; a leak of {area:.2} mm2, u {u:.2}, as a hole of {}{by_rule}{heard}",
                found.leak.percent_lost,
                reckoned(found.leak.hole.mm(), self.ground.inches),
            ),
        }
    }

    /// What is held against the rule, and the rule.
    fn said(&self, shown: &str, area: f64) -> (String, String) {
        let Some(rule) = self.rule else {
            return (String::new(), String::new());
        };
        let least = self.asked.unit.shown(rule.least());
        let supply = self.asked.unit.shown(rule.supply());
        match self.asked.by {
            RuleBy::Face => (String::from(shown), format!("at least {least} of {supply}")),
            RuleBy::Area => {
                let around = self.ground.air.and_then(|air| air.centre());
                let most = around.and_then(|air| rule.most(air).ok());
                let most = most.map(Area::square_millimetres);
                let most = most.map(|most| format!(" (at most {most:.2} mm2)"));
                (
                    format!("{area:.2} mm2"),
                    format!(
                        "as large a leak as {least} of {supply}{}",
                        most.unwrap_or_default()
                    ),
                )
            }
        }
    }

    fn verdict(&self, cylinders: &[LeakCylinderReport]) -> String {
        let bad = unsound(cylinders);
        let worst = cylinders
            .iter()
            .max_by(|a, b| a.area_mm2.total_cmp(&b.area_mm2));
        let worst = worst.map(|one| format!("{} leaks most, {:.2} mm2", one.name, one.area_mm2));
        let worst = worst.unwrap_or_default();
        if self.rule.is_none() {
            return format!("{worst}; no rule is stated, so how much is too much is not told");
        }
        if bad.is_empty() {
            return format!("every cylinder read within the rule; {worst}");
        }
        let names: Vec<&str> = bad.iter().map(|one| one.name.as_str()).collect();
        format!(
            "{} not shown to be within the rule; {worst}",
            names.join(", ")
        )
    }

    fn advice(&self, cylinders: &[LeakCylinderReport]) -> WorkAdvice {
        let bad = unsound(cylinders);
        if !bad.is_empty() {
            if let Some(settle) = &self.before.settle {
                return WorkAdvice::SettleFirst {
                    text: format!("{settle}; then read again"),
                };
            }
            if self.asked.warm == Some(false) {
                return WorkAdvice::Measure {
                    text: String::from(
                        "run it warm and read again before anything is taken apart: cold rings leak more",
                    ),
                };
            }
            let quiet: Vec<&str> = (bad.iter().filter(|one| one.paths.is_empty()))
                .map(|one| one.name.as_str())
                .collect();
            if !quiet.is_empty() {
                return WorkAdvice::Measure {
                    text: format!(
                        "{}: listen at intake, exhaust, breather and the plug holes beside, and look for bubbles in the coolant; its piston held at the top of its compression stroke",
                        quiet.join(", ")
                    ),
                };
            }
            let proofs = bad.iter().flat_map(|one| {
                let proof = move |path: &LeakPath| format!("{}: {}", one.name, proof(*path));
                one.paths.iter().map(proof)
            });
            return WorkAdvice::FindCause {
                text: String::from("more leaks than the rule allows"),
                causes: proofs.collect(),
            };
        }
        if !self.not_read.is_empty() {
            return WorkAdvice::Measure {
                text: format!("read {} too", self.not_read.join(", ")),
            };
        }
        WorkAdvice::Leave {
            text: String::from(if self.rule.is_none() {
                "keep the areas and compare them next time: an area that grows tells more than one that is large"
            } else if self.before.settle.is_some() {
                "nothing to do on its account for now; read again when the steps before it are settled"
            } else {
                "nothing to do on its account"
            }),
        }
    }
}

/// Cylinders that are not shown to be within the rule.
fn unsound(cylinders: &[LeakCylinderReport]) -> Vec<&LeakCylinderReport> {
    let is_bad = |one: &&LeakCylinderReport| {
        let judged = one.judged.as_ref();
        judged.is_some_and(|judged| judged.verdict != Verdict::InBand)
    };
    cylinders.iter().filter(is_bad).collect()
}

/// The area of a leak and its standard uncertainty, in square millimetres.
fn size(found: &CylinderLeak) -> (f64, f64) {
    let area = &found.leak.area;
    let centre = area.centre().map_or(0.0, Area::square_millimetres);
    (centre, area.normal_uncertainty().number())
}

/// What to look at, before anything is taken apart.
const fn proof(path: LeakPath) -> &'static str {
    match path {
        LeakPath::IntakeValve => {
            "the intake valve: its clearance, then its seat through the plug hole; carbon on a seat may go after a run"
        }
        LeakPath::ExhaustValve => {
            "the exhaust valve: its clearance, then its seat through the plug hole; carbon on a seat may go after a run"
        }
        LeakPath::Rings => {
            "rings, piston or bore: the compression with a little oil, and the bore through the plug hole; some air comes past sound rings too"
        }
        LeakPath::GasketOrCrack => {
            "the head gasket or a crack: the cooling system under pressure, the engine cold"
        }
        LeakPath::GasketToNeighbour => {
            "the head gasket to the neighbour: the torque of the head bolts; the neighbour's own leak-down hisses back at this one's plug hole"
        }
        LeakPath::ThroughManifold => {
            "the intake valve: the other cylinder's plug hole hisses through the manifold, its own valve stands open"
        }
        LeakPath::GasketOutside => "the edge of the head gasket: the torque of the head bolts",
    }
}
