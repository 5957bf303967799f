//! Foot of the page: what is open, what was assumed that a verdict hangs on, the other ways round.

use super::{stops, wrap};
use crate::job::clearance::{ClearanceReport, PlanReport};
use crate::job::report::Report;
use crate::job::text::degrees;
use alloc::format;
use alloc::string::String;

pub(super) fn write(out: &mut String, report: &Report, found: &ClearanceReport) {
    out.push('\n');
    if !found.not_read.is_empty() {
        wrap::write(out, "Not read: ", &found.not_read.join(", "));
    }
    for assumed in &report.assumptions {
        wrap::write(out, "- ", &assumed.text);
    }
    let chosen = stops::plan(found);
    for plan in &found.stops.plans {
        if chosen.is_none_or(|chosen| !core::ptr::eq(chosen, plan)) {
            other(out, plan);
        }
    }
    out.push_str("\nSigned ______________________________\n");
}

/// Another way round, in one line.
fn other(out: &mut String, plan: &PlanReport) {
    let turn = degrees(plan.total_turn.degrees());
    let text = format!("{} stops, {turn} deg of turning", plan.stops.len());
    wrap::write(out, "Or: ", &text);
}
