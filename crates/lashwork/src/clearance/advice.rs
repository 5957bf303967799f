//! What to do about a judged valve.

use super::aim::Aim;
use super::as_found::AsFound;
use super::error::ClearanceError;
use super::locking::{Landing, better_left};
use super::reset::Reset;
use super::setting::Setting;
use crate::quantity::Lash;
use crate::tolerance::{Estimate, Judgement, Verdict};
use alloc::string::String;
use serde::Serialize;

/// What to do about a valve, with only what belongs to it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(tag = "action", rename_all = "snake_case")]
#[non_exhaustive]
pub enum Advice {
    /// Leave the valve alone.
    #[non_exhaustive]
    Leave {
        /// Why, in words.
        text: String,
        /// The chances after a reset, where they are the reason.
        #[serde(flatten)]
        landing: Option<Landing>,
    },
    /// Measure before anything is decided.
    #[non_exhaustive]
    Measure {
        /// What has to be better.
        how: MeasureHow,
        /// The same in words.
        text: String,
    },
    /// Bring it to the set value.
    Reset(Reset),
    /// Something that concerns more than this valve must be settled first: its number may not be what
    /// it seems, so no amount is given.
    #[non_exhaustive]
    SettleFirst {
        /// What, in words.
        text: String,
    },
    /// Something must be found out before it can be set.
    #[non_exhaustive]
    FindCause {
        /// What, in words.
        text: String,
    },
}

/// How to measure again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum MeasureHow {
    /// The other end of the bracket is missing.
    BothEnds,
    /// With finer steps: a bracket as wide as this one cannot prove anything.
    FinerSteps,
    /// With a narrower bracket.
    NarrowerBracket,
    /// At the reference temperature: most of the doubt comes from the metal's temperature.
    AtReference,
}

impl MeasureHow {
    const fn words(self) -> &'static str {
        match self {
            Self::BothEnds => {
                "find the leaf that goes and the next that does not, then judge again"
            }
            Self::FinerSteps => {
                "measure again with finer steps: a bracket this wide cannot prove anything"
            }
            Self::NarrowerBracket => "measure again with a narrower bracket",
            Self::AtReference => {
                "let the metal come to the reference temperature and measure again: most of \
                 the doubt comes from its temperature"
            }
        }
    }
}

impl Advice {
    /// The step in words.
    #[must_use]
    pub fn text(&self) -> &str {
        match self {
            Self::Leave { text, .. }
            | Self::Measure { text, .. }
            | Self::SettleFirst { text }
            | Self::FindCause { text } => text,
            Self::Reset(reset) => &reset.text,
        }
    }

    /// The amounts of a reset, if one is advised.
    #[must_use]
    pub const fn reset(&self) -> Option<&Reset> {
        match self {
            Self::Reset(reset) => Some(reset),
            _ => None,
        }
    }

    /// The chances after a reset, where they are known.
    #[must_use]
    pub const fn landing(&self) -> Option<Landing> {
        match self {
            Self::Leave { landing, .. } => *landing,
            Self::Reset(reset) => reset.landing,
            _ => None,
        }
    }
}

/// Advice for one judged reading. `estimate` is at the reference temperature.
pub(super) fn advise(
    found: &AsFound,
    setting: &Setting<'_>,
    estimate: &Estimate<Lash>,
    judgement: &Judgement,
) -> Result<Advice, ClearanceError> {
    Ok(match judgement.verdict {
        Verdict::InBand => Advice::Leave {
            text: String::from(if between_the_bands(setting, estimate) {
                "leave it alone: outside the set band but inside the leave-alone band"
            } else {
                "leave it alone"
            }),
            landing: None,
        },
        Verdict::CannotSay => {
            let how = measure(setting, estimate, judgement);
            let text = String::from(how.words());
            Advice::Measure { how, text }
        }
        Verdict::Below | Verdict::Above => {
            let aim = Aim::of(found, setting, estimate)?;
            let lands = aim.lands(setting);
            let landing = lands.map(|l| l.told);
            match lands.and_then(|l| better_left(judgement, &l, setting.limits)) {
                Some(text) => Advice::Leave { text, landing },
                None => match aim.reset(found, setting, estimate, landing)? {
                    Ok(reset) => Advice::Reset(reset),
                    Err(text) => Advice::FindCause { text },
                },
            }
        }
    })
}

fn between_the_bands(setting: &Setting<'_>, estimate: &Estimate<Lash>) -> bool {
    let limits = setting.limits;
    let centre = estimate.centre();
    limits.leave_alone().is_some() && centre.is_some_and(|c| !limits.set().contains(c))
}

fn measure(setting: &Setting<'_>, estimate: &Estimate<Lash>, judgement: &Judgement) -> MeasureHow {
    let (warm_u, all) = (
        setting.warmth_uncertainty_mm(),
        estimate.standard_uncertainty(),
    );
    let warm_dominates = all.is_some_and(|u| 2.0 * warm_u * warm_u > u.mm() * u.mm());
    match (estimate.centre(), judgement.provable) {
        _ if warm_dominates => MeasureHow::AtReference,
        (None, _) => MeasureHow::BothEnds,
        (_, false) => MeasureHow::FinerSteps,
        (_, true) => MeasureHow::NarrowerBracket,
    }
}
