//! What came out of the weighing.

use super::{Cause, CauseAssumption, Place};
use alloc::vec::Vec;
use serde::Serialize;

/// From here on something counts as settled. This library's choice.
pub const SETTLED: f64 = 0.95;

/// Something to look at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CauseLook {
    /// Valve clearances.
    Clearances,
    /// What past services say of them.
    Records,
    /// Compression against the mates, and against what it should be.
    Compression,
    /// Oil into a low cylinder, and compression again.
    Oil,
    /// How much a cylinder leaks, and where it is heard.
    Leak,
    /// Where a cylinder that leaks is heard.
    Listen,
    /// Plugs.
    Plugs,
    /// Dwell.
    Dwell,
    /// Ignition timing.
    Timing,
    /// The vacuum gauge.
    Gauge,
    /// The exhaust gas.
    Gas,
}

impl CauseLook {
    /// Those that signs come from, in the order in which they are weighed.
    ///
    /// ```
    /// use lashwork::causes::CauseLook;
    /// assert_eq!(CauseLook::WEIGHED[0], CauseLook::Clearances);
    /// ```
    pub const WEIGHED: [Self; 9] = [
        Self::Clearances,
        Self::Records,
        Self::Compression,
        Self::Leak,
        Self::Plugs,
        Self::Dwell,
        Self::Timing,
        Self::Gauge,
        Self::Gas,
    ];

    /// Minutes of work, of one cylinder where it is looked at one by one. This library's choice.
    ///
    /// ```
    /// use lashwork::causes::CauseLook;
    /// assert!(CauseLook::Plugs.minutes() < CauseLook::Leak.minutes());
    /// ```
    #[must_use]
    pub const fn minutes(self) -> f64 {
        match self {
            Self::Records | Self::Listen => 1.0,
            Self::Oil => 2.0,
            Self::Plugs | Self::Dwell => 3.0,
            Self::Compression => 4.0,
            Self::Gauge => 5.0,
            Self::Timing => 6.0,
            Self::Clearances => 8.0,
            Self::Leak | Self::Gas => 10.0,
        }
    }
}

/// How heavily a sign weighs.
///
/// # Source
/// The grades of H. Jeffreys, Theory of probability, 1961, appendix B: half-powers of ten, 5 decibans each, of
/// which those above 15 are one here (from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Strength {
    /// Hardly, or not at all: under 1 deciban, about 5 to 4.
    Nothing,
    /// A little: under 5 decibans, about 3 to 1.
    Weak,
    /// Under 10 decibans, 10 to 1.
    Clear,
    /// Under 15 decibans, about 32 to 1.
    Strong,
    /// 15 decibans or more.
    Decisive,
}

impl Strength {
    /// The grade of a weight in decibans, whichever way it points.
    ///
    /// ```
    /// use lashwork::causes::Strength;
    /// assert_eq!(Strength::of(-12.0), Strength::Strong);
    /// assert_eq!(Strength::of(0.5).to_string(), "says hardly anything");
    /// ```
    #[must_use]
    pub fn of(decibans: f64) -> Self {
        match libm::fabs(decibans) {
            w if w < 1.0 => Self::Nothing,
            w if w < 5.0 => Self::Weak,
            w if w < 10.0 => Self::Clear,
            w if w < 15.0 => Self::Strong,
            _ => Self::Decisive,
        }
    }
}

impl core::fmt::Display for Strength {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(match self {
            Self::Nothing => "says hardly anything",
            Self::Weak => "speaks weakly",
            Self::Clear => "speaks clearly",
            Self::Strong => "speaks strongly",
            Self::Decisive => "decides",
        })
    }
}

/// What one look says of a cause, in decibans: ten times the logarithm of how many times the odds became; above
/// 0 for it, below against it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SpeaksFor {
    /// The look.
    pub look: CauseLook,
    /// By itself, had nothing else been looked at.
    pub alone: f64,
    /// Beyond what the looks before it had said already; these add up to the whole.
    pub adds: f64,
}

impl SpeaksFor {
    /// How heavily it weighs beyond the looks before it.
    ///
    /// ```
    /// use lashwork::causes::{CauseLook, SpeaksFor, Strength};
    /// let plugs = SpeaksFor { look: CauseLook::Plugs, alone: 9.0, adds: 2.0 };
    /// assert_eq!(plugs.strength(), Strength::Weak);
    /// ```
    #[must_use]
    pub fn strength(&self) -> Strength {
        Strength::of(self.adds)
    }
}

/// Where a cause may sit, and how likely it sits there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CausePlace {
    /// The place.
    pub place: Place,
    /// The chance that the cause is there.
    pub probability: f64,
}

/// A cause, how far it is to be believed, and why.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LikelyCause {
    /// The cause.
    pub cause: Cause,
    /// How likely that was taken to be before anything was seen.
    pub prior: f64,
    /// How likely it is by what was seen, alone or with another.
    pub probability: f64,
    /// Where, most likely first; those under a tenth of the first are left out.
    pub places: Vec<CausePlace>,
    /// What speaks for it and against it, in the order of weighing.
    pub speaks: Vec<SpeaksFor>,
}

/// What came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CauseVerdict {
    /// Nothing was looked at.
    NothingSeen,
    /// None of the causes is there, with 0.95 ([`SETTLED`]) or more.
    Sound,
    /// The first cause is there, with 0.95 or more; another may be besides.
    Settled,
    /// Several explanations are still likely.
    Open,
    /// None of the causes fits as well as something else.
    NothingFits,
}

/// A look worth taking.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NextCauseLook {
    /// At what.
    pub at: CauseLook,
    /// In which cylinder, counted from 0; none if in no single one.
    pub cylinder: Option<usize>,
    /// How much doubt about causes and places it takes away on average, in bits.
    pub bits: f64,
    /// Minutes of work.
    pub minutes: f64,
}

/// The answer to a [`super::CauseCheck`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CauseAnswer {
    /// The causes, most likely first. Several may be there at once: their probabilities do not add up to 1.
    pub causes: Vec<LikelyCause>,
    /// The chance that none of them is there, nor something else.
    pub nothing: f64,
    /// The part of that in which a cylinder leaks for the moment: carbon under a valve, or bores dry from
    /// standing. Run it warm and measure again.
    pub passing: f64,
    /// The chance that it is something that is not weighed here.
    pub something_else: f64,
    /// The chance that two or more causes are there.
    pub several: f64,
    /// What came out.
    pub verdict: CauseVerdict,
    /// Where to look next: most expected information per minute of work first, three at most.
    pub next: Vec<NextCauseLook>,
    /// What was not looked at at all.
    pub not_looked_at: Vec<CauseLook>,
    /// What was taken for granted.
    pub assumptions: Vec<CauseAssumption>,
}
