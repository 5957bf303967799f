//! Why an adjustment cannot be computed.

use crate::quantity::{Marked, QuantityError};
use crate::tolerance::ToleranceError;
use crate::{LeftOut, Refusal};
use alloc::borrow::Cow;
use alloc::string::String;

/// Why an adjustment cannot be computed.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::adjust::Thread;
/// assert_eq!(Thread::per_inch(0).unwrap_err().code(), "adjust.pitch");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AdjustError {
    /// Only a whole build does this.
    #[error(transparent)]
    LeftOut(#[from] LeftOut),
    /// A thread no adjusting screw has.
    #[error("a pitch of {mm} mm is outside {min} to {max} mm")]
    Pitch {
        /// The pitch in millimetres.
        mm: f64,
        /// Least pitch.
        min: f64,
        /// Greatest pitch.
        max: f64,
    },
    /// A ratio no valve train has.
    #[error("the {what} {got} is outside {min} to {max}")]
    Ratio {
        /// The ratio.
        what: &'static str,
        /// The refused number.
        got: f64,
        /// Least value.
        min: f64,
        /// Greatest value.
        max: f64,
    },
    /// A series goes up from a size above zero.
    #[error("shims from {first} to {last} are not a rising series above zero")]
    SeriesOrder {
        /// The first size as typed.
        first: Marked,
        /// The last size as typed.
        last: Marked,
    },
    /// The step of a series is above zero.
    #[error("a step of {step} does not lead from one shim to the next")]
    StepNotPositive {
        /// The step as typed.
        step: Marked,
    },
    /// Steps from the first size do not hit the last.
    #[error("steps of {step} from {first} do not reach {last} exactly")]
    StepMisses {
        /// The first size as typed.
        first: Marked,
        /// The last size as typed.
        last: Marked,
        /// The step as typed.
        step: Marked,
    },
    /// A series with more sizes than anyone makes.
    #[error("a series of {count} sizes is too long, at most {max}")]
    TooManySizes {
        /// Sizes in the series.
        count: i64,
        /// Most that are accepted.
        max: i64,
    },
    /// The wanted shim is not within the series.
    #[error("a shim of {wanted} is outside the series {first} to {last}")]
    OutsideSeries {
        /// The wanted thickness.
        wanted: String,
        /// The thinnest shim of the series.
        first: Marked,
        /// The thickest shim of the series.
        last: Marked,
    },
    /// A shim that is said to be fitted and belongs to another series.
    #[error(
        "the fitted shim of {fitted} is more than {within} mm outside the series {first} to {last}"
    )]
    FittedOutsideSeries {
        /// Its thickness.
        fitted: String,
        /// The thinnest shim of the series.
        first: Marked,
        /// The thickest shim of the series.
        last: Marked,
        /// Most it may lie outside, in millimetres.
        within: f64,
    },
    /// More valves in one search for shims than any engine has.
    #[error("{count} valves are too many to plan shims for, at most {max}")]
    TooManySlots {
        /// Valves.
        count: usize,
        /// Most that are accepted.
        max: usize,
    },
    /// More pairs of a lock nut than anyone feels.
    #[error("{count} pairs of gaps before and after locking are too many, at most {max}")]
    TooManyPairs {
        /// How many there are.
        count: usize,
        /// Most that are accepted.
        max: usize,
    },
    /// No shim can be found for a valve.
    #[error("no shim on hand, and none that can be bought, can be fitted at place {}", .slot + 1)]
    NoShim {
        /// Its place in the list, from 0.
        slot: usize,
    },
    /// A pair of gaps that no lock nut makes.
    #[error(
        "pair {pair}, {before_mm} mm before locking and {after_mm} mm after, is not a believable shift of a lock nut"
    )]
    LockingPair {
        /// Which pair, from 1.
        pair: usize,
        /// The gap before locking, in millimetres.
        before_mm: f64,
        /// The gap after locking, in millimetres.
        after_mm: f64,
        /// Greatest shift that is accepted, in millimetres.
        max_mm: f64,
    },
    /// A length or an angle is out of its range.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty is out of its range.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for AdjustError {
    fn code(&self) -> &'static str {
        match self {
            Self::LeftOut(inner) => inner.code(),
            Self::Pitch { .. } => "adjust.pitch",
            Self::Ratio { .. } => "adjust.ratio",
            Self::SeriesOrder { .. } => "adjust.series-order",
            Self::StepNotPositive { .. } => "adjust.step-not-positive",
            Self::StepMisses { .. } => "adjust.step-misses",
            Self::TooManySizes { .. } => "adjust.too-many-sizes",
            Self::OutsideSeries { .. } => "adjust.outside-series",
            Self::FittedOutsideSeries { .. } => "adjust.fitted-outside-series",
            Self::TooManySlots { .. } => "adjust.too-many-slots",
            Self::NoShim { .. } => "adjust.no-shim",
            Self::TooManyPairs { .. } => "adjust.too-many-pairs",
            Self::LockingPair { .. } => "adjust.locking-pair",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::Pitch { .. } => Cow::Borrowed(
                "give the pitch of the screw in millimetres, or its threads per inch: 1 mm, 26 per inch",
            ),
            Self::Ratio { min, max, .. } => Cow::Owned(alloc::format!(
                "give a ratio from {min} to {max}; 1 if there is no lever between"
            )),
            Self::SeriesOrder { .. } => Cow::Borrowed("give the thinnest size first"),
            Self::StepNotPositive { .. } => Cow::Borrowed("give the difference between two sizes"),
            Self::StepMisses { .. } => {
                Cow::Borrowed("check the last size and the step against the maker's table")
            }
            Self::TooManySizes { .. } => Cow::Borrowed("give a larger step or a shorter series"),
            Self::OutsideSeries { first, last, .. } => Cow::Owned(alloc::format!(
                "sizes run from {first} to {last}; check the old shim and the reading, \
                 or use another series"
            )),
            Self::FittedOutsideSeries { .. } => {
                Cow::Borrowed("check the shim's mark and its unit, and the ends of the series")
            }
            Self::TooManySlots { .. } => Cow::Borrowed("plan one bank at a time"),
            Self::NoShim { .. } => {
                Cow::Borrowed("check the reading and the shim that is fitted, or add sizes")
            }
            Self::TooManyPairs { .. } => Cow::Borrowed("keep the latest pairs"),
            Self::LockingPair { max_mm, .. } => Cow::Owned(alloc::format!(
                "give gaps of zero or more that differ by at most {max_mm} mm; check the units"
            )),
            Self::LeftOut(inner) => inner.hint(),
            Self::Quantity(inner) => inner.hint(),
            Self::Tolerance(inner) => inner.hint(),
        }
    }
}

/// Accepts a ratio within `min..=max`; NaN fails.
pub(super) fn check_ratio(
    what: &'static str,
    got: f64,
    min: f64,
    max: f64,
) -> Result<f64, AdjustError> {
    if (min..=max).contains(&got) {
        Ok(got)
    } else {
        Err(AdjustError::Ratio {
            what,
            got,
            min,
            max,
        })
    }
}
