//! Foot of the page: what is open, what was assumed that a verdict hangs on, the other ways round.

use super::{stops, wrap};
use crate::clearance::Advice;
use crate::job::assumptions::BearsOn;
use crate::job::clearance::stops::words;
use crate::job::clearance::stops::written::at_most;
use crate::job::clearance::{ClearanceReport, PlanReport};
use crate::job::report::Report;
use crate::job::text::whole_degrees;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

pub(super) fn write(out: &mut String, report: &Report, found: &ClearanceReport) {
    out.push('\n');
    open(out, found);
    assumed(out, report);
    let chosen = found.stops.recommended.as_ref().map(|chosen| chosen.plan);
    for (i, plan) in found.stops.plans.iter().enumerate() {
        if chosen != Some(i) {
            other(out, plan);
        }
    }
    signed(out);
}

/// Where to sign.
pub(super) fn signed(out: &mut String) {
    out.push_str("\nSigned ______________________________\n");
}

/// What is not known yet.
fn open(out: &mut String, found: &ClearanceReport) {
    if !found.not_read.is_empty() {
        wrap::write(out, "Not read: ", &found.not_read.join(", "));
    }
    if let Some(check) = &found.crank_check {
        wrap::write(out, "Crank: ", &check.text);
        if let Some(next) = &check.next {
            wrap::write(out, "    check next: ", &next.valve);
        }
    }
    // Where the advice at the valve says so, it stands there.
    let is_told = |name: &str| {
        let valve = found.valves.iter().find(|valve| valve.name == name);
        let judged = valve.into_iter().flat_map(|valve| &valve.judged);
        let mut advice = judged.map(|judged| &judged.advice);
        advice.any(|advice| matches!(advice, Advice::FindCause { .. }))
    };
    let odd = found.diagnosis.iter().flat_map(|d| &d.inspections);
    for odd in odd.filter(|odd| !is_told(&odd.valve)) {
        let text = format!(
            "{} is {}; look at: {}",
            odd.valve,
            odd.off_text,
            odd.look_at.join("; ")
        );
        wrap::write(out, "Odd valve: ", &text);
    }
    for apart in found.diagnosis.iter().flat_map(|d| &d.stand_apart) {
        wrap::write(out, "Once more: ", &apart.text);
    }
    for left in stops::plan(found)
        .iter()
        .flat_map(|plan| &plan.unreachable_why)
    {
        wrap::write(
            out,
            "At no stop: ",
            &format!("{} ({})", left.valve, left.text),
        );
    }
}

/// What was assumed that could change a verdict or a place; the rest is only counted.
pub(super) fn assumed(out: &mut String, report: &Report) {
    let all = report.assumptions.iter();
    let (bears, rest): (Vec<_>, Vec<_>) = all.partition(|one| one.bears_on != BearsOn::Other);
    if !bears.is_empty() {
        wrap::write(out, "", "Assumed, and a verdict or a place may hang on it:");
    }
    for one in bears {
        wrap::write(out, "- ", &one.text);
    }
    if !rest.is_empty() {
        wrap::write(out, "- ", &format!("{} more on the full sheet", rest.len()));
    }
}

/// Another way round, in one line.
fn other(out: &mut String, plan: &PlanReport) {
    let (turn, count) = (whole_degrees(plan.total_turn.degrees()), plan.stops.len());
    let margin = plan
        .smallest_margin
        .map(|m| format!(", least margin {} deg", at_most(m)));
    let against = plan.against.iter().map(|a| format!("; {}", a.text));
    let text = format!(
        "{}: {count} stops, {turn} deg of turning{}{}",
        words(plan.method),
        margin.unwrap_or_default(),
        against.collect::<String>()
    );
    wrap::write(out, "Or ", &text);
}
