//! Coil and plug against the integrated equation, searches and quadrature
//! (data: `tests/oracles/ignition_coil.json`, `ignition_weak.json`, `ignition_plug.json`,
//! `ignition_compression.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a case that is not as written is a broken test"
)]

use lashwork::engine::SliderCrank;
use lashwork::ignition::breaker::{BreakerCam, CamSpeed, Lobes};
use lashwork::ignition::electrics::{
    Compression, Paschen, PrimaryCircuit, Weak, breakdown, voltage_reserve,
};
use lashwork::quantity::{
    Advance, CrankAngle, CrankSpeed, Current, Energy, Length, PinOffset, Temperature,
};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use lashwork_tests::{Differences, number, numbers, oracle, text};
use serde_json::Value;

fn about<Q: Measurand>(case: &Value, key: &str) -> Estimate<Q> {
    let found = numbers(case, key);
    let value = Q::from_number(found[0]).unwrap();
    Estimate::between(value, value, Uncertainty::from_number(found[1]).unwrap()).unwrap()
}

fn circuit(case: &Value) -> PrimaryCircuit {
    PrimaryCircuit {
        supply: about(case, "supply"),
        resistance: about(case, "resistance"),
        inductance: about(case, "inductance"),
    }
}

fn cam(case: &Value) -> BreakerCam {
    BreakerCam {
        lobes: Lobes::new(u8::try_from(case["lobes"].as_u64().unwrap()).unwrap()).unwrap(),
        speed: match case["turns"].as_u64() {
            Some(1) => CamSpeed::Crank,
            _ => CamSpeed::HalfCrank,
        },
    }
}

/// Central differences at a ten-thousandth leave about 1e-7 of the uncertainty; twice that and some more
/// where the solver's own error is divided by the step.
const DIFFERENCES: f64 = 1e-6;

fn compare<Q: Measurand>(
    differences: &mut Differences,
    case: &Value,
    key: &str,
    got: &Estimate<Q>,
    relative: f64,
) {
    let want = numbers(case, key);
    let place = |what: &str| format!("{} {key} {what}", text(case, "id"));
    let centre = got.centre().unwrap().number();
    differences.compare(&place("value"), centre, want[0], 0.0, relative);
    let u = got.standard_uncertainty().unwrap().number();
    differences.compare(&place("u"), u, want[1], 0.0, DIFFERENCES);
}

#[test]
fn current_and_energy_by_the_integrated_equation() {
    let mut differences = Differences::default();
    for case in oracle("ignition_coil") {
        let rpm = CrankSpeed::from_rpm(number(&case, "rpm")).unwrap();
        let charge = circuit(&case)
            .at_speed(cam(&case), &about(&case, "dwell"), rpm)
            .unwrap();
        let place = format!("{} closed", text(&case, "id"));
        let closed = charge.closed.milliseconds();
        differences.compare(&place, closed, number(&case, "closed_ms"), 0.0, 1e-14);
        // The solver's own tolerance is 1e-12 a step.
        compare(&mut differences, &case, "current", &charge.current, 1e-10);
        compare(&mut differences, &case, "energy", &charge.energy, 1e-10);
    }
    differences.settle();
}

#[test]
fn the_speed_from_which_a_coil_is_weak() {
    let mut differences = Differences::default();
    for case in oracle("ignition_weak") {
        let wanted = number(&case, "wanted");
        let weak = match text(&case, "kind") {
            "share_of_current" => Weak::BelowShareOfCurrent(wanted),
            "share_of_energy" => Weak::BelowShareOfEnergy(wanted),
            "current" => Weak::BelowCurrent(Current::from_amperes(wanted).unwrap()),
            "energy" => Weak::BelowEnergy(Energy::from_millijoules(wanted).unwrap()),
            other => panic!("{other}"),
        };
        let speed = circuit(&case)
            .speed_at(weak, cam(&case), &about(&case, "dwell"))
            .unwrap();
        compare(&mut differences, &case, "rpm", &speed, 1e-11);
    }
    differences.settle();
}

#[test]
fn breakdown_and_the_chance_of_enough_voltage() {
    let mut differences = Differences::default();
    for case in oracle("ignition_plug") {
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let air = Paschen::AIR;
        if text(&case, "id") == "minimum" {
            let (volts, product) = air.minimum();
            differences.compare(&place("volts"), volts, number(&case, "volts"), 0.0, 1e-9);
            // A minimum is flat: its place is found to half the digits.
            differences.compare(&place("at"), product, number(&case, "product"), 0.0, 1e-5);
            continue;
        }
        let gas = Temperature::from_celsius(number(&case, "celsius")).unwrap();
        let needed = breakdown(
            &about(&case, "gap"),
            &about(&case, "pressure"),
            Some(gas),
            &air,
        )
        .unwrap();
        let reserve = voltage_reserve(&about(&case, "available"), &needed.voltage, &air).unwrap();
        for (what, got, share) in [
            ("paschen", needed.paschen.volts(), 1e-12),
            ("linear", needed.linear.volts(), 1e-12),
            ("low", needed.voltage.low().unwrap().volts(), 1e-12),
            ("high", needed.voltage.high().unwrap().volts(), 1e-12),
            (
                "u",
                needed.voltage.normal_uncertainty().number(),
                DIFFERENCES,
            ),
            ("enough", reserve.enough, DIFFERENCES),
        ] {
            differences.compare(&place(what), got, number(&case, what), 0.0, share);
        }
    }
    differences.settle();
}

#[test]
fn pressure_at_the_spark_by_the_crank_in_the_plane() {
    let mut differences = Differences::default();
    for case in oracle("ignition_compression") {
        let exponent = numbers(&case, "exponent");
        let start = about(&case, "start");
        let mm = |key| Length::from_mm(number(&case, key)).unwrap();
        let crank = SliderCrank::new(mm("radius"), mm("rod"), PinOffset::ZERO).unwrap();
        let mut charge = Compression::new(number(&case, "ratio"), exponent[0], exponent[1], start)
            .unwrap()
            .with_crank(crank);
        if let Ok(after) = text(&case, "closes").parse() {
            let after = CrankAngle::from_degrees(after).unwrap();
            charge = charge.with_intake_closing(after).unwrap();
        }
        let spark = Advance::from_degrees_before(number(&case, "spark")).unwrap();
        let (pressure, _) = charge.pressure_at(spark).unwrap();
        compare(&mut differences, &case, "pressure", &pressure, 1e-11);
    }
    differences.settle();
}
