//! Times of dealing out: the bare assignment beside scipy's, and the best use of shims.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]

use divan::{Bencher, black_box};
use lashwork::adjust::{Cost, CostMatrix, ShimSupply, best_swaps, least_cost};
use lashwork_benches::shims::{costs, series, slots, stock};

fn main() {
    divan::main();
}

fn assign<C: Cost + TryFrom<i64> + Sync>(bencher: Bencher<'_, '_>, rows: usize, columns: usize) {
    let costs = costs(rows, columns)
        .into_iter()
        .map(|cost| C::try_from(cost).ok().expect("a cost"));
    let matrix = CostMatrix::new(rows, columns, costs.collect()).expect("a matrix");
    least_cost(&matrix).expect("an assignment");
    bencher.bench(|| least_cost(black_box(&matrix)));
}

#[divan::bench]
fn assignment_16x16(bencher: Bencher<'_, '_>) {
    assign::<i32>(bencher, 16, 16);
}

#[divan::bench]
fn assignment_64x64(bencher: Bencher<'_, '_>) {
    assign::<i32>(bencher, 64, 64);
}

#[divan::bench]
fn assignment_64x256(bencher: Bencher<'_, '_>) {
    assign::<i32>(bencher, 64, 256);
}

/// The same with wider numbers, which fewer fit in a register.
#[divan::bench]
fn assignment_64x64_i64(bencher: Bencher<'_, '_>) {
    assign::<i64>(bencher, 64, 64);
}

#[divan::bench]
fn assignment_64x256_i64(bencher: Bencher<'_, '_>) {
    assign::<i64>(bencher, 64, 256);
}

fn plan(bencher: Bencher<'_, '_>, valves: u32) {
    let (slots, series) = (slots(valves).expect("valves"), series().expect("a series"));
    let stock = stock(&series).expect("a stock");
    let supply = ShimSupply {
        ratio_from_shim_to_gap: 1.0,
        series: Some(&series),
        rounding: None,
        stock: &stock,
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
