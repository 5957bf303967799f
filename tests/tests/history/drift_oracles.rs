//! Drifts against dense restricted likelihood and sums over grids, by numpy and scipy (data:
//! `tests/oracles/history_drift.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::make::{Plain, between, fitted, record, service};
use lashwork::history::{Drift, DriftChoice, Figure, Reset, Visit};
use lashwork::tolerance::Uncertainty;
use lashwork_tests::{list, number, numbers, oracle, text};
use serde_json::Value;

/// Both sum over scatter and spread, on different grids; as a share of the width of the interval.
const SUMS: f64 = 0.02;
/// Agreement of moments is not the whole distribution: intervals may be this much too wide at an end, as a share of
/// their width, but hardly too narrow.
const TOO_WIDE: f64 = 0.13;
const TOO_NARROW: f64 = 0.03;

struct Off(Vec<String>);

impl Off {
    fn compare(&mut self, what: &str, got: Figure, wanted: &[f64], (wide, narrow): (f64, f64)) {
        let width = wanted[2] - wanted[0];
        for (end, got, wanted, below, above) in [
            ("low", got.low, wanted[0], wide, narrow),
            ("middle", got.value, wanted[1], 0.5 * wide, 0.5 * wide),
            ("high", got.high, wanted[2], narrow, wide),
        ] {
            let off = (got - wanted) / width;
            if off < -below || off > above {
                self.0.push(format!(
                    "{what}, {end}: {got} is off {wanted} by {off:.4} widths"
                ));
            }
        }
    }
}

/// All readings of a pooled case, in the order of time; a reading at the end of a stretch is found there.
fn pooled(case: &Value) -> Drift<Plain> {
    let u = number(case, "u");
    let subjects = list(case, "subjects");
    let mut made = record::<Plain>(subjects.len());
    let mut times: Vec<f64> = Vec::new();
    for stretches in subjects {
        for stretch in stretches.as_array().unwrap() {
            times.extend(numbers(stretch, "x"));
        }
    }
    times.sort_by(f64::total_cmp);
    times.dedup();
    for at in times {
        let mut visits = Vec::new();
        for stretches in subjects {
            let mut visit = Visit::unread();
            for (place, stretch) in stretches.as_array().unwrap().iter().enumerate() {
                let (x, y) = (numbers(stretch, "x"), numbers(stretch, "y"));
                let Some(here) = x.iter().position(|x| (x - at).abs() < 1e-9) else {
                    continue;
                };
                let read = between(y[here], y[here], u);
                if place > 0 && here == 0 {
                    visit = visit.reset(Reset::Set).left(read);
                } else {
                    visit.found = Some(read);
                }
            }
            visits.push(visit);
        }
        made.push(service(at, visits)).unwrap();
    }
    fitted(&made, &DriftChoice::default())
}

fn triple(values: &Value) -> Vec<f64> {
    let values = values.as_array().unwrap().iter();
    values
        .map(|v| v.as_str().unwrap().parse().unwrap())
        .collect()
}

#[test]
fn pooled_drifts_are_those_of_dense_matrices() {
    let (mut off, mut seen) = (Off(Vec::new()), 0);
    for (at, case) in oracle("history_drift").iter().enumerate() {
        if text(case, "what") != "pooled" {
            continue;
        }
        seen += 1;
        let drift = pooled(case);
        off.compare(
            &format!("case {at}, rate"),
            drift.rate(),
            &numbers(case, "rate"),
            (SUMS, SUMS),
        );
        for (subject, _) in drift.subjects() {
            let next = drift
                .predicted(subject, number(case, "at"))
                .unwrap()
                .unwrap();
            let what = format!("case {at}, subject {subject}");
            let wanted = |key: &str| triple(&list(case, key)[subject]);
            off.compare(
                &format!("{what}, line"),
                next.line,
                &wanted("line"),
                (SUMS, SUMS),
            );
            off.compare(
                &format!("{what}, found"),
                next.found,
                &wanted("found"),
                (SUMS, SUMS),
            );
        }
    }
    assert!(seen >= 5, "only {seen} cases");
    assert!(off.0.is_empty(), "{}", off.0.join("\n"));
}

#[test]
fn readings_between_leaves_are_those_of_sums_over_a_grid() {
    let (mut off, mut seen) = (Off(Vec::new()), 0);
    for (at, case) in oracle("history_drift").iter().enumerate() {
        if text(case, "what") != "wide" {
            continue;
        }
        seen += 1;
        let mut made = record::<Plain>(1);
        let ends = numbers(case, "low").into_iter().zip(numbers(case, "high"));
        for (x, (low, high)) in numbers(case, "x").into_iter().zip(ends) {
            let read = between(low, high, number(case, "u"));
            made.push(service(x, vec![Visit::found(read)])).unwrap();
        }
        let scatter = (!case["scatter"].is_null()).then(|| number(case, "scatter"));
        let choice = DriftChoice {
            scatter: scatter.map(|u| Uncertainty::from_number(u).unwrap()),
            ..DriftChoice::default()
        };
        let drift = fitted(&made, &choice);
        let next = drift.predicted(0, number(case, "at")).unwrap().unwrap();
        off.compare(
            &format!("case {at}, rate"),
            drift.rate(),
            &numbers(case, "rate"),
            (TOO_WIDE, TOO_NARROW),
        );
        off.compare(
            &format!("case {at}, line"),
            next.line,
            &numbers(case, "line"),
            (TOO_WIDE, TOO_NARROW),
        );
    }
    assert!(seen >= 5, "only {seen} cases");
    assert!(off.0.is_empty(), "{}", off.0.join("\n"));
}

/// The row of five bracketed readings: the likeliest line (scipy) is within what is stated, and so are the slopes
/// that hard brackets allow (linear programming): none is left out, and what is beyond them is not likely.
#[test]
fn five_brackets() {
    let mut made = record::<Plain>(1);
    for (x, low, high) in [
        (0.0, 0.28, 0.30),
        (5.0, 0.25, 0.28),
        (10.0, 0.25, 0.28),
        (15.0, 0.23, 0.25),
        (20.0, 0.20, 0.23),
    ] {
        made.push(service(x, vec![Visit::found(between(low, high, 0.0))]))
            .unwrap();
    }
    let choice = DriftChoice {
        scatter: Some(Uncertainty::ZERO),
        ..DriftChoice::default()
    };
    let hard = fitted(&made, &choice).rate();
    assert!(hard.low > -0.004_666_67 && hard.high < -0.0025, "{hard:?}");
    assert!(
        hard.high - hard.low > 0.3 * (0.004_666_67 - 0.0025),
        "{hard:?}"
    );
    assert!(
        hard.low < -0.003_412_4 && hard.high > -0.003_412_4,
        "{hard:?}"
    );
}
