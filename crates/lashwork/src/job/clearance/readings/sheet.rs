//! The readings and the lock nut on the sheet.

use super::answer::{JudgedReport, LeftReport, LockingReport, ValveReport};
use crate::clearance::Advice;
use crate::job::text::{chances, ends, line, percent, rule_words, section};
use crate::quantity::Lash;
use crate::quantity::shown::reckoned;
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
    if !valves.is_empty() {
        line(
            out,
            "u is the standard uncertainty: two times in three the true value is within u of the one shown, \
             19 times in 20 within 2 u",
        );
    }
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
    let inches = valve.leaves_in_inches;
    as_felt(
        out,
        (valve.felt_low, valve.felt_high),
        valve.felt_uncertainty_mm,
        inches,
    );
    for judged in &valve.judged {
        judgement(out, judged, inches);
    }
    if let Some(left) = &valve.left {
        as_left(out, left);
    }
}

fn as_left(out: &mut String, left: &LeftReport) {
    let inches = left.leaves_in_inches;
    line(out, &format!("    as left: {}", left.reading));
    as_felt(
        out,
        (left.felt_low, left.felt_high),
        left.felt_uncertainty_mm,
        inches,
    );
    for judged in &left.judged {
        judgement(out, judged, inches);
    }
}

fn as_felt(
    out: &mut String,
    (low, high): (Option<Lash>, Option<Lash>),
    uncertainty_mm: f64,
    inches: bool,
) {
    let (gap, u) = (gap(low, high, inches), reckoned(uncertainty_mm, inches));
    line(
        out,
        &format!("    gap as felt {gap}, u {u} from leaves and feel"),
    );
}

fn judgement(out: &mut String, j: &JudgedReport, inches: bool) {
    let u = j.standard_uncertainty_mm.map_or_else(
        || format!("u {}, one-sided", reckoned(j.normal_uncertainty_mm, inches)),
        |u| format!("u in all {}", reckoned(u, inches)),
    );
    let warmth = match j.warmth {
        Some(warmth) => {
            let sign = if warmth.mm() > 0.0 { "+" } else { "" };
            let (adds, u) = (warmth.mm(), j.warmth_uncertainty_mm);
            let (adds, u) = (reckoned(adds, inches), reckoned(u, inches));
            format!("thermal change {sign}{adds} (u {u}); at reference temperature")
        }
        None if j.warmth_uncertainty_mm > 0.0 => format!(
            "thermal change not known (u {}); as found",
            reckoned(j.warmth_uncertainty_mm, inches)
        ),
        None => String::from("not corrected for temperature:"),
    };
    let gap = gap(j.low, j.high, inches);
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

/// The ends of a gap beside their uncertainty.
fn gap(low: Option<Lash>, high: Option<Lash>, inches: bool) -> String {
    ends(low, high, &|mm| reckoned(mm, inches))
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
