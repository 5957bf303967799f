//! Whether a stated probability is right as often as it says, on the first generator of simulated engines.
//!
//! The entries of the model were set with results of these engines known; how much of its evidence is borne out was fitted
//! on the other generator alone (`held_out`). Both tables stand in the documentation of `lashwork::causes`.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::drawn::{Drawn, Shop};
use super::shown::Bench;
use super::table::{EVERYTHING, SERVICE, Table, Taken, engines, wilson};

/// As many faults as the library assumes, of the usual size.
const USUAL: Shop = Shop {
    faults: 1.0,
    size: 1.0,
    scatter: 1.0,
    slip: 0.01,
};
/// Fewer and smaller ones, read by a careless hand.
const OTHER: Shop = Shop {
    faults: 0.8,
    size: 0.7,
    scatter: 1.4,
    slip: 0.025,
};

fn simulated(taken: &Taken, count: u64, seed: u64) -> Table {
    let mut table = Table::default();
    for (shop, seed) in [(USUAL, seed), (OTHER, seed + 10_000)] {
        for at in 0..engines(count) {
            let engine = Drawn::new(seed + at, &shop);
            let answer = Bench::new(&engine, &shop).check(taken).weighed().unwrap();
            let is_sound = engine.causes.is_empty() && engine.other.is_none();
            table.add(&engine.causes, is_sound, &answer);
        }
    }
    table
}

/// What a service finds: stated chances hold within what the documentation says, sound engines are left alone, and
/// looking takes away at least a quarter of the surprise.
#[test]
fn stated_chances_hold_after_a_service() {
    let table = simulated(&SERVICE, 220, 10_000);
    table.holds(0.10);
    // What is rare is rare: of what is stated under 0.02, no more than 1 in 70 is there.
    assert!(table.rare() < 0.014, "{table}");
    assert!(
        table.sound > 150.0 && table.alarms < 0.08 * table.sound,
        "{table}"
    );
    assert!(table.after < 0.75 * table.before, "{table}");
}

/// With everything looked at there is most to be sure of, and most to be wrong about.
#[test]
fn stated_chances_hold_with_everything_looked_at() {
    let table = simulated(&EVERYTHING, 200, 30_000);
    table.holds(0.10);
    assert!(table.alarms < 0.08 * table.sound, "{table}");
    assert!(table.after < 0.55 * table.before, "{table}");
    assert!(
        table.placed > 30.0 && wilson(table.placed, table.right).1 > 0.93,
        "{table}"
    );
}
