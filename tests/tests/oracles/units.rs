//! Unit conversions against exact fractions (data: `tests/oracles/units.json`, checked with pint).

use lashwork::quantity::{Length, LengthUnit, Marked, Temperature, TemperatureDifference};
use lashwork_tests::{Differences, number, oracle, text};

/// Two roundings of the conversion (to millimetres and from there): a few units in the last place.
const ROUNDING: f64 = 4.0 * f64::EPSILON;
/// Temperatures pass through kelvin: the last place of some hundred kelvin, in degrees Fahrenheit.
const ROUNDING_DEGREES: f64 = 5e-13;

#[test]
fn lengths() {
    let mut differences = Differences::default();
    for case in oracle("units") {
        if text(&case, "kind") != "length" {
            continue;
        }
        let (id, want) = (text(&case, "id"), number(&case, "value"));
        let length = Length::parse(text(&case, "text")).unwrap();
        let got = match text(&case, "to") {
            "mm" => length.mm(),
            "um" => length.mm() * 1000.0,
            "thou" => length.thou(),
            "in" => length.thou() / 1000.0,
            other => panic!("{id}: unit {other}"),
        };
        differences.compare(id, got, want, 0.0, ROUNDING);
    }
    differences.settle();
}

/// What is typed in a unit of length is held without any error at all.
#[test]
fn exact_lengths() {
    let mut ran = 0;
    for case in oracle("units") {
        if text(&case, "kind") != "length" || text(&case, "to") != "mm" {
            continue;
        }
        let fraction = text(&case, "fraction");
        let (above, below) = fraction.split_once('/').unwrap_or((fraction, "1"));
        let (above, below): (i128, i128) = (above.parse().unwrap(), below.parse().unwrap());
        let held = Marked::parse(text(&case, "text")).unwrap().nominal();
        // nanometres = 10^6 x above / below, multiplied out so that nothing is rounded.
        assert_eq!(
            i128::from(held.nanometres()) * below,
            above * i128::from(LengthUnit::Millimetre.nanometres()),
            "{case}"
        );
        ran += 1;
    }
    assert!(ran > 0);
}

#[test]
fn temperatures() {
    let absolute_zero = Temperature::from_celsius(-273.15).unwrap();
    let mut differences = Differences::default();
    for case in oracle("units") {
        let (id, written) = (text(&case, "id"), text(&case, "text"));
        let got = match (text(&case, "kind"), text(&case, "to")) {
            ("temperature", "C") => Temperature::parse(written).unwrap().celsius(),
            ("temperature", "F") => Temperature::parse(written).unwrap().fahrenheit(),
            ("temperature", "K") => (Temperature::parse(written).unwrap() - absolute_zero).kelvin(),
            ("difference", "K") => TemperatureDifference::parse(written).unwrap().kelvin(),
            _ => continue,
        };
        differences.compare(id, got, number(&case, "value"), ROUNDING_DEGREES, 0.0);
    }
    differences.settle();
}
