//! A reading's advice where a shim plan takes all valves together: it names the plan's step and no size
//! of its own, so that there is one advice for each valve.

use super::answer::ShimPlanReport;
use super::{ONE_SIDED, UNDECIDED, UNKNOWN_SHIM};
use crate::clearance::{Advice, Reset};
use alloc::format;

/// Makes the advice at a reading agree with the plan.
pub(in crate::job) fn refer(advice: &mut Advice, plan: &ShimPlanReport, valve: &str) {
    if let Some(step) = plan.moves.iter().position(|m| m.valve == valve) {
        let step = step + 1;
        match advice {
            Advice::Reset(reset) => {
                reset
                    .text
                    .push_str(&format!(": step {step} of the shim plan"));
                (reset.by, reset.feel_now, reset.stack) = (None, None, None);
                reset.shim_plan = Some(step);
            }
            Advice::Leave { .. } => {
                let text = format!(
                    "good as it is; its shim goes to another valve: step {step} of the shim plan"
                );
                *advice = Advice::Reset(Reset::by_shim_plan(text, step));
            }
            Advice::Measure { text, .. } | Advice::FindCause { text } => {
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
        UNKNOWN_SHIM => reset
            .text
            .push_str("; measure the fitted shim to choose the new one"),
        _ => {
            let text = cannot.reason.clone();
            *advice = Advice::FindCause { text };
        }
    }
}
