//! What to do about the head's bolts.

use super::{Head, HeadBolts, HeadReport};
use crate::condition::head::Preload;
use crate::job::work::WorkAdvice;
use crate::quantity::shown::reckoned;
use crate::quantity::{Force, LashChange, Torque};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What was found, on its way into words.
pub(super) struct Told<'r> {
    pub(super) asked: &'r Head,
    pub(super) order: Vec<String>,
    pub(super) faults: Vec<String>,
    pub(super) set: Option<Torque>,
    /// Whether two printed torques are one.
    pub(super) agree: Option<bool>,
    pub(super) force: Option<Preload>,
    pub(super) lash: Option<LashChange>,
    pub(super) inches: bool,
}

impl Told<'_> {
    pub(super) fn report(self) -> HeadReport {
        let whose = if self.asked.order.is_empty() {
            "by geometry, from the middle outward; the maker's order, where there is one, comes before it"
        } else {
            "as stated"
        };
        let order_text = (!self.order.is_empty()).then(|| {
            format!(
                "order: {} ({whose}); to loosen them, the other way round",
                self.order.join(", ")
            )
        });
        HeadReport {
            verdict_text: String::from(self.verdict()),
            order_text,
            set: self.set,
            torque_texts: self.torques(),
            lash_text: self.lash_text(),
            advice: self.advice(),
            order: self.order,
            order_faults: self.faults,
        }
    }

    const fn verdict(&self) -> &'static str {
        match self.asked.stand {
            HeadBolts::NotStated => "nothing says whether they are to be tightened",
            HeadBolts::Settled => {
                "stated as tightened as the book asks, the valves measured after it"
            }
            HeadBolts::Due => "stated as still to be tightened",
            HeadBolts::TightenedSince => {
                "stated as tightened since the valves were measured: those are to be measured again"
            }
        }
    }

    fn torques(&self) -> Vec<String> {
        let unit = self.asked.unit;
        let mut texts = Vec::new();
        if let (Some(torque), Some(set)) = (self.asked.torque, self.set) {
            texts.push(if self.asked.adapter.is_some() {
                format!(
                    "{} at the bolt are {} set on the wrench with this adapter",
                    unit.say(torque),
                    unit.say(set)
                )
            } else {
                format!("{} at the bolt, and on the wrench", unit.say(torque))
            });
        }
        if let (Some(torque), Some(also)) = (self.asked.torque, self.asked.also_printed) {
            texts.push(match self.agree {
                Some(true) => format!("the two printed torques agree: {}", unit.say(also)),
                _ => format!(
                    "the two printed torques are not one: {} and {}; find out which holds",
                    unit.say(torque),
                    unit.say(also)
                ),
            });
        }
        if let Some(force) = &self.force {
            let said = |force: Force| format!("{:.1} kN", force.kilonewtons());
            texts.push(format!(
                "that leaves {} to {} along each bolt, {} in the middle: a torque says no more of it",
                said(force.least),
                said(force.most),
                said(force.middle)
            ));
        }
        texts
    }

    fn lash_text(&self) -> Option<String> {
        let change = self.lash?;
        if change.mm().abs() < 1e-9 {
            return Some(String::from(
                "the camshaft goes down with the head, so that alone moves no clearance; measure all the same",
            ));
        }
        let (way, size) = if change.mm() < 0.0 {
            ("closes", -change.mm())
        } else {
            ("opens", change.mm())
        };
        Some(format!(
            "so much settling {way} every clearance by {}: measure after it",
            reckoned(size, self.inches)
        ))
    }

    fn advice(&self) -> WorkAdvice {
        if self.agree == Some(false) && self.asked.stand != HeadBolts::TightenedSince {
            return WorkAdvice::SettleFirst {
                text: String::from("find out which of the two printed torques holds"),
            };
        }
        match (self.asked.stand, self.set) {
            (HeadBolts::NotStated, _) => WorkAdvice::Measure {
                text: String::from(
                    "look in the maker's manual whether the head bolts are tightened again, and whether that was done",
                ),
            },
            (HeadBolts::Settled | HeadBolts::TightenedSince, _) => WorkAdvice::Leave {
                text: String::from("nothing to do on their account"),
            },
            (HeadBolts::Due, None) => WorkAdvice::SettleFirst {
                text: String::from(
                    "find the torque, the order and the state (cold or warm) in the maker's manual",
                ),
            },
            (HeadBolts::Due, Some(set)) => WorkAdvice::Set {
                first: Vec::from([
                    String::from(
                        "the maker's manual asks for it, cold or warm as it says, threads oiled or dry as it says",
                    ),
                    String::from(
                        "these are no stretch bolts: those are never tightened again by a torque",
                    ),
                ]),
                text: format!(
                    "each bolt {}to {} on the wrench, in the steps the manual gives",
                    if self.order.is_empty() {
                        "in the maker's order "
                    } else {
                        "in that order "
                    },
                    self.asked.unit.say(set)
                ),
                then_reads: format!(
                    "{} without the bolt turning on, once round in the same order; the valves are measured after it",
                    self.asked.unit.say(set)
                ),
            },
        }
    }
}
