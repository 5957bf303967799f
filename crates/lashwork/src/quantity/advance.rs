//! How far before top dead centre the spark comes, at the crank and at the distributor.

use super::error::check;
use super::{CrankAngle, Cycle, QuantityError, Written};
use alloc::string::String;
use core::fmt;
use core::ops::{Add, Sub};
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

const SIDES: &str = "deg BTDC or deg ATDC";

/// Where the spark comes: crank degrees before a cylinder's firing top dead centre, negative after it.
///
/// The side is always written, because half of all books print 10 and mean before.
///
/// ```
/// use lashwork::quantity::{Advance, CrankAngle};
/// let book = Advance::parse("10 deg BTDC")?;
/// assert_eq!(Advance::parse("4 deg ATDC")?.degrees_before(), -4.0);
/// assert_eq!((book + CrankAngle::from_degrees(20.0)?).to_string(), "30 deg BTDC");
/// assert!(Advance::parse("10 deg").is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
/// It is a place, not an amount of turning:
/// ```compile_fail
/// use lashwork::quantity::{Advance, CrankAngle};
/// let turn: CrankAngle = Advance::parse("10 deg BTDC").unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Advance(f64);

impl Advance {
    /// Top dead centre itself.
    pub const TDC: Self = Self(0.0);
    /// Greatest size either way, in degrees: half a turn.
    pub const MAX_DEGREES: f64 = 180.0;

    /// Takes crank degrees before top dead centre, negative after it.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite or over half a turn.
    pub fn from_degrees_before(degrees: f64) -> Result<Self, QuantityError> {
        check(
            "ignition point",
            "deg",
            degrees,
            -Self::MAX_DEGREES,
            Self::MAX_DEGREES,
        )
        .map(Self)
    }

    /// Reads text such as `10 deg BTDC`, `4 deg ATDC`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit or side, out of range.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let written = Written::read("ignition point", text, SIDES)?;
        Self::from_number(written.value(), written.unit())
    }

    /// Takes a number with its unit and side.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`].
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        let unknown = || QuantityError::UnknownUnit {
            what: "an ignition point",
            unit: String::from(unit),
            accepted: SIDES,
        };
        let side = ["deg_", "deg ", "deg", "°"]
            .iter()
            .find_map(|degrees| unit.strip_prefix(degrees))
            .ok_or_else(unknown)?
            .trim_start();
        if side.eq_ignore_ascii_case("BTDC") {
            Self::from_degrees_before(value)
        } else if side.eq_ignore_ascii_case("ATDC") {
            Self::from_degrees_before(-value)
        } else {
            Err(unknown())
        }
    }

    /// Crank degrees before top dead centre, negative after it.
    #[must_use]
    pub const fn degrees_before(self) -> f64 {
        self.0
    }

    /// The same as a turn of the crank from firing top dead centre: negative before it.
    #[must_use]
    pub const fn from_tdc(self) -> CrankAngle {
        CrankAngle::computed(-self.0)
    }

    /// Text with so many decimals, and the side; nothing more where it is nought.
    #[must_use]
    pub fn show(self, decimals: usize) -> String {
        let text = alloc::format!("{:.decimals$}", self.0.abs());
        if text.chars().all(|c| matches!(c, '0' | '.')) {
            String::from("TDC")
        } else {
            alloc::format!("{text} deg {}", if self.0 < 0.0 { "ATDC" } else { "BTDC" })
        }
    }
}

impl FromStr for Advance {
    type Err = QuantityError;
    fn from_str(text: &str) -> Result<Self, QuantityError> {
        Self::parse(text)
    }
}

impl fmt::Display for Advance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let side = if self.0 < 0.0 { "ATDC" } else { "BTDC" };
        write!(f, "{} deg {side}", self.0.abs())
    }
}

impl Serialize for Advance {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry("deg_btdc", &self.0)?;
        map.end()
    }
}

/// So much earlier.
impl Add<CrankAngle> for Advance {
    type Output = Self;
    fn add(self, earlier: CrankAngle) -> Self {
        Self(self.0 + earlier.degrees())
    }
}

/// So much later.
impl Sub<CrankAngle> for Advance {
    type Output = Self;
    fn sub(self, later: CrankAngle) -> Self {
        Self(self.0 - later.degrees())
    }
}

/// How much earlier this is than the other.
impl Sub for Advance {
    type Output = CrankAngle;
    fn sub(self, other: Self) -> CrankAngle {
        CrankAngle::computed(self.0 - other.0)
    }
}

/// The same where books count at the distributor: its degrees before the firing point of top dead centre.
///
/// ```
/// use lashwork::quantity::{Advance, Cycle, DistributorAdvance};
/// let book = DistributorAdvance::parse("5 deg BTDC")?;
/// assert_eq!(book.at_crank(Cycle::FourStroke), Advance::parse("10 deg BTDC")?);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
/// Distributor degrees are not crank degrees:
/// ```compile_fail
/// use lashwork::quantity::{Advance, DistributorAdvance};
/// let crank: Advance = DistributorAdvance::parse("5 deg BTDC").unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct DistributorAdvance(Advance);

impl DistributorAdvance {
    /// Takes distributor degrees before top dead centre, negative after it.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite or over half a turn.
    pub fn from_degrees_before(degrees: f64) -> Result<Self, QuantityError> {
        Advance::from_degrees_before(degrees).map(Self)
    }

    /// Reads text such as `5 deg BTDC`.
    ///
    /// # Errors
    /// As [`Advance::parse`].
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        Advance::parse(text).map(Self)
    }

    /// Takes a number with its unit and side.
    ///
    /// # Errors
    /// As [`Advance::from_number`].
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        Advance::from_number(value, unit).map(Self)
    }

    /// Distributor degrees before top dead centre, negative after it.
    #[must_use]
    pub const fn degrees_before(self) -> f64 {
        self.0.degrees_before()
    }

    /// The same at the crank.
    #[must_use]
    pub const fn at_crank(self, cycle: Cycle) -> Advance {
        Advance(self.0.0 * cycle.crank_turns())
    }
}

impl Advance {
    /// The same at a distributor that turns once a cycle.
    #[must_use]
    pub const fn at_distributor(self, cycle: Cycle) -> DistributorAdvance {
        DistributorAdvance(Self(self.0 / cycle.crank_turns()))
    }
}

impl FromStr for DistributorAdvance {
    type Err = QuantityError;
    fn from_str(text: &str) -> Result<Self, QuantityError> {
        Self::parse(text)
    }
}

impl fmt::Display for DistributorAdvance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl Serialize for DistributorAdvance {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.0.serialize(serializer)
    }
}
