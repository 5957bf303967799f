//! A reading's advice where a shim plan takes all valves together: it names the plan's step and no size
//! of its own, so that there is one advice for each valve.

use super::answer::ShimPlanReport;
use super::{ODD, ONE_SIDED, UNDECIDED, UNKNOWN_SHIM};
use crate::adjust::{Adjuster, ShimStock};
use crate::clearance::text::printed;
use crate::clearance::{Advice, Reset};
use crate::quantity::{Lash, Marked};
use alloc::boxed::Box;
use alloc::format;
use alloc::vec::Vec;

/// The adjuster as a single reading is advised with it: which size is the plan's to say.
pub(in crate::job) fn without_sizes(adjuster: &Adjuster) -> Adjuster {
    match adjuster {
        Adjuster::Shim { ratio, rules, .. } => Adjuster::Shim {
            ratio: *ratio,
            series: None,
            stock: ShimStock::default(),
            rules: *rules,
        },
        other => other.clone(),
    }
}

/// Makes the advice at a reading agree with the plan.
pub(in crate::job) fn refer(
    advice: &mut Advice,
    plan: &ShimPlanReport,
    valve: &str,
    (set_to, inches): (Marked, bool),
) {
    if let Some(step) = plan.moves.iter().position(|m| m.valve == valve) {
        let step = step + 1;
        match advice {
            Advice::Reset(reset) => {
                let to = printed(set_to, inches);
                reset.amount = format!("reset to {to}: step {step} of the shim plan");
                if reset.first.is_empty() {
                    let because = reset.because.as_ref();
                    let because = because.map(|why| format!("; {why}")).unwrap_or_default();
                    reset.text = format!("{}{because}", reset.amount);
                }
                (reset.by, reset.feel_now, reset.leaves) = (None, None, None);
                reset.shim_plan = Some(step);
            }
            Advice::Leave { .. } => {
                let text = format!(
                    "good as it is; its shim goes to another valve: step {step} of the shim plan"
                );
                if let Ok(aim) = Lash::from_nominal(set_to.nominal()) {
                    *advice = Advice::Reset(Box::new(Reset::by_shim_plan(text, step, aim)));
                }
            }
            Advice::Measure { text, .. } | Advice::FindCause { text, .. } => {
                *text = format!("{text}; then step {step} of the shim plan");
            }
            Advice::SettleFirst { .. } => {}
        }
        return;
    }
    let Some(cannot) = plan.cannot.iter().find(|c| c.valve == valve) else {
        return;
    };
    let is_told = [UNDECIDED, ONE_SIDED, UNKNOWN_SHIM, ODD].contains(&cannot.reason.as_str());
    if matches!(advice, Advice::Reset(_)) && !is_told {
        *advice = Advice::FindCause {
            first: Vec::new(),
            text: cannot.reason.clone(),
            causes: Vec::new(),
        };
    }
}
