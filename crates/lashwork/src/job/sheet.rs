//! The report as plain text, the same bytes for the same report.

mod diagnosis;
mod shims;
mod warm;

use super::shown::length;
use super::{Advice, Judged, Report, ValveReport};
use crate::engine::{End, Sense};
use crate::quantity::{Cycle, Lash, LengthUnit};
use crate::tolerance::{Applicability, Chance, Condition, Verdict};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

mod crank_check;
mod crank_train;
mod plans;

const MM: LengthUnit = LengthUnit::Millimetre;

/// Writes the job sheet.
pub(super) fn sheet(report: &Report) -> String {
    let mut out = format!("VALVE CLEARANCE JOB SHEET: {}\n", report.title);
    if let Some(note) = &report.note {
        line(&mut out, &format!("Note: {note}"));
    }
    section(&mut out, "Cautions");
    for caution in &report.cautions {
        line(&mut out, &format!("! {caution}"));
    }
    engine(&mut out, report);
    section(&mut out, "Specifications");
    for s in &report.specifications {
        let applies = match s.applicability {
            Applicability::Applies => "applies to this engine number",
            Applicability::DoesNotApply => "DOES NOT APPLY to this engine number: not used",
            Applicability::CannotTell => "may apply: engine number not given",
            Applicability::NotStated => "states no engine numbers",
        };
        let condition = match s.condition {
            Condition::Cold => "cold",
            Condition::Hot => "hot",
        };
        line(&mut out, &format!("[{}] {}: {applies}", s.id, s.provenance));
        line(
            &mut out,
            &format!("    {condition}, at {:.1} C", s.reference.celsius()),
        );
        line(&mut out, &format!("    intake:  {}", s.intake));
        line(&mut out, &format!("    exhaust: {}", s.exhaust));
    }
    for disagreement in &report.disagreements {
        line(&mut out, &format!("DISAGREE  {disagreement}"));
    }
    crank_check::write(&mut out, report.crank_check.as_ref());
    plans::write(&mut out, report);
    section(&mut out, "Metal");
    for fact in &report.metal {
        line(&mut out, fact);
    }
    warm::warm(&mut out, report);
    if let Some(locking) = &report.locking {
        section(&mut out, "Lock nut");
        line(&mut out, &locking.text);
    }
    section(&mut out, &format!("Readings (rule: {})", report.rule));
    for valve in &report.valves {
        reading(&mut out, valve);
    }
    if !report.not_read.is_empty() {
        line(
            &mut out,
            &format!("Not read: {}", report.not_read.join(", ")),
        );
    }
    shims::shims(&mut out, report);
    if let Some(found) = &report.diagnosis {
        diagnosis::together(&mut out, found);
    }
    section(&mut out, "Assumptions made");
    if report.assumptions.is_empty() {
        line(&mut out, "none");
    }
    for assumption in &report.assumptions {
        line(
            &mut out,
            &format!("- {} [{}]", assumption.text, assumption.code),
        );
    }
    out
}

fn line(out: &mut String, text: &str) {
    out.push_str(text);
    out.push('\n');
}

fn section(out: &mut String, title: &str) {
    line(
        out,
        &format!("\n{title}\n{}", "-".repeat(title.chars().count())),
    );
}

fn engine(out: &mut String, report: &Report) {
    let engine = &report.engine;
    section(out, "Engine");
    let cycle = match engine.cycle {
        Cycle::TwoStroke => "two-stroke",
        Cycle::FourStroke => "four-stroke",
    };
    let sense = match engine.rotation.sense {
        Sense::Clockwise => "clockwise",
        Sense::Anticlockwise => "anticlockwise",
    };
    let cylinders = match engine.firing_order.len() {
        1 => String::from("1 cylinder"),
        n => format!("{n} cylinders"),
    };
    let end = match engine.rotation.seen_from {
        End::Free => "free end",
        End::Output => "output end",
    };
    line(
        out,
        &format!("{cycle}, {cylinders}, turns {sense} seen from the {end}"),
    );
    line(out, &format!("numbering: {}", engine.numbering));
    line(
        out,
        &format!("firing order {}", engine.firing_order.join("-")),
    );
    let intervals: Vec<String> = engine
        .intervals
        .iter()
        .map(|i| degrees(i.degrees()))
        .collect();
    line(out, &format!("intervals {} deg", intervals.join(" ")));
    crank_train::write(out, engine);
}

/// Degrees without needless decimals.
fn degrees(value: f64) -> String {
    let text = format!("{value:.2}");
    String::from(text.trim_end_matches('0').trim_end_matches('.'))
}

fn reading(out: &mut String, valve: &ValveReport) {
    line(out, &format!("{}: {}", valve.name, valve.reading));
    line(
        out,
        &format!(
            "    felt {}, u {:.4} mm from leaves and feel",
            ends(valve.felt_low, valve.felt_high, valve.leaves_in_inches),
            valve.felt_uncertainty_mm
        ),
    );
    for judged in &valve.judged {
        judgement(out, judged, valve.leaves_in_inches);
    }
}

fn judgement(out: &mut String, j: &Judged, inches: bool) {
    let u = j.standard_uncertainty_mm.map_or_else(
        || format!("u {:.4} mm at its one end", j.normal_uncertainty_mm),
        |u| format!("u {u:.4} mm in all"),
    );
    let warmth = match j.warmth {
        Some(warmth) => {
            let (adds, u) = (signed(warmth.mm()), j.warmth_uncertainty_mm);
            format!("warmth adds {adds} (u {u:.4} mm); at reference")
        }
        None => String::from("not corrected for warmth:"),
    };
    let gap = ends(j.low, j.high, inches);
    line(
        out,
        &format!("    [{}] {warmth} {gap}, {u}", j.specification),
    );
    let verdict = verdict_word(j.verdict);
    let p = &j.probabilities;
    line(
        out,
        &format!(
            "        {verdict} against {}: tight {}, in band {}, loose {}",
            j.limits,
            chance(p.below),
            chance(p.in_band),
            chance(p.above)
        ),
    );
    line(out, &format!("        -> {}", j.advice.text));
    if let Some(feel) = j.advice.feel_now {
        let stack = j.advice.stack.as_ref().map(|s| format!(" (nearest: {s})"));
        let feel = length(inches, &|unit, decimals| feel.show(unit, decimals.into()));
        line(
            out,
            &format!(
                "           leaves should then feel {feel} at the present temperature{}",
                stack.unwrap_or_default()
            ),
        );
    }
    landing(out, &j.advice, inches);
}

fn landing(out: &mut String, advice: &Advice, inches: bool) {
    if let Some(before) = &advice.before_locking {
        line(out, &format!("           {}", before.line(inches)));
    }
    if let (Some(in_band), Some(tight)) = (advice.lands_in_band, advice.lands_tight) {
        let (lands, tight) = (percent(in_band), percent(tight));
        line(
            out,
            &format!(
                "           a reset lands in the set band with {lands}, below it with {tight}"
            ),
        );
    }
}

const fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::InBand => "IN BAND",
        Verdict::Below => "TIGHT",
        Verdict::Above => "LOOSE",
        Verdict::CannotSay => "CANNOT SAY",
    }
}

fn signed(mm: f64) -> String {
    format!("{mm:+.4} mm")
}

/// The ends of a gap in millimetres, and in inches too where the leaves are marked so.
fn ends(low: Option<Lash>, high: Option<Lash>, inches: bool) -> String {
    let mm = between(low, high, MM, 4);
    if inches {
        let inch = between(low, high, LengthUnit::Inch, 5);
        format!("{mm} = {inch}")
    } else {
        mm
    }
}

fn between(low: Option<Lash>, high: Option<Lash>, unit: LengthUnit, decimals: usize) -> String {
    let show = |lash: Lash| lash.show(unit, decimals);
    match (low, high) {
        (Some(a), Some(b)) if a == b => show(a),
        (Some(a), Some(b)) => format!("{} to {}", show(a), show(b)),
        (Some(a), None) => format!("at least {}", show(a)),
        (None, Some(b)) => format!("less than {}", show(b)),
        (None, None) => String::from("nothing"),
    }
}

/// A probability in per cent. Certainty is never shown: no reading with a spread gives it.
fn percent(p: f64) -> String {
    if p < 0.000_5 {
        String::from("under 0.1 %")
    } else if p > 0.999_5 {
        String::from("over 99.9 %")
    } else {
        format!("{:.1} %", p * 100.0)
    }
}

fn chance(c: Chance) -> String {
    let (least, most) = (percent(c.least), percent(c.most));
    if least == most {
        least
    } else {
        format!("{least} to {most}")
    }
}
