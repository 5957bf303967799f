//! Degrees of the crank as a length along the rim of a pulley or damper, for marks made with a tape.
//!
//! # Convention
//! A length says how far the rim moves past the pointer, positive in the running direction. The place
//! of the rim that then comes to the pointer is as far on the other side of the TDC mark: the mark for a
//! position after TDC is painted behind the TDC mark, against the running direction.
//!
//! # Source
//! Geometry: arc = pi x diameter x degrees / 360. The pulley turns with the crank.

use crate::Refusal;
use crate::quantity::{CrankAngle, Length, Marked, QuantityError, check};
use alloc::borrow::Cow;
use core::f64::consts::PI;
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

/// How far the rim moves past the pointer; positive in the running direction.
///
/// ```
/// use lashwork::engine::PulleyArc;
/// assert_eq!(PulleyArc::parse("-0.35 in")?.mm(), -8.89);
/// assert!(PulleyArc::from_mm(f64::INFINITY).is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct PulleyArc(f64);

impl PulleyArc {
    /// Greatest size either way in millimetres.
    pub const MAX_MM: f64 = 1e8;

    /// Takes a number of millimetres.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite or over [`Self::MAX_MM`].
    pub fn from_mm(mm: f64) -> Result<Self, QuantityError> {
        check(
            "length along the rim",
            "mm",
            mm,
            -Self::MAX_MM,
            Self::MAX_MM,
        )
        .map(Self)
    }

    /// Reads text such as `8.9 mm`, `0.35 in`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit, out of range.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        Self::from_mm(Marked::parse(text)?.mm())
    }

    /// Millimetres.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.0
    }
}

impl FromStr for PulleyArc {
    type Err = QuantityError;
    fn from_str(text: &str) -> Result<Self, QuantityError> {
        Self::parse(text)
    }
}

impl Serialize for PulleyArc {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry("mm", &self.0)?;
        map.end()
    }
}

/// Why something is not a pulley.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PulleyError {
    /// The diameter is less than a millimetre.
    #[error("pulley diameter {} mm is less than 1 mm", .diameter.mm())]
    NoDiameter {
        /// The refused diameter.
        diameter: Length,
    },
}

impl Refusal for PulleyError {
    fn code(&self) -> &'static str {
        match self {
            Self::NoDiameter { .. } => "engine.pulley-diameter",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::NoDiameter { .. } => Cow::Borrowed("measure the rim where the marks are"),
        }
    }
}

/// A pulley or damper that turns with the crank.
///
/// ```
/// use lashwork::engine::{Pulley, PulleyArc};
/// use lashwork::quantity::{CrankAngle, Length};
/// let pulley = Pulley::new(Length::parse("8 in")?)?;
/// let quarter = pulley.arc(CrankAngle::from_degrees(90.0)?);
/// assert!((quarter.mm() / 25.4 - 6.2832).abs() < 5e-5);
/// assert!((pulley.angle(quarter)?.degrees() - 90.0).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pulley {
    diameter: Length,
}

impl Pulley {
    /// Takes the diameter of the rim where the marks stand.
    ///
    /// # Errors
    /// [`PulleyError::NoDiameter`] below 1 mm.
    pub fn new(diameter: Length) -> Result<Self, PulleyError> {
        if diameter.mm() < 1.0 {
            return Err(PulleyError::NoDiameter { diameter });
        }
        Ok(Self { diameter })
    }

    /// How far the rim moves while the crank turns so much. The mark for a position so far after TDC is
    /// painted that far behind the TDC mark, against the running direction.
    #[must_use]
    pub fn arc(&self, turn: CrankAngle) -> PulleyArc {
        PulleyArc(self.diameter.mm() / 2.0 * turn.radians())
    }

    /// The turn of the crank that goes with a length along the rim.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] over 2000 turns.
    pub fn angle(&self, arc: PulleyArc) -> Result<CrankAngle, QuantityError> {
        CrankAngle::from_degrees(arc.mm() / (PI * self.diameter.mm()) * 360.0)
    }
}
