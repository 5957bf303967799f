//! Printed limits.

use super::{Column, HasLimits, ToleranceError};
use crate::quantity::{Lash, Nominal};
use alloc::string::{String, ToString};
use core::fmt;
use core::str::FromStr;
use serde::Serialize;

/// A band as printed: two limits, or one.
///
/// What it shows it also reads.
///
/// ```
/// use lashwork::quantity::{Lash, Marked};
/// use lashwork::tolerance::Limits;
/// let band = Limits::between(Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?)?;
/// assert_eq!(band.to_string(), "0.15 mm to 0.25 mm");
/// assert_eq!("0.15 mm to 0.25 mm".parse(), Ok(band));
/// assert!(band.contains(Lash::parse("0.25 mm")?));
/// assert_eq!(band.width_mm(), Some(0.1));
/// let slip = "0.006 in to 0.10 mm".parse::<Limits<Lash>>();
/// assert!(slip.unwrap_err().to_string().contains("0.006 in lies above the upper limit 0.10 mm"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(bound(serialize = "Q::Printed: Serialize"))]
pub struct Limits<Q: HasLimits> {
    lower: Option<Q::Printed>,
    upper: Option<Q::Printed>,
}

impl<Q: HasLimits> Eq for Limits<Q> where Q::Printed: Eq {}

impl<Q: HasLimits> Limits<Q> {
    /// From one limit to the other, both included.
    ///
    /// # Errors
    /// [`ToleranceError::CrossedLimits`] if `low` is above `high`.
    pub fn between(low: Q::Printed, high: Q::Printed) -> Result<Self, ToleranceError> {
        if Q::printed_number(low) > Q::printed_number(high) {
            return Err(ToleranceError::CrossedLimits {
                low: low.to_string(),
                high: high.to_string(),
            });
        }
        Ok(Self {
            lower: Some(low),
            upper: Some(high),
        })
    }

    /// This much or more.
    #[must_use]
    pub const fn at_least(low: Q::Printed) -> Self {
        Self {
            lower: Some(low),
            upper: None,
        }
    }

    /// This much or less.
    #[must_use]
    pub const fn at_most(high: Q::Printed) -> Self {
        Self {
            lower: None,
            upper: Some(high),
        }
    }

    /// The lower limit as printed.
    #[must_use]
    pub const fn lower(&self) -> Option<Q::Printed> {
        self.lower
    }

    /// The upper limit as printed.
    #[must_use]
    pub const fn upper(&self) -> Option<Q::Printed> {
        self.upper
    }

    /// Whether a value lies in the band, the limits included.
    #[must_use]
    pub fn contains(&self, value: Q) -> bool {
        self.contains_number(value.number())
    }

    fn contains_number(&self, number: f64) -> bool {
        let (lower, upper) = self.numbers();
        lower.is_none_or(|t| t <= number) && upper.is_none_or(|t| number <= t)
    }

    /// Whether the other band lies wholly in this one.
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::Limits;
    /// let wide: Limits<Lash> = "at most 0.30 mm".parse()?;
    /// let band = "0.15 mm to 0.25 mm".parse()?;
    /// assert!(wide.encloses(&band) && !band.encloses(&wide));
    /// # Ok::<(), lashwork::tolerance::ToleranceError>(())
    /// ```
    #[must_use]
    pub fn encloses(&self, other: &Self) -> bool {
        let ((lower, upper), (low, high)) = (self.numbers(), other.numbers());
        lower.is_none_or(|t| low.is_some_and(|o| t <= o))
            && upper.is_none_or(|t| high.is_some_and(|o| o <= t))
    }

    /// The lower and the upper limit in the base unit for columns of which all rows have them, not a number
    /// where there is none.
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Column, Limits};
    /// let [lower, upper] = "at least 0.15 mm".parse::<Limits<Lash>>()?.as_columns();
    /// assert!(lower == Column::All(0.15) && upper.at(0).is_nan());
    /// # Ok::<(), lashwork::tolerance::ToleranceError>(())
    /// ```
    #[must_use]
    pub fn as_columns(&self) -> [Column<'static>; 2] {
        let (lower, upper) = self.numbers();
        [lower, upper].map(|limit| limit.map_or(Column::NONE, Column::All))
    }

    /// Both limits in the base unit. Whole nanometres of at most ten metres stay apart as numbers.
    pub(crate) fn numbers(&self) -> (Option<f64>, Option<f64>) {
        (
            self.lower.map(Q::printed_number),
            self.upper.map(Q::printed_number),
        )
    }
}

impl Limits<Lash> {
    /// The width of the band in millimetres, exact to the nearest `f64`; `None` with one limit.
    #[must_use]
    pub fn width_mm(&self) -> Option<f64> {
        let (low, high) = (self.lower?, self.upper?);
        Some((high.nominal().nanometres() - low.nominal().nanometres()) as f64 / 1e6)
    }

    /// Whether an exact length lies in the band, the limits included.
    #[must_use]
    pub fn holds(&self, nominal: Nominal) -> bool {
        self.contains_number(nominal.mm())
    }
}

const TO: &str = " to ";
const AT_LEAST: &str = "at least ";
const AT_MOST: &str = "at most ";

impl<Q: HasLimits> fmt::Display for Limits<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match (self.lower, self.upper) {
            (Some(low), Some(high)) => alloc::format!("{low}{TO}{high}"),
            (Some(low), None) => alloc::format!("{AT_LEAST}{low}"),
            (None, Some(high)) => alloc::format!("{AT_MOST}{high}"),
            (None, None) => String::from("any"),
        };
        f.pad(&text)
    }
}

/// Reads what `Display` writes: `0.15 mm to 0.25 mm`, `at least 0.15 mm`, `at most 0.25 mm`.
impl<Q: HasLimits> FromStr for Limits<Q> {
    type Err = ToleranceError;

    fn from_str(text: &str) -> Result<Self, ToleranceError> {
        let words = text.trim();
        if let Some(low) = words.strip_prefix(AT_LEAST) {
            return Ok(Self::at_least(Q::read_printed(low)?));
        }
        if let Some(high) = words.strip_prefix(AT_MOST) {
            return Ok(Self::at_most(Q::read_printed(high)?));
        }
        let Some((low, high)) = words.split_once(TO) else {
            return Err(ToleranceError::LimitsText {
                text: text.to_string(),
            });
        };
        Self::between(Q::read_printed(low)?, Q::read_printed(high)?)
    }
}
