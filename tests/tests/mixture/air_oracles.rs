//! Air against the formula in 40 digits and against an integrated column
//! (data: `tests/oracles/mixture_air.json`, `mixture_standard.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a case that is not as written is a broken test"
)]

use lashwork::mixture::air::{AirReading, density, standard_air, station_pressure};
use lashwork::quantity::{AbsolutePressure, Altitude};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use lashwork_tests::values::{celsius, kelvin};
use lashwork_tests::{Differences, number, numbers, oracle, text};

fn about<Q: Measurand>(number: f64, u: f64) -> Estimate<Q> {
    let value = Q::from_number(number).unwrap();
    Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
}

#[test]
fn density_and_its_uncertainty() {
    let mut differences = Differences::default();
    for case in oracle("mixture_air") {
        let u = numbers(&case, "u");
        let found = density(&AirReading {
            pressure: about(number(&case, "kpa"), u[1]),
            temperature: celsius(number(&case, "celsius")),
            temperature_u: kelvin(u[0]),
            humidity: Some(about(number(&case, "percent"), u[2])),
        })
        .unwrap();
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let got = found.density.centre().unwrap().kilograms_per_cubic_metre();
        differences.compare(&place("density"), got, number(&case, "density"), 0.0, 2e-15);
        let u = found.density.standard_uncertainty().unwrap().number();
        differences.compare(&place("u"), u, number(&case, "density_u"), 0.0, 1e-9);
        // 400 000 draws leave 0.1 %; the formula hardly bends over them.
        differences.compare(
            &place("Monte Carlo"),
            u,
            number(&case, "monte_carlo_u"),
            0.0,
            4e-3,
        );
    }
    differences.settle();
}

#[test]
fn the_standard_atmosphere_and_a_set_barometer() {
    let mut differences = Differences::default();
    for case in oracle("mixture_standard") {
        let at = Altitude::from_metres(number(&case, "metres")).unwrap();
        let air = standard_air(at).unwrap();
        let setting = AbsolutePressure::from_kilopascals(number(&case, "setting")).unwrap();
        let station = station_pressure(setting, at).unwrap().kilopascals();
        // The solver's own tolerance is 1e-13 a step; the root's is 1e-10 m.
        for (what, got, share) in [
            ("kpa", air.pressure.kilopascals(), 1e-12),
            ("density", air.density.kilograms_per_cubic_metre(), 1e-12),
            ("station", station, 1e-10),
        ] {
            let place = format!("{} {what}", text(&case, "id"));
            differences.compare(&place, got, number(&case, what), 0.0, share);
        }
    }
    differences.settle();
}
