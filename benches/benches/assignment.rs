//! Times of assigning shims to valves.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]

use divan::{Bencher, black_box};
use lashwork::adjust::{ShimSupply, best_swaps};
use lashwork::quantity::Lash;
use lashwork::tolerance::{HasLimits, Uncertainty};
use lashwork_benches::shims::{series, slots, stock};

fn main() {
    divan::main();
}

fn plan(bencher: Bencher<'_, '_>, valves: u32) {
    let (slots, series) = (slots(valves).expect("valves"), series().expect("a series"));
    let stock = stock(&series).expect("a stock");
    let supply = ShimSupply {
        ratio_from_shim_to_gap: 1.0,
        series: Some(&series),
        rounding: None,
        stock: &stock,
        size_uncertainty: Uncertainty::ZERO,
        fitted_may_move: true,
        rule: &Lash::USUAL_RULE,
    };
    best_swaps(&slots, &supply).expect("a plan");
    bencher.bench(|| best_swaps(black_box(&slots), &supply));
}

#[divan::bench]
fn shims_of_16_valves(bencher: Bencher<'_, '_>) {
    plan(bencher, 16);
}

#[divan::bench]
fn shims_of_64_valves(bencher: Bencher<'_, '_>) {
    plan(bencher, 64);
}

/// The most that is accepted.
#[divan::bench(sample_count = 3)]
fn shims_of_800_valves(bencher: Bencher<'_, '_>) {
    plan(bencher, 800);
}
