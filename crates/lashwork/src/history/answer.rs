//! What is said of a drift: figures with their intervals, and why there is none.

use super::mix::Mix;
use serde::Serialize;

/// The part of intervals that holds the value.
pub(super) const CONFIDENCE: f64 = 0.95;

/// A figure with its interval of 95 %, in [`Measurand::UNIT`](crate::tolerance::Measurand::UNIT), of a rate for a unit of the count.
///
/// ```
/// use lashwork::history::Figure;
/// let rate = Figure { value: -0.002, standard_uncertainty: 0.001, low: -0.004, high: 0.0 };
/// assert!(rate.low < rate.value);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Figure {
    /// As likely below as above.
    pub value: f64,
    /// Standard uncertainty; of a figure from very few readings it may be large beside the interval.
    pub standard_uncertainty: f64,
    /// From here.
    pub low: f64,
    /// To here.
    pub high: f64,
}

impl Figure {
    pub(super) fn of(mix: &Mix) -> Self {
        let tail = 0.5 * (1.0 - CONFIDENCE);
        Self {
            value: mix.quantile(0.5),
            standard_uncertainty: mix.sd(),
            low: mix.quantile(tail),
            high: mix.quantile(1.0 - tail),
        }
    }
}

/// What a subject will be at a time.
///
/// ```
/// use lashwork::history::{Figure, Forecast};
/// let figure = Figure { value: 0.2, standard_uncertainty: 0.01, low: 0.18, high: 0.22 };
/// assert_eq!(Forecast { at: 500.0, line: figure, found: figure }.at, 500.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Forecast {
    /// When, in the unit of the count.
    pub at: f64,
    /// Where its line is.
    pub line: Figure,
    /// Where it will be found: with the scatter from service to service, but without what a leaf adds.
    pub found: Figure,
}

impl Forecast {
    pub(super) fn of(at: f64, line: &Mix, found: &Mix) -> Self {
        Self {
            at,
            line: Figure::of(line),
            found: Figure::of(found),
        }
    }
}

/// Why nothing is said of a subject.
///
/// ```
/// use lashwork::history::NotKnown;
/// assert_ne!(NotKnown::NotRead, NotKnown::BeddingIn);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum NotKnown {
    /// It was not read since it was last set, or from one side only.
    NotRead,
    /// Its new parts have not been read since they bedded in.
    BeddingIn,
}

/// Fewer readings than it takes.
///
/// ```
/// use lashwork::history::TooFew;
/// let few = TooFew { readings: 2, lines: 2, more: 2 };
/// assert_eq!(few.more, 2);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct TooFew {
    /// Readings of the kind that stand on lines.
    pub readings: usize,
    /// Stretches between settings that they are in; each has a level of its own.
    pub lines: usize,
    /// How many more it takes, at other times without a setting between.
    pub more: usize,
}

/// A point of a chart of departures, in standard deviations of one.
///
/// ```
/// use lashwork::history::Departure;
/// let fallen = Departure { at: 300.0, off: -2.0, above: 0.0, below: 1.5 };
/// assert!(fallen.below > fallen.above);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Departure {
    /// When it was read.
    pub at: f64,
    /// How far it is off what the kind does since the reading before.
    pub off: f64,
    /// Running sum above.
    pub above: f64,
    /// Running sum below.
    pub below: f64,
}

/// What new parts did before they were bedded in.
///
/// ```
/// use lashwork::history::{Bedding, Figure};
/// let amount = Figure { value: -0.05, standard_uncertainty: 0.01, low: -0.07, high: -0.03 };
/// assert!(Bedding { set_at: 100.0, amount }.amount.high < 0.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Bedding {
    /// When they were set.
    pub set_at: f64,
    /// How much the reading changed, beyond the steady drift.
    pub amount: Figure,
}
