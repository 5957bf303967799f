//! What is taken for granted of a drift.

use core::fmt;
use serde::Serialize;

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum HistoryAssumption {
    /// Between settings the quantity changes along a line.
    Steady,
    /// Subjects of a kind change at rates that scatter about one.
    LikeRates,
    /// What the record goes by was not chosen.
    CountChosen,
    /// Bedding-in is over by the first reading after new parts.
    BeddingByFirstReading,
    /// There are too few readings to see how far they scatter: what they state of themselves is all.
    ScatterAsStated,
    /// A subject that moves unlike its mates has a drift of its own, of the readings since then.
    OddOnItsOwn,
}

impl HistoryAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::history::HistoryAssumption;
    /// assert_eq!(HistoryAssumption::Steady.code(), "history.steady");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Steady => "history.steady",
            Self::LikeRates => "history.like-rates",
            Self::CountChosen => "history.count-chosen",
            Self::BeddingByFirstReading => "history.bedding-by-first-reading",
            Self::ScatterAsStated => "history.scatter-as-stated",
            Self::OddOnItsOwn => "history.odd-on-its-own",
        }
    }
}

impl fmt::Display for HistoryAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Steady => "between settings the change is taken as steady",
            Self::LikeRates => "those of one kind are taken to change at like rates",
            Self::CountChosen => {
                "the record goes by hours where all services state them, else by distance, else by days"
            }
            Self::BeddingByFirstReading => {
                "new parts are taken to have bedded in by the first reading after them"
            }
            Self::ScatterAsStated => {
                "there are too few readings to see how far they scatter; what they state is taken as all"
            }
            Self::OddOnItsOwn => {
                "one that moves unlike the others is judged by its own readings since it does so"
            }
        })
    }
}
