//! Times of the kernel. `cargo xtask bench` prints them beside numpy and scipy.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]

use divan::{Bencher, black_box};
use lashwork::quantity::Lash;
use lashwork::tolerance::{HasLimits, judge};
use lashwork_benches::{estimates, limits, warm_engine};

fn main() {
    divan::main();
}

#[divan::bench]
fn one_verdict(bencher: Bencher<'_, '_>) {
    let limits = limits().expect("limits");
    let estimate = *estimates(3)
        .expect("estimates")
        .get(1)
        .expect("a second estimate");
    let rule = Lash::USUAL_RULE;
    bencher.bench(|| judge(black_box(&estimate), black_box(&limits), &rule));
}

#[divan::bench]
fn thousand_verdicts(bencher: Bencher<'_, '_>) {
    let limits = limits().expect("limits");
    let estimates = estimates(1000).expect("estimates");
    let rule = Lash::USUAL_RULE;
    bencher.bench(|| {
        let judged = black_box(&estimates)
            .iter()
            .map(|estimate| judge(estimate, &limits, &rule));
        judged.collect::<Vec<_>>()
    });
}

#[divan::bench]
fn one_correction(bencher: Bencher<'_, '_>) {
    let (chain, reference, temperatures) = warm_engine().expect("an engine");
    chain
        .correction(reference, &temperatures)
        .expect("a correction");
    bencher.bench(|| black_box(&chain).correction(reference, black_box(&temperatures)));
}

#[divan::bench]
fn whole_job(bencher: Bencher<'_, '_>) {
    let document = include_bytes!("../../examples/data/inline-four.json");
    lashwork_wire::job_sheet(document).expect("a job sheet");
    bencher.bench(|| lashwork_wire::run(black_box(document)));
}
