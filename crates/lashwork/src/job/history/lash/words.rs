//! Valve clearances over the years, in words.

use super::super::time::Times;
use crate::history::{Due, Figure, Look, NotKnown, TooFew};
use crate::quantity::shown::reckoned;
use crate::tolerance::DecidingSide;
use alloc::format;
use alloc::string::String;

/// What must be sure before any of it is relied on.
pub(super) const SURE: [&str; 4] = [
    "every service was read as cold, and by as good a leaf, as the others: what was set then may have been \
     measured warm",
    "nothing was done to a valve that the services do not tell: screws, lock nuts, rockers, seats, head",
    "a forecast is of a valve as it stands now; what is set begins anew from what is left; a month is reckoned \
     as if the engine were used as it was",
    "what the maker asks goes on: these dates may call for a look earlier, never later",
];

/// A rate and its interval.
pub(super) fn rate(rate: &Figure, times: &Times, inches: bool) -> String {
    let (count, words) = times.length();
    let said = |value: f64| reckoned((value * count).abs(), inches);
    let (low, high) = (rate.low, rate.high);
    if low < 0.0 && high > 0.0 {
        return format!(
            "no change is shown: between closing by {} and opening by {} {words} (95 %)",
            said(low),
            said(high)
        );
    }
    let (verb, least, most) = if rate.value < 0.0 {
        ("closes", high, low)
    } else {
        ("opens", low, high)
    };
    format!(
        "{verb} by {} {words} (95 %: {} to {})",
        said(rate.value),
        said(least),
        said(most)
    )
}

/// Which limit decides.
const fn side(due: &Due) -> &'static str {
    match due.side {
        DecidingSide::Above => "loose",
        _ => "tight",
    }
}

/// When to look.
pub(super) fn look(look: &Look, times: &Times) -> String {
    match look {
        Look::Now(due) => format!(
            "the chance that it is {} passes what the rule allows now",
            side(due)
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
                reaches(due, times)
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
fn reaches(due: &Due, times: &Times) -> String {
    let reaches = &due.reaches;
    let at = |at: Option<f64>| at.map(|at| times.at(at));
    let word = side(due);
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

/// Where to look at a valve that closes unlike its mates.
pub(super) const CLOSES: [&str; 4] = [
    "the reading itself: once more, cold, by the same leaf and hand",
    "what the services may not tell: set warm, a lock nut that moved, parts changed",
    "compression and leak-down of that cylinder, hands and tools off the crank: a hiss at the valve's own port \
     tells of its seat",
    "the seat and the stem: a seat that sinks, a loose insert, a head that stretches",
];

/// Where to look at a valve that opens unlike its mates.
pub(super) const OPENS: [&str; 4] = [
    "the reading itself: once more, cold, by the same leaf and hand",
    "what the services may not tell: set warm, a lock nut that moved, parts changed",
    "the lobe and the tappet: lift against its mates",
    "the rocker's pad, its shaft and the pushrod's ends",
];
