//! What to do about a judged valve.

use super::{Adjuster, Problem, Request, ValveReading};
use crate::adjust::{ScrewTurn, ShimChoice, ShimFit, ShimRounding, screw_turn};
use crate::feeler::best_stack;
use crate::quantity::{Lash, LashChange, LengthUnit, Nominal};
use crate::tolerance::{Judgement, LashEstimate, ValveLimits, Verdict};
use alloc::string::{String, ToString};
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
    LetCool,
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

/// Widest miss of a stack that is still worth naming: 0.05 mm.
const STACK_WITHIN: i64 = 50_000;

/// Advice for one judged reading. `estimate` is at the reference temperature, `warmth` what the
/// metal's temperature adds to it, `warmth_u_mm` the uncertainty of that.
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
                advice.action = Action::LetCool;
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
            reset(request, read, limits, estimate, warmth, place, &mut advice)?;
        }
    }
    Ok(advice)
}

fn reset(
    request: &Request,
    read: &ValveReading,
    limits: &ValveLimits,
    estimate: &LashEstimate,
    (warmth, _): (LashChange, f64),
    place: &str,
    advice: &mut Advice,
) -> Result<(), Problem> {
    let wrong =
        |e: crate::quantity::QuantityError| Problem::new(place, e.code(), e.to_string(), e.hint());
    let set_to = limits.set_to();
    let target = Lash::from_nominal(set_to.nominal()).map_err(wrong)?;
    advice.action = Action::Reset;
    advice.text = alloc::format!("reset to {set_to}");
    // A flat leaf bridges a hollow, so it feels that much less than the true gap.
    let hollow = read.hollow.map_or(0.0, |h| h.depth.mm());
    let feel = target + warmth - LashChange::from_mm(hollow).map_err(wrong)?;
    advice.feel_now = Some(feel);
    if feel.mm() > 0.0 {
        let wanted = Nominal::nearest_mm(feel.mm()).map_err(wrong)?;
        let within = Nominal::from_nanometres(STACK_WITHIN).map_err(wrong)?;
        advice.stack = best_stack(&request.leaves, wanted, 3, within)
            .ok()
            .map(|best| best.stack.to_string());
    }
    let Some(found) = estimate.centre() else {
        return Ok(());
    };
    let change = target - found;
    advice.change = Some(change);
    let refused =
        |e: crate::adjust::AdjustError| Problem::new(place, e.code(), e.to_string(), e.hint());
    match &request.adjuster {
        Adjuster::Unstated => {}
        Adjuster::Screw { thread, seat } => {
            let ratio = request.rocker_ratio.unwrap_or(1.0);
            let turn = screw_turn(change, *thread, *seat, ratio, true).map_err(refused)?;
            advice.text = alloc::format!("{}: screw {}", advice.text, turn.words());
            advice.screw = Some(turn);
        }
        Adjuster::Shim { ratio, series } => {
            let Some(old) = read.shim else {
                advice
                    .text
                    .push_str("; measure the fitted shim to choose the new one");
                return Ok(());
            };
            let fit = ShimFit {
                old,
                measured: found,
                target,
                ratio_from_shim_to_gap: *ratio,
            };
            let wanted = fit.wanted().map_err(refused)?;
            let exact = wanted.show(LengthUnit::Millimetre, 3);
            match series
                .as_ref()
                .map(|s| s.nearest(&fit, ShimRounding::NeverTighter))
            {
                None => advice.text = alloc::format!("{}: shim of {exact}", advice.text),
                Some(Ok(choice)) => {
                    advice.text = alloc::format!(
                        "{}: shim {} (exactly {exact}), lash then {}",
                        advice.text,
                        choice.size.show(LengthUnit::Millimetre, 3),
                        choice.predicted_lash.show(LengthUnit::Millimetre, 3)
                    );
                    advice.shim = Some(choice);
                }
                Some(Err(e)) => {
                    advice.text =
                        alloc::format!("{}: shim of {exact} wanted, but {e}", advice.text);
                }
            }
        }
    }
    Ok(())
}
