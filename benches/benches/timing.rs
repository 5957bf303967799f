//! Times of ignition timing. `cargo xtask bench` prints them beside numpy and scipy.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]

use divan::{Bencher, black_box};
use lashwork::ignition::timing::{
    AboveLast, CentrifugalCurve, CrankPoint, CurveFit, CurveReadings, Hose, LampDelay,
    PrintedTiming, Running, StrobeColumns, Taken, TimingReading, judge_strobe_columns,
};
use lashwork::quantity::{Advance, CrankAngle, CrankSpeed};
use lashwork::tolerance::{HasLimits, Uncertainty};

fn main() {
    divan::main();
}

const ROWS: u32 = 10_000;

/// Rises in two straight lines and ends, two degrees wide throughout.
fn curve() -> CentrifugalCurve {
    let points = [
        (600.0, 0.0, 2.0),
        (1600.0, 12.0, 14.0),
        (2600.0, 20.0, 22.0),
    ];
    let points = points.map(|(speed, least, most)| CrankPoint {
        speed: CrankSpeed::from_rpm(speed).expect("a speed"),
        least: CrankAngle::from_degrees(least).expect("an advance"),
        most: CrankAngle::from_degrees(most).expect("an advance"),
    });
    CentrifugalCurve::at_crank(&points, AboveLast::Ends).expect("a curve")
}

fn book(curve: &CentrifugalCurve) -> PrintedTiming<'_> {
    let limits = "8 deg BTDC to 12 deg BTDC".parse().expect("limits");
    PrintedTiming::new(limits, Taken::Standing, Some(curve), None).expect("a book")
}

fn reading(rpm: f64, read: f64) -> TimingReading {
    let speed = CrankSpeed::from_rpm(rpm).expect("a speed");
    TimingReading {
        read: Advance::from_degrees_before(read).expect("a point"),
        u: Uncertainty::from_number(0.5).expect("an uncertainty"),
        taken: Taken::Running(Running::at(speed, Hose::Plugged)),
        lamp: LampDelay::NONE,
    }
}

/// Speeds from 700 to 3700, points from 4 degrees late to 4 early, both spread over the rows.
fn columns(curve: &CentrifugalCurve) -> [Vec<f64>; 3] {
    let share = |row: u32, step: u32| f64::from(row * step % ROWS) / f64::from(ROWS);
    let rpm: Vec<f64> = (0..ROWS)
        .map(|row| 700.0 + 3000.0 * share(row, 37))
        .collect();
    let middle = |rpm: f64| {
        let at = curve.at(CrankSpeed::from_rpm(rpm).expect("a speed"));
        let at = at.expect("an advance");
        f64::midpoint(at.least.degrees(), at.most.degrees())
    };
    let read = (0..ROWS).zip(&rpm);
    let read = read.map(|(row, rpm)| 6.0 + 8.0 * share(row, 61) + middle(*rpm));
    [read.collect(), rpm, vec![0.5; ROWS as usize]]
}

#[divan::bench]
fn one_timing_verdict(bencher: Bencher<'_, '_>) {
    let curve = curve();
    let (book, reading) = (book(&curve), reading(1300.0, 21.0));
    let rule = Advance::USUAL_RULE;
    book.found(&reading, &rule).expect("a verdict");
    bencher.bench(|| black_box(&book).found(black_box(&reading), &rule));
}

#[divan::bench]
fn one_curve_fit(bencher: Bencher<'_, '_>) {
    let curve = curve();
    let book = book(&curve);
    let speeds = [650.0, 900.0, 1200.0, 1500.0, 2000.0, 2700.0, 3000.0];
    let shown = [9.1, 13.9, 18.2, 22.0, 27.3, 30.8, 31.2];
    let read: Vec<_> = speeds
        .into_iter()
        .zip(shown)
        .map(|(n, a)| reading(n, a))
        .collect();
    let fit = |read: &[TimingReading]| CurveFit::new(&CurveReadings::new(&book, read)?);
    fit(&read).expect("a fit");
    bencher.bench(|| fit(black_box(&read)));
}

#[divan::bench]
fn ten_thousand_timings(bencher: Bencher<'_, '_>) {
    let curve = curve();
    let (book, [read, rpm, u]) = (book(&curve), columns(&curve));
    let columns = StrobeColumns {
        read: &read,
        rpm: &rpm,
        u: &u,
        speed_u: 50.0,
        hose: Hose::Plugged,
        lamp: LampDelay::NONE,
    };
    let rule = Advance::USUAL_RULE;
    let mut found = Vec::with_capacity(ROWS as usize);
    bencher.bench_local(|| {
        found.clear();
        judge_strobe_columns(&book, black_box(&columns), &rule, |_, row, why| {
            found.push((*row, why.is_some()));
        })
    });
    assert!(
        found.iter().all(|(_, is_refused)| !is_refused),
        "a refused row"
    );
}
