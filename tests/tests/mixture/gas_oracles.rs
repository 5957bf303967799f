//! Exhaust gas against gas that was burnt forward from lambda
//! (data: `tests/oracles/mixture_gas.json`, `mixture_from_co.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::float_cmp,
    reason = "a case that is not as written is a broken test"
)]

use lashwork::mixture::gas::{
    AnalyserClass, ExhaustGas, Fuel, HydrocarbonFactor, Hydrocarbons, lambda, lambda_from_co,
};
use lashwork::quantity::VolumeShare;
use lashwork::tolerance::Uncertainty;
use lashwork_tests::{Differences, number, numbers, oracle, text};
use serde_json::Value;

fn share(percent: f64) -> VolumeShare {
    VolumeShare::from_percent(percent).unwrap()
}

fn fuel(case: &Value) -> Fuel {
    let atoms = numbers(case, "fuel");
    Fuel::from_atoms(atoms[0], atoms[1], 0.0).unwrap()
}

#[test]
fn lambda_and_its_uncertainty() {
    let mut differences = Differences::default();
    for case in oracle("mixture_gas") {
        let read = numbers(&case, "gas");
        let hc = Hydrocarbons {
            read: share(read[3]),
            factor: HydrocarbonFactor::Stated(number(&case, "factor")),
        };
        let mut gas =
            ExhaustGas::new(share(read[0]), share(read[1]), share(read[2]), Some(hc)).unwrap();
        if let Ok(no) = text(&case, "no").parse() {
            gas = gas.with_no(share(no));
        }
        let class = match text(&case, "class") {
            "class00" => AnalyserClass::Class00,
            "class0" => AnalyserClass::Class0,
            "class_i" => AnalyserClass::ClassI,
            other => panic!("{other}"),
        };
        let found = lambda(&gas, &class.uncertainty(&gas).unwrap(), &fuel(&case)).unwrap();
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let got = found.lambda.centre().unwrap().ratio();
        differences.compare(&place("lambda"), got, number(&case, "lambda"), 0.0, 1e-14);
        let u = found.lambda.standard_uncertainty().unwrap().number();
        differences.compare(&place("u"), u, number(&case, "u"), 0.0, 1e-7);
        // 400 000 draws leave 0.1 %; what bends in the formula, and errors that are not normal, add to it.
        differences.compare(
            &place("Monte Carlo"),
            u,
            number(&case, "monte_carlo_u"),
            0.0,
            5e-3,
        );
        // The gas was made to add up to 100 %.
        assert!(
            !found
                .contradictions
                .iter()
                .any(|doubt| doubt.what.code() == "mixture.total-off"),
            "{}",
            text(&case, "id")
        );
    }
    differences.settle();
}

#[test]
fn lambda_from_carbon_monoxide() {
    let mut differences = Differences::default();
    for case in oracle("mixture_from_co") {
        let u = Uncertainty::from_number(number(&case, "u_co")).unwrap();
        let co = number(&case, "co");
        let found = lambda_from_co(share(co), u, &fuel(&case)).unwrap();
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let burnt_out = found.burnt_out.ratio();
        // The search stops at 1e-10 per cent of gas.
        differences.compare(
            &place("lambda"),
            burnt_out,
            number(&case, "lambda"),
            0.0,
            1e-9,
        );
        let low = found.lambda.low().unwrap().ratio();
        differences.compare(&place("low"), low, number(&case, "low"), 0.0, 1e-9);
        if let Some(high) = found.lambda.high() {
            differences.compare(
                &place("high"),
                high.ratio(),
                number(&case, "high"),
                0.0,
                1e-9,
            );
        }
        let blur = found.lambda.normal_uncertainty().number();
        differences.compare(&place("u"), blur, number(&case, "u"), 0.0, 1e-4);
    }
    differences.settle();
}
