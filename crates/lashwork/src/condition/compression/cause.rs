//! What lowers a cylinder.

use crate::engine::CylinderLabel;
use serde::Serialize;

/// What may be behind what a cylinder shows.
///
/// ```
/// use lashwork::condition::compression::CompressionCause;
/// assert_eq!(CompressionCause::ALL.len(), 5);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CompressionCause {
    /// Nothing.
    Sound,
    /// Rings, piston or bore.
    Rings,
    /// A valve that does not close: burnt, bent, tight, or timed wrong.
    Valve,
    /// The head gasket to a neighbour.
    Gasket,
    /// Something that is not weighed here.
    SomethingElse,
}

impl CompressionCause {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Sound,
        Self::Rings,
        Self::Valve,
        Self::Gasket,
        Self::SomethingElse,
    ];
}

/// How the gauge rises over the strokes.
///
/// ```
/// use lashwork::condition::compression::BuildUp;
/// assert_eq!(BuildUp::ALL.len(), 3);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum BuildUp {
    /// High at the first stroke, and evenly on to its end.
    Even,
    /// Low at the first stroke, building with each.
    LowThenBuilds,
    /// Low at the first stroke, and not building.
    StaysLow,
}

impl BuildUp {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Even, Self::LowThenBuilds, Self::StaysLow];
}

/// A cause, and how far it is to be believed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WeighedCause {
    /// The cause.
    pub cause: CompressionCause,
    /// How probable it is by what was read.
    pub probability: f64,
}

/// A leak through the head gasket between two neighbours.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GasketBetween {
    /// One of them.
    pub first: CylinderLabel,
    /// The next in the row.
    pub second: CylinderLabel,
    /// How probable it is.
    pub probability: f64,
}
