//! One quantity against its printed limits, as the report shows it.

use crate::tolerance::{
    DecisionRule, Estimate, Firmness, HasLimits, Judgement, Limits, Probabilities, Verdict,
    as_shown, judge,
};
use alloc::string::{String, ToString};
use serde::Serialize;

/// The words of a quantity for what lies below and above its band.
#[derive(Clone, Copy)]
pub(in crate::job) struct Sides {
    pub(in crate::job) below: &'static str,
    pub(in crate::job) above: &'static str,
}

/// A quantity judged against its printed limits.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct MeasuredReport {
    /// What was found, in words and with its uncertainty.
    pub found: String,
    /// The limits, as printed.
    pub limits: String,
    /// The verdict.
    pub verdict: Verdict,
    /// The same in the words of the trade, no stronger than its probability.
    pub verdict_text: String,
    /// How certain it is.
    pub probabilities: Probabilities,
    /// Whether any reading this uncertain could be proved good.
    pub provable: bool,
}

impl MeasuredReport {
    /// The verdict for what is done about it: nothing is left as it is on a value that is only not shown to be out.
    pub(in crate::job) const fn shown(&self) -> Verdict {
        as_shown(self.verdict, &self.probabilities)
    }
}

/// Judges; `found` is how the estimate is said.
pub(in crate::job) fn judged<Q: HasLimits>(
    found: String,
    estimate: &Estimate<Q>,
    limits: &Limits<Q>,
    rule: &DecisionRule,
    sides: Sides,
) -> MeasuredReport {
    told(
        found,
        limits.to_string(),
        &judge(estimate, limits, rule),
        sides,
    )
}

/// The same of what was judged already.
pub(in crate::job) fn told(
    found: String,
    limits: String,
    judged: &Judgement,
    sides: Sides,
) -> MeasuredReport {
    MeasuredReport {
        found,
        limits,
        verdict: judged.verdict,
        verdict_text: said(judged.verdict, &judged.probabilities, sides),
        probabilities: judged.probabilities,
        provable: judged.provable,
    }
}

fn said(verdict: Verdict, p: &Probabilities, sides: Sides) -> String {
    let word = match verdict {
        Verdict::Below => sides.below,
        Verdict::Above => sides.above,
        Verdict::InBand => "in band",
        Verdict::CannotSay => "cannot say",
    };
    match Firmness::of(verdict, p) {
        Firmness::Firm | Firmness::CannotSay => String::from(word),
        Firmness::Probable => String::from("probably ") + word,
        Firmness::NotShownOut => String::from(Firmness::NOT_SHOWN_OUT),
    }
}
