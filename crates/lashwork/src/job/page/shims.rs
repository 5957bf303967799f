//! The shims on the page: one line a step, in the order in which they are fitted.

use super::wrap;
use crate::job::clearance::ClearanceReport;
use alloc::format;
use alloc::string::String;

pub(super) fn write(out: &mut String, found: &ClearanceReport) {
    for plan in &found.shim_plans {
        out.push('\n');
        wrap::write(out, "", &format!("Shims by [{}]", plan.specification));
        for step in &plan.moves {
            wrap::write(out, "  ", &step.valve);
        }
    }
}
