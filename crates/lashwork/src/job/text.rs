//! What every section of the sheet writes with: lines, headings, numbers and names.

use crate::engine::{End, Engine, Rotation, Sense};
use crate::quantity::shown::{along_rim, reckoned};
use crate::quantity::{Lash, Marked};
use crate::tolerance::{Chance, Probabilities, Verdict};
use crate::valve::{ValveId, ValveKind};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// A probability nearer to zero or one than this is shown as such.
const SHOWN: f64 = 0.000_5;

/// A probability no nearer to zero or one than this is shown in whole per cent.
const WHOLE: f64 = 0.01;

/// Writes a line.
pub(super) fn line(out: &mut String, text: &str) {
    out.push_str(text);
    out.push('\n');
}

/// Writes a heading.
pub(super) fn section(out: &mut String, title: &str) {
    line(
        out,
        &format!("\n{title}\n{}", "-".repeat(title.chars().count())),
    );
}

/// Degrees without needless decimals.
pub(super) fn degrees(value: f64) -> String {
    let text = format!("{value:.2}");
    String::from(text.trim_end_matches('0').trim_end_matches('.'))
}

/// Whole degrees, as a hand sets them.
pub(super) fn whole_degrees(value: f64) -> String {
    format!("{value:.0}")
}

/// Where on the rim of the pulley the mark of a position is.
pub(super) fn rim_mark(mm: f64, inches: bool) -> String {
    match along_rim(mm, inches) {
        Some(far) => format!("rim mark {far} behind TDC"),
        None => String::from("TDC mark at pointer"),
    }
}

/// An end of the engine.
pub(super) const fn end_word(end: End) -> &'static str {
    match end {
        End::Free => "free end",
        End::Output => "output end",
    }
}

/// On which side of the TDC mark the other marks are, and seen how. When the crank has turned on from
/// TDC, the TDC mark has gone on with it and what follows behind it is at the pointer.
pub(super) fn rim_marks(rotation: Rotation) -> String {
    let behind = match rotation.sense {
        Sense::Clockwise => "anticlockwise",
        Sense::Anticlockwise => "clockwise",
    };
    let end = end_word(rotation.seen_from);
    format!(
        "rim marks: painted behind the TDC mark, against the running direction ({behind} of it, seen \
         from the {end})"
    )
}

/// A decision rule in words, by its name. One of the caller's own has no words but its name.
pub(super) fn rule_words(name: &str) -> &str {
    match name {
        "guarded_tight" => {
            "in band when at most 5 % likely to be tight and at most 50 % likely to be loose; \
             tight or loose when at least 50 % likely; otherwise cannot say"
        }
        "simple" => {
            "simple acceptance (JCGM 106): in band when neither tight nor loose is more than 50 % \
             likely; tight or loose when at least 50 % likely; otherwise cannot say"
        }
        "iso_14253_1" => {
            "in band, tight or loose when that is at least 95 % likely (ISO 14253-1); otherwise \
             cannot say"
        }
        "guarded" => "guarded on each side with the confidences of the request",
        other => other,
    }
}

/// The verdict in the words of lash.
pub(super) const fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::InBand => "IN BAND",
        Verdict::Below => "TIGHT",
        Verdict::Above => "LOOSE",
        Verdict::CannotSay => "CANNOT SAY",
    }
}

/// The three chances in the words of lash; of a one-sided reading only what it bounds.
pub(super) fn chances(p: &Probabilities) -> String {
    let sides = [
        ("tight", p.below),
        ("in band", p.in_band),
        ("loose", p.above),
    ];
    let bounds: Vec<String> = sides
        .iter()
        .filter_map(|(side, c)| Some(format!("{side} {}", chance(*c)?)))
        .collect();
    let is_one_sided = sides.iter().any(|(_, c)| c.least < c.most);
    match (is_one_sided, bounds.is_empty()) {
        (false, _) => bounds.join(", "),
        (true, true) => String::from("one end only"),
        (true, false) => format!("one end only: {}", bounds.join(", ")),
    }
}

/// A mark of the kernel's own, as it is marked or in the other unit.
pub(super) fn taken(mark: Marked, inches: bool) -> String {
    if mark.unit().is_inch() == inches {
        format!("{mark}")
    } else {
        reckoned(mark.mm(), inches)
    }
}

/// The ends of a gap, said one by one.
pub(super) fn ends(low: Option<Lash>, high: Option<Lash>, said: &dyn Fn(f64) -> String) -> String {
    let show = |lash: Lash| said(lash.mm());
    match (low, high) {
        (Some(a), Some(b)) if a == b => show(a),
        (Some(a), Some(b)) => format!("{} to {}", show(a), show(b)),
        (Some(a), None) => format!("at least {}", show(a)),
        (None, Some(b)) => format!("less than {}", show(b)),
        (None, None) => String::from("nothing"),
    }
}

/// A probability in per cent, whole ones but near certainty. That is never shown: no reading with a spread
/// gives it.
pub(super) fn percent(p: f64) -> String {
    if p < SHOWN {
        String::from("under 0.1 %")
    } else if p > 1.0 - SHOWN {
        String::from("over 99.9 %")
    } else if (WHOLE..=1.0 - WHOLE).contains(&p) {
        format!("{:.0} %", p * 100.0)
    } else {
        format!("{:.1} %", p * 100.0)
    }
}

/// What is known of a probability; nothing if it may be anything.
fn chance(c: Chance) -> Option<String> {
    let (open_below, open_above) = (c.least < SHOWN, c.most > 1.0 - SHOWN);
    match (c.least < c.most, open_below, open_above) {
        (false, _, _) => Some(percent(c.most)),
        _ if c.most < SHOWN || c.least > 1.0 - SHOWN => Some(percent(c.most)),
        (true, true, true) => None,
        (true, true, false) => Some(format!("at most {}", percent(c.most))),
        (true, false, true) => Some(format!("at least {}", percent(c.least))),
        (true, false, false) => Some(format!("{} to {}", percent(c.least), percent(c.most))),
    }
}

/// Names as a sentence lists them.
pub(super) fn joined(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => String::from(*one),
        [all @ .., end] => format!("{} and {end}", all.join(", ")),
    }
}

/// The names of an engine's valves.
#[derive(Clone, Copy)]
pub(super) struct ValveNames<'e> {
    pub(super) engine: &'e Engine,
    /// Intake valves of a cylinder.
    pub(super) intake: u8,
    /// Exhaust valves of a cylinder.
    pub(super) exhaust: u8,
}

impl ValveNames<'_> {
    /// The valve by name, with its number where there are several.
    pub(super) fn of(self, valve: ValveId) -> String {
        let count = match valve.kind {
            ValveKind::Intake => self.intake,
            ValveKind::Exhaust => self.exhaust,
        };
        self.name(valve, count > 1)
    }

    pub(super) fn name(self, valve: ValveId, numbered: bool) -> String {
        let label = self
            .engine
            .cylinder(valve.cylinder)
            .map_or("?", |c| c.label.as_str());
        let word = valve.kind.word();
        if numbered {
            format!("cylinder {label} {word} {}", valve.number)
        } else {
            format!("cylinder {label} {word}")
        }
    }
}
