//! The stops in their order, and at each what was found at its valves, what to do, and room to write.

use super::wrap::{self, column};
use crate::clearance::Advice;
use crate::job::clearance::{
    CheckReport, ClearanceReport, JudgedReport, PlanReport, StopReport, ValveReport,
};
use crate::job::text::degrees;
use crate::valve::ValveKind;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Widths of the columns: valve, what was found, verdict.
const VALVE: usize = 11;
const FOUND: usize = 36;
const VERDICT: usize = 34;
/// Room to write in what was found and what was set.
const ROOM: &str = "[_______] [_______]";

pub(super) fn write(out: &mut String, found: &ClearanceReport) {
    let plan = plan(found);
    let mut shown: Vec<&str> = Vec::new();
    for (i, stop) in plan.iter().flat_map(|plan| plan.stops.iter().enumerate()) {
        out.push('\n');
        wrap::write(out, &format!("Stop {}: ", i + 1), &how(i, stop));
        if i == 0 {
            heading(out);
        }
        for check in &stop.check {
            let read = found.valves.iter().find(|valve| valve.name == check.valve);
            shown.push(&check.valve);
            valve(out, &short(check), read);
        }
    }
    let beside = |read: &&ValveReport| !shown.contains(&read.name.as_str());
    let beside: Vec<&ValveReport> = found.valves.iter().filter(beside).collect();
    if !beside.is_empty() {
        wrap::write(out, "\nRead at no stop of this plan:", "");
    }
    for read in beside {
        valve(out, &read.name, Some(read));
    }
}

/// How to get to a stop and how to know it.
fn how(index: usize, stop: &StopReport) -> String {
    let turn = stop.turn.degrees();
    let turn = if index == 0 && turn <= 0.0 {
        String::from("start")
    } else {
        format!("turn {} deg forward", degrees(turn))
    };
    let place = match (&stop.firing_tdc, &stop.overlap_tdc) {
        (Some(firing), _) => format!("firing TDC of {firing}"),
        (None, Some(overlap)) => format!("overlap TDC of {overlap}"),
        (None, None) => {
            let since = degrees(stop.last_fired.turn.degrees());
            format!(
                "{since} deg after firing TDC of {}",
                stop.last_fired.cylinder
            )
        }
    };
    format!("{turn}: {place}")
}

/// The recommended plan.
pub(super) fn plan(found: &ClearanceReport) -> Option<&PlanReport> {
    let chosen = found.stops.recommended.as_ref()?;
    found.stops.plans.get(chosen.plan)
}

fn heading(out: &mut String) {
    let cells = [("  valve", VALVE), ("reading", FOUND), ("verdict", VERDICT)];
    wrap::row(out, cells, "found     set");
}

/// The valve in few letters.
fn short(check: &CheckReport) -> String {
    let kind = match check.kind {
        ValveKind::Intake => "in",
        ValveKind::Exhaust => "ex",
    };
    let (cylinder, number) = (&check.cylinder, check.number);
    format!("{cylinder} {kind} {number}")
}

fn valve(out: &mut String, name: &str, read: Option<&ValveReport>) {
    let (found, verdict) = read.map_or(("", String::new()), |read| {
        (read.reading.as_str(), verdict(&read.judged))
    });
    let name = format!("  {name}");
    let cells = [
        (name.as_str(), VALVE),
        (found, FOUND),
        (verdict.as_str(), VERDICT),
    ];
    wrap::row(out, cells, ROOM);
    let Some(read) = read else { return };
    let several = read.judged.len() > 1;
    for judged in &read.judged {
        let lead = column("", VALVE);
        let lead = if several {
            let word = judged.verdict_text.to_uppercase();
            format!("{lead}[{}] {word}: ", judged.specification)
        } else {
            lead
        };
        for text in advice(&judged.advice, read.leaves_in_inches) {
            wrap::write(out, &lead, &text);
        }
    }
}

/// The verdict by all books that may apply.
fn verdict(judged: &[JudgedReport]) -> String {
    let mut words = judged.iter().map(|j| j.verdict_text.to_uppercase());
    match words.next() {
        Some(first) if words.all(|word| word == first) => first,
        Some(_) => String::from("the books differ"),
        None => String::new(),
    }
}

/// What to do, a line for each step; nothing for a valve that is left alone as it is.
fn advice(advice: &Advice, inches: bool) -> Vec<String> {
    advice.lines(inches)
}
