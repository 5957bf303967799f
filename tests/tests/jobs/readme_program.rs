//! The Rust program in README.md is the one in the examples, and prints what is said of it. It runs as a
//! documentation test of the core.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use approx::assert_abs_diff_eq;
use lashwork::feeler::Reading;
use lashwork_tests::root;
use std::fs;

fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap()
}

#[test]
fn the_program_in_the_readme_is_the_example() {
    let example = read("crates/lashwork/examples/judge.rs");
    let (_, program) = example.split_once("\n\n").unwrap();
    assert!(read("README.md").contains(&format!("```rust\n{program}```\n")));
}

/// 91.0 %: the share of the rectangle from 0.12 mm to 0.15 mm below 0.1524 mm, blurred by the assumed
/// leaf tolerance, u = 0.00889 mm / sqrt 3, and 0.008 mm of the hand; by numerical integration with 2000 steps.
#[test]
fn the_program_prints_what_the_readme_says() {
    let reading: Reading = "0.12 mm goes, 0.15 mm does not".parse().unwrap();
    let found = reading.estimate().unwrap();
    let judged = found.judged_by(&"0.006 in to 0.010 in".parse().unwrap());
    let u = (0.00889 / 3_f64.sqrt()).hypot(0.008);
    let share = (0..2000).map(|i| 0.12 + 0.03 * (f64::from(i) + 0.5) / 2000.0);
    let below = share.map(|x| lashwork::statistics::normal_cdf((0.1524 - x) / u));
    let below = below.sum::<f64>() / 2000.0;
    assert_abs_diff_eq!(judged.probabilities.below.least, below, epsilon = 1e-6);
    let printed = format!("{} with {:.1} %", judged.verdict, 100.0 * below);
    assert!(read("README.md").contains(&format!("it prints `{printed}`")));
}
