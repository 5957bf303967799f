//! Leads in words.

use super::answer::{LeadGroupReport, LeadStateReport};
use crate::engine::{CylinderIndex, CylinderLabel, Engine, Sense};
use crate::ignition::leads::{LeadGroup, LeadState, LookAt};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What the words need to know.
pub(super) struct Words<'r> {
    pub(super) engine: &'r Engine,
    pub(super) rotor: Option<Sense>,
    pub(super) orders: &'r [Vec<CylinderLabel>],
}

impl Words<'_> {
    /// A cylinder's name.
    pub(super) fn label(&self, index: CylinderIndex) -> String {
        let found = self.engine.cylinder(index);
        found.map_or_else(String::new, |cylinder| cylinder.label.as_str().into())
    }

    /// The name of the first cylinder of the firing order.
    pub(super) fn first(&self) -> String {
        let first = self.engine.order().first();
        first.map_or_else(String::new, |index| self.label(*index))
    }

    /// The engine's firing order.
    fn order(&self) -> String {
        let labels = self.engine.order().iter().map(|index| self.label(*index));
        labels.collect::<Vec<_>>().join("-")
    }

    /// The cylinder whose tower it is.
    fn tower(&self, tower: usize) -> String {
        let index = self.engine.order().get(tower);
        index.map_or_else(String::new, |index| self.label(*index))
    }

    /// The way the rotor turns, or against it.
    fn way(&self, with: bool) -> String {
        let said = if with {
            "the way the rotor turns"
        } else {
            "against the way the rotor turns"
        };
        let seen = match (self.rotor, with) {
            (None, _) => return said.to_string(),
            (Some(Sense::Clockwise), true) | (Some(Sense::Anticlockwise), false) => "clockwise",
            (Some(Sense::Anticlockwise), true) | (Some(Sense::Clockwise), false) => "anticlockwise",
        };
        format!("{said} ({seen} seen from the cap)")
    }

    /// A state.
    fn state(&self, state: &LeadState) -> String {
        match state {
            LeadState::AsItShould => String::from("leads and distributor are as they should be"),
            LeadState::TeethOut { ahead } => {
                let side = if *ahead > 0 { "ahead of" } else { "behind" };
                let by = count(usize::from(ahead.unsigned_abs()), "tooth", "teeth");
                format!("the distributor is in {by} {side} its place")
            }
            LeadState::HalfTurnOut => String::from(
                "the distributor is in half a turn out: it went in with the crank one turn out",
            ),
            LeadState::TwoExchanged { first, second } => format!(
                "the leads of cylinders {} and {} are exchanged",
                self.label(*first),
                self.label(*second)
            ),
            LeadState::AllShifted { towers } => format!(
                "every lead is {} too far along, {}",
                count(*towers, "tower", "towers"),
                self.way(true)
            ),
            LeadState::AgainstRotor => {
                String::from("the leads follow the firing order against the way the rotor turns")
            }
            LeadState::OtherOrder { listed } => {
                format!(
                    "the leads follow another firing order, {}",
                    self.listed(*listed)
                )
            }
            LeadState::MovedToSuit { towers } => format!(
                "distributor and leads are both {} along: the engine runs right, the marks do not fit",
                count(*towers, "tower", "towers")
            ),
            LeadState::SomethingElse => {
                String::from("something else, or more than one of these at once")
            }
        }
    }

    /// How the leads are put right.
    pub(super) fn cure(&self, state: &LeadState) -> Option<String> {
        let order = self.order();
        let first = self.first();
        Some(match state {
            LeadState::TeethOut { ahead } => format!(
                "take the distributor out and put it in again with the rotor {} further {}",
                count(usize::from(ahead.unsigned_abs()), "tooth", "teeth"),
                self.way(*ahead < 0)
            ),
            LeadState::HalfTurnOut => format!(
                "stop cylinder {first} at firing top dead centre, take the distributor out, turn its shaft half \
                 a turn and put it in again: the rotor then points at the tower of cylinder {first}"
            ),
            LeadState::TwoExchanged { first, second } => format!(
                "exchange the leads of cylinders {} and {} at the cap",
                self.label(*first),
                self.label(*second)
            ),
            LeadState::AllShifted { towers } => format!(
                "move every lead {} at the cap, {}",
                count(*towers, "tower", "towers"),
                self.way(false)
            ),
            LeadState::AgainstRotor | LeadState::OtherOrder { .. } => format!(
                "put the leads on anew: from the tower of cylinder {first} in the order {order}, {}",
                self.way(true)
            ),
            LeadState::AsItShould | LeadState::MovedToSuit { .. } | LeadState::SomethingElse => {
                return None;
            }
        })
    }

    fn listed(&self, at: usize) -> String {
        let labels = self.orders.get(at).into_iter().flatten();
        let labels = labels.map(|label| label.as_str().to_string());
        labels.collect::<Vec<String>>().join("-")
    }

    /// A look that could be taken.
    pub(super) fn look(&self, at: LookAt) -> String {
        match at {
            LookAt::LeadOf { tower } => {
                let from = if tower == 0 {
                    String::new()
                } else {
                    format!(
                        " ({} from that of cylinder {}, {})",
                        count(tower, "tower", "towers"),
                        self.first(),
                        self.way(true)
                    )
                };
                let of = self.tower(tower);
                format!("follow the lead in the tower of cylinder {of}{from} to its plug")
            }
            LookAt::RotorAtFiring { cylinder } => format!(
                "stop cylinder {} at top dead centre of its compression, made sure of by its valves or a thumb \
                 on the plug hole, and look at which tower the rotor points",
                self.label(cylinder)
            ),
            LookAt::SparkOf { cylinder } => format!(
                "with a lamp on the lead of cylinder {}, look where the crank stands when it flashes",
                self.label(cylinder)
            ),
        }
    }

    /// A group as the report tells it.
    pub(super) fn group(&self, group: &LeadGroup) -> LeadGroupReport {
        let states: Vec<LeadStateReport> = group
            .states
            .iter()
            .map(|weighed| LeadStateReport {
                fault: weighed.state.fault(),
                probability: weighed.probability,
                text: self.state(&weighed.state),
            })
            .collect();
        let wrong_sparks = group.wrong_sparks.as_ref().map(|wrong| {
            let labels = wrong.iter().map(|index| self.label(*index));
            labels.collect::<Vec<String>>()
        });
        let said: Vec<&str> = states.iter().map(|state| state.text.as_str()).collect();
        let mut text = said.join("; or, which no look tells apart: ");
        if let Some(wrong) = wrong_sparks.as_ref().filter(|wrong| !wrong.is_empty()) {
            let all = wrong.len() == self.engine.order().len();
            let who = if all {
                String::from("every cylinder")
            } else {
                wrong.join(", ")
            };
            text = format!("{text}; wrong spark: {who}");
        }
        LeadGroupReport {
            probability: group.probability,
            states,
            wrong_sparks,
            text,
        }
    }
}

fn count(number: usize, one: &str, many: &str) -> String {
    let word = if number == 1 { one } else { many };
    format!("{number} {word}")
}
