//! Where the air comes out, and what leaks there.

use crate::engine::CylinderLabel;
use core::fmt;
use serde::Serialize;

/// Where air is heard or seen to come out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Hiss {
    /// At the carburettor or the air filter.
    Intake,
    /// At the exhaust.
    Exhaust,
    /// At the oil filler, the breather or the dipstick.
    Breather,
    /// Bubbles in the coolant.
    Coolant,
    /// At the plug hole of another cylinder.
    PlugHole(CylinderLabel),
    /// At the edge of the head gasket.
    GasketEdge,
}

/// What leaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum LeakPath {
    /// The intake valve.
    IntakeValve,
    /// The exhaust valve.
    ExhaustValve,
    /// Rings, piston or bore; some air comes past sound rings too.
    Rings,
    /// The head gasket to the coolant, or a crack.
    GasketOrCrack,
    /// The head gasket to a neighbour.
    GasketToNeighbour,
    /// The intake valve, and through the manifold and an open valve of a cylinder that is no neighbour.
    ThroughManifold,
    /// The head gasket to the outside.
    GasketOutside,
}

impl Hiss {
    /// What leaks there; `is_neighbour` is whether the cylinder of a plug hole stands beside the one tested.
    ///
    /// # Source
    /// Exhaust, intake, breather: published, named in the tests. Coolant and plug holes: common practice, no
    /// source.
    ///
    /// ```
    /// use lashwork::condition::leak::{Hiss, LeakPath};
    /// assert_eq!(Hiss::Exhaust.path(false), LeakPath::ExhaustValve);
    /// let hole = Hiss::PlugHole("3".parse()?);
    /// assert_eq!(hole.path(true), LeakPath::GasketToNeighbour);
    /// assert_eq!(hole.path(false), LeakPath::ThroughManifold);
    /// # Ok::<(), lashwork::engine::EngineError>(())
    /// ```
    #[must_use]
    pub const fn path(&self, is_neighbour: bool) -> LeakPath {
        match self {
            Self::Intake => LeakPath::IntakeValve,
            Self::Exhaust => LeakPath::ExhaustValve,
            Self::Breather => LeakPath::Rings,
            Self::Coolant => LeakPath::GasketOrCrack,
            Self::PlugHole(_) if is_neighbour => LeakPath::GasketToNeighbour,
            Self::PlugHole(_) => LeakPath::ThroughManifold,
            Self::GasketEdge => LeakPath::GasketOutside,
        }
    }
}

impl fmt::Display for LeakPath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::IntakeValve => "the intake valve",
            Self::ExhaustValve => "the exhaust valve",
            Self::Rings => "rings, piston or bore",
            Self::GasketOrCrack => "the head gasket to the coolant, or a crack",
            Self::GasketToNeighbour => "the head gasket to the neighbour",
            Self::ThroughManifold => {
                "the intake valve, through the manifold and the open valve of that cylinder"
            }
            Self::GasketOutside => "the head gasket to the outside",
        })
    }
}
