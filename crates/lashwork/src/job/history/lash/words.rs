//! What is said of valve clearances over the years.

use crate::job::history::drift::Words;
use crate::job::work::Sides;

/// What must be sure before any of it is relied on.
const SURE: [&str; 4] = [
    "every service was read as cold, and by as good a leaf, as the others: what was set then may have been \
     measured warm",
    "nothing was done to a valve that the services do not tell: screws, lock nuts, rockers, seats, head",
    "a forecast is of a valve as it stands now; what is set begins anew from what is left; a month is reckoned \
     as if the engine were used as it was",
    "what the maker asks goes on: these dates may call for a look earlier, never later",
];

/// Where to look at a valve that closes unlike its mates.
const CLOSES: [&str; 4] = [
    "the reading itself: once more, cold, by the same leaf and hand",
    "what the services may not tell: set warm, a lock nut that moved, parts changed",
    "compression and leak-down of that cylinder, hands and tools off the crank: a hiss at the valve's own port \
     tells of its seat",
    "the seat and the stem: a seat that sinks, a loose insert, a head that stretches",
];

/// Where to look at a valve that opens unlike its mates.
const OPENS: [&str; 4] = [
    "the reading itself: once more, cold, by the same leaf and hand",
    "what the services may not tell: set warm, a lock nut that moved, parts changed",
    "the lobe and the tappet: lift against its mates",
    "the rocker's pad, its shaft and the pushrod's ends",
];

/// How it is said.
pub(super) const WORDS: Words = Words {
    of_kind: " valves",
    falls: "closes",
    falling: "closing",
    fell: "closed",
    rises: "opens",
    rising: "opening",
    rose: "opened",
    sides: Sides {
        below: "tight",
        above: "loose",
    },
    sure: &SURE,
    falls_causes: &CLOSES,
    rises_causes: &OPENS,
    odd: "find out why it moves unlike its mates before setting hides it; a drift is no verdict on the valve",
    read: "read it from both sides, a leaf that goes and one that does not, and write it down as left",
    read_now: "read it now; what the clearance section says of that reading goes before any forecast",
};
