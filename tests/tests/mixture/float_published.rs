//! Float and fuel level against published figures, laws and differences.
//!
//! Marks: SEEN = read in the source or in a public copy of it; CALC = computed apart from this library.
#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    reason = "a figure written in a test that is refused is a broken test"
)]

use approx::{assert_abs_diff_eq, assert_relative_eq};
use lashwork::Refusal;
use lashwork::mixture::float::{
    FloatBody, FuelInUse, Immersion, Nozzle, change_fuel, depression_to_lift, head_at_jet,
    immersed_ratio,
};
use lashwork::mixture::gas::Fuel;
use lashwork::quantity::{Density, FuelLevel, GaugePressure, Lambda, Length, Marked, Mass, Vacuum};
use lashwork::tolerance::{Estimate, HasLimits, Limits, Measurand, Uncertainty, Verdict, judge};
use proptest::prelude::*;

fn about<Q: Measurand>(number: f64, u: f64) -> Estimate<Q> {
    let value = Q::from_number(number).unwrap();
    Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
}

fn kg(number: f64) -> Density {
    Density::from_kilograms_per_cubic_metre(number).unwrap()
}

fn mm(number: f64) -> Length {
    Length::from_mm(number).unwrap()
}

fn sits(depth: f64, fuel: f64) -> Immersion {
    Immersion::new(mm(depth), mm(0.0), about(fuel, 0.0)).unwrap()
}

#[test]
fn immersed_volume_by_fuel() {
    // CALC (buoyancy): from 0.745 kg/l to ethanol, 0.789, and to a light petrol, 0.72.
    assert_abs_diff_eq!(immersed_ratio(kg(789.0), kg(745.0)), 0.9442, epsilon = 5e-5);
    assert_abs_diff_eq!(immersed_ratio(kg(720.0), kg(745.0)), 1.0347, epsilon = 5e-5);
    let change = |to: f64| {
        let level = sits(20.0, 745.0).level_change(&about(to, 0.0)).unwrap();
        level.centre().unwrap().mm()
    };
    assert_abs_diff_eq!(change(789.0), -20.0 * 0.055_767, epsilon = 1e-4);
    assert_abs_diff_eq!(change(720.0), 20.0 * 0.034_722, epsilon = 1e-4);
}

#[test]
fn a_sight_mark_rounded_in_print() {
    // SEEN: "within 0.05 in (1.5 mm)" of the dot; 0.05 in is 1.27 mm. The two bands judge 1.4 mm apart.
    let level = about::<FuelLevel>(1.4, 0.05);
    let inches: Limits<FuelLevel> = "-0.05 in to 0.05 in".parse().unwrap();
    let millimetres: Limits<FuelLevel> = "-1.5 mm to 1.5 mm".parse().unwrap();
    let by = |band: &Limits<FuelLevel>| judge(&level, band, &FuelLevel::USUAL_RULE).verdict;
    assert_eq!(
        (by(&inches), by(&millimetres)),
        (Verdict::Above, Verdict::InBand)
    );
    assert_eq!(Marked::parse("0.05 in").unwrap().mm(), 1.27);
}

#[test]
fn a_float_by_its_weight() {
    // CALC: 20 g on two floats of 22 mm, no pressure: 20/(0.745 x 2 x 3.8013 cm2) = 35.31 mm.
    let float = FloatBody {
        mass: Mass::from_grams(20.0).unwrap(),
        diameter: mm(22.0),
        floats: 2,
        seat: mm(2.5),
        fuel_pressure: GaugePressure::from_kilopascals(0.0).unwrap(),
        leverage: 0.3,
    };
    let depth = float.depth(kg(745.0)).unwrap().mm();
    assert_abs_diff_eq!(depth, 35.31, epsilon = 0.005);
    // CALC: 20 kPa on 4.909 mm2 are 0.09817 N, 0.3 of it 3.003 g more.
    let pumped = FloatBody {
        fuel_pressure: GaugePressure::from_kilopascals(20.0).unwrap(),
        ..float
    };
    let deeper = pumped.depth(kg(745.0)).unwrap().mm();
    assert_relative_eq!(deeper / depth, 1.0 + 3.0031 / 20.0, max_relative = 1e-4);
    // In either fuel the depth follows the density as the level does.
    let in_ethanol = pumped.depth(kg(789.0)).unwrap().mm();
    let change = sits(deeper, 745.0)
        .level_change(&about(789.0, 0.0))
        .unwrap();
    assert_abs_diff_eq!(
        in_ethanol - deeper,
        change.centre().unwrap().mm(),
        epsilon = 1e-9
    );
    let none = FloatBody { floats: 0, ..float };
    assert_eq!(
        none.depth(kg(745.0)).unwrap_err().code(),
        "mixture.float-body"
    );
    let lead = FloatBody {
        mass: Mass::from_grams(500.0).unwrap(),
        ..float
    };
    assert_eq!(
        lead.depth(kg(745.0)).unwrap_err().code(),
        "mixture.float-depth"
    );
}

#[test]
fn head_of_fuel() {
    // CALC: 0.745 kg/l, 9.80665 m/s2: 25.4 mm are 185.57 Pa, 0.745 inH2O of 249.0889 Pa.
    let head = head_at_jet(mm(25.4), kg(745.0)).unwrap().kilopascals();
    assert_abs_diff_eq!(head, 0.185_57, epsilon = 5e-6);
    let lift = depression_to_lift(mm(25.4), kg(745.0)).unwrap();
    let water = Vacuum::parse("0.745 inH2O").unwrap();
    assert_relative_eq!(
        lift.kilopascals(),
        water.kilopascals(),
        max_relative = 2e-6 + 3e-5
    );
}

#[test]
fn ethanol_in_the_petrol_leans_the_same_jets() {
    let now = about::<Lambda>(0.90, 0.0);
    let nozzle = Nozzle {
        depression: Vacuum::from_kilopascals(3.0).unwrap(),
        lift: mm(5.0),
    };
    let lambda = |name: &str, density: f64| {
        let to = FuelInUse {
            fuel: Fuel::named(name).unwrap(),
            density: about(density, 0.0),
        };
        change_fuel(Fuel::PETROL, &sits(15.0, 745.0), &nozzle, &now, &to).unwrap()
    };
    // CALC: E10 needs 13.99 where petrol needs 14.57: 4 % leaner, less what its density gives back.
    let e10 = lambda("E10", 749.4);
    assert_abs_diff_eq!(e10.needs, 13.99 / 14.57, epsilon = 5e-4);
    assert_abs_diff_eq!(e10.mass_flow, (749.4_f64 / 745.0).sqrt(), epsilon = 5e-4);
    assert_abs_diff_eq!(e10.lambda.centre().unwrap().ratio(), 0.935, epsilon = 1e-3);
    // Ethanol alone would not run: 1.4.
    let e100 = lambda("E100", 789.0);
    assert!(e100.lambda.centre().unwrap().ratio() > 1.35);
    assert!(e100.level.centre().unwrap().mm() < 0.0 && e10.level.centre().unwrap().mm() < 0.0);
    let same = lambda("E0", 745.0);
    assert_abs_diff_eq!(same.lambda.centre().unwrap().ratio(), 0.90, epsilon = 1e-12);
}

proptest! {
    #[test]
    fn fuels_there_and_back(depth in 5.0..40.0, a in 680.0..820.0, b in 680.0..820.0) {
        let there = sits(depth, a).level_change(&about(b, 0.0)).unwrap().centre().unwrap().mm();
        let back = sits(depth + there, b).level_change(&about(a, 0.0)).unwrap().centre().unwrap().mm();
        prop_assert!((there + back).abs() < 1e-9, "{there} {back}");
    }

    #[test]
    fn uncertainty_by_differences(
        depth in 5.0..40.0, a in 690.0..810.0, b in 690.0..810.0,
        u_depth in 0.1..2.0, u_a in 0.5..10.0, u_b in 0.5..10.0,
    ) {
        let at = |depth: f64, a: f64, b: f64| depth * (a / b - 1.0);
        let step = 1e-5;
        let by = |up: f64, down: f64, u: f64| (up - down) / (2.0 * step) * u;
        let want = by(at(depth + step, a, b), at(depth - step, a, b), u_depth)
            .hypot(by(at(depth, a + step, b), at(depth, a - step, b), u_a))
            .hypot(by(at(depth, a, b + step), at(depth, a, b - step), u_b));
        let sits = Immersion::new(mm(depth), mm(u_depth), about(a, u_a)).unwrap();
        let found = sits.level_change(&about(b, u_b)).unwrap();
        let got = found.standard_uncertainty().unwrap().mm();
        prop_assert!((got - want).abs() < 1e-6 * want + 1e-9, "{got} {want}");
    }

    #[test]
    fn a_higher_level_is_richer(level in -4.0..4.0, kpa in 0.5..6.0) {
        let nozzle = Nozzle {
            depression: Vacuum::from_kilopascals(kpa).unwrap(),
            lift: mm(6.0),
        };
        let flow = |mm: f64| {
            let level = FuelLevel::from_mm(mm).unwrap();
            nozzle.mass_flow(kg(745.0), kg(745.0), level).unwrap()
        };
        prop_assert!(flow(level + 0.1) > flow(level));
        prop_assert!((flow(0.0) - 1.0).abs() < 1e-15);
    }

    #[test]
    fn uncertainty_of_another_fuel_by_differences(depth in 8.0..25.0, kpa in 2.0..6.0) {
        // First order against central differences over each input.
        let nozzle = Nozzle {
            depression: Vacuum::from_kilopascals(kpa).unwrap(),
            lift: mm(6.0),
        };
        let ask = |lambda: f64, a: f64, b: f64, u: [f64; 3]| {
            let sits = Immersion::new(mm(depth), mm(0.0), about(a, u[1])).unwrap();
            let to = FuelInUse { fuel: Fuel::PETROL, density: about(b, u[2]) };
            change_fuel(Fuel::PETROL, &sits, &nozzle, &about(lambda, u[0]), &to).unwrap().lambda
        };
        let at = |l: f64, a: f64, b: f64| ask(l, a, b, [0.0; 3]).centre().unwrap().ratio();
        let u = [0.01, 4.0, 5.0];
        let got = ask(0.9, 745.0, 760.0, u).standard_uncertainty().unwrap().number();
        let want = ((at(0.91, 745.0, 760.0) - at(0.89, 745.0, 760.0)) / 0.02 * u[0])
            .hypot((at(0.9, 746.0, 760.0) - at(0.9, 744.0, 760.0)) / 2.0 * u[1])
            .hypot((at(0.9, 745.0, 761.0) - at(0.9, 745.0, 759.0)) / 2.0 * u[2]);
        prop_assert!((got - want).abs() < 2e-4 * want, "{got} {want}");
    }
}
