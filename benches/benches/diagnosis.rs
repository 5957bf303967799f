//! Time of weighing what all readings of an engine say together. `cargo xtask bench` prints it.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]

use divan::{Bencher, black_box};
use lashwork::diagnosis::{Status, diagnose};
use lashwork_benches::evidence;

fn main() {
    divan::main();
}

#[divan::bench]
fn diagnosis_of_16_valves(bencher: Bencher<'_, '_>) {
    let evidence = evidence(8).expect("evidence");
    let found = diagnose(&evidence).expect("an answer");
    assert_eq!(
        found.status,
        Status::NothingSpecial,
        "sixteen good readings"
    );
    bencher.bench(|| diagnose(black_box(&evidence)));
}
