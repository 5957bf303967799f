//! Thermal expansion against published and hand-computed figures.
//!
//! Marks: SEEN = read in the source or in a public copy of it; CALC, DERIVED = computed
//! from figures that were.

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::quantity::{Lash, Temperature};
use lashwork::thermal::{LashCoefficient, ThermalError, material, materials};
use lashwork_tests::values::{celsius, kelvin, table};

/// Growth in millimetres of a part of `mm` at 20 C.
fn growth(name: &str, mm: f64, from: f64, to: f64) -> Result<f64, ThermalError> {
    Ok(mm * table(name).strain(celsius(from), celsius(to))?)
}

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert_abs_diff_eq!(got, want, epsilon = within);
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
fn between_two_points_of_a_curve_the_mean_is_interpolated() -> Result<(), ThermalError> {
    // 200 C lies midway between 15.5 (100 C) and 17.5 (300 C): 100 mm * 16.5e-6 * 180 K.
    close(
        growth("valve steel X53CrMnNiNbN21-9", 100.0, 20.0, 200.0)?,
        0.297,
        1e-12,
    );
    // Below the first point its mean stays: 100 mm * 15.5e-6 * 40 K.
    close(
        growth("valve steel X53CrMnNiNbN21-9", 100.0, 20.0, 60.0)?,
        0.062,
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
fn cold_setting_from_a_hot_figure() -> Result<(), Box<dyn std::error::Error>> {
    // Cam maker's chart (SEEN): cold = hot +0.002 in (iron/iron), -0.006 (iron/aluminium), -0.012
    // (all aluminium); hot 0.026 in becomes 0.028 / 0.020 / 0.014 in (DERIVED).
    for (opens_thou, cold_thou) in [(-2.0, 28.0), (6.0, 20.0), (12.0, 14.0)] {
        let coefficient = LashCoefficient::new(opens_thou * 0.0254 / 75.0, 0.0, None)?;
        let correction = coefficient.correction(celsius(95.0), kelvin(0.0), celsius(20.0))?;
        let cold = correction.apply(Lash::parse("26 thou")?)?;
        close(cold.thou(), cold_thou, 1e-9);
    }
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
