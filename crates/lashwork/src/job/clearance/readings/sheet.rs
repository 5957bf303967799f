//! The readings and the lock nut on the sheet.

use super::answer::{JudgedReport, LockingReport, ValveReport};
use crate::clearance::Advice;
use crate::job::text::{chances, ends, line, percent, rule_words, section};
use alloc::format;
use alloc::string::String;

/// Writes what the lock nut does and what each reading says.
pub(in crate::job) fn write(
    out: &mut String,
    locking: Option<&LockingReport>,
    rule: &str,
    valves: &[ValveReport],
) {
    if let Some(locking) = locking {
        section(out, "Lock nut");
        line(out, &locking.text);
    }
    section(out, "Readings");
    line(out, &format!("rule: {}", rule_words(rule)));
    for valve in valves {
        reading(out, valve);
    }
}

/// Writes which valves have no reading.
pub(in crate::job) fn not_read(out: &mut String, valves: &[String]) {
    if !valves.is_empty() {
        line(out, &format!("Not read: {}", valves.join(", ")));
    }
}

fn reading(out: &mut String, valve: &ValveReport) {
    line(out, &format!("{}: {}", valve.name, valve.reading));
    line(
        out,
        &format!(
            "    gap as felt {}, u {:.4} mm from leaves and feel",
            ends(valve.felt_low, valve.felt_high, valve.leaves_in_inches),
            valve.felt_uncertainty_mm
        ),
    );
    for judged in &valve.judged {
        judgement(out, judged, valve.leaves_in_inches);
    }
}

fn judgement(out: &mut String, j: &JudgedReport, inches: bool) {
    let u = j.standard_uncertainty_mm.map_or_else(
        || format!("u {:.4} mm, one-sided", j.normal_uncertainty_mm),
        |u| format!("u {u:.4} mm in all"),
    );
    let warmth = match j.warmth {
        Some(warmth) => {
            let (adds, u) = (warmth.mm(), j.warmth_uncertainty_mm);
            format!("thermal change {adds:+.4} mm (u {u:.4} mm); at reference temperature")
        }
        None if j.warmth_uncertainty_mm > 0.0 => format!(
            "thermal change not known (u {:.4} mm); as found",
            j.warmth_uncertainty_mm
        ),
        None => String::from("not corrected for temperature:"),
    };
    let gap = ends(j.low, j.high, inches);
    line(
        out,
        &format!("    [{}] {warmth} {gap}, {u}", j.specification),
    );
    let verdict = j.verdict_text.to_uppercase();
    line(
        out,
        &format!(
            "        {verdict} against {}: {}",
            j.limits,
            chances(&j.probabilities)
        ),
    );
    let mut arrow = "->";
    for text in j.advice.lines(inches) {
        line(out, &format!("        {arrow} {text}"));
        arrow = "  ";
    }
    landing(out, &j.advice);
}

fn landing(out: &mut String, advice: &Advice) {
    if let Some(landing) = advice.landing() {
        let (lands, tight) = (percent(landing.lands_in_band), percent(landing.lands_tight));
        line(
            out,
            &format!(
                "           after resetting, {lands} chance of being in the set band, {tight} of being below it"
            ),
        );
    }
}
