//! Dead centres of link rods against 50-digit root finding
//! (data: `tests/oracles/articulated_rod.json`).
#![allow(
    clippy::unwrap_used,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::engine::ArticulatedRod;
use lashwork::quantity::{AxisAngle, Length};
use lashwork_tests::{Differences, number, oracle, text};

/// The sign of a derivative of 75 mm per radian, a few roundings from exact, over its slope of about
/// as much: some units of the last place of a radian in degrees.
const DEAD_CENTRE_DEG: f64 = 2e-13;
/// A difference of two heights of up to 500 mm.
const STROKE_MM: f64 = 5e-13;

#[test]
fn dead_centres_and_strokes_of_link_rods() {
    let mut differences = Differences::default();
    for case in oracle("articulated_rod") {
        let id = text(&case, "id");
        let length = |key| Length::from_mm(number(&case, key)).unwrap();
        let angle = |key| AxisAngle::from_degrees(number(&case, key)).unwrap();
        let rod = ArticulatedRod::with_knuckle(
            length("crank_radius_mm"),
            length("master_rod_mm"),
            (length("knuckle_radius_mm"), angle("knuckle_deg")),
            length("link_rod_mm"),
            angle("cylinder_deg"),
        )
        .unwrap();
        for (name, got, slack) in [
            ("tdc_shift_deg", rod.tdc_shift().degrees(), DEAD_CENTRE_DEG),
            ("bdc_shift_deg", rod.bdc_shift().degrees(), DEAD_CENTRE_DEG),
            ("stroke_mm", rod.stroke().mm(), STROKE_MM),
        ] {
            let place = format!("{id} {name}");
            differences.compare(&place, got, number(&case, name), slack, 0.0);
        }
    }
    differences.settle();
}
