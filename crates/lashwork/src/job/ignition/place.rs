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
    /// The contacts.
    Contacts(ContactsField),
}

/// What of the contacts is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum ContactsField {
    /// All of it together.
    Section,
    /// What the leaves said.
    Gap,
    /// The book's gap.
    GapLimits,
    /// What the meter showed.
    Dwell,
    /// What it showed at speed.
    DwellFaster,
    /// The book's dwell.
    DwellLimits,
    /// The printed pair.
    Pair,
    /// The second printed pair.
    SecondPair,
}

impl ContactsField {
    const fn words(self) -> &'static str {
        match self {
            Self::Section => "the contacts",
            Self::Gap => "the gap of the contacts",
            Self::GapLimits => "the book's gap of the contacts",
            Self::Dwell => "the dwell",
            Self::DwellFaster => "the dwell at speed",
            Self::DwellLimits => "the book's dwell",
            Self::Pair => "the printed pair of gap and dwell",
            Self::SecondPair => "the second printed pair of gap and dwell",
        }
    }
}

impl fmt::Display for IgnitionPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Section => "the ignition section",
            Self::Distributor => "the distributor",
            Self::Contacts(field) => field.words(),
        })
    }
}
