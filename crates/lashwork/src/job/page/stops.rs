//! The stops in their order, and at each what was found at its valves, what to do, and room to write.

use super::wrap;
use crate::clearance::{Advice, Reset};
use crate::job::clearance::stops::sheet::reach;
use crate::job::clearance::{
    CheckReport, ClearanceReport, JudgedReport, LeftReport, PlanReport, ValveReport,
};
use crate::job::text::rim_mark;
use crate::quantity::{Lash, LengthUnit};
use crate::tolerance::Verdict;
use crate::valve::ValveKind;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Widths of the columns: valve, what was found, verdict.
const VALVE: usize = 12;
const FOUND: usize = 35;
const VERDICT: usize = 33;
/// Room to write in what was found and what was set.
const ROOM: &str = "[_______] [_______]";
/// Names the row of what was read after setting.
const AS_LEFT: &str = "    as left";
/// How far what to do stands in.
const INDENT: &str = "      ";

pub(super) fn write(out: &mut String, found: &ClearanceReport, inches: bool) {
    out.push('\n');
    if let Some(why) = &found.stops.none_recommended {
        wrap::write(out, "No plan of stops is recommended: ", why);
    }
    let plan = plan(found);
    let stops = || plan.iter().flat_map(|plan| &plan.stops);
    let mut marks = stops().filter_map(|stop| stop.pulley_mark_mm);
    let is_marked = marks.any(|mm| mm >= 0.5);
    if let Some(text) = found.stops.pulley_marks.as_ref().filter(|_| is_marked) {
        wrap::write(out, "", text);
    }
    wrap::row(
        out,
        [("valve", VALVE), ("reading", FOUND), ("verdict", VERDICT)],
        "found     set",
    );
    let mut shown: Vec<&str> = Vec::new();
    for (i, stop) in stops().enumerate() {
        let mark = stop
            .pulley_mark_mm
            .map(|mm| format!("; {}", rim_mark(mm, inches)));
        let text = format!(
            "{}{}; {}",
            reach(i, stop),
            mark.unwrap_or_default(),
            stop.text
        );
        wrap::write(out, &format!("Stop {}: ", i + 1), &text);
        for check in &stop.check {
            let read = found.valves.iter().find(|valve| valve.name == check.valve);
            shown.push(&check.valve);
            valve(out, &short(check), read);
        }
    }
    let beside = |read: &&ValveReport| !shown.contains(&read.name.as_str());
    for read in found.valves.iter().filter(beside) {
        valve(out, &read.name, Some(read));
    }
}

/// The recommended plan.
pub(super) fn plan(found: &ClearanceReport) -> Option<&PlanReport> {
    let chosen = found.stops.recommended.as_ref()?;
    found.stops.plans.get(chosen.plan)
}

/// The valve in few letters, as the report counts it.
fn short(check: &CheckReport) -> String {
    let kind = match check.kind {
        ValveKind::Intake => "in",
        ValveKind::Exhaust => "ex",
    };
    let cylinder = &check.cylinder;
    // The full name ends in the number where a cylinder has several of a kind.
    if check.valve.ends_with(check.kind.word()) {
        format!("{cylinder} {kind}")
    } else {
        format!("{cylinder} {kind} {}", check.number)
    }
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
    let left = read.and_then(|read| read.left.as_ref());
    wrap::row(out, cells, &left.map_or_else(|| String::from(ROOM), set));
    let Some(read) = read else { return };
    advice(out, &read.judged, read.leaves_in_inches);
    if let Some(left) = left {
        let verdict = self::verdict(&left.judged);
        let cells = [
            (AS_LEFT, VALVE),
            (left.reading.as_str(), FOUND),
            (verdict.as_str(), VERDICT),
        ];
        wrap::row(out, cells, "");
        advice(out, &left.judged, left.leaves_in_inches);
    }
}

/// The gap as left, where room to write it in would be.
fn set(left: &LeftReport) -> String {
    let (unit, decimals) = if left.leaves_in_inches {
        (LengthUnit::Inch, 4)
    } else {
        (LengthUnit::Millimetre, 3)
    };
    let show = |lash: Lash| lash.show(unit, decimals);
    let gap = match (left.felt_low.map(show), left.felt_high.map(show)) {
        (Some(low), Some(high)) if low == high => low,
        (Some(low), Some(high)) => {
            let number = low.split(' ').next().unwrap_or_default();
            format!("{number} to {high}")
        }
        (Some(low), None) => format!("at least {low}"),
        (None, Some(high)) => format!("less than {high}"),
        (None, None) => String::new(),
    };
    format!("{gap:>wide$}", wide = ROOM.len())
}

/// What to do by each book, once where several say the same.
fn advice(out: &mut String, judged: &[JudgedReport], inches: bool) {
    let several = judged.len() > 1;
    let mut said: Vec<String> = Vec::new();
    for judged in judged {
        let lead = if several {
            format!("[{}] {}: ", judged.specification, judged.verdict_text)
        } else {
            String::new()
        };
        let text = todo(&judged.advice, inches);
        let text = text.map(|text| format!("{lead}{text}"));
        if let Some(text) = text.filter(|text| !said.contains(text)) {
            wrap::write(out, INDENT, &text);
            said.push(text);
        }
    }
}

/// The verdict by all books that may apply; what is left alone, or settled first, needs no line of its own.
fn verdict(judged: &[JudgedReport]) -> String {
    let is_open = |j: &JudgedReport| matches!(j.advice, Advice::SettleFirst { .. });
    if judged.iter().any(is_open) {
        return String::from("settle first: see STOP WORK");
    }
    let mut words = judged.iter().map(|j| match j.verdict {
        Verdict::InBand | Verdict::CannotSay => String::from(j.verdict_text),
        _ => j.verdict_text.to_uppercase(),
    });
    match words.next() {
        Some(first) if words.all(|word| word == first) => match judged {
            [only] if todo(&only.advice, false).is_none() => format!("{first}: leave it"),
            _ => first,
        },
        Some(_) => String::from("the books differ"),
        None => String::new(),
    }
}

/// What to do; nothing for a valve that is left alone without more ado.
fn todo(advice: &Advice, inches: bool) -> Option<String> {
    Some(match advice {
        Advice::SettleFirst { .. } => return None,
        plain if plain.is_plainly_left() => return None,
        Advice::Reset(reset) => self::reset(reset, inches),
        other => other.lines(inches).join("; "),
    })
}

/// A reset in one line: what comes first, how far, and the leaves that show it.
fn reset(reset: &Reset, inches: bool) -> String {
    let mut parts: Vec<String> = Vec::new();
    for step in &reset.first {
        parts.push(format!("first {}", step.text));
    }
    if reset.first.is_empty() {
        parts.push(reset.amount.clone());
    } else {
        parts.push(format!("only then {}", reset.amount));
    }
    parts.extend(
        [&reset.because, &reset.aim_text]
            .into_iter()
            .flatten()
            .cloned(),
    );
    parts.extend(
        reset
            .before_locking
            .as_ref()
            .map(|before| before.line(inches)),
    );
    parts.extend(
        reset
            .leaves
            .as_ref()
            .map(|leaves| format!("then {}", leaves.text)),
    );
    parts.join("; ")
}
