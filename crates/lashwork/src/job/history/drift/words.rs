//! A drift in words; those of a quantity are its own.

use super::Say;
use crate::history::{Due, Figure, Look, NotKnown, TooFew};
use crate::job::history::time::Times;
use crate::job::work::Sides;
use crate::tolerance::DecidingSide;
use alloc::format;
use alloc::string::String;

/// A rate and its interval.
pub(super) fn rate(rate: &Figure, times: &Times, say: Say<'_>) -> String {
    let (count, words) = times.length();
    let said = |value: f64| (say.amount)((value * count).abs());
    let (low, high) = (rate.low, rate.high);
    if low < 0.0 && high > 0.0 {
        return format!(
            "no change is shown: between {} by {} and {} by {} {words} (95 %)",
            say.words.falling,
            said(low),
            say.words.rising,
            said(high)
        );
    }
    let (verb, least, most) = if rate.value < 0.0 {
        (say.words.falls, high, low)
    } else {
        (say.words.rises, low, high)
    };
    format!(
        "{verb} by {} {words} (95 %: {} to {})",
        said(rate.value),
        said(least),
        said(most)
    )
}

/// The rates of several; each has an interval of its own in the report.
pub(super) fn rates(rates: &[Figure], times: &Times, say: Say<'_>) -> String {
    let (count, words) = times.length();
    let said = |value: f64| (say.amount)((value * count).abs());
    let least = rates
        .iter()
        .map(|rate| rate.value)
        .fold(f64::INFINITY, f64::min);
    let most = rates
        .iter()
        .map(|rate| rate.value)
        .fold(f64::NEG_INFINITY, f64::max);
    let is_shown = |rate: &Figure| rate.low >= 0.0 || rate.high <= 0.0;
    let shown = rates.iter().filter(|rate| is_shown(rate)).count();
    if shown == 0 {
        return String::from("no change is shown of any");
    }
    let not_all = if shown < rates.len() {
        ", not of each shown to be a change"
    } else {
        ""
    };
    let (near, far) = if most <= 0.0 {
        (most, least)
    } else {
        (least, most)
    };
    let (near, far) = match (most <= 0.0, least >= 0.0) {
        (true, _) | (_, true) => (said(near), said(far)),
        _ => {
            return format!(
                "between {} by {} and {} by {} {words}{not_all}",
                say.words.falling,
                said(least),
                say.words.rising,
                said(most)
            );
        }
    };
    let verb = if most <= 0.0 {
        say.words.falls
    } else {
        say.words.rises
    };
    if near == far {
        return format!("each {verb} by {far} {words}{not_all}");
    }
    format!("each {verb} by {near} to {far} {words}{not_all}")
}

/// Which limit decides.
const fn side(due: &Due, sides: Sides) -> &'static str {
    match due.side {
        DecidingSide::Above => sides.above,
        _ => sides.below,
    }
}

/// When to look.
pub(super) fn look(look: &Look, times: &Times, sides: Sides) -> String {
    match look {
        Look::Now(due) => format!(
            "the chance that it is {} passes what the rule allows now",
            side(due, sides)
        ),
        Look::At(due) => {
            let far = if due.is_far {
                "; that is far beyond what was seen: look earlier"
            } else {
                ""
            };
            format!(
                "look again by {} at the latest; {}{far}",
                times.ahead(due.at),
                reaches(due, times, sides)
            )
        }
        Look::NotBefore(at) => format!(
            "nothing is seen to bring it out of its limits before {}; no forecast reaches so far: look as the \
             maker asks",
            times.at(*at)
        ),
        Look::NotKnown(why) => String::from(not_known(*why)),
    }
}

/// When the line itself passes the limit.
fn reaches(due: &Due, times: &Times, sides: Sides) -> String {
    let reaches = &due.reaches;
    let at = |at: Option<f64>| at.map(|at| times.at(at));
    let word = side(due, sides);
    match (at(reaches.from), at(reaches.middle), at(reaches.to)) {
        (Some(from), _, Some(to)) => format!("it gets {word} between {from} and {to} (95 %)"),
        (Some(from), _, None) => {
            format!("it gets {word} no earlier than {from} (97.5 %), and perhaps never")
        }
        _ => format!("whether and when it gets {word} is not known"),
    }
}

/// Why nothing is forecast.
pub(super) const fn not_known(why: NotKnown) -> &'static str {
    match why {
        NotKnown::NotRead => {
            "it was not read since it was last set, or from one side only: no forecast"
        }
        NotKnown::BeddingIn => {
            "its new parts were not read since they can have bedded in: no forecast"
        }
    }
}

/// Fewer readings than it takes.
pub(super) fn too_few(few: &TooFew) -> String {
    format!(
        "too few readings to say how they change: {} with both ends, on {} stretches between settings; it takes \
         {} more, at other times without a setting between",
        few.readings, few.lines, few.more
    )
}
