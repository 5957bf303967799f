//! What may be wrong with an engine, and each way in which it may be.

use crate::engine::CylinderIndex;
use crate::quantity::{LashChange, LengthUnit};
use serde::Serialize;

/// A kind of cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(
    feature = "schema",
    derive(schemars::JsonSchema),
    schemars(rename = "DiagnosisCause")
)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum ReadingFault {
    /// One reading is written in the wrong unit.
    UnitSlipOne,
    /// All readings marked in one unit are.
    UnitSlipAll,
    /// Intake and exhaust are exchanged throughout.
    SwappedAll,
    /// Intake and exhaust are exchanged in one cylinder.
    SwappedOneCylinder,
    /// The engine follows another source.
    OtherSpecification,
    /// Valves were read a turn of the crank away from their base circle.
    OneTurnOut,
    /// The metal is not as cold as assumed.
    NotCold,
    /// One valve is an outlier.
    OneUnlike,
}

impl ReadingFault {
    /// How often a cause is taken to come up, against the others.
    pub(super) const fn weight(self) -> f64 {
        match self {
            Self::OneUnlike => 2.0,
            _ => 1.0,
        }
    }

    /// All of them, in the order in which equals are listed.
    pub(super) const ALL: [Self; 8] = [
        Self::UnitSlipOne,
        Self::UnitSlipAll,
        Self::SwappedAll,
        Self::SwappedOneCylinder,
        Self::OtherSpecification,
        Self::OneTurnOut,
        Self::NotCold,
        Self::OneUnlike,
    ];
}

/// How a unit can slip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Slip {
    /// The number is right and the unit is not: 0.010 in written as 0.010 mm.
    SameNumber,
    /// Thousandths of an inch and hundredths of a millimetre: 10 thou written as 0.10 mm.
    ThousandthsHundredths,
}

impl Slip {
    pub(super) const BOTH: [Self; 2] = [Self::SameNumber, Self::ThousandthsHundredths];

    /// By how much a reading marked in a unit has to be multiplied if it slipped so.
    ///
    /// ```
    /// use lashwork::diagnosis::Slip;
    /// use lashwork::quantity::LengthUnit;
    /// assert_eq!(Slip::SameNumber.factor(LengthUnit::Millimetre), 25.4);
    /// assert_eq!(Slip::ThousandthsHundredths.factor(LengthUnit::Inch), 1.0 / 2.54);
    /// ```
    ///
    /// # Source
    /// 1 in = 25.4 mm exactly, so 0.001 in = 0.0254 mm is 2.54 hundredths of a millimetre.
    #[must_use]
    pub const fn factor(self, marked_in: LengthUnit) -> f64 {
        let size = match self {
            Self::SameNumber => 25.4,
            Self::ThousandthsHundredths => 2.54,
        };
        match marked_in {
            LengthUnit::Millimetre | LengthUnit::Micrometre => size,
            LengthUnit::Inch | LengthUnit::Thou => 1.0 / size,
        }
    }
}

/// One way in which a cause may be at work. Readings, sources and stops are named by their place
/// in the evidence.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Way {
    /// This reading slipped.
    SlipOne {
        /// The reading.
        reading: usize,
        /// How.
        slip: Slip,
    },
    /// All readings marked in inches slipped, or all that are not.
    SlipAll {
        /// Whether those marked in inches did.
        inches: bool,
        /// How.
        slip: Slip,
    },
    /// All valves are exchanged.
    SwappedAll,
    /// The valves of this cylinder are.
    SwappedCylinder(CylinderIndex),
    /// The engine follows this source.
    OtherSource(usize),
    /// The crank was a turn out in this way.
    WrongStroke(usize),
    /// All lashes are changed by temperature, by about this much.
    NotCold(LashChange),
    /// This reading is of an outlier valve.
    Unlike(usize),
}

impl Way {
    /// Its kind of cause.
    #[must_use]
    pub const fn cause(&self) -> ReadingFault {
        match self {
            Self::SlipOne { .. } => ReadingFault::UnitSlipOne,
            Self::SlipAll { .. } => ReadingFault::UnitSlipAll,
            Self::SwappedAll => ReadingFault::SwappedAll,
            Self::SwappedCylinder(_) => ReadingFault::SwappedOneCylinder,
            Self::OtherSource(_) => ReadingFault::OtherSpecification,
            Self::WrongStroke(_) => ReadingFault::OneTurnOut,
            Self::NotCold(_) => ReadingFault::NotCold,
            Self::Unlike(_) => ReadingFault::OneUnlike,
        }
    }
}
