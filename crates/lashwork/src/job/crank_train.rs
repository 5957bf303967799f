//! Dead centres and cam ring for the report.

use super::{CamRingReport, DeadCentreReport};
use crate::engine::Engine;
use alloc::string::ToString;
use alloc::vec::Vec;

/// One for each cylinder whose rod was described.
pub(super) fn dead_centres(engine: &Engine) -> Vec<DeadCentreReport> {
    let known = engine.indices().filter_map(|index| {
        let found = engine.dead_centres(index)?;
        Some(DeadCentreReport {
            cylinder: engine.cylinder(index)?.label.to_string(),
            position: engine.dead_centre(index),
            shift: found.top,
            bottom_shift: found.bottom,
            stroke: found.stroke,
        })
    });
    known.collect()
}

/// The cam ring, if one was described.
pub(super) fn cam_ring(engine: &Engine) -> Option<CamRingReport> {
    let ring = engine.cam_ring()?;
    let text = ring.to_string();
    Some(CamRingReport { ring, text })
}
