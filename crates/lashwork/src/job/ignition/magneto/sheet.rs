//! Magnetos on the sheet.

use super::MagnetoReport;
use crate::job::page::wrap;
use crate::job::work::{MeasuredReport, WorkAdvice, WorkStopReport, write_advice};
use alloc::format;
use alloc::string::String;

/// Writes what can kill and is not among what stops the work already.
pub(in crate::job::ignition) fn first(
    out: &mut String,
    found: &MagnetoReport,
    stops: &[WorkStopReport],
) {
    for caution in &found.cautions {
        if !stops.iter().any(|stop| stop.text == caution.text) {
            wrap::write(out, "DANGER: ", &caution.text);
        }
    }
}

/// Writes them, in the order of work.
pub(in crate::job::ignition) fn write(out: &mut String, found: &MagnetoReport) {
    for one in &found.magnetos {
        let name = one.which.map_or_else(
            || String::from("Magneto:"),
            |which| format!("Magneto, {which}:"),
        );
        wrap::write(out, "", &name);
        let judged = [
            ("  opens: ", &one.e_gap),
            ("  gap: ", &one.gap),
            ("  spark: ", &one.spark),
        ];
        for (what, one) in judged {
            if let Some(one) = one {
                line(out, what, one);
            }
        }
        if let Some(text) = &one.impulse {
            wrap::write(out, "  ", text);
        }
        advised(out, &one.advice);
    }
    if let Some(one) = &found.apart {
        line(out, "Two magnetos: ", &one.judged);
        advised(out, &one.advice);
    }
    let Some(drop) = &found.drop else { return };
    wrap::write(out, "", "Each magneto alone:");
    if drop.judged.is_empty() {
        for text in &drop.drops {
            wrap::write(out, "  ", text);
        }
    }
    for one in drop.judged.iter().chain([&drop.difference]) {
        line(out, "  ", one);
    }
    advised(out, &drop.advice);
}

fn line(out: &mut String, what: &str, one: &MeasuredReport) {
    let text = format!("{}, book {}: {}", one.found, one.limits, one.verdict_text);
    wrap::write(out, what, &text);
}

fn advised(out: &mut String, advice: &WorkAdvice) {
    write_advice(out, advice);
}
