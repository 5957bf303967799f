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
}

impl fmt::Display for MixturePlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Section => "the mixture section",
            Self::Air => "the air around",
        })
    }
}
