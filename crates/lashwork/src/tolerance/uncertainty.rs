//! Standard uncertainties.

use super::{InMillimetres, Measurand, ToleranceError};
use core::marker::PhantomData;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

/// A standard uncertainty of a quantity; finite, not negative, at most [`Measurand::MAX_UNCERTAINTY`].
///
/// ```
/// use lashwork::quantity::{Lash, ShimThickness};
/// use lashwork::tolerance::Uncertainty;
/// let u = Uncertainty::<Lash>::from_mm(0.003)?.combined(Uncertainty::from_mm(0.004)?);
/// assert!((u.mm() - 0.005).abs() < 1e-18);
/// assert!(Uncertainty::<Lash>::from_mm(f64::NAN).is_err());
/// let slip = Uncertainty::<ShimThickness>::from_mm(3.0).unwrap_err();
/// assert_eq!(slip.to_string(), "standard uncertainty 3 mm is outside 0 to 0.1 mm");
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
/// That of a shim is not that of a lash:
/// ```compile_fail
/// use lashwork::quantity::{Lash, ShimThickness};
/// use lashwork::tolerance::Uncertainty;
/// let u: Uncertainty<Lash> = Uncertainty::<ShimThickness>::ZERO;
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Uncertainty<Q>(f64, PhantomData<Q>);

impl<Q: Measurand> Uncertainty<Q> {
    /// No uncertainty at all.
    pub const ZERO: Self = Self(0.0, PhantomData);

    /// Whether it can be so much, in the base unit.
    #[inline]
    pub(crate) fn can_be(number: f64) -> bool {
        (0.0..=Q::MAX_UNCERTAINTY).contains(&number)
    }

    /// Takes a number in the base unit of the quantity, [`Measurand::UNIT`].
    ///
    /// # Errors
    /// [`ToleranceError::Uncertainty`] if negative, over [`Measurand::MAX_UNCERTAINTY`] or not finite.
    #[inline]
    pub fn from_number(number: f64) -> Result<Self, ToleranceError> {
        if Self::can_be(number) {
            Ok(Self(number, PhantomData))
        } else {
            Err(ToleranceError::Uncertainty {
                got: number,
                max: Q::MAX_UNCERTAINTY,
                unit: Q::UNIT,
            })
        }
    }

    /// The number in the base unit of the quantity.
    #[must_use]
    pub const fn number(self) -> f64 {
        self.0
    }

    /// The uncertainty of the sum, or the difference, of two independent contributions: the root of
    /// the sum of squares (JCGM 100:2008 5.1.2).
    #[must_use]
    pub fn combined(self, other: Self) -> Self {
        Self(libm::hypot(self.0, other.0), PhantomData)
    }

    /// That of a rectangle of so much half width, over the root of three (JCGM 100:2008 4.3.7).
    pub(super) fn of_rectangle(half: f64) -> Self {
        Self(half / libm::sqrt(3.0), PhantomData)
    }
}

impl<Q: InMillimetres> Uncertainty<Q> {
    /// Takes a number of millimetres.
    ///
    /// # Errors
    /// [`ToleranceError::Uncertainty`] if negative, over [`Measurand::MAX_UNCERTAINTY`] or not finite.
    pub fn from_mm(mm: f64) -> Result<Self, ToleranceError> {
        Self::from_number(mm)
    }

    /// Millimetres.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.0
    }
}

/// A map of one entry, named for the unit.
impl<Q: Measurand> Serialize for Uncertainty<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry(Q::UNIT, &self.0)?;
        map.end()
    }
}
