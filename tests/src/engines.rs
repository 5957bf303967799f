//! Engines for tests, from the little that a test is about.
#![allow(
    clippy::unwrap_used,
    reason = "an engine written in a test that is refused is a broken test"
)]

use lashwork::engine::{
    Cylinder, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, Rotation, Sense,
};
use lashwork::quantity::Cycle;

/// A four-stroke engine that turns clockwise seen from its free end, where cylinder 1 is.
#[must_use]
pub fn four_stroke(cylinders: Vec<Cylinder>, order: &[usize], intervals: Intervals) -> Engine {
    Engine::new(EngineParts {
        cycle: Cycle::FourStroke,
        cylinders,
        order: order.iter().copied().map(CylinderLabel::numbered).collect(),
        intervals,
        rotation: Rotation {
            sense: Sense::Clockwise,
            seen_from: End::Free,
        },
        numbering: Numbering::FromFreeEnd,
    })
    .unwrap()
}
