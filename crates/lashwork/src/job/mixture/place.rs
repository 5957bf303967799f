//! Where in the mixture section something is wrong.

use core::fmt;

/// Where in the mixture section something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum MixturePlace {
    /// The section as a whole.
    Section,
    /// The air around.
    Air,
    /// The jets.
    Jets(JetsField),
    /// The balance.
    Balance(BalanceField),
    /// Idle speed and mixture.
    Idle(IdleField),
    /// The vacuum gauge.
    Gauge(GaugeField),
}

/// What of the jets is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum JetsField {
    /// All of it together.
    Section,
    /// The air they were chosen for.
    SetFor,
    /// The jets that are fitted.
    Fitted,
    /// One of the jets.
    Jet(usize),
    /// Its circuit.
    Circuit(usize),
    /// Its number.
    Number(usize),
    /// The maker's table of its numbers.
    Table(usize),
    /// The sizes there are of it.
    Sizes(usize),
    /// One of those: first the jet, then the size.
    Size(usize, usize),
    /// The book's steps.
    Steps(usize),
}

/// What of the balance is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum BalanceField {
    /// All of it together.
    Section,
    /// The throttles.
    Throttles,
    /// The one to which the others are set.
    Reference,
    /// The joints.
    Joints,
    /// One of the joints.
    Joint(usize),
    /// What was read.
    Readings,
    /// The trial turns.
    Trials,
    /// One of the trial turns.
    Trial(usize),
    /// The allowed difference.
    Allowed,
}

/// What of the idle is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum IdleField {
    /// All of it together.
    Section,
    /// The readings.
    Readings,
    /// One of the readings.
    Reading(usize),
    /// Where the book wants the screw.
    Rule,
}

/// What of the vacuum gauge is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum GaugeField {
    /// All of it together.
    Section,
    /// The level.
    Level,
    /// How far the needle drops.
    Drop,
    /// Cylinders on the manifold.
    Cylinders,
    /// The chance of a wrong look.
    Misread,
}

impl fmt::Display for MixturePlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Section => "the mixture section",
            Self::Air => "the air around",
            Self::Jets(_) => "the jets",
            Self::Balance(_) => "the balance",
            Self::Idle(_) => "idle speed and mixture",
            Self::Gauge(_) => "the vacuum gauge",
        })
    }
}
