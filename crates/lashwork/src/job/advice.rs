//! What to do about a judged valve.

use super::locking::{better_left, take_back};
use super::reset::reset;
use super::{BeforeLocking, Problem, Request, ValveReading};
use crate::adjust::{ScrewTurn, ShimChoice};
use crate::quantity::{Lash, LashChange};
use crate::tolerance::{Estimate, Judgement, ValveLimits, Verdict};
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
    /// What to feel before the lock nut is tightened, if its shift was learned.
    pub before_locking: Option<BeforeLocking>,
    /// Chance that the reset lands in the set band, if the shift's spread was learned.
    pub lands_in_band: Option<f64>,
    /// Chance that it lands below the set band.
    pub lands_tight: Option<f64>,
}

/// Advice for one judged reading. `estimate` is at the reference temperature, `warmth` what the
/// metal's temperature adds to it, with the standard uncertainty of that in millimetres.
pub(super) fn advise(
    request: &Request,
    read: &ValveReading,
    limits: &ValveLimits,
    estimate: &Estimate<Lash>,
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
        before_locking: None,
        lands_in_band: None,
        lands_tight: None,
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
        Verdict::Below | Verdict::Above => {
            let landing = reset(request, read, limits, estimate, warmth, place, &mut advice)?;
            if let Some(why) = landing.and_then(|l| better_left(judgement, &l, limits)) {
                take_back(&mut advice, why);
            }
        }
    }
    Ok(advice)
}
