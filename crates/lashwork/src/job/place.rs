//! Where in a request something is wrong.

use super::causes::CausesPlace;
use super::condition::ConditionPlace;
use super::history::HistoryPlace;
use super::ignition::IgnitionPlace;
use super::mixture::MixturePlace;
use core::fmt;

/// Where in a request something is wrong. A text format writes it its own way, as a JSON pointer for
/// example.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Place {
    /// The request as a whole.
    Request,
    /// The engine.
    Engine,
    /// The valves: counts, events, how the lash is set.
    Valves,
    /// The rocker ratio.
    RockerRatio,
    /// The shims that set the lash.
    Shims,
    /// The specifications as a list.
    Specifications,
    /// One specification.
    Specification(usize),
    /// The name of one specification.
    SpecificationId(usize),
    /// How the leaves are used.
    Gauge,
    /// One reading.
    Reading(usize),
    /// Which valve of its kind a reading is of.
    ReadingNumber(usize),
    /// The shim of a reading.
    ReadingShim(usize),
    /// The uncertainty of that shim.
    ReadingShimUncertainty(usize),
    /// What a valve read after it was set.
    Left(usize),
    /// The shim that was fitted then.
    LeftShim(usize),
    /// The uncertainty of that shim.
    LeftShimUncertainty(usize),
    /// The metal's temperatures and rules.
    Metal,
    /// How the metal cools.
    Cooling,
    /// The table of lash by temperature.
    LashTable,
    /// What varies in that table.
    LashTableVaries,
    /// A checked rocker.
    Rocker(usize),
    /// One of the other firing orders to weigh.
    OtherOrder(usize),
    /// The chance of a misread rocker.
    MisreadRisk,
    /// In the condition section.
    Condition(ConditionPlace),
    /// In the ignition section.
    Ignition(IgnitionPlace),
    /// Among the causes.
    Causes(CausesPlace),
    /// In the mixture section.
    Mixture(MixturePlace),
    /// In the history section.
    History(HistoryPlace),
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let nth = |i: &usize| i.saturating_add(1);
        match self {
            Self::Request => f.pad("the request"),
            Self::Engine => f.pad("the engine"),
            Self::Valves => f.pad("the valves"),
            Self::RockerRatio => f.pad("the rocker ratio"),
            Self::Shims => f.pad("the shims"),
            Self::Specifications => f.pad("the specifications"),
            Self::Specification(i) => write!(f, "specification {}", nth(i)),
            Self::SpecificationId(i) => write!(f, "the id of specification {}", nth(i)),
            Self::Gauge => f.pad("the gauge"),
            Self::Reading(i) => write!(f, "reading {}", nth(i)),
            Self::ReadingNumber(i) => write!(f, "the valve number of reading {}", nth(i)),
            Self::ReadingShim(i) => write!(f, "the shim of reading {}", nth(i)),
            Self::ReadingShimUncertainty(i) => {
                write!(f, "the shim uncertainty of reading {}", nth(i))
            }
            Self::Left(i) => write!(f, "reading {} as left", nth(i)),
            Self::LeftShim(i) => write!(f, "the shim of reading {} as left", nth(i)),
            Self::LeftShimUncertainty(i) => {
                write!(f, "the shim uncertainty of reading {} as left", nth(i))
            }
            Self::Metal => f.pad("the metal"),
            Self::Cooling => f.pad("the cooling"),
            Self::LashTable => f.pad("the table by temperature"),
            Self::LashTableVaries => f.pad("what varies in the table by temperature"),
            Self::Rocker(i) => write!(f, "rocker {}", nth(i)),
            Self::OtherOrder(i) => write!(f, "other firing order {}", nth(i)),
            Self::MisreadRisk => f.pad("the chance of a misread rocker"),
            Self::Condition(place) => place.fmt(f),
            Self::Causes(place) => place.fmt(f),
            Self::Ignition(place) => place.fmt(f),
            Self::Mixture(place) => place.fmt(f),
            Self::History(place) => place.fmt(f),
        }
    }
}
