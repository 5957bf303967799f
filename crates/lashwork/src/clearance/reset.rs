//! Bringing a valve to its set value: what is advised, in words and numbers.

use super::locking::{BeforeLocking, Landing};
use super::pair::LeavesToFind;
use super::step::Step;
use crate::adjust::{JudgedSize, ScrewTurn};
use crate::quantity::{Lash, LashChange};
use alloc::boxed::Box;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The shim for one valve by itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ShimAdvice {
    /// The size to fit.
    #[serde(flatten)]
    pub size: JudgedSize,
    /// The sizes on either side of the exact thickness, without that one.
    pub others: Vec<JudgedSize>,
}

/// A turn of the adjusting screw, to start with: the leaf decides.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ScrewStep {
    /// The turn.
    #[serde(flatten)]
    pub turn: ScrewTurn,
    /// What is turned: `screw`, or `nut` for one on a stud.
    pub part: &'static str,
    /// The same in words; a part of a turn is named only where following it stays well in the set band.
    pub words: String,
}

/// What sets it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum By {
    /// A turn of the adjusting screw.
    Screw(ScrewStep),
    /// Another shim.
    Shim(Box<ShimAdvice>),
}

/// [`By`] as it is flattened: either field or none.
#[cfg(feature = "schema")]
#[derive(schemars::JsonSchema)]
#[expect(dead_code, reason = "only its shape is asked for")]
struct ByFields {
    /// A turn of the adjusting screw.
    screw: ScrewStep,
    /// Another shim.
    shim: ShimAdvice,
}

/// A reset in words and, where it can be computed, in numbers.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(
    feature = "schema",
    derive(schemars::JsonSchema),
    schemars(extend("not" = { "required": ["screw", "shim"] }))
)]
#[non_exhaustive]
pub struct Reset {
    /// What to do, in words: where something comes first, that and not the amount.
    pub text: String,
    /// What comes before the amount, in order; usually nothing.
    pub first: Vec<Step>,
    /// The amount in words.
    pub amount: String,
    /// Why it is reset although the reading does not call it tight or loose, if that is so.
    pub because: Option<String>,
    /// What to set it to, at the reference temperature.
    pub aim: Lash,
    /// Whether that is the printed value.
    pub aim_is_printed: bool,
    /// Why it is not, or that no value of the set band keeps the rule.
    pub aim_text: Option<String>,
    /// Wanted minus found, at the reference temperature; only for a reading with both ends.
    pub change: Option<LashChange>,
    /// The turn or the shim, where that can be told.
    #[serde(flatten)]
    #[cfg_attr(feature = "schema", schemars(with = "Option<ByFields>"))]
    pub by: Option<By>,
    /// What the leaves should feel at the present temperature afterwards; nothing if they would find
    /// no gap.
    pub feel_now: Option<Lash>,
    /// The leaves to find then.
    pub leaves: Option<LeavesToFind>,
    /// What to feel before the lock nut is tightened, if its shift was learned.
    pub before_locking: Option<BeforeLocking>,
    /// How it lands, if the spread of that shift was learned.
    #[serde(flatten)]
    pub landing: Option<Landing>,
    /// The step, from 1, of the shim plan of the same specification that does it. A plan takes all
    /// valves together, so that no size stands here then.
    pub shim_plan: Option<usize>,
}

impl Reset {
    /// What a step of the shim plan does.
    pub(crate) fn by_shim_plan(text: String, step: usize, aim: Lash) -> Self {
        Self {
            text: text.clone(),
            first: Vec::new(),
            amount: text,
            because: None,
            aim,
            aim_is_printed: true,
            aim_text: None,
            change: None,
            by: None,
            feel_now: None,
            leaves: None,
            before_locking: None,
            landing: None,
            shim_plan: Some(step),
        }
    }

    /// The turn of the screw, if a screw sets it.
    #[must_use]
    pub const fn screw(&self) -> Option<&ScrewTurn> {
        match &self.by {
            Some(By::Screw(step)) => Some(&step.turn),
            _ => None,
        }
    }

    /// The shim to fit, if a shim sets it.
    #[must_use]
    pub fn shim(&self) -> Option<&ShimAdvice> {
        match &self.by {
            Some(By::Shim(choice)) => Some(choice),
            _ => None,
        }
    }
}
