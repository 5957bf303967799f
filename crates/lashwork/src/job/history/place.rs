//! Where in the history section something is wrong.

use super::numbers::HistoryQuantity;
use core::fmt;

/// Where in the history section something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum HistoryPlace {
    /// The section as a whole.
    Section,
    /// What time is counted by.
    CountedBy,
    /// How long new parts bed in.
    BeddingIn,
    /// The services as a list.
    Services,
    /// The record known before.
    Known,
    /// One service.
    Service(usize),
    /// Which engine a service was of.
    Engine(usize),
    /// What was found and left at one valve in one service.
    Lash(usize, usize),
    /// Which valve of its kind that is.
    LashNumber(usize, usize),
    /// What was found there.
    LashFound(usize, usize),
    /// What was left there.
    LashLeft(usize, usize),
    /// When that was read.
    LashLeftAt(usize, usize),
    /// What a meter showed in one service.
    Number(usize, HistoryQuantity, usize),
    /// When that was read as left.
    NumberLeftAt(usize, HistoryQuantity, usize),
    /// When the readings of the other sections were taken.
    Present,
}

impl fmt::Display for HistoryPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let nth = |i: &usize| i.saturating_add(1);
        match self {
            Self::Section => f.pad("the history"),
            Self::CountedBy => f.pad("the count of the history"),
            Self::BeddingIn => f.pad("the bedding-in"),
            Self::Services => f.pad("the services"),
            Self::Known => f.pad("the record known before"),
            Self::Service(i) => write!(f, "service {}", nth(i)),
            Self::Engine(i) => write!(f, "the engine of service {}", nth(i)),
            Self::Lash(i, j) => write!(f, "valve {} of service {}", nth(j), nth(i)),
            Self::LashNumber(i, j) => {
                write!(f, "the number of valve {} of service {}", nth(j), nth(i))
            }
            Self::LashFound(i, j) => {
                write!(
                    f,
                    "what was found at valve {} of service {}",
                    nth(j),
                    nth(i)
                )
            }
            Self::LashLeft(i, j) => {
                write!(f, "what was left at valve {} of service {}", nth(j), nth(i))
            }
            Self::LashLeftAt(i, j) => write!(
                f,
                "when valve {} of service {} was read as left",
                nth(j),
                nth(i)
            ),
            Self::Number(i, what, j) => {
                write!(f, "{} {} of service {}", what.word(), nth(j), nth(i))
            }
            Self::NumberLeftAt(i, what, j) => write!(
                f,
                "when {} {} of service {} was read as left",
                what.word(),
                nth(j),
                nth(i)
            ),
            Self::Present => f.pad("the record"),
        }
    }
}
