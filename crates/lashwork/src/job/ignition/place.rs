//! Where in the ignition section something is wrong.

use core::fmt;

/// Where in the ignition section something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum IgnitionPlace {
    /// The section as a whole.
    Section,
    /// The distributor.
    Distributor,
}

impl fmt::Display for IgnitionPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Section => "the ignition section",
            Self::Distributor => "the distributor",
        })
    }
}
