//! What to do about a judged valve.

use super::reset::reset;
use super::{Problem, Request, ValveReading};
use crate::adjust::{ScrewTurn, ShimChoice};
use crate::quantity::{Lash, LashChange};
use crate::tolerance::{Judgement, LashEstimate, ValveLimits, Verdict};
use alloc::string::String;
use serde::Serialize;

/// The kind of step that is advised.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Action {
    /// Leave the valve alone.
    Leave,
    /// Bring it to the set value.
    Reset,
    /// Measure again, with a narrower bracket.
    MeasureAgain,
    /// Let the metal come to the reference temperature before measuring again.
    ReachReference,
}

/// What to do about a valve, in words and, where it can be computed, in numbers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Advice {
    /// The kind of step.
    pub action: Action,
    /// The step in words.
    pub text: String,
    /// Wanted minus found, at the reference temperature; only when resetting a bracketed reading.
    pub change: Option<LashChange>,
    /// Turn of the adjusting screw.
    pub screw: Option<ScrewTurn>,
    /// Shim to fit.
    pub shim: Option<ShimChoice>,
    /// What the leaves should feel at the present temperature after resetting.
    pub feel_now: Option<Lash>,
    /// The stack of leaves that comes nearest to it.
    pub stack: Option<String>,
}

/// Advice for one judged reading. `estimate` is at the reference temperature, `warmth` what the
/// metal's temperature adds to it, with the standard uncertainty of that in millimetres.
pub(super) fn advise(
    request: &Request,
    read: &ValveReading,
    limits: &ValveLimits,
    estimate: &LashEstimate,
    judgement: &Judgement,
    warmth: (LashChange, f64),
    place: &str,
) -> Result<Advice, Problem> {
    let mut advice = Advice {
        action: Action::Leave,
        text: String::from("leave it alone"),
        change: None,
        screw: None,
        shim: None,
        feel_now: None,
        stack: None,
    };
    match judgement.verdict {
        Verdict::InBand => {
            if let Some(centre) = estimate.centre()
                && limits.leave_alone().is_some()
                && !limits.set().contains(centre)
            {
                advice.text = String::from(
                    "leave it alone: outside the set band but inside the leave-alone band",
                );
            }
        }
        Verdict::CannotSay => {
            let (warm_u, all) = (warmth.1, estimate.standard_uncertainty());
            let warm_dominates = all.is_some_and(|u| 2.0 * warm_u * warm_u > u.mm() * u.mm());
            if warm_dominates {
                advice.action = Action::ReachReference;
                advice.text = String::from(
                    "let the metal come to the reference temperature and measure again: its temperature is most of the doubt",
                );
            } else {
                advice.action = Action::MeasureAgain;
                advice.text = String::from(match (estimate.centre(), judgement.provable) {
                    (None, _) => {
                        "find the leaf that goes and the next that does not, then judge again"
                    }
                    (_, false) => {
                        "measure again with finer steps: a bracket this wide proves nothing"
                    }
                    (_, true) => "measure again with a narrower bracket",
                });
            }
        }
        Verdict::Tight | Verdict::Loose => {
            reset(
                request,
                read,
                limits,
                estimate,
                warmth.0,
                place,
                &mut advice,
            )?;
        }
    }
    Ok(advice)
}
