//! What must hold of exhaust gas whatever the numbers.
#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    reason = "a figure written in a test that is refused is a broken test"
)]

use lashwork::mixture::gas::{
    AnalyserClass, ExhaustGas, Fuel, GasUncertainty, HydrocarbonFactor, Hydrocarbons, lambda,
    lambda_from_co,
};
use lashwork::quantity::VolumeShare;
use lashwork::tolerance::Uncertainty;
use proptest::prelude::*;

fn share(percent: f64) -> VolumeShare {
    VolumeShare::from_percent(percent).unwrap()
}

fn gas(co2: f64, co: f64, o2: f64, hc: f64) -> ExhaustGas {
    let hc = Hydrocarbons {
        read: share(hc),
        factor: HydrocarbonFactor::Hexane,
    };
    ExhaustGas::new(share(co2), share(co), share(o2), Some(hc)).unwrap()
}

fn number(gas: &ExhaustGas, fuel: &Fuel) -> f64 {
    let found = lambda(gas, &GasUncertainty::ZERO, fuel).unwrap();
    found.lambda.centre().unwrap().ratio()
}

fn fuels() -> impl Strategy<Value = Fuel> {
    (0.0..4.0, 0.0..0.6).prop_map(|(h, o)| Fuel::from_atoms(h, o, 0.0).unwrap())
}

proptest! {
    #[test]
    fn more_oxygen_is_leaner(
        fuel in fuels(), co2 in 1.0..16.0, co in 0.0..10.0, o2 in 0.0..20.0, hc in 0.0..1.0,
        more in 0.001..0.9,
    ) {
        prop_assert!(number(&gas(co2, co, o2 + more, hc), &fuel) > number(&gas(co2, co, o2, hc), &fuel));
    }

    #[test]
    fn more_unburnt_fuel_is_richer(
        fuel in fuels(), co2 in 1.0..16.0, co in 0.0..10.0, o2 in 0.0..20.0, hc in 0.0..1.0,
    ) {
        prop_assert!(number(&gas(co2, co, o2, hc + 0.01), &fuel) < number(&gas(co2, co, o2, hc), &fuel));
    }

    #[test]
    fn carbon_dioxide_alone_is_exactly_one(fuel in fuels(), co2 in 1.0..16.0) {
        let found = number(&gas(co2, 0.0, 0.0, 0.0), &fuel);
        prop_assert!((found - 1.0).abs() < 4e-16, "{found}");
    }

    #[test]
    fn a_complete_lean_burn_returns_its_lambda(fuel in fuels(), wanted in 1.0..2.0, co2 in 1.0..8.0) {
        let wanted: f64 = wanted;
        let o2 = (wanted - 1.0) * fuel.oxygen_needed() * co2;
        let found = number(&gas(co2, 0.0, o2.min(20.9), 0.0), &fuel);
        prop_assert!(o2 > 20.9 || (found - wanted).abs() < 1e-14, "{found}");
    }

    #[test]
    fn thinned_with_nitrogen_nothing_changes(
        fuel in fuels(), co2 in 4.0..16.0, co in 0.0..10.0, o2 in 0.0..20.0, hc in 0.0..1.0, by in 0.3..1.0,
    ) {
        let whole = number(&gas(co2, co, o2, hc), &fuel);
        let thinned = number(&gas(by * co2, by * co, by * o2, by * hc), &fuel);
        prop_assert!((whole - thinned).abs() < 1e-13 * whole);
    }

    #[test]
    fn carbon_monoxide_alone_falls_with_lambda_and_lies_within(co in 0.0..15.0, more in 0.01..1.0) {
        let u = Uncertainty::ZERO;
        let less = lambda_from_co(share(co), u, &Fuel::PETROL).unwrap();
        let rich = lambda_from_co(share(co + more), u, &Fuel::PETROL).unwrap();
        prop_assert!(rich.burnt_out < less.burnt_out);
        prop_assert!(less.lambda.low().unwrap() <= less.burnt_out);
        prop_assert!(less.lambda.high().is_none_or(|high| high >= less.burnt_out));
        // The gas it was reckoned from says the same by all four gases.
        let back = gas(less.co2.percent(), co, 0.0, 0.0);
        prop_assert!((number(&back, &Fuel::PETROL) - less.burnt_out.ratio()).abs() < 1e-12);
    }

    #[test]
    fn a_worse_tester_knows_less(co2 in 8.0..16.0, co in 0.0..8.0, o2 in 0.0..5.0, hc in 0.0..0.1) {
        let gas = gas(co2, co, o2, hc);
        let u = |class: AnalyserClass| {
            let found = lambda(&gas, &class.uncertainty(&gas).unwrap(), &Fuel::PETROL).unwrap();
            found.lambda.standard_uncertainty().unwrap()
        };
        prop_assert!(u(AnalyserClass::Class00) <= u(AnalyserClass::Class0));
        prop_assert!(u(AnalyserClass::Class0) <= u(AnalyserClass::ClassI));
    }

    #[test]
    fn ethanol_needs_less_air(percent in 1.0..100.0) {
        let blend = Fuel::PETROL.with_ethanol(percent).unwrap();
        let leaner = Fuel::PETROL.with_ethanol(percent - 1.0).unwrap();
        prop_assert!(blend.air_fuel_ratio() < leaner.air_fuel_ratio());
    }
}
