//! Columns of readings, each with limits, temperature and coefficient of its own: the loop a Rust program would
//! write, the column judge, through C, and by two threads. `cargo xtask bench` prints the ratios.
#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a benchmark panics with the reason if its set-up fails"
)]
#![allow(unsafe_code, reason = "C calls are called as C programs call them")]

use divan::{Bencher, black_box};
use lashwork::clearance::{MetalColumns, ReadingColumns, judge_columns};
use lashwork::quantity::{Lash, LengthUnit, Marked, Nominal, Temperature, TemperatureDifference};
use lashwork::thermal::LashCoefficient;
use lashwork::tolerance::{BandJudge, Column, Estimate, HasLimits, Limits, Uncertainty, Verdict};
use lashwork_benches::fleet::{Fleet, SIZES};
use lashwork_c::columns::{lw_judge_columns, lw_judgement_columns, lw_reading_columns};
use lashwork_c::judging::lw_rule;
use lashwork_c::status::lw_status;
use std::ptr::{self, null, null_mut};

fn main() {
    divan::main();
}

/// What a row gives.
struct Out {
    verdict: Vec<u8>,
    provable: Vec<u8>,
    chances: [Vec<f64>; 6],
    ends: [Vec<f64>; 3],
    at_reference: Vec<u8>,
    status: Vec<u32>,
}

impl Out {
    fn of(rows: usize) -> Self {
        Self {
            verdict: vec![0; rows],
            provable: vec![0; rows],
            chances: std::array::from_fn(|_| vec![0.0; rows]),
            ends: std::array::from_fn(|_| vec![0.0; rows]),
            at_reference: vec![0; rows],
            status: vec![0; rows],
        }
    }

    /// From a row on.
    fn columns(&mut self, from: usize, rows: usize) -> lw_judgement_columns {
        let [a, b, c, d, e, f] = self.chances.each_mut().map(|c| c[from..].as_mut_ptr());
        let [low, high, u] = self.ends.each_mut().map(|c| c[from..].as_mut_ptr());
        lw_judgement_columns {
            struct_size: size_of::<lw_judgement_columns>(),
            rows,
            verdict: self.verdict[from..].as_mut_ptr(),
            provable: self.provable[from..].as_mut_ptr(),
            below_least: a,
            below_most: b,
            in_band_least: c,
            in_band_most: d,
            above_least: e,
            above_most: f,
            status: self.status[from..].as_mut_ptr(),
            low_mm: low,
            high_mm: high,
            uncertainty_mm: u,
            at_reference: self.at_reference[from..].as_mut_ptr(),
        }
    }
}

fn readings(fleet: &Fleet, from: usize, rows: usize) -> lw_reading_columns {
    let column = |column: &[f64]| column[from..].as_ptr();
    lw_reading_columns {
        struct_size: size_of::<lw_reading_columns>(),
        rows,
        low_mm: column(&fleet.low),
        high_mm: column(&fleet.high),
        uncertainty_mm: column(&fleet.u),
        lower_mm: column(&fleet.lower),
        upper_mm: column(&fleet.upper),
        at_celsius: column(&fleet.celsius),
        at_uncertainty_kelvin: column(&fleet.kelvin),
        reference_celsius: column(&fleet.reference),
        mm_per_kelvin: column(&fleet.slope),
        mm_per_kelvin_uncertainty: column(&fleet.slope_u),
        warmth: null(),
    }
}

/// Judges a stretch of rows through C.
fn judge_through_c(fleet: &Fleet, out: &lw_judgement_columns, from: usize) {
    let readings = readings(fleet, from, out.rows);
    let rule = lw_rule {
        struct_size: size_of::<lw_rule>(),
        kind: 1,
        reserved: 0,
        below_confidence: 0.0,
        above_confidence: 0.0,
    };
    let judge = black_box(lw_judge_columns as unsafe extern "C" fn(_, _, _, _, _) -> _);
    // SAFETY: all are locals with the rows they state, and nobody wants the error.
    let status = unsafe {
        judge(
            &raw const readings,
            null(),
            &raw const rule,
            ptr::from_ref(out),
            null_mut(),
        )
    };
    assert_eq!(status, lw_status::Ok);
}

/// The loop that a Rust program would write over its own columns, with the same outputs.
#[divan::bench(args = SIZES, sample_count = 20)]
fn fleet_from_rust(bencher: Bencher<'_, '_>, rows: usize) {
    let fleet = Fleet::of(rows);
    let mut out = Out::of(rows);
    let rule = Lash::USUAL_RULE;
    bencher.bench_local(|| {
        for (row, found) in black_box(&fleet).rows().enumerate() {
            let [
                low,
                high,
                u,
                lower,
                upper,
                celsius,
                kelvin,
                reference,
                slope,
                slope_u,
            ] = found;
            let lash = |mm| Lash::from_mm(mm).expect("lash");
            let u = Uncertainty::from_mm(u).expect("uncertainty");
            let read = Estimate::between(lash(low), lash(high), u).expect("estimate");
            let slope = LashCoefficient::new(slope, slope_u, None).expect("whole");
            let at = |celsius| Temperature::from_celsius(celsius).expect("temperature");
            let kelvin = TemperatureDifference::from_kelvin(kelvin).expect("difference");
            let (change, extra) = slope
                .shift(at(celsius), kelvin, at(reference))
                .expect("shift");
            let estimate = read.shifted(-change, extra);
            let found = BandJudge::new(&band(lower, upper), &rule).judge(&estimate);
            out.verdict[row] = verdict(found.verdict);
            out.provable[row] = u8::from(found.provable);
            for (column, chance) in out.chances.iter_mut().zip(found.probabilities.ends()) {
                column[row] = chance;
            }
            let end = |end: Option<Lash>| end.map_or(f64::NAN, Lash::mm);
            let ends = [
                end(estimate.low()),
                end(estimate.high()),
                estimate.normal_uncertainty().mm(),
            ];
            for (column, end) in out.ends.iter_mut().zip(ends) {
                column[row] = end;
            }
            out.at_reference[row] = 1;
            out.status[row] = 0;
        }
    });
}

fn verdict(found: Verdict) -> u8 {
    found.number()
}

/// Limits as a program has them that keeps them exact.
fn band(lower: f64, upper: f64) -> Limits<Lash> {
    #[expect(clippy::cast_possible_truncation, reason = "whole nanometres")]
    let mark = |mm: f64| {
        let exact = Nominal::from_nanometres((mm * 1e6).round() as i64).expect("limit");
        Marked::new(exact, LengthUnit::Millimetre, 6)
    };
    Limits::between(mark(lower), mark(upper)).expect("limits")
}

/// The column judge of the core, without the registers that only some processors have.
#[divan::bench(args = SIZES, sample_count = 20)]
fn fleet_portable(bencher: Bencher<'_, '_>, rows: usize) {
    let fleet = Fleet::of(rows);
    let mut out = Out::of(rows);
    let columns = ReadingColumns {
        rows,
        low: Column::Each(&fleet.low),
        high: Column::Each(&fleet.high),
        uncertainty: Column::Each(&fleet.u),
        lower: Column::Each(&fleet.lower),
        upper: Column::Each(&fleet.upper),
        metal: Some(MetalColumns {
            celsius: Column::Each(&fleet.celsius),
            uncertainty: Column::Each(&fleet.kelvin),
            reference: Column::Each(&fleet.reference),
            mm_per_kelvin: Column::Each(&fleet.slope),
            mm_per_kelvin_uncertainty: Column::Each(&fleet.slope_u),
        }),
    };
    bencher.bench_local(|| {
        judge_columns(black_box(&columns), &Lash::USUAL_RULE, |rows| {
            let to = rows.from..rows.from + rows.count;
            let (columns, n) = (rows.probabilities.iter(), rows.count);
            out.verdict[to.clone()].copy_from_slice(&rows.verdict[..n]);
            for (column, chances) in out.chances.iter_mut().zip(columns) {
                column[to.clone()].copy_from_slice(&chances[..n]);
            }
            for (column, end) in out.ends.iter_mut().zip([rows.low, rows.high, rows.u]) {
                column[to.clone()].copy_from_slice(&end[..n]);
            }
            for (at, row) in to.enumerate() {
                out.provable[row] = u8::from(rows.provable[at]);
                out.at_reference[row] = u8::from(rows.at_reference[at]);
                out.status[row] = 0;
            }
        })
        .expect("columns of one length");
    });
}

#[divan::bench(args = SIZES, sample_count = 20)]
fn fleet_from_c(bencher: Bencher<'_, '_>, rows: usize) {
    let fleet = Fleet::of(rows);
    let mut out = Out::of(rows);
    let columns = out.columns(0, rows);
    bencher.bench_local(|| judge_through_c(black_box(&fleet), &columns, 0));
}

/// The same by two threads, each with half of the rows.
#[divan::bench(args = SIZES, sample_count = 20)]
fn fleet_by_two_threads(bencher: Bencher<'_, '_>, rows: usize) {
    /// Columns of one thread alone.
    struct Alone(lw_judgement_columns);
    // SAFETY: no other thread has these rows.
    unsafe impl Send for Alone {}

    let fleet = Fleet::of(rows);
    let mut out = Out::of(rows);
    bencher.bench_local(|| {
        let half = rows / 2;
        let halves = [0, half].map(|from| (Alone(out.columns(from, half)), from));
        std::thread::scope(|scope| {
            for (alone, from) in halves {
                let fleet = &fleet;
                scope.spawn(move || {
                    let Alone(out) = { alone };
                    judge_through_c(fleet, &out, from);
                });
            }
        });
    });
}
