//! Cranking compression against drawn and listed cases (data: `tests/oracles/condition_rules.json`,
//! `condition_expected.json`, `condition_row.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a case that is not as written is a broken test"
)]

use super::read::{about, crank, kpa};
use lashwork::condition::compression::{
    BuildUp, CompressionCause, CompressionRule, CompressionTest, Cranking, CylinderReading,
    Exponent, HeadRows,
};
use lashwork::engine::{CompressionRatio, CylinderLabel};
use lashwork::quantity::{GaugePressure, PressureDifference};
use lashwork::tolerance::Uncertainty;
use lashwork_tests::{Differences, list, number, numbers, oracle, text};

fn reading(i: usize, shown: f64) -> CylinderReading {
    CylinderReading::dry(CylinderLabel::numbered(i + 1), kpa(shown))
}

#[test]
fn rules_over_the_scatter() {
    let mut differences = Differences::default();
    for case in oracle("condition_rules") {
        let u = |key: &str| Some(Uncertainty::from_number(number(&case, key)).unwrap());
        let shown = numbers(&case, "shown");
        let most = PressureDifference::from_kilopascals(number(&case, "most")).unwrap();
        let test = CompressionTest {
            readings: shown
                .iter()
                .enumerate()
                .map(|(i, p)| reading(i, *p))
                .collect(),
            rules: vec![
                CompressionRule::ratio(number(&case, "percent")).unwrap(),
                CompressionRule::difference(most).unwrap(),
                CompressionRule::minimum(kpa(number(&case, "least"))).unwrap(),
            ],
            repeat: u("repeat"),
            gauge: u("common"),
            ..CompressionTest::default()
        };
        let answer = test.weighed().unwrap();
        for (rule, key) in answer.rules.iter().zip(["ratio", "difference", "minimum"]) {
            let place = format!("{} {key}", text(&case, "id"));
            let got = rule.engine.probabilities.in_band.least;
            // Two million draws leave 0.0004 of standard deviation.
            differences.compare(&place, got, number(&case, key), 0.0015, 0.0);
            if key != "minimum" {
                let each = numbers(&case, &format!("{key}_each"));
                for (one, want) in rule.cylinders.iter().zip(each) {
                    let got = one.probabilities.in_band.least;
                    differences.compare(&place, got, want, 1e-9, 0.0);
                }
            }
        }
    }
    differences.settle();
}

#[test]
fn expected_pressure_and_exponent() {
    let mut differences = Differences::default();
    for case in oracle("condition_expected") {
        let n = |key: &str| number(&case, key);
        let engine = Cranking {
            ratio: CompressionRatio::new(n("ratio")).unwrap(),
            ratio_u: n("ratio_u"),
            crank: Some(crank(n("stroke"), n("rod"))),
            intake_closes_abdc: Some(about(n("closes"), n("closes_u"))),
            air: Some(about(n("air"), n("air_u"))),
        };
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let exponent = Exponent::between(n("low"), n("high")).unwrap();
        let expected = engine.expected(exponent).unwrap();
        let end = |end: Option<GaugePressure>| end.unwrap().kilopascals();
        let ratio = engine.effective_ratio().unwrap();
        differences.compare(&place("ratio"), ratio, n("effective"), 0.0, 1e-12);
        differences.compare(&place("from"), end(expected.low()), n("from"), 0.0, 1e-12);
        differences.compare(&place("to"), end(expected.high()), n("to"), 0.0, 1e-12);
        // Slopes at the middle: the formula bends a little over the draws.
        let u = expected.standard_uncertainty().unwrap().number();
        differences.compare(&place("u"), u, n("u"), 0.0, 0.02);
        let shown = about(n("shown"), n("shown_u"));
        let (got, got_u) = engine.implied(&shown).unwrap();
        differences.compare(&place("exponent"), got, n("exponent"), 0.0, 1e-12);
        differences.compare(&place("exponent u"), got_u, n("exponent_u"), 0.0, 0.02);
    }
    differences.settle();
}

#[test]
fn causes_along_a_row() {
    let mut differences = Differences::default();
    for case in oracle("condition_row") {
        let figure = |value: &serde_json::Value| value.as_str().map(|t| t.parse::<f64>().unwrap());
        let mut readings = Vec::new();
        for (i, row) in list(&case, "readings").iter().enumerate() {
            readings.push(CylinderReading {
                wet: figure(&row[1]).map(kpa),
                build_up: row[2]
                    .as_str()
                    .map(|at| BuildUp::ALL[at.parse::<usize>().unwrap()]),
                ..reading(i, figure(&row[0]).unwrap())
            });
        }
        let labels = readings.iter().map(|r| r.cylinder.clone()).collect();
        let test = CompressionTest {
            readings,
            rows: HeadRows::new(vec![labels]).unwrap(),
            ..CompressionTest::default()
        };
        let answer = test.weighed().unwrap();
        for (cylinder, want) in answer.cylinders.iter().zip(list(&case, "cylinders")) {
            for (at, cause) in CompressionCause::ALL.iter().enumerate() {
                let Some(got) = cylinder.causes.iter().find(|w| w.cause == *cause) else {
                    continue;
                };
                let place = format!("{} {} {cause:?}", text(&case, "id"), cylinder.cylinder);
                differences.compare(
                    &place,
                    got.probability,
                    figure(&want[at]).unwrap(),
                    1e-9,
                    0.0,
                );
            }
        }
        for (gasket, want) in answer.gaskets.iter().zip(numbers(&case, "gaskets")) {
            let place = format!("{} gasket after {}", text(&case, "id"), gasket.first);
            differences.compare(&place, gasket.probability, want, 1e-9, 0.0);
        }
    }
    differences.settle();
}
