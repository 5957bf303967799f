//! Thermal expansion against published and hand-computed figures.
//!
//! Marks: SEEN = read in the source or in a public transcription of it; CALC, DERIVED = computed
//! from figures that were.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use lashwork::quantity::{Lash, Length, Temperature, TemperatureDifference};
use lashwork::thermal::{
    Chain, Effect, Expansion, Follows, LashCoefficient, Link, Material, PartTemperatures, Side,
    ThermalError, fit_coefficient, material, materials, straight_line,
};

fn celsius(c: f64) -> Temperature {
    Temperature::from_celsius(c).unwrap()
}

fn kelvin(k: f64) -> TemperatureDifference {
    TemperatureDifference::from_kelvin(k).unwrap()
}

fn table(name: &str) -> Material {
    material(name).unwrap().clone()
}

/// Growth in millimetres of a part of `mm` at 20 C.
fn growth(name: &str, mm: f64, from: f64, to: f64) -> Result<f64, ThermalError> {
    Ok(mm * table(name).strain(celsius(from), celsius(to))?)
}

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
        .map(|(name, c, u)| ((*name).into(), (celsius(*c), kelvin(*u))))
        .collect()
}

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "got {got}, want {want}");
}

#[test]
fn steel_grows_575_nm_on_50_mm_for_a_kelvin() -> Result<(), ThermalError> {
    // JCGM 100:2008 H.1: 575 nm for a degree (SEEN).
    close(growth("gauge steel", 50.0, 20.0, 21.0)?, 0.000_575, 1e-14);
    // 25.000 mm at 35 C brought to 20 C, linear: 24.9956875 mm (CALC).
    close(
        25.0 + growth("gauge steel", 25.0, 35.0, 20.0)?,
        24.995_687_5,
        1e-12,
    );
    Ok(())
}

#[test]
fn room_temperature_coefficients_over_60_kelvin() -> Result<(), ThermalError> {
    // 300 mm over 60 K in micrometres (CALC from Callister table B.6, SEEN).
    for (name, micrometres) in [
        ("grey iron", 205.2),
        ("aluminium 356", 387.0),
        ("magnesium AZ91D", 468.0),
        ("titanium Ti-6Al-4V", 154.8),
        ("bronze C93200", 324.0),
    ] {
        close(growth(name, 300.0, 20.0, 80.0)? * 1000.0, micrometres, 1e-9);
    }
    // Aluminium 110 mm minus steel 110 mm over 80 K: 88.0 micrometres (CALC).
    let gap =
        growth("aluminium 356", 110.0, 20.0, 100.0)? - growth("gauge steel", 110.0, 20.0, 100.0)?;
    close(gap, 0.088, 1e-12);
    Ok(())
}

#[test]
fn valve_of_100_mm_by_the_mean_coefficients_of_its_steel() -> Result<(), ThermalError> {
    // EN 10090:1998 means (SEEN), growth CALC.
    for (to, mm) in [
        (100.0, 0.124),
        (300.0, 0.490),
        (500.0, 0.888),
        (700.0, 1.2784),
    ] {
        close(
            growth("valve steel X53CrMnNiNbN21-9", 100.0, 20.0, to)?,
            mm,
            1e-12,
        );
    }
    Ok(())
}

#[test]
fn a_mean_from_20_is_not_the_coefficient_of_a_later_range() -> Result<(), ThermalError> {
    // 0.888 - 0.490 = 0.398 mm (CALC); the mean to 500 C taken for 300 to 500 C gives 0.370.
    close(
        growth("valve steel X53CrMnNiNbN21-9", 100.0, 300.0, 500.0)?,
        0.398,
        1e-12,
    );
    Ok(())
}

#[test]
fn carbon_steel_gives_the_printed_total_expansion() -> Result<(), ThermalError> {
    // ASME BPVC II-D (2001) table TE-1 column C, inches per 100 ft from 70 F (SEEN); the column is
    // printed to 0.1 and was rounded from more digits than column B, so within 0.07.
    let steel = table("carbon steel");
    let from = Temperature::parse("70 F")?;
    for (fahrenheit, inches) in [
        (200, 1.0),
        (300, 1.9),
        (400, 2.8),
        (500, 3.7),
        (600, 4.7),
        (700, 5.7),
    ] {
        let to = Temperature::parse(&format!("{fahrenheit} F"))?;
        close(steel.strain(from, to)? * 1200.0, inches, 0.07);
    }
    // CALC from column B: 6.7e-6 * 130 * 1200 and 7.6e-6 * 630 * 1200.
    close(
        steel.strain(from, Temperature::parse("200 F")?)? * 1200.0,
        1.0452,
        1e-9,
    );
    close(
        steel.strain(from, Temperature::parse("700 F")?)? * 1200.0,
        5.7456,
        1e-9,
    );
    Ok(())
}

#[test]
fn carbon_steel_slope_lies_near_the_printed_instantaneous_column() -> Result<(), ThermalError> {
    // Column A, per degree F (SEEN); column B is printed to 0.1, its slope is off by more.
    let steel = table("carbon steel");
    for (fahrenheit, millionths) in [
        (200, 6.9),
        (300, 7.3),
        (400, 7.7),
        (500, 8.0),
        (600, 8.4),
        (700, 8.6),
    ] {
        let here = Temperature::parse(&format!("{fahrenheit} F"))?;
        close(steel.instantaneous(here)? / 1.8 * 1e6, millionths, 0.6);
    }
    Ok(())
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
fn cold_setting_from_a_hot_figure() -> Result<(), Box<dyn std::error::Error>> {
    // Cam maker's chart (SEEN): cold = hot +0.002 in (iron/iron), -0.006 (iron/aluminium), -0.012
    // (all aluminium); hot 0.026 in becomes 0.028 / 0.020 / 0.014 in (DERIVED).
    for (opens_thou, cold_thou) in [(-2.0, 28.0), (6.0, 20.0), (12.0, 14.0)] {
        let coefficient = LashCoefficient {
            mm_per_kelvin: opens_thou * 0.0254 / 75.0,
            standard_uncertainty: 0.0,
            degrees_of_freedom: None,
        };
        let correction = coefficient.correction(celsius(95.0), kelvin(0.0), celsius(20.0))?;
        let cold = correction.apply(Lash::parse("26 thou")?)?;
        close(cold.thou(), cold_thou, 1e-9);
    }
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
fn every_material_names_its_source_and_is_found_by_its_name() {
    for entry in materials() {
        assert!(entry.source.len() > 10, "{}", entry.name);
        assert_eq!(material(&entry.name.to_uppercase()), Some(entry));
        assert!(
            entry.strain(celsius(20.0), celsius(100.0)).unwrap() > 0.0,
            "{}",
            entry.name
        );
        assert!(
            entry.strain(celsius(20.0), celsius(-40.0)).unwrap() < 0.0,
            "{}",
            entry.name
        );
        assert_eq!(
            entry
                .strain(celsius(20.0), celsius(-41.0))
                .unwrap_err()
                .code(),
            "thermal.outside-curve"
        );
        assert!(entry.strain(celsius(20.0), celsius(1200.0)).is_err());
    }
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
        (straight_line(&[1.0], &[], &[]).err(), "thermal.bad-points"),
        (
            straight_line(&[1.0, f64::NAN], &[1.0, 2.0], &[1.0, 1.0]).err(),
            "thermal.bad-points",
        ),
    ];
    for (error, code) in refused {
        let error = error.unwrap();
        assert_eq!(error.code(), code);
        assert!(!error.hint().is_empty() && !error.to_string().is_empty());
    }
}
