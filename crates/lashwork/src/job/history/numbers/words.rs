//! What is said of each quantity over the years.

use crate::job::history::drift::Words;
use crate::job::work::Sides;

/// The same for all of them.
const READ: &str = "read it and write down what is left";
const READ_NOW: &str = "read it now; what that reading says goes before any forecast";
const ODD: &str = "find out why it moves unlike its mates; a drift is no verdict on the part";

pub(super) const DWELL: Words = Words {
    of_kind: "",
    falls: "shrinks",
    falling: "shrinking",
    fell: "shrank",
    rises: "grows",
    rising: "growing",
    rose: "grew",
    sides: Sides {
        below: "too small",
        above: "too large",
    },
    sure: &[
        "every service read it with a meter of the same scale, at the same speed, the contacts warm or cold as \
         before",
        "nothing was done to contacts, cam or shaft that the services do not tell",
    ],
    falls_causes: &[
        "the reading itself: the meter's scale, the speed, the lead",
        "contacts that burn, or whose fixing screw moves",
        "the play of the shaft",
    ],
    rises_causes: &[
        "the reading itself: the meter's scale, the speed, the lead",
        "the heel that wears on a dry cam",
        "the play of the shaft",
    ],
    odd: ODD,
    read: READ,
    read_now: READ_NOW,
};

pub(super) const TIMING: Words = Words {
    of_kind: "",
    falls: "retards",
    falling: "retarding",
    fell: "retarded",
    rises: "advances",
    rising: "advancing",
    rose: "advanced",
    sides: Sides {
        below: "too late",
        above: "too early",
    },
    sure: &[
        "every service read it the same way: standing or running, at the same speed, the vacuum hose as before; \
         stay clear of fan and belts",
        "the dwell was settled before each reading: a degree of it moves the ignition point",
    ],
    falls_causes: &[
        "the reading itself: the mark, the lamp, the speed, the hose",
        "the contacts' heel that wears, a body that slips, a drive that wears",
    ],
    rises_causes: &[
        "the reading itself: the mark, the lamp, the speed, the hose",
        "contacts that burn, a body that slips, weights that hang",
    ],
    odd: ODD,
    read: READ,
    read_now: READ_NOW,
};

pub(super) const COMPRESSION: Words = Words {
    of_kind: "",
    falls: "falls",
    falling: "falling",
    fell: "fell",
    rises: "rises",
    rising: "rising",
    rose: "rose",
    sides: Sides {
        below: "low",
        above: "high",
    },
    sure: &[
        "every service cranked it alike: warm, all plugs out, throttle open, the battery full, the same gauge, a \
         place of about the same height",
        "its clearances were settled before each reading: what they leave open moves the compression",
    ],
    falls_causes: &[
        "the reading itself: once more, warm, throttle open, by the same gauge",
        "the clearances of its valves: a tight one leaks",
        "dry and then with a little oil: rings or valves",
        "leak-down of that cylinder, hands and tools off the crank: where it hisses",
    ],
    rises_causes: &[
        "the reading itself: once more, warm, throttle open, by the same gauge",
        "deposits, or oil that gets into that cylinder",
    ],
    odd: ODD,
    read: READ,
    read_now: READ_NOW,
};

pub(super) const LEAK: Words = Words {
    of_kind: "",
    falls: "shrinks",
    falling: "shrinking",
    fell: "shrank",
    rises: "grows",
    rising: "growing",
    rose: "grew",
    sides: Sides {
        below: "small",
        above: "large",
    },
    sure: &[
        "every area was reckoned with the orifice of the tester it was read with, the engine as warm, at the same \
         place of the piston; hands and tools off the crank",
        "its clearances were settled before each reading: a valve held open leaks",
    ],
    falls_causes: &[
        "the reading itself: once more, with the piston moved away and back",
        "deposits that seal, a seat that has worn in",
    ],
    rises_causes: &[
        "the reading itself: once more, with the piston moved away and back",
        "where it hisses: exhaust or intake valve, crankcase, coolant, the next cylinder",
        "the clearances of its valves: a tight one leaks",
    ],
    odd: ODD,
    read: READ,
    read_now: READ_NOW,
};
