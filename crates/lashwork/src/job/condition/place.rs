//! Where in the condition section something is wrong.

use core::fmt;

/// Where in the condition section something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum ConditionPlace {
    /// The section as a whole.
    Section,
    /// The air around.
    Air,
    /// The compression ratio.
    Ratio,
    /// The uncertainty of that ratio.
    RatioUncertainty,
    /// Where the intake closes.
    IntakeCloses,
    /// Which cylinders stand side by side under one head.
    Heads,
    /// Cranking compression.
    Compression(CompressionField),
}

/// What of the cranking compression is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum CompressionField {
    /// All of it together.
    Section,
    /// The readings.
    Readings,
    /// One of the readings.
    Reading(usize),
    /// The cylinder of one of the readings.
    Cylinder(usize),
    /// What one cylinder showed with oil.
    Wet(usize),
    /// The printed rules.
    Rules,
    /// The exponent.
    Exponent,
    /// The oil.
    Oil,
    /// Standard deviation between readings of one cylinder.
    Repeat,
}

impl fmt::Display for ConditionPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let nth = |i: &usize| i.saturating_add(1);
        match self {
            Self::Section => f.pad("the condition section"),
            Self::Air => f.pad("the air around"),
            Self::Ratio | Self::RatioUncertainty => f.pad("the compression ratio"),
            Self::IntakeCloses => f.pad("the closing of the intake"),
            Self::Heads => f.pad("the rows of the head"),
            Self::Compression(field) => match field {
                CompressionField::Reading(i)
                | CompressionField::Cylinder(i)
                | CompressionField::Wet(i) => write!(f, "compression reading {}", nth(i)),
                _ => f.pad("the compression"),
            },
        }
    }
}
