//! Piston travel with the pin offset both ways against 50-digit arithmetic
//! (data: `tests/oracles/slider_crank.json`).

use lashwork::engine::{PinOffset, SliderCrank};
use lashwork::quantity::{CrankAngle, Length};
use lashwork_tests::{Differences, list, number, oracle, text};

/// A drop is a difference of two heights of up to 330 mm, each a few roundings from exact.
const DROP_MM: f64 = 5e-13;
/// Of dead centres: a few roundings of 180 degrees.
const DEAD_CENTRE_DEG: f64 = 2e-13;
/// The rounding of the travel over the piston's speed: at a thousandth of the stroke the piston moves
/// 0.03 mm per degree, and the travel is rounded at 1e-14 mm.
const STOP_DEG: f64 = 1e-11;

#[test]
fn drops_stops_and_dead_centres() {
    let mut differences = Differences::default();
    for case in oracle("slider_crank") {
        let id = text(&case, "id");
        let length = |key| Length::from_mm(number(&case, key)).unwrap();
        let offset = PinOffset::from_mm(number(&case, "offset_mm")).unwrap();
        let crank = SliderCrank::new(length("crank_radius_mm"), length("rod_mm"), offset).unwrap();
        for (name, got, slack) in [
            ("stroke_mm", crank.stroke().mm(), DROP_MM),
            ("tdc_deg", crank.tdc_angle().degrees(), DEAD_CENTRE_DEG),
            ("bdc_deg", crank.bdc_angle().degrees(), DEAD_CENTRE_DEG),
        ] {
            differences.compare(
                &format!("{id} {name}"),
                got,
                number(&case, name),
                slack,
                0.0,
            );
        }
        for row in list(&case, "drops") {
            let at = CrankAngle::from_degrees(number(row, "deg")).unwrap();
            let place = format!("{id} drop at {} deg", at.degrees());
            let got = crank.piston_drop(at).mm();
            differences.compare(&place, got, number(row, "drop_mm"), DROP_MM, 0.0);
        }
        for row in list(&case, "stops") {
            let travel = Length::from_mm(number(row, "travel_mm")).unwrap();
            let (before, after) = crank.angles_at_drop(travel).unwrap();
            for (name, got) in [("before_deg", before), ("after_deg", after)] {
                let place = format!("{id} {name} of {} mm", travel.mm());
                differences.compare(&place, got.degrees(), number(row, name), STOP_DEG, 0.0);
            }
        }
    }
    differences.settle();
}
