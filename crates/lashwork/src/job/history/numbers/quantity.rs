//! The quantities, how they are said, and how far off a reading usually is.

use super::NumberVisit;
use super::words::{COMPRESSION, DWELL, LEAK, TIMING};
use crate::engine::CylinderIndex;
use crate::history::Visit;
use crate::ignition::breaker::Dwell;
use crate::job::condition::GaugeUnit;
use crate::job::history::drift::Words;
use crate::job::history::readings_now::NumbersNow;
use crate::job::history::request::PastService;
use crate::quantity::{Advance, Area, GaugePressure};
use crate::tolerance::{HasLimits, Limits};
use alloc::format;
use alloc::string::{String, ToString};

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
    /// What is read now.
    fn now(all: &NumbersNow) -> &[(Option<CylinderIndex>, Visit<Self>)];
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>>;
    /// How many of the quantity's unit one is in which it is said, and its symbol.
    fn unit(_: GaugeUnit) -> (f64, &'static str) {
        (1.0, Self::UNIT)
    }
    /// The size of a change, in words.
    fn amount(number: f64, gauge: GaugeUnit) -> String;
    /// A value, in words.
    fn value(number: f64, gauge: GaugeUnit) -> String;
    /// Limits, in words.
    fn band(limits: &Limits<Self>, _: GaugeUnit) -> String {
        limits.to_string()
    }
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
    fn now(all: &NumbersNow) -> &[(Option<CylinderIndex>, Visit<Self>)] {
        all.dwell.readings()
    }
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>> {
        all.dwell.as_ref()
    }
    fn amount(number: f64, _: GaugeUnit) -> String {
        format!("{number:.1} deg")
    }
    fn value(number: f64, _: GaugeUnit) -> String {
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
    fn now(all: &NumbersNow) -> &[(Option<CylinderIndex>, Visit<Self>)] {
        all.timing.readings()
    }
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>> {
        all.timing.as_ref()
    }
    fn amount(number: f64, _: GaugeUnit) -> String {
        format!("{number:.1} deg")
    }
    fn value(number: f64, _: GaugeUnit) -> String {
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
        (3.6 psi, standard) taken for the gauge and for cranking once more; common practice, no source";

    fn usual_uncertainty(_: Self) -> f64 {
        25.0
    }
    fn visits(service: &PastService) -> &[NumberVisit<Self>] {
        &service.compression
    }
    fn now(all: &NumbersNow) -> &[(Option<CylinderIndex>, Visit<Self>)] {
        all.compression.readings()
    }
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>> {
        all.compression.as_ref()
    }
    fn unit(gauge: GaugeUnit) -> (f64, &'static str) {
        gauge.unit()
    }
    fn amount(number: f64, gauge: GaugeUnit) -> String {
        gauge.say_change(number)
    }
    fn value(number: f64, gauge: GaugeUnit) -> String {
        gauge.say(number.max(0.0))
    }
    fn band(limits: &Limits<Self>, gauge: GaugeUnit) -> String {
        let said = |end: Option<Self>| end.map(|end| gauge.shown(end));
        match (said(limits.lower()), said(limits.upper())) {
            (Some(low), Some(high)) => format!("{low} to {high}"),
            (Some(low), None) => format!("at least {low}"),
            (None, Some(high)) => format!("at most {high}"),
            (None, None) => limits.to_string(),
        }
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
    fn now(all: &NumbersNow) -> &[(Option<CylinderIndex>, Visit<Self>)] {
        all.leak_area.readings()
    }
    fn limits(all: &HistoryLimits) -> Option<&Limits<Self>> {
        all.leak_area.as_ref()
    }
    fn amount(number: f64, _: GaugeUnit) -> String {
        format!("{number:.2} mm2")
    }
    fn value(number: f64, _: GaugeUnit) -> String {
        format!("{:.2} mm2", number.max(0.0))
    }
}
