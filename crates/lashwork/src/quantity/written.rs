//! A number as a person wrote it, with its unit, read without loss.

use super::QuantityError;
use alloc::string::String;

/// A decimal number and the unit that stood behind it, exactly as written.
///
/// ```
/// use lashwork::quantity::Written;
/// let w = Written::read("length", "0,15 mm", "mm")?;
/// assert_eq!((w.digits(), w.decimals(), w.unit()), (15, 2, "mm"));
/// assert_eq!(w.value(), 0.15);
/// assert!(Written::read("length", "0.15", "mm").is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Written<'a> {
    digits: i64,
    decimals: u32,
    unit: &'a str,
}

impl<'a> Written<'a> {
    /// Most digits a number may have; 15 digits always survive a trip through `f64`.
    pub const MAX_DIGITS: usize = 15;

    /// Reads `[sign] digits [, or .] digits unit`; `what` and `accepted` word the error.
    ///
    /// A comma and a point are both decimal marks; only one may stand in a number, so that
    /// `1,234.5` is refused instead of guessed.
    ///
    /// # Errors
    /// [`QuantityError::NotANumber`], [`QuantityError::NoUnit`], [`QuantityError::TooFine`].
    pub fn read(
        what: &'static str,
        text: &'a str,
        accepted: &'static str,
    ) -> Result<Self, QuantityError> {
        let trimmed = text.trim();
        let bad = || QuantityError::NotANumber {
            what,
            text: String::from(text),
        };
        let (negative, body) = match trimmed.chars().next() {
            Some('-' | '\u{2212}') => (true, trimmed.trim_start_matches(['-', '\u{2212}'])),
            Some('+') => (false, trimmed.trim_start_matches('+')),
            _ => (false, trimmed),
        };
        let end = body
            .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','))
            .unwrap_or(body.len());
        let (number, unit) = body.split_at(end);
        let (whole, fraction) = number.split_once(['.', ',']).unwrap_or((number, ""));
        if number.is_empty()
            || number.ends_with(['.', ','])
            || fraction.contains(['.', ','])
            || trimmed.len() - body.len() > '\u{2212}'.len_utf8()
        {
            return Err(bad());
        }
        let mut digits: i64 = 0;
        let mut count = 0;
        for c in whole.chars().chain(fraction.chars()) {
            let d = c.to_digit(10).ok_or_else(bad)?;
            count += usize::from(count > 0 || d > 0);
            if count > Self::MAX_DIGITS || fraction.len() > Self::MAX_DIGITS {
                return Err(QuantityError::TooFine {
                    what,
                    text: String::from(text),
                    limit: "has more than 15 digits, too many to hold exactly",
                });
            }
            digits = digits * 10 + i64::from(d);
        }
        let unit = unit.trim();
        if unit.is_empty() {
            return Err(QuantityError::NoUnit {
                what,
                text: String::from(text),
                accepted,
            });
        }
        let decimals = u32::try_from(fraction.len()).map_err(|_| bad())?;
        Ok(Self {
            digits: if negative { -digits } else { digits },
            decimals,
            unit,
        })
    }

    /// All digits as one whole number.
    #[must_use]
    pub const fn digits(&self) -> i64 {
        self.digits
    }

    /// How many of the digits stand behind the decimal mark.
    #[must_use]
    pub const fn decimals(&self) -> u32 {
        self.decimals
    }

    /// The unit as written, trimmed.
    #[must_use]
    pub const fn unit(&self) -> &'a str {
        self.unit
    }

    /// The nearest `f64`: one division of two exact numbers, so it is correctly rounded.
    #[must_use]
    pub fn value(&self) -> f64 {
        let mut scale: f64 = 1.0;
        for _ in 0..self.decimals {
            scale *= 10.0;
        }
        self.digits as f64 / scale
    }
}
