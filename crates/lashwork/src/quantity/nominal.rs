//! Exact lengths: the mark on a leaf, a printed limit, a shim size.
//!
//! Whole nanometres, because 1 in = 25.4 mm = 25 400 000 nm and 0.01 mm = 10 000 nm are both whole,
//! while 0.1 + 0.05 in `f64` millimetres is not 0.15.
//!
//! # Source
//! 1 in = 25.4 mm exactly (24 FR 5348, 1959). Rounding for show: half to even, ISO 80000-1 rule A.

use super::error::{check, within};
use super::{QuantityError, Written};
use alloc::string::String;
use core::fmt;
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

/// A unit in which a length may be written or shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LengthUnit {
    /// Millimetre.
    Millimetre,
    /// Inch, 25.4 mm exactly.
    Inch,
    /// Thousandth of an inch.
    Thou,
    /// Micrometre.
    Micrometre,
}

impl LengthUnit {
    /// What a reader may write.
    pub(super) const ACCEPTED: &'static str = "mm, um, in or thou (0.001 in)";

    /// Nanometres in one unit.
    #[must_use]
    pub const fn nanometres(self) -> i64 {
        match self {
            Self::Millimetre => 1_000_000,
            Self::Inch => 25_400_000,
            Self::Thou => 25_400,
            Self::Micrometre => 1_000,
        }
    }

    /// Whether it counts inches or parts of one.
    #[must_use]
    pub const fn is_inch(self) -> bool {
        matches!(self, Self::Inch | Self::Thou)
    }

    /// How the unit is shown.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
            Self::Thou => "thou",
            Self::Micrometre => "um",
        }
    }

    /// Reads a unit symbol.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`].
    pub fn parse(what: &'static str, text: &str) -> Result<Self, QuantityError> {
        match text {
            "mm" => Ok(Self::Millimetre),
            "in" | "inch" | "\"" => Ok(Self::Inch),
            "thou" => Ok(Self::Thou),
            "um" | "µm" | "μm" => Ok(Self::Micrometre),
            other => Err(QuantityError::UnknownUnit {
                what,
                unit: String::from(other),
                accepted: Self::ACCEPTED,
            }),
        }
    }
}

/// A length known exactly, in whole nanometres.
///
/// ```
/// use lashwork::quantity::{LengthUnit, Nominal};
/// let tenth = Nominal::from_nanometres(100_000)?;
/// let five = Nominal::from_nanometres(50_000)?;
/// assert_eq!(tenth.plus(five)?, Nominal::from_nanometres(150_000)?);
/// // A tie goes to the even digit: 7.5 in is 190.5 mm.
/// let board = Nominal::from_nanometres(190_500_000)?;
/// assert_eq!(board.show(LengthUnit::Millimetre, 0), "190 mm");
/// assert!(Nominal::from_nanometres(i64::MAX).is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Nominal(i64);

impl Nominal {
    /// Greatest size either way: ten metres.
    pub const MAX_NANOMETRES: i64 = 10_000_000_000;
    /// No length at all.
    pub const ZERO: Self = Self(0);
    /// Most decimals that are shown.
    const MAX_DECIMALS: u32 = 9;

    /// Takes whole nanometres.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] over ten metres either way.
    pub fn from_nanometres(nanometres: i64) -> Result<Self, QuantityError> {
        if (-Self::MAX_NANOMETRES..=Self::MAX_NANOMETRES).contains(&nanometres) {
            Ok(Self(nanometres))
        } else {
            Err(QuantityError::OutOfRange {
                what: "exact length",
                got: nanometres as f64 / 1e6,
                unit: "mm",
                min: -Self::MAX_MM,
                max: Self::MAX_MM,
            })
        }
    }

    /// Takes whole nanometres; what is over ten metres does not compile.
    ///
    /// ```
    /// use lashwork::quantity::Nominal;
    /// const LEAF: Nominal = Nominal::of_nanometres::<150_000>();
    /// assert_eq!(LEAF.mm(), 0.15);
    /// ```
    #[must_use]
    pub const fn of_nanometres<const NANOMETRES: i64>() -> Self {
        const { assert!(NANOMETRES.unsigned_abs() <= Self::MAX_NANOMETRES.unsigned_abs()) };
        Self(NANOMETRES)
    }

    /// Whole nanometres.
    #[must_use]
    pub const fn nanometres(self) -> i64 {
        self.0
    }

    const MAX_MM: f64 = Self::MAX_NANOMETRES as f64 / 1e6;

    /// Whether it can be so many millimetres.
    #[inline]
    pub(crate) const fn can_be(mm: f64) -> bool {
        within(mm, -Self::MAX_MM, Self::MAX_MM)
    }

    /// Takes millimetres that a program computed, as they are.
    pub(crate) fn checked_mm(mm: f64) -> Result<f64, QuantityError> {
        check("exact length", "mm", mm, -Self::MAX_MM, Self::MAX_MM)
    }

    /// The nearest `f64` of millimetres.
    #[must_use]
    pub fn mm(self) -> f64 {
        self.0 as f64 / 1e6
    }

    /// Exact sum.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] over ten metres either way.
    pub fn plus(self, other: Self) -> Result<Self, QuantityError> {
        Self::from_nanometres(self.0.saturating_add(other.0))
    }

    /// Exact difference.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] over ten metres either way.
    pub fn minus(self, other: Self) -> Result<Self, QuantityError> {
        Self::from_nanometres(self.0.saturating_sub(other.0))
    }

    /// The nearest whole nanometre to a computed number of millimetres, ties to even.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite or over ten metres.
    pub fn nearest_mm(mm: f64) -> Result<Self, QuantityError> {
        let checked = super::error::check("exact length", "mm", mm, -1e4, 1e4)?;
        #[expect(
            clippy::cast_possible_truncation,
            reason = "checked to ten metres just above"
        )]
        let nanometres = libm::rint(checked * 1e6) as i64;
        Self::from_nanometres(nanometres)
    }

    /// Text in a unit with so many decimals (at most nine), a tie rounded to the even digit.
    #[must_use]
    pub fn show(self, unit: LengthUnit, decimals: u32) -> String {
        let decimals = decimals.min(Self::MAX_DECIMALS);
        // Ten metres in units of 1e-9 nm are 1e19, which `u64` just holds.
        let scale = 10_u64.pow(decimals);
        let per = unit.nanometres().unsigned_abs();
        let scaled = self.0.unsigned_abs() * scale;
        let (mut q, r) = (scaled / per, scaled % per);
        if 2 * r > per || (2 * r == per && q % 2 == 1) {
            q += 1;
        }
        let sign = if self.0 < 0 && q > 0 { "-" } else { "" };
        let symbol = unit.symbol();
        if decimals == 0 {
            return alloc::format!("{sign}{q} {symbol}");
        }
        let width = usize::try_from(decimals).unwrap_or(9);
        alloc::format!("{sign}{}.{:0width$} {symbol}", q / scale, q % scale)
    }
}

/// An exact length together with the unit and decimals it was written with, so that what was
/// typed in inches shows again as typed.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::Marked;
/// let leaf = Marked::parse("0.006 in")?;
/// assert_eq!(leaf.nominal().mm(), 0.1524);
/// assert_eq!(leaf.to_string(), "0.006 in");
/// assert_eq!(Marked::parse("6 thou")?.nominal(), leaf.nominal());
/// assert_eq!(Marked::parse("0,15 mm")?.to_string(), "0.15 mm");
/// assert_eq!(Marked::parse("0.15").unwrap_err().code(), "quantity.no-unit");
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Marked {
    nominal: Nominal,
    unit: LengthUnit,
    decimals: u32,
}

impl Marked {
    /// An exact length shown in `unit` with `decimals`.
    #[must_use]
    pub const fn new(nominal: Nominal, unit: LengthUnit, decimals: u32) -> Self {
        Self {
            nominal,
            unit,
            decimals,
        }
    }

    /// Reads a length such as `0.15 mm`, `0,15 mm`, `0.006 in`, `6 thou`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit, finer than a nanometre, too large.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let what = "length";
        let written = Written::read(what, text, LengthUnit::ACCEPTED)?;
        let unit = LengthUnit::parse(what, written.unit())?;
        let too_fine = || QuantityError::TooFine {
            what,
            text: String::from(text),
            limit: "is finer than a whole nanometre",
        };
        let (mut per, mut scale) = (unit.nanometres(), 10_i64.pow(written.decimals()));
        // Reduced, because 15 digits of inches in nanometres are more than `i64` holds.
        while per % 10 == 0 && scale > 1 {
            (per, scale) = (per / 10, scale / 10);
        }
        let product = written.digits().saturating_mul(per);
        if product % scale != 0 {
            return Err(too_fine());
        }
        let nanometres = product / scale;
        Ok(Self::new(
            Nominal::from_nanometres(nanometres)?,
            unit,
            written.decimals(),
        ))
    }

    /// Takes a number that a program computed, and its unit: as written if it is whole nanometres,
    /// else rounded to the nearest one, with as few decimals as show it.
    ///
    /// ```
    /// use lashwork::quantity::Marked;
    /// assert_eq!(Marked::from_number(0.006, "in")?, Marked::parse("0.006 in")?);
    /// assert_eq!(Marked::from_number(0.1 + 0.2, "mm")?.to_string(), "0.3 mm");
    /// assert_eq!(Marked::from_number(100.0 / 3.0, "mm")?.to_string(), "33.333333 mm");
    /// assert!(Marked::from_number(f64::NAN, "mm").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`], [`QuantityError::NotANumber`]
    /// for what is not finite.
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        let as_written = Self::parse(&alloc::format!("{value} {unit}"));
        if !matches!(as_written, Err(QuantityError::TooFine { .. })) {
            return as_written;
        }
        let unit = LengthUnit::parse("length", unit)?;
        let in_mm = value * unit.nanometres() as f64 / 1e6;
        let nominal = Nominal::nearest_mm(in_mm)?;
        let shows_all = |decimals: &u32| {
            let scaled = nominal.nanometres() * 10_i64.pow(*decimals);
            scaled % unit.nanometres() == 0
        };
        let decimals = (0..Nominal::MAX_DECIMALS).find(shows_all);
        Ok(Self::new(
            nominal,
            unit,
            decimals.unwrap_or(Nominal::MAX_DECIMALS),
        ))
    }

    /// The exact length.
    #[must_use]
    pub const fn nominal(self) -> Nominal {
        self.nominal
    }

    /// The unit it was written in.
    #[must_use]
    pub const fn unit(self) -> LengthUnit {
        self.unit
    }

    /// The decimals it was written with.
    #[must_use]
    pub const fn decimals(self) -> u32 {
        self.decimals
    }

    /// The nearest `f64` of millimetres.
    #[must_use]
    pub fn mm(self) -> f64 {
        self.nominal.mm()
    }
}

impl fmt::Display for Marked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.nominal.show(self.unit, self.decimals))
    }
}

impl FromStr for Marked {
    type Err = QuantityError;
    fn from_str(text: &str) -> Result<Self, QuantityError> {
        Self::parse(text)
    }
}

impl Serialize for Marked {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(2))?;
        map.serialize_entry("text", &alloc::string::ToString::to_string(self))?;
        map.serialize_entry("mm", &self.mm())?;
        map.end()
    }
}

impl Serialize for Nominal {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry("mm", &self.mm())?;
        map.end()
    }
}
