//! The quantities, their words, and how far off a reading usually is.

use super::NumberVisit;
use crate::ignition::breaker::Dwell;
use crate::job::history::drift::Words;
use crate::job::history::request::PastService;
use crate::job::work::Sides;
use crate::quantity::{Advance, Area, GaugePressure};
use crate::tolerance::{HasLimits, Limits};
use alloc::format;
use alloc::string::String;

/// What is read with a meter.
///
/// ```
/// use lashwork::job::history::HistoryQuantity;
/// assert_eq!(HistoryQuantity::LeakArea.word(), "leak area");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum HistoryQuantity {
    /// The dwell of the contacts.
    Dwell,
    /// The ignition point.
    Timing,
    /// The compression shown of a cylinder.
    Compression,
    /// The area through which a cylinder leaks.
    LeakArea,
}

impl HistoryQuantity {
    /// What it is called on the sheet.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Dwell => "dwell",
            Self::Timing => "timing",
            Self::Compression => "compression",
            Self::LeakArea => "leak area",
        }
    }

    pub(super) const fn assumption(self) -> &'static str {
        match self {
            Self::Dwell => "history.dwell-uncertainty",
            Self::Timing => "history.timing-uncertainty",
            Self::Compression => "history.compression-uncertainty",
            Self::LeakArea => "history.leak-uncertainty",
        }
    }
}

/// The limits that past readings are held against, for when to look next.
///
/// ```
/// use lashwork::job::history::HistoryLimits;
/// let mut limits = HistoryLimits::default();
/// limits.compression = Some("at least 800 kPa".parse()?);
/// assert!(limits.dwell.is_none());
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct HistoryLimits {
    /// Of the dwell.
    pub dwell: Option<Limits<Dwell>>,
    /// Of the ignition point.
    pub timing: Option<Limits<Advance>>,
    /// Of the compression shown.
    pub compression: Option<Limits<GaugePressure>>,
    /// Of the leak.
    pub leak_area: Option<Limits<Area>>,
}

/// A quantity of which past services hold numbers.
pub(in crate::job::history) trait Number: HasLimits {
    const QUANTITY: HistoryQuantity;
    /// What it is called where it is of no cylinder.
    const ALONE: &'static str;
    const WORDS: &'static Words;
    /// What is assumed of the uncertainty.
    const USUAL_TEXT: &'static str;

    fn usual_uncertainty(value: Self) -> f64;
    fn visits(service: &PastService) -> &[NumberVisit<Self>];
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>>;
    /// The size of a change, in words.
    fn amount(number: f64) -> String;
    /// A value, in words.
    fn value(number: f64) -> String;
}

impl Number for Dwell {
    const QUANTITY: HistoryQuantity = HistoryQuantity::Dwell;
    const ALONE: &'static str = "the contacts";
    const WORDS: &'static Words = &DWELL;
    // As where the contacts are judged.
    const USUAL_TEXT: &'static str = "uncertainty of a dwell that a service gives not stated: 1 deg (standard) \
        taken; common practice, no source";

    fn usual_uncertainty(_: Self) -> f64 {
        1.0
    }
    fn visits(service: &PastService) -> &[NumberVisit<Self>] {
        &service.dwell
    }
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>> {
        all.dwell.as_ref()
    }
    fn amount(number: f64) -> String {
        format!("{number:.1} deg")
    }
    fn value(number: f64) -> String {
        format!("{:.1} deg", number.max(0.0))
    }
}

impl Number for Advance {
    const QUANTITY: HistoryQuantity = HistoryQuantity::Timing;
    const ALONE: &'static str = "the ignition point";
    const WORDS: &'static Words = &TIMING;
    const USUAL_TEXT: &'static str = "uncertainty of an ignition point that a service gives not stated: 1 deg \
        (standard) taken; common practice, no source";

    fn usual_uncertainty(_: Self) -> f64 {
        1.0
    }
    fn visits(service: &PastService) -> &[NumberVisit<Self>] {
        &service.timing
    }
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>> {
        all.timing.as_ref()
    }
    fn amount(number: f64) -> String {
        format!("{number:.1} deg")
    }
    fn value(number: f64) -> String {
        let side = if number < 0.0 { "ATDC" } else { "BTDC" };
        format!("{:.1} deg {side}", number.abs())
    }
}

impl Number for GaugePressure {
    const QUANTITY: HistoryQuantity = HistoryQuantity::Compression;
    const ALONE: &'static str = "the engine";
    const WORDS: &'static Words = &COMPRESSION;
    // What the compression test takes for one cylinder and for one gauge, together.
    const USUAL_TEXT: &'static str = "uncertainty of a compression that a service gives not stated: 25 kPa \
        (standard) taken for the gauge and for cranking once more; common practice, no source";

    fn usual_uncertainty(_: Self) -> f64 {
        25.0
    }
    fn visits(service: &PastService) -> &[NumberVisit<Self>] {
        &service.compression
    }
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>> {
        all.compression.as_ref()
    }
    fn amount(number: f64) -> String {
        format!("{number:.0} kPa")
    }
    fn value(number: f64) -> String {
        format!("{:.0} kPa", number.max(0.0))
    }
}

impl Number for Area {
    const QUANTITY: HistoryQuantity = HistoryQuantity::LeakArea;
    const ALONE: &'static str = "the engine";
    const WORDS: &'static Words = &LEAK;
    const USUAL_TEXT: &'static str = "uncertainty of a leak area that a service gives not stated: a tenth of it, \
        and no less than 0.02 mm2, (standard) taken; our choice, no source";

    fn usual_uncertainty(value: Self) -> f64 {
        (0.1 * value.square_millimetres()).max(0.02)
    }
    fn visits(service: &PastService) -> &[NumberVisit<Self>] {
        &service.leak_area
    }
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>> {
        all.leak_area.as_ref()
    }
    fn amount(number: f64) -> String {
        format!("{number:.2} mm2")
    }
    fn value(number: f64) -> String {
        format!("{:.2} mm2", number.max(0.0))
    }
}

/// The same for all of them.
const READ: &str = "read it and write down what is left";
const READ_NOW: &str = "read it now; what that reading says goes before any forecast";
const ODD: &str = "find out why it moves unlike its mates; a drift is no verdict on the part";

const DWELL: Words = Words {
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

const TIMING: Words = Words {
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

const COMPRESSION: Words = Words {
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

const LEAK: Words = Words {
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
