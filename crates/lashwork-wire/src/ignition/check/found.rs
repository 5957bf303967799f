//! What the answers share.

use crate::problem::{Problem, value};
use lashwork::tolerance::{
    Estimate, HasLimits, Limits, Measurand, Probabilities, Uncertainty, Verdict, judge,
};
use serde::Serialize;
use std::fmt::Display;

/// A value and its standard uncertainty, which is in the unit of the value.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(
    feature = "schema",
    derive(schemars::JsonSchema),
    schemars(rename = "{Q}Found")
)]
pub(crate) struct Found<Q> {
    /// The value.
    pub(super) value: Q,
    /// Its standard uncertainty, in the same unit.
    pub(super) uncertainty: f64,
}

impl<Q: Measurand> Found<Q> {
    /// Centre and standard uncertainty; nothing of what has one end.
    pub(super) fn of(estimate: &Estimate<Q>) -> Option<Self> {
        Some(Self {
            value: estimate.centre()?,
            uncertainty: estimate.standard_uncertainty()?.number(),
        })
    }
}

/// A verdict and what it rests on.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct Judged {
    /// In the band, below or above it, or that it cannot be said.
    pub(super) verdict: Verdict,
    /// How probable each side is.
    pub(super) probabilities: Probabilities,
    /// Whether any reading so uncertain could be called in the band.
    pub(super) provable: bool,
}

impl From<lashwork::tolerance::Judgement> for Judged {
    fn from(judged: lashwork::tolerance::Judgement) -> Self {
        Self {
            verdict: judged.verdict,
            probabilities: judged.probabilities,
            provable: judged.provable,
        }
    }
}

impl Judged {
    /// By the usual rule of the quantity.
    pub(super) fn of<Q: HasLimits>(found: &Estimate<Q>, limits: &Limits<Q>) -> Self {
        judge(found, limits, &Q::USUAL_RULE).into()
    }
}

/// What was taken because nobody stated it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct Taken {
    /// A short name that never changes.
    code: String,
    /// What was taken, with values.
    text: String,
}

/// Notes what was taken, once.
pub(super) fn take(code: &str, text: &impl Display, all: &mut Vec<Taken>) {
    let (code, text) = (code.to_owned(), text.to_string());
    let taken = Taken { code, text };
    if !all.contains(&taken) {
        all.push(taken);
    }
}

/// A value with its normal standard uncertainty in the base unit.
pub(super) fn stated<Q: Measurand>(
    read: Q,
    u: f64,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Estimate<Q>> {
    let u = value(problems, place, Uncertainty::from_number(u))?;
    value(problems, place, Estimate::between(read, read, u))
}
