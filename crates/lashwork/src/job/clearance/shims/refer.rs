//! A reading's advice where a shim plan takes all valves together: it names the plan's step and no size
//! of its own, so that there is one advice for each valve.

use super::answer::ShimPlanReport;
use super::{ONE_SIDED, UNDECIDED, UNKNOWN_SHIM};
use crate::clearance::{Advice, Reset};
use crate::quantity::Lash;
use alloc::format;
use alloc::vec::Vec;

/// Makes the advice at a reading agree with the plan.
pub(in crate::job) fn refer(advice: &mut Advice, plan: &ShimPlanReport, valve: &str, aim: Lash) {
    if let Some(step) = plan.moves.iter().position(|m| m.valve == valve) {
        let step = step + 1;
        match advice {
            Advice::Reset(reset) => {
                let step_words = format!(": step {step} of the shim plan");
                reset.text.push_str(&step_words);
                reset.amount.push_str(&step_words);
                (reset.by, reset.feel_now, reset.leaves) = (None, None, None);
                reset.shim_plan = Some(step);
            }
            Advice::Leave { .. } => {
                let text = format!(
                    "good as it is; its shim goes to another valve: step {step} of the shim plan"
                );
                *advice = Advice::Reset(Reset::by_shim_plan(text, step, aim));
            }
            Advice::Measure { text, .. }
            | Advice::FindCause { text, .. }
            | Advice::SettleFirst { text } => {
                text.push_str(&format!("; then step {step} of the shim plan"));
            }
        }
        return;
    }
    let Some(cannot) = plan.cannot.iter().find(|c| c.valve == valve) else {
        return;
    };
    let Advice::Reset(reset) = advice else { return };
    match cannot.reason.as_str() {
        UNDECIDED | ONE_SIDED => {}
        UNKNOWN_SHIM => {
            let measure = "; measure the fitted shim to choose the new one";
            reset.text.push_str(measure);
            reset.amount.push_str(measure);
        }
        _ => {
            let text = cannot.reason.clone();
            let causes = Vec::new();
            *advice = Advice::FindCause { text, causes };
        }
    }
}
