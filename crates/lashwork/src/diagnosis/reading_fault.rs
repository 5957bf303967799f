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
    /// All readings marked in one unit are, or all valves were last set so.
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
    /// More than one thing is wrong, or something that is not weighed.
    Several,
}

impl ReadingFault {
    /// All of them, in the order in which equals are listed.
    pub(super) const ALL: [Self; 8] = [
        Self::UnitSlipOne,
        Self::UnitSlipAll,
        Self::SwappedAll,
        Self::SwappedOneCylinder,
        Self::OtherSpecification,
        Self::OneTurnOut,
        Self::NotCold,
        Self::Several,
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
    /// All valves were set with thousandths of an inch taken for hundredths of a millimetre.
    SetAll {
        /// Whether they were set too wide so, else too tight.
        wider: bool,
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
    /// Two things at once.
    Two([Whole; 2]),
    /// Half of the valves are odd: more than one thing is wrong, or something that is not weighed.
    Disarray,
}

/// What concerns the whole engine and may come with another thing that does.
///
/// ```
/// use lashwork::diagnosis::{ReadingFault, Way, Whole};
/// use lashwork::quantity::LashChange;
/// let warm = Whole::Shifted(LashChange::from_mm(0.12)?);
/// assert_eq!(warm.way().cause(), ReadingFault::NotCold);
/// assert_eq!(Way::Two([Whole::Swapped, warm]).cause(), ReadingFault::Several);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Whole {
    /// All valves are exchanged.
    Swapped,
    /// The crank was a turn out in this way.
    Turned(usize),
    /// All lashes are changed by temperature, by about this much.
    Shifted(LashChange),
}

impl Whole {
    /// The way in which it is at work alone.
    #[must_use]
    pub const fn way(self) -> Way {
        match self {
            Self::Swapped => Way::SwappedAll,
            Self::Turned(out) => Way::WrongStroke(out),
            Self::Shifted(by) => Way::NotCold(by),
        }
    }

    /// Whether both can be at work at once: a crank cannot be out in two ways.
    pub(super) const fn can_be_with(self, other: &Self) -> bool {
        !matches!((self, other), (Self::Turned(_), Self::Turned(_)))
    }
}

impl Way {
    /// Its kind of cause.
    #[must_use]
    pub const fn cause(&self) -> ReadingFault {
        match self {
            Self::SlipOne { .. } => ReadingFault::UnitSlipOne,
            Self::SlipAll { .. } | Self::SetAll { .. } => ReadingFault::UnitSlipAll,
            Self::SwappedAll => ReadingFault::SwappedAll,
            Self::SwappedCylinder(_) => ReadingFault::SwappedOneCylinder,
            Self::OtherSource(_) => ReadingFault::OtherSpecification,
            Self::WrongStroke(_) => ReadingFault::OneTurnOut,
            Self::NotCold(_) => ReadingFault::NotCold,
            Self::Two(_) | Self::Disarray => ReadingFault::Several,
        }
    }

    /// By how much it shifts all lashes alike.
    pub(super) fn shift(&self) -> Option<LashChange> {
        match self {
            Self::NotCold(by) => Some(*by),
            Self::Two(parts) => parts.iter().find_map(|part| part.way().shift()),
            _ => None,
        }
    }

    /// The same way with the shift that was found.
    pub(super) fn shifted_by(self, by: LashChange) -> Self {
        match self {
            Self::NotCold(_) => Self::NotCold(by),
            Self::Two(parts) => Self::Two(parts.map(|part| match part {
                Whole::Shifted(_) => Whole::Shifted(by),
                other => other,
            })),
            other => other,
        }
    }
}
