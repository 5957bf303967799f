//! The crank check on the job sheet.

use super::answer::CrankCheckReport;
use super::several;
use crate::job::text::{degrees, line, percent, section};
use crate::rockers::{Feel, RockerState};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// A rocker that takes away less doubt than this is not worth checking, in bits.
const WORTH_FEELING: f64 = 0.01;
/// Explanations less likely than this are only counted.
const SHOWN: f64 = 0.001;

/// Writes what the rockers say of the crank; nothing if it was not asked.
pub(in crate::job) fn write(out: &mut String, check: &CrankCheckReport) {
    section(out, "Crank position, checked by the rockers");
    line(
        out,
        &format!(
            "assumed: {} ({} deg)",
            check.believed,
            degrees(check.position.degrees())
        ),
    );
    for (title, state) in [
        ("must be free: ", RockerState::Free),
        ("must be tight:", RockerState::Tight),
        ("cannot say:   ", RockerState::CannotSay),
    ] {
        let there = check.rockers.iter().filter(|r| r.expected == state);
        let there: Vec<&str> = there.map(|r| r.valve.as_str()).collect();
        let text = if there.is_empty() {
            String::from("none")
        } else {
            there.join(", ")
        };
        line(out, &format!("    {title} {text}"));
    }
    felt(out, check);
    line(out, &format!("-> {}", check.text));
    if let Some(next) = check
        .next
        .as_ref()
        .filter(|next| next.bits >= WORTH_FEELING)
    {
        line(
            out,
            &format!(
                "   check next: {} (removes {:.2} bits of doubt)",
                next.valve, next.bits
            ),
        );
    }
    explanations(out, check);
}

fn felt(out: &mut String, check: &CrankCheckReport) {
    for rocker in check.rockers.iter().filter(|r| !r.calls.is_empty()) {
        let words = rocker.calls.iter().map(|feel| match feel {
            Feel::Free => "free",
            Feel::Tight => "tight",
        });
        let words: Vec<&str> = words.collect();
        let against = rocker.calls.iter().any(|feel| {
            matches!(
                (feel, rocker.expected),
                (Feel::Free, RockerState::Tight) | (Feel::Tight, RockerState::Free)
            )
        });
        let against = if against { "  <- not as assumed" } else { "" };
        line(
            out,
            &format!("checked: {} {}{against}", rocker.valve, words.join(", ")),
        );
    }
}

fn explanations(out: &mut String, check: &CrankCheckReport) {
    let (shown, rest): (Vec<_>, Vec<_>) = check
        .explanations
        .iter()
        .partition(|e| e.probability >= SHOWN);
    for explanation in shown {
        let names: Vec<&str> = explanation
            .hypotheses
            .iter()
            .map(|h| h.text.as_str())
            .collect();
        let wrong = match explanation.wrong_calls {
            0 => String::from("no call wrong"),
            1 => String::from("1 call wrong"),
            n => format!("{n} calls wrong"),
        };
        line(
            out,
            &format!(
                "    {}: {}, {wrong}",
                percent(explanation.probability),
                several(&names)
            ),
        );
    }
    match rest.len() {
        0 => {}
        1 => line(out, "    1 other, under 0.1 %"),
        n => line(out, &format!("    {n} others, under 0.1 % each")),
    }
}
