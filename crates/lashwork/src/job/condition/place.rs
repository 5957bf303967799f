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
    /// The head's bolts.
    Head(HeadField),
    /// Cranking compression.
    Compression(CompressionField),
    /// Leak-down.
    Leak(LeakField),
}

/// What of the head's bolts is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum HeadField {
    /// All of it together.
    Section,
    /// The bolts.
    Bolts,
    /// Their order.
    Order,
    /// The torque.
    Torque,
    /// The torque printed once more.
    AlsoPrinted,
    /// The wrench.
    Wrench,
    /// What the force along a bolt follows from.
    Bolt,
    /// How far the head goes down.
    Settling,
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

/// What of leak-down is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum LeakField {
    /// All of it together.
    Section,
    /// The tester.
    Tester,
    /// The readings.
    Readings,
    /// One of the readings.
    Reading(usize),
    /// The cylinder of one of the readings.
    Cylinder(usize),
    /// What one of the readings shows.
    Shown(usize),
    /// Whether the piston was held.
    Held(usize),
    /// The tester of one reading alone.
    OwnTester(usize),
    /// The printed rule.
    Rule,
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
            Self::Head(_) => f.pad("the head bolts"),
            Self::Compression(field) => match field {
                CompressionField::Reading(i)
                | CompressionField::Cylinder(i)
                | CompressionField::Wet(i) => write!(f, "compression reading {}", nth(i)),
                _ => f.pad("the compression"),
            },
            Self::Leak(field) => match field {
                LeakField::Reading(i)
                | LeakField::Cylinder(i)
                | LeakField::Shown(i)
                | LeakField::Held(i)
                | LeakField::OwnTester(i) => write!(f, "leak-down reading {}", nth(i)),
                LeakField::Tester => f.pad("the leak-down tester"),
                _ => f.pad("the leak-down"),
            },
        }
    }
}
