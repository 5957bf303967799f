//! Printed limits.

use super::ToleranceError;
use crate::quantity::{Lash, Marked, Nominal};
use core::fmt;
use serde::Serialize;

/// A band of lash as printed: two limits, or one.
///
/// ```
/// use lashwork::quantity::{Lash, Marked};
/// use lashwork::tolerance::Limits;
/// let band = Limits::between(Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?)?;
/// assert_eq!(band.to_string(), "0.15 mm to 0.25 mm");
/// assert!(band.contains(Lash::parse("0.25 mm")?));
/// assert_eq!(band.width_mm(), Some(0.1));
/// let slip = Limits::between(Marked::parse("0.006 in")?, Marked::parse("0.10 mm")?);
/// assert!(slip.unwrap_err().to_string().contains("0.006 in lies above the upper limit 0.10 mm"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Limits {
    lower: Option<Marked>,
    upper: Option<Marked>,
}

impl Limits {
    /// From one limit to the other, both included.
    ///
    /// # Errors
    /// [`ToleranceError::CrossedLimits`] if `low` is above `high`.
    pub fn between(low: Marked, high: Marked) -> Result<Self, ToleranceError> {
        if low.nominal() > high.nominal() {
            return Err(ToleranceError::CrossedLimits { low, high });
        }
        Ok(Self {
            lower: Some(low),
            upper: Some(high),
        })
    }

    /// This much or more.
    #[must_use]
    pub const fn at_least(low: Marked) -> Self {
        Self {
            lower: Some(low),
            upper: None,
        }
    }

    /// This much or less.
    #[must_use]
    pub const fn at_most(high: Marked) -> Self {
        Self {
            lower: None,
            upper: Some(high),
        }
    }

    /// The lower limit, below which a valve is tight.
    #[must_use]
    pub const fn lower(&self) -> Option<Marked> {
        self.lower
    }

    /// The upper limit, above which a valve is loose.
    #[must_use]
    pub const fn upper(&self) -> Option<Marked> {
        self.upper
    }

    /// Whether a lash lies in the band, the limits included.
    #[must_use]
    pub fn contains(&self, lash: Lash) -> bool {
        self.lower.is_none_or(|t| t.mm() <= lash.mm())
            && self.upper.is_none_or(|t| lash.mm() <= t.mm())
    }

    /// The width of the band in millimetres, exact to the nearest `f64`; `None` with one limit.
    #[must_use]
    pub fn width_mm(&self) -> Option<f64> {
        let (low, high) = (self.lower?, self.upper?);
        Some((high.nominal().nanometres() - low.nominal().nanometres()) as f64 / 1e6)
    }

    /// Whether an exact length lies in the band, the limits included.
    #[must_use]
    pub fn holds(&self, nominal: Nominal) -> bool {
        self.lower.is_none_or(|t| t.nominal() <= nominal)
            && self.upper.is_none_or(|t| nominal <= t.nominal())
    }

    /// Whether the other band lies wholly in this one.
    ///
    /// ```
    /// use lashwork::quantity::Marked;
    /// use lashwork::tolerance::Limits;
    /// let wide = Limits::at_most(Marked::parse("0.30 mm")?);
    /// let band = Limits::between(Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?)?;
    /// assert!(wide.encloses(&band) && !band.encloses(&wide));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn encloses(&self, other: &Self) -> bool {
        let low = self
            .lower
            .is_none_or(|t| other.lower.is_some_and(|o| t.nominal() <= o.nominal()));
        let high = self
            .upper
            .is_none_or(|t| other.upper.is_some_and(|o| o.nominal() <= t.nominal()));
        low && high
    }
}

impl fmt::Display for Limits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match (self.lower, self.upper) {
            (Some(low), Some(high)) => alloc::format!("{low} to {high}"),
            (Some(low), None) => alloc::format!("at least {low}"),
            (None, Some(high)) => alloc::format!("at most {high}"),
            (None, None) => alloc::string::String::from("any"),
        };
        f.pad(&text)
    }
}
