//! Times of past services and leaks. `cargo xtask bench` prints them beside numpy, scipy and statsmodels.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]

use divan::{Bencher, black_box};
use lashwork::condition::leak::{LeakColumns, Tester, leak_columns};
use lashwork::history::{
    CountedBy, DriftChoice, DriftRow, HistoryError, PastReadings, drift_columns,
};
use lashwork::quantity::{GaugePressure, Lash, Length};
use lashwork::tolerance::{Estimate, HasLimits, Uncertainty};
use std::fmt::Write as _;

fn main() {
    divan::main();
}

const ROWS: u32 = 10_000;
const SERVICES: u32 = 20;

/// From one number to another, spread over the rows.
fn spread(row: u32, step: u32, from: f64, to: f64) -> f64 {
    from + (to - from) * f64::from(row * step % ROWS) / f64::from(ROWS)
}

/// What a valve is found at: it closes by 0.02 to 0.1 micrometres an hour, and readings scatter.
fn gap(valve: u32, service: u32) -> f64 {
    let hours = 50.0 * f64::from(service);
    let scatter = spread(valve * 7 + service * 613, 37, -0.004, 0.004);
    0.36 - spread(valve, 61, 1e-4, 5e-4) * hours / 5.0 + scatter
}

/// Columns of all valves: when, the gap, its uncertainty, the valve.
fn columns() -> (Vec<f64>, Vec<f64>, Vec<f64>, Vec<u32>) {
    let (mut at, mut mm, mut valves) = (Vec::new(), Vec::new(), Vec::new());
    for valve in 0..ROWS {
        for service in 0..SERVICES {
            at.push(50.0 * f64::from(service));
            mm.push(gap(valve, service));
            valves.push(valve);
        }
    }
    let u = vec![0.003; at.len()];
    (at, mm, u, valves)
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn ten_thousand_drifts(bencher: Bencher<'_, '_>) {
    let (at, mm, u, valves) = columns();
    let readings = PastReadings {
        by: CountedBy::Hours,
        at: &at,
        low: &mm,
        high: &mm,
        u: &u,
        subject: Some(&valves),
        state: None,
    };
    let limits = "0.13 mm to 0.40 mm".parse().expect("limits");
    let (rule, choice) = (Lash::USUAL_RULE, DriftChoice::<Lash>::default());
    let mut found = Vec::with_capacity(ROWS as usize);
    bencher.bench_local(|| {
        found.clear();
        let write = |_, row: &DriftRow, why: Option<HistoryError>| {
            found.push((*row, why.is_some()));
        };
        drift_columns(
            black_box(&readings),
            ROWS as usize,
            &limits,
            &rule,
            &choice,
            write,
        )
    });
    let refused = found.iter().filter(|(_, is_refused)| *is_refused).count();
    assert_eq!(refused, 0, "refused rows");
}

#[divan::bench]
fn ten_thousand_leaks(bencher: Bencher<'_, '_>) {
    let shown: Vec<f64> = (0..ROWS).map(|row| spread(row, 37, 30.0, 545.0)).collect();
    let air: Vec<f64> = (0..ROWS).map(|row| spread(row, 61, 80.0, 104.0)).collect();
    let supply = GaugePressure::from_kilopascals(551.58).expect("a supply");
    let u = Uncertainty::from_number(3.0).expect("an uncertainty");
    let supply = Estimate::between(supply, supply, u).expect("a supply");
    let mm = |mm| Length::from_mm(mm).expect("a length");
    let columns = LeakColumns {
        tester: Tester::of_diameter(supply, mm(1.016), mm(0.01)).expect("a tester"),
        shown: &shown,
        air: &air,
        shown_u: Uncertainty::from_number(4.0).expect("an uncertainty"),
        air_u: Uncertainty::from_number(0.5).expect("an uncertainty"),
    };
    let mut found = Vec::with_capacity(ROWS as usize);
    bencher.bench_local(|| {
        found.clear();
        leak_columns(black_box(&columns), |_, row, why| {
            found.push((*row, why.is_some()));
        })
    });
    let refused = found.iter().filter(|(_, is_refused)| *is_refused).count();
    assert_eq!(refused, 0, "refused rows");
}

/// A document of an invented eight with sixteen valves; `reading` writes one.
fn document(reading: impl Fn(f64) -> String) -> String {
    let labels = (1..=8).map(|label| format!("{{ \"label\": \"{label}\" }}"));
    let labels = labels.collect::<Vec<_>>().join(", ");
    let mut text = format!(
        "{{ \"engine\": {{ \"cycle\": \"four_stroke\", \"cylinders\": [{labels}],
          \"firing_order\": [\"1\", \"6\", \"2\", \"5\", \"8\", \"3\", \"7\", \"4\"], \"firing\": \"even\",
          \"rotation\": {{ \"sense\": \"clockwise\", \"seen_from\": \"free_end\" }}, \"numbering\": \"free_end\" }},
          \"history\": {{ \"services\": ["
    );
    for service in 0..SERVICES {
        let comma = if service == 0 { "" } else { "," };
        let hours = 50 * service;
        let _ = write!(text, "{comma}{{ \"hours\": \"{hours} h\", \"lash\": [");
        for valve in 0..16 {
            let (kind, cylinder) = (["intake", "exhaust"], valve / 2 + 1);
            let comma = if valve == 0 { "" } else { "," };
            let kind = if valve % 2 == 0 { kind[0] } else { kind[1] };
            let read = reading(gap(valve * 613, service));
            let _ = write!(
                text,
                "{comma}{{ \"cylinder\": \"{cylinder}\", \"valve\": \"{kind}\", \"found\": {read} }}"
            );
        }
        text.push_str("] }");
    }
    text.push_str("] } }");
    text
}

fn reported(bencher: Bencher<'_, '_>, document: &str) {
    let report = lashwork_wire::report(document.as_bytes());
    let history = report.expect("a report").history.expect("asked for");
    let lash = history.lash.expect("valves were read");
    assert!(lash.kinds.iter().all(|kind| kind.rate.is_some()), "no rate");
    bencher.bench(|| lashwork_wire::report(black_box(document.as_bytes())));
}

/// Twenty services of sixteen valves, each read as a number, from the document to the report.
#[divan::bench(sample_count = 20, sample_size = 1)]
fn one_record_of_numbers(bencher: Bencher<'_, '_>) {
    let number = |mm: f64| format!("{{ \"lash\": \"{mm:.4} mm\", \"uncertainty\": \"0.003 mm\" }}");
    reported(bencher, &document(number));
}

/// The same, each between two leaves.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn one_record_of_leaves(bencher: Bencher<'_, '_>) {
    let leaves = |mm: f64| {
        let goes = 0.02 * (mm / 0.02).floor();
        let refuses = goes + 0.02;
        format!("{{ \"goes\": \"{goes:.2} mm\", \"refuses\": \"{refuses:.2} mm\" }}")
    };
    reported(bencher, &document(leaves));
}
