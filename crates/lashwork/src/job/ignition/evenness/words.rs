//! Evenness in words.

use super::answer::{UnevenGroupReport, UnevenReport};
use super::evenness::{
    Evenness as Answer, EvennessLook, LobeFiring, Mean, UnevenExplanation, UnevenGroup,
};
use super::{UnevenCause, UnevenVerdict};
use crate::engine::{CylinderIndex, Engine};
use crate::job::text::percent;
use crate::quantity::LengthUnit;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What the words need to know.
pub(super) struct Words<'r> {
    pub(super) engine: &'r Engine,
    pub(super) inches: bool,
}

impl Words<'_> {
    /// A cylinder's name.
    pub(super) fn label(&self, index: CylinderIndex) -> String {
        let found = self.engine.cylinder(index);
        found.map_or_else(String::new, |cylinder| cylinder.label.as_str().into())
    }

    /// One spark.
    pub(super) fn lobe(&self, lobe: &LobeFiring) -> String {
        format!(
            "cylinder {} {}, u {:.1} deg",
            self.label(lobe.cylinder),
            late(lobe.error.degrees_late()),
            lobe.error_u.degrees()
        )
    }

    /// All together.
    #[expect(clippy::unused_self, reason = "one of the words")]
    pub(super) fn mean(&self, mean: &Mean) -> String {
        let (at, u) = (
            mean.error.degrees_late(),
            mean.standard_uncertainty.degrees(),
        );
        format!("all together {}, u {u:.1} deg", late(at))
    }

    /// What came out.
    #[expect(clippy::unused_self, reason = "one of the words")]
    pub(super) fn verdict(
        &self,
        verdict: UnevenVerdict,
        first: Option<&UnevenGroupReport>,
    ) -> String {
        let text = first.map_or("", |group| group.text.as_str());
        let share = first.map_or(0.0, |group| group.probability);
        match verdict {
            UnevenVerdict::Settled => format!("{text} ({})", percent(share)),
            UnevenVerdict::CannotBeToldApart => {
                format!(
                    "cannot be told apart by these readings: {text} ({})",
                    percent(share)
                )
            }
            UnevenVerdict::Open => {
                format!("not decided; most probably {text} ({})", percent(share))
            }
        }
    }

    /// The parts of the unevenness.
    pub(super) fn parts(&self, found: &Answer) -> Vec<String> {
        let mut said = Vec::new();
        if let Some(wave) = &found.harmonic {
            let mut text = format!(
                "once round: {:.1} crank deg either way, u {:.1} deg; readings alone make as much in {}",
                wave.amplitude.degrees(),
                wave.amplitude_u.degrees(),
                percent(wave.chance_by_reading)
            );
            if let Some(u) = wave.latest_at_u {
                let (at, u) = (wave.latest_at.degrees(), u.degrees());
                text = format!(
                    "{text}; latest {at:.0} deg of the rotor past the first lobe, u {u:.0} deg"
                );
            }
            said.push(text);
        }
        if let Some(out) = &found.run_out {
            let (unit, digits) = if self.inches {
                (LengthUnit::Inch, 4)
            } else {
                (LengthUnit::Millimetre, 3)
            };
            let most = if out.is_upper_bound { "at most " } else { "" };
            said.push(format!(
                "that is a run-out of {most}{} off the middle, u {}; a gauge shows twice that",
                out.eccentricity.show(unit, digits),
                out.standard_uncertainty.show(unit, digits)
            ));
        }
        if let (Some(turns), Some(u)) = (found.every_other, found.every_other_u) {
            said.push(format!(
                "the first, third and so on {}, the others the other way, u {:.1} deg",
                late(turns.degrees_late()),
                u.degrees()
            ));
        }
        said
    }

    /// A group as the report tells it.
    pub(super) fn group(&self, group: &UnevenGroup) -> UnevenGroupReport {
        let said = group.explanations.iter().map(|one| UnevenReport {
            cause: one.cause,
            cylinder: one.cylinder.map(|index| self.label(index)),
            probability: one.probability,
            text: self.cause(one),
        });
        let explanations: Vec<UnevenReport> = said.collect();
        let all: Vec<&str> = explanations.iter().map(|one| one.text.as_str()).collect();
        UnevenGroupReport {
            probability: group.probability,
            text: all.join("; or, which these readings cannot tell apart: "),
            explanations,
        }
    }

    fn cause(&self, one: &UnevenExplanation) -> String {
        let of = one
            .cylinder
            .map_or_else(String::new, |index| self.label(index));
        match one.cause {
            UnevenCause::Even => String::from("as even as a sound distributor"),
            UnevenCause::RunOut => {
                String::from("run-out: a bent shaft, a worn bushing, or a cam off its middle")
            }
            UnevenCause::LobeWorn => format!("the lobe of cylinder {of} is worn"),
            UnevenCause::Misread => format!("cylinder {of} was misread"),
            UnevenCause::EveryOther => String::from(
                "every second spark is off: two sets of contacts set apart, or play in the drive",
            ),
            UnevenCause::RunOutAndEveryOther => {
                String::from("run-out, and every second spark off besides")
            }
            UnevenCause::EveryLobe => String::from(
                "each lobe by itself: a worn cam, a loose plate, or a worn thrust face",
            ),
        }
    }

    /// A look that would tell.
    pub(super) fn look(&self, look: EvennessLook) -> String {
        match look {
            EvennessLook::ReadAgain(index) => {
                format!("read cylinder {} once more", self.label(index))
            }
            EvennessLook::SidePlay => String::from(
                "push and pull the shaft sideways with a dial gauge at the cam, and turn it once",
            ),
            EvennessLook::GapOnLobe(index) => format!(
                "compare the gap on top of the lobe of cylinder {} with the others",
                self.label(index)
            ),
            EvennessLook::ContactsAndDrive => {
                String::from("compare the sets of contacts, and rock the drive for play")
            }
            EvennessLook::GapOnEveryLobe => String::from("compare the gaps on all lobes"),
        }
    }
}

fn late(degrees: f64) -> String {
    let side = if degrees < 0.0 { "early" } else { "late" };
    format!("{:.1} crank deg {side}", degrees.abs())
}
