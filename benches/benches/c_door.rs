//! What a call through the C interface costs beside the same call from Rust. `cargo xtask bench` prints the
//! ratios.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]
#![allow(unsafe_code, reason = "C calls are called as C programs call them")]

use divan::{Bencher, black_box};
use lashwork::engine::SliderCrank;
use lashwork::quantity::{CrankAngle, Lash, Length, LengthUnit, Marked, Nominal, PinOffset};
use lashwork::tolerance::{
    DecisionRule, Estimate, HasLimits, Judgement, Limits, Uncertainty, Verdict, judge,
};
use lashwork_c::crank::{lw_piston_drop, lw_slider_crank};
use lashwork_c::judging::{lw_estimate, lw_judge, lw_judgement, lw_limits, lw_rule};
use lashwork_c::quantity::lw_convert_length;
use std::ptr;

fn main() {
    divan::main();
}

/// The cheapest call there is, so that the time of the interface itself shows.
#[divan::bench(sample_size = 1000)]
fn convert_from_rust(bencher: Bencher<'_, '_>) {
    let convert: fn(LengthUnit, f64, LengthUnit) -> f64 = |from, value, to| from.convert(value, to);
    bencher.bench(|| {
        let convert = black_box(convert);
        convert(
            black_box(LengthUnit::Thou),
            black_box(6.0),
            black_box(LengthUnit::Millimetre),
        )
    });
}

#[divan::bench(sample_size = 1000)]
fn convert_from_c(bencher: Bencher<'_, '_>) {
    let convert = black_box(lw_convert_length as unsafe extern "C" fn(_, _, _, _, _) -> _);
    bencher.bench(|| {
        let mut converted = 0.0;
        // SAFETY: `converted` is a local, and nobody wants the error.
        let status = unsafe {
            convert(
                black_box(6.0),
                black_box(3_u32),
                black_box(1_u32),
                &raw mut converted,
                ptr::null_mut(),
            )
        };
        (status, converted)
    });
}

#[divan::bench(sample_size = 1000)]
fn piston_drop_from_rust(bencher: Bencher<'_, '_>) {
    let drop: fn(f64, f64, f64, f64) -> f64 = |radius, rod, offset, at| {
        let length = |mm| Length::from_mm(mm).expect("in range");
        let offset = PinOffset::from_mm(offset).expect("in range");
        let slider = SliderCrank::new(length(radius), length(rod), offset).expect("a crank");
        slider
            .piston_drop(CrankAngle::from_degrees(at).expect("in range"))
            .mm()
    };
    bencher.bench(|| black_box(drop)(black_box(45.0), 150.0, 0.8, black_box(37.0)));
}

#[divan::bench(sample_size = 1000)]
fn piston_drop_from_c(bencher: Bencher<'_, '_>) {
    let slider = lw_slider_crank {
        struct_size: size_of::<lw_slider_crank>(),
        crank_radius_mm: 45.0,
        rod_mm: 150.0,
        offset_mm: 0.8,
    };
    let drop = black_box(lw_piston_drop as unsafe extern "C" fn(_, _, _, _) -> _);
    bencher.bench(|| {
        let mut mm = 0.0;
        // SAFETY: both are locals, and nobody wants the error.
        let status = unsafe {
            drop(
                black_box(&raw const slider),
                black_box(37.0),
                &raw mut mm,
                ptr::null_mut(),
            )
        };
        (status, mm)
    });
}

/// Three structures in and one out. Both sides begin with bare numbers and end with bare numbers.
#[divan::bench(sample_size = 1000)]
fn judge_from_rust(bencher: Bencher<'_, '_>) {
    type Judged = (Verdict, bool, [f64; 6]);
    let judged: fn([f64; 3], [i64; 2], DecisionRule) -> Judged = |[low, high, u], band, rule| {
        let lash = |mm| Lash::from_mm(mm).expect("lash");
        let u = Uncertainty::from_mm(u).expect("uncertainty");
        let estimate = Estimate::between(lash(low), lash(high), u).expect("estimate");
        let [lower, upper] = band.map(|nm| {
            let exact = Nominal::from_nanometres(nm).expect("limit");
            Marked::new(exact, LengthUnit::Millimetre, 6)
        });
        let limits = Limits::between(lower, upper).expect("limits");
        numbers(&judge(&estimate, &limits, &rule))
    };
    bencher.bench(|| {
        black_box(judged)(
            black_box([0.16, 0.18, 0.004]),
            black_box([150_000, 200_000]),
            Lash::USUAL_RULE,
        )
    });
}

fn numbers(found: &Judgement) -> (Verdict, bool, [f64; 6]) {
    (found.verdict, found.provable, found.probabilities.ends())
}

#[divan::bench(sample_size = 1000)]
fn judge_from_c(bencher: Bencher<'_, '_>) {
    let estimate = lw_estimate {
        struct_size: size_of::<lw_estimate>(),
        span: 1,
        reserved: 0,
        low_mm: 0.16,
        high_mm: 0.18,
        uncertainty_mm: 0.004,
    };
    let (limits, rule) = (band(), guarded());
    let judge = black_box(lw_judge as unsafe extern "C" fn(_, _, _, _, _) -> _);
    let mut judgement = std::mem::MaybeUninit::<lw_judgement>::zeroed();
    bencher.bench_local(|| {
        // SAFETY: all are locals that state their size, and nobody wants the error.
        unsafe {
            judgement
                .as_mut_ptr()
                .cast::<usize>()
                .write(size_of::<lw_judgement>());
            judge(
                black_box(&raw const estimate),
                &raw const limits,
                &raw const rule,
                judgement.as_mut_ptr(),
                ptr::null_mut(),
            )
        }
    });
}

/// 0.15 to 0.20 mm as a C program states it.
fn band() -> lw_limits {
    lw_limits {
        struct_size: size_of::<lw_limits>(),
        span: 1,
        reserved: 0,
        lower_nm: 150_000,
        upper_nm: 200_000,
    }
}

fn guarded() -> lw_rule {
    lw_rule {
        struct_size: size_of::<lw_rule>(),
        kind: 1,
        reserved: 0,
        below_confidence: 0.0,
        above_confidence: 0.0,
    }
}
