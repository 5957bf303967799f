//! Valve events in words.

use super::answer::{
    EventAtLashReport, EventsAtLashReport, EventsCylinderReport, EventsMoveReport,
};
use super::cam::short;
use super::one::{One, Pair};
use crate::events::{EventFound, EventsFound};
use crate::job::work::LashMoves;
use crate::quantity::shown::{by_hand, reckoned};
use crate::quantity::{CrankAngle, Lash};
use crate::tolerance::Estimate;
use crate::tolerance::known::known;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Anything from which an angle is said.
fn degrees(from: Option<CrankAngle>, to: Option<CrankAngle>) -> String {
    match (from, to) {
        (Some(from), Some(to)) => format!("{:.0}", 0.5 * (from.degrees() + to.degrees())),
        (Some(from), None) => format!("at least {:.0}", from.degrees()),
        (None, Some(to)) => format!("at most {:.0}", to.degrees()),
        (None, None) => String::from("not known"),
    }
}

fn at_lash(lash: &Pair, found: &EventsFound) -> EventsAtLashReport {
    let one = |event: &EventFound| EventAtLashReport {
        event: event.event,
        printed: event.printed,
        from: event.running.low(),
        to: event.running.high(),
        u: event.running.normal_uncertainty().number(),
    };
    EventsAtLashReport {
        intake_lash: lash.intake.centre(),
        exhaust_lash: lash.exhaust.centre(),
        events: found.events.iter().map(one).collect(),
        overlap_from: found.overlap.low(),
        overlap_to: found.overlap.high(),
        effective_ratio: found.effective_ratio.map(|ratio| ratio.running),
        effective_ratio_u: found.effective_ratio.map(|ratio| ratio.running_u),
    }
}

/// A cylinder.
pub(super) fn cylinder(
    one: &One,
    now: &EventsFound,
    set: Option<&EventsFound>,
    inches: bool,
) -> EventsCylinderReport {
    let lash = |lash: Option<Lash>| {
        let said = lash.map(|lash| reckoned(lash.mm(), inches));
        said.unwrap_or_default()
    };
    let told = at_lash(&one.now, now);
    let set = one
        .set
        .as_ref()
        .zip(set)
        .map(|(pair, found)| at_lash(pair, found));
    let ratio = told
        .effective_ratio
        .map(|ratio| format!(", effective ratio {ratio:.2}"));
    let text = format!(
        "lash {} intake, {} exhaust: {}; overlap {}{}",
        lash(told.intake_lash),
        lash(told.exhaust_lash),
        events(&told),
        degrees(told.overlap_from, told.overlap_to),
        ratio.unwrap_or_default()
    );
    let set_text = set.as_ref().map(|set| {
        let ratio = set
            .effective_ratio
            .map(|ratio| format!(", effective ratio {ratio:.2}"));
        format!(
            "as the book sets it, {} intake, {} exhaust: {}; overlap {}{}",
            lash(set.intake_lash),
            lash(set.exhaust_lash),
            events(set),
            degrees(set.overlap_from, set.overlap_to),
            ratio.unwrap_or_default()
        )
    });
    EventsCylinderReport {
        name: one.name.clone(),
        now: told,
        set,
        compression_over_mean_percent: None,
        text,
        set_text,
    }
}

fn events(told: &EventsAtLashReport) -> String {
    let one = |event: &EventAtLashReport| {
        let (what, from) = short(event.event);
        format!("{what} {} {from}", degrees(event.from, event.to))
    };
    let all: Vec<String> = told.events.iter().map(one).collect();
    all.join(", ")
}

/// How much more or less a gauge should show of a cylinder than of the mean, by its lash alone.
pub(super) fn over_mean(percent: f64) -> String {
    let way = if percent < 0.0 { "less" } else { "more" };
    format!(
        ", compression {:.1} % {way} than at the mean closing",
        percent.abs()
    )
}

/// What came out.
pub(super) fn verdict(
    cylinders: &[EventsCylinderReport],
    closes: Option<&Estimate<CrankAngle>>,
    printed: f64,
) -> String {
    let to_set = cylinders.iter().filter(|one| one.set.is_some()).count();
    let rest = match to_set {
        0 => String::new(),
        n => format!(
            "; {n} of {} cylinders move when their valves are set",
            cylinders.len()
        ),
    };
    match closes.and_then(known) {
        Some((mean, u)) => format!(
            "at the lash read the intake closes {mean:.0} deg after BDC, u {u:.0} (printed {printed:.0}){rest}"
        ),
        None => format!(
            "the lash read is more than a ramp takes up: how far the events move is known on one side only{rest}"
        ),
    }
}

/// What more lash does to the steps that lean on it.
pub(in crate::job::condition) fn moves(found: &EventsMoveReport, inches: bool) -> LashMoves {
    LashMoves {
        compression: found.text.clone(),
        overlap: format!(
            "{} more on every valve: overlap {:.1} deg less",
            by_hand(found.lash.mm(), inches),
            found.overlap_less.degrees()
        ),
    }
}

/// What more lash does.
pub(super) fn more(found: &EventsMoveReport, is_least: bool, inches: bool) -> String {
    let least = if is_least { "at least " } else { "" };
    let ratio = found
        .effective_ratio_more
        .map(|more| format!(", effective ratio {more:+.2}"));
    let shown = found
        .compression_more_percent
        .map(|more| format!(", compression {more:+.1} %"));
    format!(
        "{} more on every valve: the intake closes {least}{:.1} deg earlier, overlap {least}{:.1} deg less{}{}",
        by_hand(found.lash.mm(), inches),
        found.intake_closes_earlier.degrees(),
        found.overlap_less.degrees(),
        ratio.unwrap_or_default(),
        shown.unwrap_or_default()
    )
}
