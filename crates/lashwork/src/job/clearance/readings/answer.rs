//! What is said of each reading and of the lock nut.

use crate::clearance::{Advice, NextTry};
use crate::quantity::{Lash, LashChange};
use crate::tolerance::{Deciding, Probabilities, Verdict};
use crate::valve::ValveKind;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// One valve's reading judged against one specification.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct JudgedReport {
    /// The specification.
    pub specification: String,
    /// The thermal change of the lash from the reference temperature to that of the reading; nothing if
    /// the reading was not corrected.
    pub warmth: Option<LashChange>,
    /// Standard uncertainty of that, in millimetres; where the change is not known, of what it may be.
    pub warmth_uncertainty_mm: f64,
    /// Lower end of the lash at the reference temperature, if the reading has one.
    pub low: Option<Lash>,
    /// Upper end of the lash at the reference temperature, if the reading has one.
    pub high: Option<Lash>,
    /// Standard uncertainty of everything but the bracket itself, in millimetres.
    pub normal_uncertainty_mm: f64,
    /// Standard uncertainty of all together, for a reading with both ends, in millimetres.
    pub standard_uncertainty_mm: Option<f64>,
    /// The limits it was judged against, as printed.
    pub limits: String,
    /// The lower of those limits, if there is one.
    pub limit_low: Option<Lash>,
    /// The upper of those limits, if there is one.
    pub limit_high: Option<Lash>,
    /// What the valve is set to when it is set.
    pub set_to: Option<Lash>,
    /// The verdict.
    pub verdict: Verdict,
    /// The same in the words of lash, no stronger than its probability.
    pub verdict_text: &'static str,
    /// The share that keeps it from being called in band, and what the rule allows of it; nothing if it is
    /// called so.
    pub deciding: Option<Deciding>,
    /// The leaf to try next; nothing if the verdict is settled or no leaf at hand settles it.
    pub next_leaf: Option<NextTry>,
    /// How certain it is.
    pub probabilities: Probabilities,
    /// Whether any reading this uncertain could be proved good.
    pub provable: bool,
    /// What to do.
    pub advice: Advice,
}

/// One valve.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ValveReport {
    /// Cylinder label.
    pub cylinder: String,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// Which of its kind, from 1.
    pub number: u8,
    /// The valve by name.
    pub name: String,
    /// The reading in words, as taken.
    pub reading: String,
    /// Whether its texts, and a sheet, say the lash in inches: asked for, or the leaves are marked so.
    pub leaves_in_inches: bool,
    /// Lower end of the gap as felt.
    pub felt_low: Option<Lash>,
    /// Upper end of the gap as felt.
    pub felt_high: Option<Lash>,
    /// Standard uncertainty from leaves and feel, in millimetres.
    pub felt_uncertainty_mm: f64,
    /// The judgement by each specification that may apply.
    pub judged: Vec<JudgedReport>,
    /// What it read after it was set, judged likewise; nothing if that was not read.
    pub left: Option<LeftReport>,
}

/// What a valve read after it was set.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LeftReport {
    /// The reading in words, as taken.
    pub reading: String,
    /// Whether the leaves are marked in inches.
    pub leaves_in_inches: bool,
    /// Lower end of the gap as felt.
    pub felt_low: Option<Lash>,
    /// Upper end of the gap as felt.
    pub felt_high: Option<Lash>,
    /// Standard uncertainty from leaves and feel, in millimetres.
    pub felt_uncertainty_mm: f64,
    /// The judgement by each specification that may apply.
    pub judged: Vec<JudgedReport>,
}

/// The leaf to try first at every valve of a kind, before anything was felt there.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct FirstLeafReport {
    /// The specification that the verdict is by.
    pub specification: String,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// The leaf.
    pub first: NextTry,
}

/// What was learned of the lock nut.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LockingReport {
    /// Pairs it was learned from.
    pub pairs: usize,
    /// Mean shift, positive where locking opens the gap; nothing without pairs.
    pub mean: Option<LashChange>,
    /// Standard deviation of the shifts as felt, in millimetres; nothing below two pairs.
    pub spread_mm: Option<f64>,
    /// Half the width round the mean that holds the next shift with 95 %, in millimetres; nothing
    /// below two pairs.
    pub half_width_95_mm: Option<f64>,
    /// Standard uncertainty of one gap as felt, in millimetres.
    pub gap_uncertainty_mm: f64,
    /// The finding in words.
    pub text: String,
}
