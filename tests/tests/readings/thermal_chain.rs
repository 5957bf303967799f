//! Chains of parts: changes and budgets worked out by hand from published coefficients.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::quantity::{Lash, Length};
use lashwork::statistics::straight_line;
use lashwork::thermal::{
    Chain, Effect, Expansion, Follows, Link, Material, MetalTemperature, PartTemperatures, Side,
    ThermalError, fit_coefficient,
};
use lashwork_tests::values::{celsius, kelvin, table};

fn link(part: &str, of: &str, mm: f64, side: Side, effect: Effect, follows: &str) -> Link {
    Link {
        part: part.into(),
        material: table(of),
        length: Length::from_mm(mm).unwrap(),
        length_uncertainty: Length::from_mm(0.0).unwrap(),
        side,
        effect,
        follows: follows.into(),
    }
}

fn at(pairs: &[(&str, f64, f64)]) -> PartTemperatures {
    pairs
        .iter()
        .map(|(name, c, u)| {
            (
                (*name).into(),
                MetalTemperature::known(celsius(*c), kelvin(*u)),
            )
        })
        .collect()
}

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert_abs_diff_eq!(got, want, epsilon = within);
}

#[test]
fn aluminium_engine_with_steel_pushrods_opens_when_hot() -> Result<(), ThermalError> {
    let chain = |pushrod| {
        Chain::new(
            vec![
                link(
                    "cylinder and head",
                    "aluminium 356",
                    200.0,
                    Side::Valve,
                    Effect::Opens,
                    "engine",
                ),
                link(
                    "pushrod",
                    pushrod,
                    200.0,
                    Side::Valve,
                    Effect::Closes,
                    "engine",
                ),
            ],
            1.0,
        )
    };
    let hot = at(&[("engine", 100.0, 2.0)]);
    let steel = chain("steel 1020")?.lash_change(celsius(20.0), &hot)?;
    // 200 mm, 356.0 against 1020, +80 K: opens 0.1568 mm (DERIVED).
    close(steel.mm(), 0.1568, 1e-12);
    let aluminium = chain("aluminium 6061")?.lash_change(celsius(20.0), &hot)?;
    assert!(aluminium.mm().abs() < steel.mm() / 4.0);
    Ok(())
}

#[test]
fn cam_side_growth_reaches_the_valve_times_the_rocker_ratio() -> Result<(), ThermalError> {
    let chain = Chain::new(
        vec![link(
            "pushrod",
            "steel 4140",
            100.0,
            Side::Cam,
            Effect::Closes,
            "engine",
        )],
        1.5,
    )?;
    // -1.5 * 100 mm * 12.3e-6 * 50 K.
    let change = chain.lash_change(celsius(20.0), &at(&[("engine", 70.0, 0.0)]))?;
    close(change.mm(), -0.092_25, 1e-12);
    Ok(())
}

#[test]
fn exhaust_stem_closes_the_gap_when_it_runs_hot() -> Result<(), ThermalError> {
    // 110 mm 21-4N stem, mean coefficient 18.4e-6 (SUH35, 20-760 C, SEEN), +600 K: 1.2144 mm (DERIVED).
    let mut stem = link(
        "stem",
        "grey iron",
        110.0,
        Side::Valve,
        Effect::Closes,
        "stem",
    );
    stem.material = Material {
        name: "SUH35".into(),
        source: "steel data sheet".into(),
        coefficient: Expansion::mean_from_20(&[(760.0, 18.4e-6)]),
    };
    let change =
        Chain::new(vec![stem], 1.0)?.lash_change(celsius(20.0), &at(&[("stem", 620.0, 0.0)]))?;
    close(change.mm(), -1.2144, 1e-12);
    Ok(())
}

#[test]
fn one_shared_temperature_cancels_between_equal_parts() -> Result<(), ThermalError> {
    let pair = |second: &str| {
        Chain::new(
            vec![
                link(
                    "head",
                    "aluminium 356",
                    100.0,
                    Side::Valve,
                    Effect::Opens,
                    "head",
                ),
                link(
                    "pushrod",
                    "aluminium 356",
                    100.0,
                    Side::Valve,
                    Effect::Closes,
                    second,
                ),
            ],
            1.0,
        )
    };
    let warm = at(&[("head", 80.0, 5.0), ("pushrod", 80.0, 5.0)]);
    let shared = pair("head")?.correction(celsius(20.0), &warm)?;
    close(shared.standard_uncertainty_mm(), 0.0, 1e-15);
    // Apart: sqrt 2 * 100 mm * 21.5e-6 * 5 K; the coefficient still cancels.
    let apart = pair("pushrod")?.correction(celsius(20.0), &warm)?;
    close(
        apart.standard_uncertainty_mm(),
        2.0_f64.sqrt() * 0.010_75,
        1e-12,
    );
    Ok(())
}

#[test]
fn budget_of_one_link_by_hand() -> Result<(), ThermalError> {
    let mut rod = link("rod", "gauge steel", 100.0, Side::Cam, Effect::Opens, "rod");
    rod.length_uncertainty = Length::from_mm(1.0)?;
    let correction =
        Chain::new(vec![rod], 2.0)?.correction(celsius(20.0), &at(&[("rod", 70.0, 3.0)]))?;
    // 2 * 11.5e-6 * 50 K * 1 mm; 2 * 100 mm * 50 K * (2/sqrt 3)e-6; 2 * 100 mm * 11.5e-6 * 3 K.
    let by_hand: [f64; 3] = [0.001_15, 0.02 / 3.0_f64.sqrt(), 0.006_9];
    let sum = by_hand.iter().map(|c| c * c).sum::<f64>().sqrt();
    close(correction.change.mm(), 0.115, 1e-12);
    close(correction.standard_uncertainty_mm(), sum, 1e-12);
    assert_eq!(correction.budget.contributions().len(), 3);
    Ok(())
}

#[test]
fn a_part_between_two_temperatures() -> Result<(), ThermalError> {
    let mut rod = link("rod", "gauge steel", 100.0, Side::Valve, Effect::Opens, "x");
    rod.follows = Follows::Between {
        cold: "air".into(),
        hot: "head".into(),
        fraction: 0.25,
        fraction_u: 0.1,
    };
    let temperatures = at(&[("air", 20.0, 1.0), ("head", 100.0, 4.0)]);
    let correction = Chain::new(vec![rod], 1.0)?.correction(celsius(20.0), &temperatures)?;
    // 40 C: 100 mm * 11.5e-6 * 20 K.
    close(correction.change.mm(), 0.023, 1e-12);
    // Kelvin of the part: 0.75 * 1 (air), 0.25 * 4 (head), 80 * 0.1 (fraction).
    let kelvins = (0.75_f64.powi(2) + 1.0 + 64.0).sqrt() * 100.0 * 11.5e-6;
    let coefficient = 100.0 * 20.0 * 2e-6 / 3.0_f64.sqrt();
    close(
        correction.standard_uncertainty_mm(),
        kelvins.hypot(coefficient),
        1e-12,
    );
    Ok(())
}

#[test]
fn unusable_input_is_refused_with_a_code_and_a_hint() {
    let good = || link("rod", "grey iron", 100.0, Side::Valve, Effect::Opens, "rod");
    let mut other = good();
    other.material.coefficient = Expansion::Constant {
        per_kelvin: 12e-6,
        u: 0.0,
    };
    let mut empty = good();
    empty.material.coefficient = Expansion::mean_from_20(&[]);
    let mut outside = good();
    outside.follows = Follows::Between {
        cold: "a".into(),
        hot: "b".into(),
        fraction: 1.5,
        fraction_u: 0.0,
    };
    let chain = Chain::new(vec![good()], 1.0).unwrap();
    let lash = Lash::from_mm(0.2).unwrap();
    let refused = [
        (Chain::new(vec![], 1.0).err(), "thermal.no-links"),
        (Chain::new(vec![good()], 0.0).err(), "thermal.rocker-ratio"),
        (
            Chain::new(vec![good()], f64::NAN).err(),
            "thermal.rocker-ratio",
        ),
        (
            Chain::new(vec![good(), other], 1.0).err(),
            "thermal.two-materials",
        ),
        (Chain::new(vec![empty], 1.0).err(), "thermal.bad-material"),
        (Chain::new(vec![outside], 1.0).err(), "thermal.fraction"),
        (
            chain.lash_change(celsius(20.0), &at(&[])).err(),
            "thermal.no-temperature",
        ),
        (
            chain
                .correction(celsius(20.0), &at(&[("rod", 50.0, -1.0)]))
                .err(),
            "thermal.uncertainty",
        ),
        (
            fit_coefficient(&[(celsius(20.0), lash, 0.01)]).err(),
            "thermal.too-few-readings",
        ),
        (
            fit_coefficient(&[(celsius(20.0), lash, 0.01); 3]).err(),
            "thermal.one-temperature",
        ),
        (
            fit_coefficient(&[(celsius(20.0), lash, 0.0), (celsius(30.0), lash, 0.01)]).err(),
            "thermal.uncertainty",
        ),
        (
            straight_line(&[1.0], &[], &[])
                .err()
                .map(ThermalError::from),
            "thermal.statistics",
        ),
        (
            straight_line(&[1.0, f64::NAN], &[1.0, 2.0], &[1.0, 1.0])
                .err()
                .map(ThermalError::from),
            "thermal.statistics",
        ),
    ];
    for (error, code) in refused {
        let error = error.unwrap();
        assert_eq!(error.code(), code);
        assert!(!error.hint().is_empty() && !error.to_string().is_empty());
    }
}

#[test]
fn disagreeing_sources_are_a_rectangle_between_them() -> Result<(), ThermalError> {
    // Aluminium 390: 18 and 20 millionths (SEEN); the middle, 19, with u = 1/sqrt 3 (JCGM 100:2008
    // 4.3.7): 100 mm over 50 K.
    let block = link(
        "block",
        "aluminium 390",
        100.0,
        Side::Valve,
        Effect::Opens,
        "block",
    );
    let correction =
        Chain::new(vec![block], 1.0)?.correction(celsius(20.0), &at(&[("block", 70.0, 0.0)]))?;
    close(correction.change.mm(), 0.095, 1e-12);
    close(
        correction.standard_uncertainty_mm(),
        0.005 / 3.0_f64.sqrt(),
        1e-12,
    );
    Ok(())
}

#[test]
fn an_unstated_uncertainty_is_five_per_cent_either_way() -> Result<(), ThermalError> {
    // This library's choice: rectangle of half-width 5 %, so u = change * 0.05 / sqrt 3.
    for name in [
        "aluminium 356",
        "valve steel X53CrMnNiNbN21-9",
        "carbon steel",
    ] {
        let part = link("part", name, 100.0, Side::Valve, Effect::Opens, "part");
        let correction =
            Chain::new(vec![part], 1.0)?.correction(celsius(20.0), &at(&[("part", 120.0, 0.0)]))?;
        close(
            correction.standard_uncertainty_mm(),
            correction.change.mm() * 0.05 / 3.0_f64.sqrt(),
            1e-12,
        );
    }
    Ok(())
}
