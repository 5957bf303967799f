//! What was found of the magnetos.

use crate::ignition::magneto::{DropFinding, MagnetoCaution, Which};
use crate::job::work::{MeasuredReport, WorkAdvice};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde::Serialize;

/// What was found of the magnetos, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct MagnetoReport {
    /// What can kill, the gravest first; to be read before anything else.
    pub cautions: Vec<MagnetoCautionReport>,
    /// Each magneto.
    pub magnetos: Vec<OneMagnetoReport>,
    /// How far two are apart.
    pub apart: Option<MagnetoPairReport>,
    /// The test of each alone, the last thing to act on.
    pub drop: Option<MagnetoDropReport>,
}

/// What can kill.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct MagnetoCautionReport {
    /// Which.
    pub caution: MagnetoCaution,
    /// In words.
    pub text: String,
}

impl MagnetoCautionReport {
    pub(super) fn new(caution: MagnetoCaution) -> Self {
        Self {
            caution,
            text: caution.to_string(),
        }
    }
}

/// What was found of one magneto.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct OneMagnetoReport {
    /// Which of two.
    pub which: Option<Which>,
    /// Where its contacts open, in degrees past neutral.
    pub e_gap: Option<MeasuredReport>,
    /// How wide they open.
    pub gap: Option<MeasuredReport>,
    /// Where it sparks.
    pub spark: Option<MeasuredReport>,
    /// Where its impulse coupling trips.
    pub impulse: Option<String>,
    /// What to do: inside first, since moving the contacts moves the spark.
    pub advice: WorkAdvice,
}

impl OneMagnetoReport {
    /// Whether anything of it was judged.
    pub(super) const fn is_read(&self) -> bool {
        self.e_gap.is_some() || self.gap.is_some() || self.spark.is_some()
    }
}

/// One magneto against the other.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct MagnetoPairReport {
    /// How far they are apart.
    pub judged: MeasuredReport,
    /// What to do.
    pub advice: WorkAdvice,
}

/// What the test of each alone shows.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct MagnetoDropReport {
    /// The drops, in words.
    pub drops: Vec<String>,
    /// The same against the book's greatest drop, if it prints one.
    pub judged: Vec<MeasuredReport>,
    /// How far they differ.
    pub difference: MeasuredReport,
    /// What it shows, the most dangerous first.
    pub findings: Vec<DropFinding>,
    /// What to do.
    pub advice: WorkAdvice,
}
