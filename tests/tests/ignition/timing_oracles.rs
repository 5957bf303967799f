//! Timing against values computed by other means (data: `tests/oracles/ignition_*.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use crate::timing_published::{before, curve, limits, rpm};
use lashwork::engine::{PinOffset, SliderCrank};
use lashwork::ignition::point::Piston;
use lashwork::ignition::timing::{
    AboveLast, CurveCauses, CurveFit, CurveReadings, Hose, LampDelay, PrintedTiming, Running,
    Taken, TimingReading,
};
use lashwork::quantity::{Advance, Length};
use lashwork::tolerance::{HasLimits, Uncertainty};
use lashwork_tests::{Differences, number, numbers, oracle, text};
use serde_json::Value;

const CURVE: [(f64, f64, f64); 3] = [(1000.0, 0.0, 0.0), (1400.0, 6.0, 8.0), (2400.0, 18.0, 22.0)];
/// scipy stops where a step no longer lowers the sum of squares, half the digits from the solution.
const FIT: f64 = 1e-5;

fn reading(read: f64, speed: f64, u: f64, speed_u: f64) -> TimingReading {
    let running = Running::at(rpm(speed), Hose::Plugged);
    TimingReading {
        read: before(read),
        u: Uncertainty::from_number(u).unwrap(),
        taken: Taken::Running(running.with_speed_u(speed_u).unwrap()),
        lamp: LampDelay::NONE,
    }
}

fn readings(case: &Value, u: &[f64]) -> Vec<TimingReading> {
    let (read, rpm) = (numbers(case, "read"), numbers(case, "rpm"));
    let both = read.iter().zip(&rpm).zip(u);
    both.map(|((read, rpm), u)| reading(*read, *rpm, *u, 0.0))
        .collect()
}

#[test]
fn curve_fits() {
    let mut differences = Differences::default();
    for case in oracle("ignition_curve_fit") {
        let id = text(&case, "id");
        let ends = case["ends"].as_bool().unwrap();
        let above = if ends {
            AboveLast::Ends
        } else {
            AboveLast::NotSaid
        };
        let curve = curve(&CURVE, above);
        let band = limits("8 deg BTDC to 12 deg BTDC");
        let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
        let readings = readings(&case, &numbers(&case, "u"));
        let fit = CurveFit::new(&CurveReadings::new(&book, &readings).unwrap()).unwrap();
        let mut same = |what: &str, got: f64, want: f64| {
            differences.compare(&format!("{id}: {what}"), got, want, FIT, FIT);
        };
        let start = fit.static_point().value.degrees_before();
        same("static", start, number(&case, "static"));
        same("scale", fit.scale().unwrap().value, number(&case, "scale"));
        same(
            "end",
            fit.end().unwrap().value.degrees(),
            number(&case, "end"),
        );
        same("scatter", fit.scatter().unwrap(), number(&case, "scatter"));
        let covariance = numbers(&case, "covariance");
        for (got, want) in fit.covariance().concat().iter().zip(&covariance) {
            same("covariance", *got, *want);
        }
        let own = covariance[0].sqrt();
        let shared = own.hypot(CurveReadings::SHARED_U);
        same("u of static", fit.static_point().u, shared);
        same("u of scale", fit.scale().unwrap().u, covariance[4].sqrt());
        same("u of end", fit.end().unwrap().u, covariance[8].sqrt());
    }
    differences.settle();
}

#[test]
fn causes_of_a_curve() {
    let mut differences = Differences::default();
    let curve = curve(&CURVE, AboveLast::Ends);
    let band = limits("8 deg BTDC to 12 deg BTDC");
    let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
    for case in oracle("ignition_curve_causes") {
        let id = text(&case, "id");
        let readings = readings(&case, &[0.5; 9]);
        let readings = CurveReadings::new(&book, &readings).unwrap();
        let found = CurveCauses::weigh(&readings, None, 0.5).unwrap();
        assert!(
            found.not_weighed.is_empty(),
            "{id}: {:?}",
            found.not_weighed
        );
        let said = serde_json::to_value(&found.causes).unwrap();
        let want = case["posterior"].as_object().unwrap();
        assert_eq!(want.len(), found.causes.len() + 1);
        for (name, want) in want {
            let got = if name == "sound" {
                found.sound
            } else {
                let causes = said.as_array().unwrap();
                let cause = causes.iter().find(|c| c["cause"] == **name).unwrap();
                cause["posterior"].as_f64().unwrap()
            };
            let want: f64 = want.as_str().unwrap().parse().unwrap();
            // The dense covariance of the reference is factored with its own rounding.
            differences.compare(&format!("{id}: {name}"), got, want, 1e-12, 1e-9);
        }
    }
    differences.settle();
}

#[test]
fn static_point_by_draws() {
    let mut differences = Differences::default();
    let curve = curve(&CURVE, AboveLast::NotSaid);
    let band = limits("8 deg BTDC to 12 deg BTDC");
    let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
    for case in oracle("ignition_static_point") {
        let of = |key| number(&case, key);
        let reading = reading(of("read"), of("rpm"), of("u"), of("speed_u"));
        let found = book.found(&reading, &Advance::USUAL_RULE).unwrap();
        let place = format!("{} at {}", of("read"), of("rpm"));
        let centre = found.estimate.centre().unwrap().degrees_before();
        differences.compare(&place, centre, of("mean"), 0.005, 0.0);
        // The kernel takes the steeper column, the draws the mean of both: 8 and 7 degrees in 400 rpm.
        let u = found.u().unwrap().number();
        differences.compare(&place, u, of("sd"), 0.0, 0.1);
        assert!(u >= of("sd") * 0.999);
        // What the budget lists comes to the same.
        let terms = found
            .terms
            .iter()
            .fold(0.0, |sum: f64, t| sum.hypot(t.share()));
        differences.compare(&place, terms, u, 1e-12, 0.0);
    }
    differences.settle();
}

#[test]
fn point_from_a_travel_by_draws() {
    let mut differences = Differences::default();
    for case in oracle("ignition_travel_u") {
        let of = |key| number(&case, key);
        let mm = |mm| Length::from_mm(mm).unwrap();
        let crank = SliderCrank::new(mm(of("stroke") / 2.0), mm(of("rod")), PinOffset::ZERO);
        let piston = Piston::of_crank(crank.unwrap());
        let u = piston
            .degrees_of(before(of("degrees")), of("u_mm"))
            .unwrap();
        let place = format!("{} deg of {} mm", of("degrees"), of("stroke"));
        differences.compare(&place, u, of("sd"), 0.0, 0.01);
    }
    differences.settle();
}
