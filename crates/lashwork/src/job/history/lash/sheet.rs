//! Valve clearances over the years on the sheet.

use super::answer::{LashHistoryReport, RecessionReport, ValveDriftReport};
use crate::job::page::wrap;
use crate::job::work::{WorkAdvice, write_advice};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes it; a valve that nothing is to be done about is short where `is_short`.
pub(in crate::job::history) fn write(out: &mut String, found: &LashHistoryReport, is_short: bool) {
    if let Some(next) = &found.next {
        wrap::write(out, "Next: ", next);
    }
    let odd = |valve: &&ValveDriftReport| valve.odd.as_ref().is_some_and(|odd| odd.is_odd);
    for valve in found.valves.iter().filter(odd) {
        wrap::write(out, "ODD VALVE: ", &valve.name);
    }
    for one in &found.sure {
        wrap::write(out, "make sure: ", one);
    }
    for kind in &found.kinds {
        wrap::write(out, "", &kind.text);
    }
    for valve in &found.valves {
        if is_short && matches!(valve.advice, WorkAdvice::Leave { .. }) {
            short(out, valve);
        } else {
            one(out, valve);
        }
    }
    if let Some(found) = &found.recession {
        seats(out, found);
    }
}

fn short(out: &mut String, valve: &ValveDriftReport) {
    let last = valve.last.as_deref().unwrap_or("not read");
    let text = match &valve.rate_text {
        Some(rate) => format!("{}: {last}; {rate}", valve.name),
        None => format!("{}: {last}", valve.name),
    };
    wrap::write(out, "", &text);
    for one in &valve.bedding {
        wrap::write(out, "    ", &one.text);
    }
    write_advice(out, &valve.advice);
}

fn one(out: &mut String, valve: &ValveDriftReport) {
    let last = valve.last.as_deref().unwrap_or("not read");
    wrap::write(out, "", &format!("{}: {last}", valve.name));
    let odd = valve.odd.as_ref().and_then(|odd| odd.text.as_ref());
    let told = odd
        .into_iter()
        .chain(&valve.rate_text)
        .chain(&valve.forecast_text);
    for text in told {
        wrap::write(out, "    ", text);
    }
    for one in &valve.bedding {
        wrap::write(out, "    ", &one.text);
    }
    for look in &valve.looks {
        let lead = format!("    [{}] ", look.specification);
        wrap::write(out, &lead, &format!("{}: {}", look.limits, look.text));
    }
    write_advice(out, &valve.advice);
}

fn seats(out: &mut String, found: &RecessionReport) {
    wrap::write(out, "", &found.text);
    let parts: [(&str, &Vec<&str>); 4] = [
        ("    for: ", &found.for_text),
        ("    against: ", &found.against_text),
        ("    not known: ", &found.not_known_text),
        ("    published: ", &found.published),
    ];
    for (lead, all) in parts {
        if !all.is_empty() {
            wrap::write(out, lead, &all.join("; "));
        }
    }
}
