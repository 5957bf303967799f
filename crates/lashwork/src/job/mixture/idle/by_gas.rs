//! Where the exhaust gas goes before the place of the mixture screw by the speed.
//!
//! # Source
//! Common practice, no source: the speed is the way to come near the mixture where there is no tester, and a limit
//! of the gas is of the mixture itself. Without it the two send the screw to and fro.

use super::advise::{side_word, way_word};
use crate::job::mixture::of_idle::OfIdle;
use crate::mixture::idle::{IdleStep, MixtureScrew, Side};
use alloc::format;
use alloc::string::{String, ToString};

/// Why the gas goes first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum ByGas {
    /// It is in its band where the screw stands.
    InBand,
    /// It wants the mixture to this side, and the speed to the other.
    Against(Side),
}

/// Whether it goes before this step.
pub(super) fn by_gas(step: IdleStep, gas: Option<OfIdle>, screw: MixtureScrew) -> Option<ByGas> {
    match (gas?, step) {
        (
            OfIdle::InBand,
            IdleStep::ReadCurve | IdleStep::ReadFurther { .. } | IdleStep::Mixture { .. },
        ) => Some(ByGas::InBand),
        (OfIdle::Toward(side), IdleStep::Mixture { turn, .. }) => {
            let is_out = turn.degrees() < 0.0;
            (is_out != side.is_out(screw)).then_some(ByGas::Against(side))
        }
        _ => None,
    }
}

impl ByGas {
    /// In short, for the verdict.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::InBand => "the mixture is set by the gas",
            Self::Against(_) => "the mixture is left to the gas",
        }
    }

    /// What to do, and why.
    pub(super) fn advice(self, step: IdleStep, is_rule_stated: bool) -> String {
        let apart = match step {
            IdleStep::Mixture { turn, .. } => {
                let degrees = turn.degrees();
                let turns = degrees.abs() / 360.0;
                format!("{turns:.2} turn {}", way_word(degrees < 0.0))
            }
            _ => String::new(),
        };
        let why = "The gas goes first: it shows the mixture itself, the speed only comes near it";
        let look = "so far apart, look for an exhaust leak, air behind the throttle, uneven cylinders, and a tester \
                    that is not zeroed";
        match (self, is_rule_stated) {
            (Self::InBand, false) => {
                "leave both screws: the gas, read at idle, has set the mixture; where the engine runs fastest is not \
                 asked again"
                    .to_string()
            }
            (Self::InBand, true) if apart.is_empty() => format!(
                "leave both screws: by the gas the mixture is as the book asks; the book's place by the speed was not \
                 read. {why}"
            ),
            (Self::InBand, true) => format!(
                "leave both screws: by the gas the mixture is as the book asks, by the speed the book wants it {apart}. \
                 {why}; {look}"
            ),
            (Self::Against(side), false) => format!(
                "leave both screws to the gas, which wants it {}er: where the engine runs fastest is {apart}, the other \
                 way, and is not asked again",
                side_word(side)
            ),
            (Self::Against(side), true) => format!(
                "leave both screws to the gas, which wants it {}er; by the speed the book wants it {apart}, the other \
                 way: both cannot be had. {why}; {look}",
                side_word(side)
            ),
        }
    }
}
