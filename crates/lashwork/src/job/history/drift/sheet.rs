//! A quantity over the years on the sheet.

use super::answer::{QuantityHistoryReport, SubjectDriftReport};
use crate::job::page::wrap;
use crate::job::work::{WorkAdvice, write_advice};
use alloc::format;
use alloc::string::String;

/// Writes it under its title, with the testers it was read with; where `is_short`, what is alike is said once, and what nothing is to be done about is short.
pub(in crate::job::history) fn write(
    out: &mut String,
    (title, testers): (&str, Option<&str>),
    found: &QuantityHistoryReport,
    is_short: bool,
) {
    out.push_str(title);
    out.push_str(" over the years\n");
    let odd = |one: &&SubjectDriftReport| one.odd.as_ref().is_some_and(|odd| odd.is_odd);
    for one in found.subjects.iter().filter(odd) {
        wrap::write(out, "ODD ONE: ", &one.name);
    }
    let is_several = found.subjects.len() > 1;
    if let Some(next) = found.next.as_ref().filter(|_| is_several || !is_short) {
        wrap::write(out, "Next: ", next);
    }
    if let Some(testers) = testers {
        wrap::write(out, "testers: ", testers);
    }
    for one in &found.sure {
        wrap::write(out, "make sure: ", one);
    }
    for kind in &found.kinds {
        wrap::write(out, "", &kind.text);
    }
    let is_alike = |place: usize| found.alike.iter().any(|one| one.subjects.contains(&place));
    for (place, one) in found.subjects.iter().enumerate() {
        match one.advice {
            _ if !is_short => whole(out, one),
            _ if is_alike(place) => {}
            // The kind said how fast already.
            WorkAdvice::Leave { .. } => short(out, one, is_several),
            _ => whole(out, one),
        }
    }
    for one in found.alike.iter().filter(|_| is_short) {
        for text in &one.texts {
            wrap::write(out, "", text);
        }
        write_advice(out, &one.advice);
    }
}

fn short(out: &mut String, one: &SubjectDriftReport, says_rate: bool) {
    let last = one.last.as_deref().unwrap_or("not read");
    let rate = one.rate_text.as_ref().filter(|_| says_rate);
    let text = match rate {
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
