//! How often the diagnosis cries wolf on healthy engines, and how often it finds a planted fault.
//!
//! Engines are drawn by a seeded generator (fastrand: small, the same draws on every run). True
//! lashes, the true thickness of every leaf and the bracket a mechanic would find are drawn; the
//! diagnosis sees the brackets alone. Only one of the healthy populations is the model of the
//! kernel; the others are what it does not know: flat within the band, worn valves, neglected
//! engines. Populations and sizes are this project's choice; the limits, under 1 % and over 95 %,
//! are what the diagnosis promises.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a simulation that cannot draw an engine is broken"
)]

mod engines;
mod faults;

use engines::{Leaves, PRINTED, Population, SIZES, draw, evidence};
use fastrand::Rng;
use faults::TRIALS;
use lashwork::diagnosis::{Status, diagnose};
use lashwork::quantity::LengthUnit;

const SEED: u64 = 0x1a5b_0c4d;
/// Engines of each healthy population, and of each planted fault.
const HEALTHY: usize = 120;
const PLANTED: usize = 40;

#[test]
fn healthy_engines_are_left_alone() {
    let mut rng = Rng::with_seed(SEED);
    let (mut alarms, mut all) = (0, 0);
    println!("healthy population    engines  alarms  undecided");
    for population in [
        Population::Model,
        Population::Flat,
        Population::Worn,
        Population::Neglected,
        Population::Hand,
    ] {
        let (mut here, mut undecided) = (0, 0);
        for i in 0..HEALTHY {
            let printed = PRINTED[i % PRINTED.len()];
            let cylinders = SIZES[rng.usize(..SIZES.len())];
            let drawn = draw(&mut rng, population, printed, cylinders);
            let (leaves, unit) = if rng.bool() {
                (Leaves::metric(&mut rng), LengthUnit::Millimetre)
            } else {
                (Leaves::inch(&mut rng), LengthUnit::Inch)
            };
            let found = diagnose(&evidence(&drawn, &leaves, unit)).unwrap();
            if found.status == Status::WorthChecking {
                here += 1;
            }
            undecided += usize::from(found.status == Status::Undecided);
        }
        let name = format!("{population:?}");
        println!("{name:<20} {HEALTHY:>8} {here:>7} {undecided:>10}");
        alarms += here;
        all += HEALTHY;
    }
    println!("healthy in all       {all:>8} {alarms:>7}");
    assert!(
        alarms * 100 < all,
        "{alarms} alarms on {all} healthy engines"
    );
}

#[test]
fn planted_faults_are_found() {
    let mut rng = Rng::with_seed(SEED);
    let mut missed = Vec::new();
    println!("{:<46} engines  found", "planted fault");
    for (name, trial) in TRIALS {
        let found = (0..PLANTED).filter(|_| trial(&mut rng)).count();
        println!("{name:<46} {PLANTED:>7} {found:>6}");
        if found * 100 <= PLANTED * 95 {
            missed.push(format!("{name}: {found} of {PLANTED}"));
        }
    }
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}
