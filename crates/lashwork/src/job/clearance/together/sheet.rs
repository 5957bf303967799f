//! The readings together, on the sheet: only what is worth checking.

use super::answer::{DiagnosisReport, HypothesisReport};
use crate::diagnosis::Status;
use crate::job::text::{line, percent, section};
use alloc::format;
use alloc::string::String;

/// Most readings named as evidence.
const EVIDENCE: usize = 4;

/// Writes what the readings say together.
pub(in crate::job) fn write(out: &mut String, found: &DiagnosisReport) {
    section(out, "The readings taken together");
    if found.status != Status::WorthChecking {
        let mut text = found.text.clone();
        if matches!(found.status, Status::NothingSpecial | Status::Undecided) {
            let special = percent(1.0 - found.nothing_special);
            text = format!("{text} (chance of a systematic fault {special})");
        }
        line(out, &text);
        odd_valves(out, found);
        return;
    }
    let worth = || found.hypotheses.iter().filter(|h| h.worth_checking);
    if worth().count() > 1 {
        line(out, "The readings alone cannot tell these apart:");
    }
    for hypothesis in worth() {
        hypothesis_lines(out, hypothesis);
    }
    if let Some(text) = &found.tell_apart {
        line(out, text);
    }
    odd_valves(out, found);
}

fn odd_valves(out: &mut String, found: &DiagnosisReport) {
    for thing in &found.inspections {
        let (name, off) = (&thing.valve, &thing.off_text);
        line(out, &format!("ODD VALVE: {name} is {off}; look at:"));
        for text in &thing.look_at {
            line(out, &format!("    - {text}"));
        }
    }
    for apart in &found.stand_apart {
        line(out, &apart.text);
    }
}

fn hypothesis_lines(out: &mut String, h: &HypothesisReport) {
    line(
        out,
        &format!(
            "WORTH CHECKING  {}: favoured {} over no systematic fault, probability {}",
            h.text,
            odds(h.log10_bayes_factor),
            percent(h.posterior)
        ),
    );
    for way in &h.ways {
        line(out, &format!("    {}", way.text));
    }
    if let [only] = h.ways.as_slice() {
        let speaking = only.evidence.iter().filter(|e| e.log10_support > 0.0);
        for e in speaking.take(EVIDENCE) {
            let (valve, reading, under) = (&e.valve, &e.reading, &e.under);
            line(out, &format!("        {valve}: {reading}; {under}"));
        }
    }
}

/// A Bayes factor in words, to two digits.
fn odds(log10: f64) -> String {
    if log10 >= 6.0 {
        return String::from("more than a million to 1");
    }
    let factor = libm::pow(10.0, log10);
    if factor >= 100.0 {
        let step = libm::pow(10.0, libm::floor(log10) - 1.0);
        format!("about {:.0} to 1", libm::rint(factor / step) * step)
    } else {
        format!("about {factor:.1} to 1")
    }
}
