//! What to turn next at idle.

use super::answer::{IdleCrownReport, IdleReadReport, IdleReport};
use super::by_gas::ByGas;
use super::{Idle, IdleRule};
use crate::job::work::{Before, Sides, WorkAdvice, told};
use crate::mixture::idle::{Crown, IdleCurve, IdleStep, Side, SpeedWay};
use crate::quantity::CrankSpeed;
use crate::tolerance::Estimate;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const SIDES: Sides = Sides {
    below: "too slow",
    above: "too fast",
};

/// A doubt of turns under this is nothing as it is written, and so is one of degrees under that.
const LEAST_TURNS: f64 = 0.005;
const LEAST_DEGREES: f64 = 0.5;

/// What the advice rests on.
pub(super) struct Found<'r> {
    pub(super) asked: &'r Idle,
    pub(super) rule: IdleRule,
    pub(super) crown: Option<Crown>,
    pub(super) is_lopsided: bool,
    /// Why the gas goes before the screw's place, if it does.
    pub(super) by_gas: Option<ByGas>,
    pub(super) before: &'r Before,
}

impl Found<'_> {
    /// The report.
    pub(super) fn told(&self, step: Option<(Estimate<CrankSpeed>, IdleStep)>) -> IdleReport {
        let speed = step.map(|(speed, _)| {
            let u = speed.normal_uncertainty().number();
            let centre = speed.centre().map_or(0.0, CrankSpeed::rpm);
            let wanted = &self.asked.wanted;
            let found = format!("{centre:.0} rpm, u {u:.0}");
            told(found, wanted.to_string(), &speed.judged_by(wanted), SIDES)
        });
        let (crown, rises_toward) = match &self.crown {
            Some(Crown::Seen(top)) => (Some(IdleCrownReport::of(top)), None),
            Some(Crown::NotSeen(none)) => (None, none.rises_toward),
            None => (None, None),
        };
        let step = step.map(|(_, step)| step);
        let turned = match step {
            Some(IdleStep::Mixture {
                turn,
                standard_uncertainty,
            }) if self.before.settle.is_none() && self.by_gas.is_none() => {
                Some((turn, standard_uncertainty))
            }
            _ => None,
        };
        let mut mixture = self.mixture(crown.as_ref());
        if let (Some(IdleStep::Mixture { .. }), Some(now)) = (step, self.asked.now) {
            let turns = now.place.turns();
            mixture = format!("{mixture}; the screw stands at {turns:.2}");
        }
        if let Some(by_gas) = self.by_gas {
            mixture = match &crown {
                Some(_) => format!("{mixture}; {}", by_gas.word()),
                None => String::from(by_gas.word()),
            };
        }
        IdleReport {
            verdict_text: match &speed {
                None => format!("speed now not read; {mixture}"),
                Some(one) => format!("{}: {}; {mixture}", one.found, one.verdict_text),
            },
            speed,
            crown,
            rises_toward,
            is_lopsided: self.is_lopsided,
            points: Vec::new(),
            readings: self.asked.readings.iter().map(IdleReadReport::of).collect(),
            rise: None,
            now: self.asked.now.as_ref().map(IdleReadReport::of),
            wanted_turns: None,
            wanted_from: self.asked.wanted.lower(),
            wanted_to: self.asked.wanted.upper(),
            is_done: step.map(|step| step == IdleStep::Done || self.by_gas.is_some()),
            is_by_gas: self.by_gas.is_some(),
            turn: turned.map(|(turn, _)| turn),
            turn_u: turned.map(|(_, u)| u),
            advice: self.advice(step),
        }
    }

    fn mixture(&self, crown: Option<&IdleCrownReport>) -> String {
        match (crown, &self.crown) {
            (Some(top), _) => format!("fastest at {:.2} turns out, {}", top.best_turns, doubt(top)),
            (None, Some(_)) => String::from("no crown seen in the readings of the mixture screw"),
            (None, None) => format!(
                "{} of at least {} readings of the mixture screw",
                self.asked.readings.len(),
                IdleCurve::FEWEST
            ),
        }
    }

    fn advice(&self, step: Option<IdleStep>) -> WorkAdvice {
        if let Some(text) = &self.before.settle {
            return WorkAdvice::SettleFirst { text: text.clone() };
        }
        if let Some((by_gas, step)) = self.by_gas.zip(step) {
            return WorkAdvice::Leave {
                text: by_gas.advice(step, self.asked.rule.is_some()),
            };
        }
        let measure = |text: String| WorkAdvice::Measure { text };
        match step {
            None => measure(String::from(
                "say where the mixture screw stands and how fast the engine runs",
            )),
            Some(IdleStep::Speed { way, to }) => {
                let way = match way {
                    SpeedWay::Faster => "further open",
                    SpeedWay::Slower => "further shut",
                };
                WorkAdvice::Set {
                    first: self.first(),
                    text: format!(
                        "throttle stop: {way}, leave the mixture screw; the readings taken of it before no longer \
                         count"
                    ),
                    then_reads: format!("{:.0} rpm", to.rpm()),
                }
            }
            Some(IdleStep::ReadCurve) => measure(format!(
                "leave the throttle stop and read the speed at {} places of the mixture screw or more, a quarter turn \
                 apart, to either side until it falls",
                IdleCurve::FEWEST
            )),
            Some(IdleStep::ReadFurther { toward }) => measure(match toward {
                Some(side) => format!(
                    "the speed still rises toward {}: read further, the screw {}, until it falls",
                    side_word(side),
                    way_word(side.is_out(self.asked.screw))
                ),
                None => String::from(
                    "the readings show no crown: read further to either side, until the speed clearly falls",
                ),
            }),
            Some(IdleStep::Mixture {
                turn,
                standard_uncertainty: u,
            }) => {
                let degrees = turn.degrees();
                let said_u = if u >= LEAST_DEGREES {
                    format!("{u:.0} deg")
                } else {
                    String::from("under 1 deg")
                };
                let mut first = self.first();
                if self.is_lopsided {
                    first.push(String::from(
                        "the place holds: the readings are more lopsided than the curve, so read closer to the crown",
                    ));
                }
                WorkAdvice::Set {
                    first,
                    text: format!(
                        "mixture screw: {:.2} turn {} ({:.0} deg, u {}), {}",
                        degrees.abs() / 360.0,
                        way_word(degrees < 0.0),
                        degrees.abs(),
                        said_u,
                        self.where_to()
                    ),
                    then_reads: format!("{}, with the speed seen to once more", self.asked.wanted),
                }
            }
            Some(IdleStep::Done) => WorkAdvice::Leave {
                text: String::from(
                    "speed and mixture stand, as far as the speed tells: leave both screws, but for what the exhaust gas asks",
                ),
            },
        }
    }

    fn first(&self) -> Vec<String> {
        let mut first = self.before.sure.clone();
        first.push(String::from(
            "the engine is warm, the choke is off and nothing else loads it",
        ));
        first
    }

    fn where_to(&self) -> String {
        match self.rule {
            IdleRule::Highest => String::from("to where the engine runs fastest"),
            IdleRule::Beside(side, by) => format!(
                "to where it runs {:.0} rpm under the fastest on the {} side",
                by.rpm(),
                side_word(side)
            ),
        }
    }
}

/// How far the crown is known. Readings that hardly scatter make a doubt that is nothing as it is written; what
/// they were read with still has one.
fn doubt(top: &IdleCrownReport) -> String {
    if top.best_turns_u >= LEAST_TURNS {
        format!(
            "u {:.2}, with 95 % from {:.2} to {:.2}",
            top.best_turns_u, top.from_turns, top.to_turns
        )
    } else {
        String::from(
            "u under 0.01: these readings hardly scatter, and it covers neither how finely speed and screw were read \
             nor a tachometer that is off",
        )
    }
}

pub(super) const fn side_word(side: Side) -> &'static str {
    match side {
        Side::Lean => "lean",
        Side::Rich => "rich",
    }
}

pub(super) const fn way_word(out: bool) -> &'static str {
    if out { "out" } else { "in" }
}
