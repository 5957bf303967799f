//! Quantities against published figures.
#![allow(
    clippy::float_cmp,
    reason = "these figures must come out as the nearest f64 of the published decimal"
)]

use approx::assert_abs_diff_eq;
use lashwork::quantity::{Length, LengthUnit, Marked, Nominal, Temperature, TemperatureDifference};

const MM: LengthUnit = LengthUnit::Millimetre;

fn held(text: &str) -> i64 {
    Marked::parse(text).map_or(i64::MIN, |mark| mark.nominal().nanometres())
}

fn shown(nanometres: i64, decimals: u32) -> String {
    Nominal::from_nanometres(nanometres).map_or_else(
        |error| error.to_string(),
        |nominal| nominal.show(MM, decimals),
    )
}

/// 1 in = 25.4 mm exactly: 24 FR 5348 (1959).
#[test]
fn inch_and_millimetre() {
    // 0.006 in = 381/2500 mm
    assert_eq!(held("0.006 in"), 152_400);
    assert_eq!(Length::parse("0.006 in").unwrap().mm(), 0.1524);
    // 0.15 mm = 3/508 in
    let inches = Length::parse("0.15 mm").unwrap().thou() / 1000.0;
    assert_abs_diff_eq!(inches, 3.0 / 508.0, epsilon = 1e-17);
    // 1 thou = 25.4 um
    assert_eq!(held("1 thou"), 25_400);
    // 0.0015 in = 38.1 um, the same mark in each unit
    for same in ["0.0015 in", "1.5 thou", "38.1 um", "38,1 µm", "0.0381 mm"] {
        assert_eq!(held(same), 38_100, "{same}");
    }
    // The finest mark in use, a tenth of a thou, is whole nanometres.
    assert_eq!(held("0.0001 in"), 2_540);
}

/// 0 C = 273.15 K, 1 F = 5/9 K and 32 F = 0 C: NIST SP 811 B.8.
#[test]
fn temperature_scales() {
    let celsius = |text: &str| Temperature::parse(text).unwrap().celsius();
    // The last place of some hundred kelvin, through which a temperature passes.
    let rounding = 1e-13;
    assert_abs_diff_eq!(celsius("180 F"), 740.0 / 9.0, epsilon = rounding);
    assert_abs_diff_eq!(celsius("-40 F"), -40.0, epsilon = rounding);
    assert_abs_diff_eq!(celsius("98.6 F") + 273.15, 310.15, epsilon = rounding);
    let fahrenheit = Temperature::parse("20 C").unwrap().fahrenheit();
    assert_abs_diff_eq!(fahrenheit, 68.0, epsilon = 2.0 * rounding);
}

/// A coefficient per degree Fahrenheit is 9/5 as large per degree Celsius (11.5e-6 becomes 20.7e-6),
/// because an amount of 1 F is 5/9 K. The point 1 F is another thing: -155/9 C.
#[test]
fn a_difference_is_not_a_point() {
    let amount = TemperatureDifference::parse("1 F").unwrap().kelvin();
    assert_abs_diff_eq!(11.5e-6 / amount, 20.7e-6, epsilon = 1e-19);
    let point = Temperature::parse("1 F").unwrap().celsius();
    assert_abs_diff_eq!(point, -155.0 / 9.0, epsilon = 1e-13);
}

/// NIST PS 20-20, table 3: inch sizes of lumber in whole millimetres, a tie to the even digit.
#[test]
fn sizes_in_whole_millimetres() {
    for (inches, millimetres) in [
        ("0.625 in", "16 mm"),
        ("0.75 in", "19 mm"),
        ("1 in", "25 mm"),
        ("1.5 in", "38 mm"),
        ("2.5 in", "64 mm"),
        ("3.5 in", "89 mm"),
        ("7.25 in", "184 mm"),
        ("7.5 in", "190 mm"),
        ("11.25 in", "286 mm"),
        ("15.5 in", "394 mm"),
    ] {
        assert_eq!(shown(held(inches), 0), millimetres, "{inches}");
    }
}

/// NIST SP 811:2008 B.7.1: 6.974 951 5 to seven digits is 6.974 952, 6.974 950 5 is 6.974 950 (half
/// up would give 6.974 951). Ten times larger here, so that the last digit is a whole nanometre.
#[test]
fn a_tie_goes_to_the_even_digit() {
    assert_eq!(shown(69_749_515, 5), "69.74952 mm");
    assert_eq!(shown(69_749_505, 5), "69.74950 mm");
    assert_eq!(shown(-69_749_505, 5), "-69.74950 mm");
    // The other rows of B.7.1: three, two and five digits; a trailing zero is kept.
    assert_eq!(shown(69_749_515, 1), "69.7 mm");
    assert_eq!(shown(69_749_515, 0), "70 mm");
    assert_eq!(shown(69_749_515, 3), "69.750 mm");
    // ASME A112.18.1, annex: 1.655000 becomes 1.66, 1.625000 becomes 1.62.
    assert_eq!(shown(1_655_000, 2), "1.66 mm");
    assert_eq!(shown(1_625_000, 2), "1.62 mm");
}

/// Decimals that f64 rounds the wrong way: 2.675 is stored a little low, 0.0585 a little high.
#[test]
fn decimals_that_binary_loses() {
    assert_eq!(shown(held("2.675 mm"), 2), "2.68 mm");
    assert_eq!(shown(held("0.0585 mm"), 3), "0.058 mm");
    assert_eq!(shown(held("-0.125 mm"), 2), "-0.12 mm");
}

/// Through f64 metres 126 of these 1001 marks do not come back.
#[test]
fn every_hundredth_of_a_millimetre_comes_back() {
    for hundredths in 0..=1000_i32 {
        let typed = format!("{}.{:02} mm", hundredths / 100, hundredths % 100);
        let mark = Marked::parse(&typed).unwrap();
        assert_eq!(mark.to_string(), typed);
        assert_eq!(mark.nominal().nanometres(), i64::from(hundredths) * 10_000);
        assert_eq!(mark.mm(), f64::from(hundredths) / 100.0);
        let length = Length::from_nominal(mark.nominal()).unwrap();
        assert_eq!(length.mm(), mark.mm());
        assert_eq!(length.show(MM, 2), typed);
    }
}

#[test]
fn every_half_thou_comes_back() {
    for halves in 0..=1000_i64 {
        let typed = format!("{}.{} thou", halves / 2, halves % 2 * 5);
        let mark = Marked::parse(&typed).unwrap();
        assert_eq!(mark.to_string(), typed);
        assert_eq!(mark.nominal().nanometres(), halves * 12_700);
        let length = Length::from_nominal(mark.nominal()).unwrap();
        assert_eq!(length.show(LengthUnit::Thou, 1), typed);
        // The same mark in inches, four decimals.
        let inches = mark.nominal().show(LengthUnit::Inch, 4);
        assert_eq!(Marked::parse(&inches).unwrap().nominal(), mark.nominal());
    }
}
