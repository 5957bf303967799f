//! The engine as understood: what fires when, and where its pistons stand.

pub(super) mod answer;
pub(super) mod sheet;

use crate::engine::{CylinderIndex, Engine, Numbering, Pulley};
use crate::job::text::rim_marks;
use crate::quantity::CrankAngle;
use alloc::string::ToString;
use alloc::vec::Vec;
use answer::{CamRingReport, DeadCentreReport, EngineReport, FiringReport};

/// What can be said of the engine alone.
pub(super) fn report(engine: &Engine, number: Option<u64>, pulley: Option<Pulley>) -> EngineReport {
    let label = |c: &CylinderIndex| engine.cylinder(*c).map(|c| c.label.to_string());
    EngineReport {
        number,
        cycle: engine.cycle(),
        firing_order: engine.order().iter().filter_map(label).collect(),
        intervals: engine.intervals(),
        firing: engine
            .order()
            .iter()
            .map(|c| firing(engine, pulley, *c))
            .collect(),
        pulley_marks: pulley.map(|_| rim_marks(engine.rotation())),
        rotation: engine.rotation(),
        numbering: match engine.numbering() {
            Numbering::FromFreeEnd => "cylinder 1 at the free end (SAE J824, DIN 73021)".into(),
            Numbering::FromOutputEnd => "cylinder 1 at the output end (ISO 1204)".into(),
            Numbering::Stated(text) => text.clone(),
        },
        dead_centres: dead_centres(engine),
        cam_ring: cam_ring(engine),
    }
}

fn firing(engine: &Engine, pulley: Option<Pulley>, cylinder: CylinderIndex) -> FiringReport {
    let label = |c: CylinderIndex| engine.cylinder(c).map(|c| c.label.to_string());
    let top = engine.dead_centre(cylinder);
    let within_turn = CrankAngle::computed(top.degrees() % 360.0);
    FiringReport {
        cylinder: label(cylinder).unwrap_or_default(),
        position: engine.firing_position(cylinder),
        top,
        companion: engine.companion(cylinder).and_then(label),
        rotor: engine.rotor_angle(cylinder),
        pulley_mark_mm: pulley.map(|p| p.arc(within_turn).mm()),
    }
}

/// One for each cylinder whose rod was described.
fn dead_centres(engine: &Engine) -> Vec<DeadCentreReport> {
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
fn cam_ring(engine: &Engine) -> Option<CamRingReport> {
    let ring = engine.cam_ring()?;
    let text = ring.to_string();
    Some(CamRingReport { ring, text })
}
