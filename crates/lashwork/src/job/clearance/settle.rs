//! The kinds of things that must be settled before a valve is set: every question may find one.

use serde::Serialize;

/// What may have to be settled first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum StopWorkCode {
    /// The head's bolts are tightened, or were since the valves were measured.
    HeadBolts,
    /// The crank is not where it was assumed to be.
    CrankElsewhere,
    /// It is not settled where the crank is.
    CrankOpen,
    /// The engine is not at the temperature the book asks for.
    NotAtReference,
    /// Intake and exhaust seem exchanged.
    Exchanged,
    /// Numbers, or settings, seem to be in the wrong unit.
    WrongUnit,
    /// The engine seems to follow another book.
    OtherBook,
    /// Two books that may apply ask for different things.
    BooksDisagree,
    /// More than one thing seems to be wrong.
    Several,
}

impl StopWorkCode {
    /// What to settle, in a few words.
    pub(in crate::job) const fn what(self) -> &'static str {
        match self {
            Self::HeadBolts => "the head bolts, then measure again",
            Self::CrankElsewhere | Self::CrankOpen => "where the crank is",
            Self::NotAtReference => "the temperature of the metal",
            Self::Exchanged => "which valve is intake and which exhaust",
            Self::WrongUnit => "the unit of the numbers",
            Self::OtherBook | Self::BooksDisagree => "which book applies",
            Self::Several => "what else is wrong with the readings",
        }
    }
}
