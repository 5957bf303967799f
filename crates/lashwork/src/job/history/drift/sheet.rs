//! A quantity over the years on the sheet.

use super::answer::{QuantityHistoryReport, SubjectDriftReport};
use crate::job::page::wrap;
use crate::job::work::{WorkAdvice, write_advice};
use alloc::format;
use alloc::string::String;

/// Writes it; one that nothing is to be done about is short where `is_short`.
pub(in crate::job::history) fn write(
    out: &mut String,
    found: &QuantityHistoryReport,
    is_short: bool,
) {
    if let Some(next) = &found.next {
        wrap::write(out, "Next: ", next);
    }
    let odd = |one: &&SubjectDriftReport| one.odd.as_ref().is_some_and(|odd| odd.is_odd);
    for one in found.subjects.iter().filter(odd) {
        wrap::write(out, "ODD ONE: ", &one.name);
    }
    for one in &found.sure {
        wrap::write(out, "make sure: ", one);
    }
    for kind in &found.kinds {
        wrap::write(out, "", &kind.text);
    }
    for one in &found.subjects {
        if is_short && matches!(one.advice, WorkAdvice::Leave { .. }) {
            short(out, one);
        } else {
            whole(out, one);
        }
    }
}

fn short(out: &mut String, one: &SubjectDriftReport) {
    let last = one.last.as_deref().unwrap_or("not read");
    let text = match &one.rate_text {
        Some(rate) => format!("{}: {last}; {rate}", one.name),
        None => format!("{}: {last}", one.name),
    };
    wrap::write(out, "", &text);
    for bedding in &one.bedding {
        wrap::write(out, "    ", &bedding.text);
    }
    write_advice(out, &one.advice);
}

fn whole(out: &mut String, one: &SubjectDriftReport) {
    let last = one.last.as_deref().unwrap_or("not read");
    wrap::write(out, "", &format!("{}: {last}", one.name));
    let odd = one.odd.as_ref().and_then(|odd| odd.text.as_ref());
    let told = odd
        .into_iter()
        .chain(&one.rate_text)
        .chain(&one.forecast_text);
    for text in told {
        wrap::write(out, "    ", text);
    }
    for bedding in &one.bedding {
        wrap::write(out, "    ", &bedding.text);
    }
    for look in &one.looks {
        let lead = format!("    [{}] ", look.specification);
        wrap::write(out, &lead, &format!("{}: {}", look.limits, look.text));
    }
    write_advice(out, &one.advice);
}
