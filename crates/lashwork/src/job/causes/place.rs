//! Where among the causes something is wrong.

use core::fmt;

/// Where among the causes something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum CausesPlace {
    /// All of it together.
    Section,
    /// One of the plugs.
    Plug(usize),
}

impl fmt::Display for CausesPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Section => f.pad("what may be the matter"),
            Self::Plug(i) => write!(f, "plug {}", i.saturating_add(1)),
        }
    }
}
