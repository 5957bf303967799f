//! Whether a stated probability is right as often as it says, on engines drawn by other means than the model's.
//!
//! The entries of the model were set with results of these engines known: the bounds hold the model, they do not calibrate
//! it. What it does on engines that none was set by is in `held_out`; both tables stand in the documentation of
//! `lashwork::causes`.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::drawn::{Drawn, Shop};
use super::shown::Bench;
use super::table::{EVERYTHING, SERVICE, Table, Taken, engines};

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

fn simulated(shop: &Shop, taken: &Taken, count: u64, seed: u64) -> Table {
    let mut table = Table::default();
    for at in 0..engines(count) {
        let engine = Drawn::new(seed + at, shop);
        let answer = Bench::new(&engine, shop).check(taken).weighed().unwrap();
        let is_sound = engine.causes.is_empty() && engine.other.is_none();
        table.add(&engine.causes, is_sound, &answer);
    }
    table
}

/// What a service finds: stated chances hold within what the documentation says, sound engines are left alone, and
/// looking takes away at least a third of the surprise.
#[test]
fn stated_chances_hold_after_a_service() {
    for (shop, seed) in [(USUAL, 10_000), (OTHER, 20_000)] {
        let table = simulated(&shop, &SERVICE, 500, seed);
        table.holds(0.08, 0.20);
        // What is rare is rare: of what is stated under 0.03, no more than 1 in 40 is there.
        assert!(table.rare() < 0.025, "{table:#?}");
        // Of 953 sound engines of the careless hand 2.3 % are alarms, so 11 of 316 are no surprise.
        assert!(
            table.sound > 200.0 && table.alarms < 0.045 * table.sound,
            "{table:#?}"
        );
        assert!(table.after < 0.72 * table.before, "{table:#?}");
    }
}

/// With everything looked at there is most to be sure of, and most to be wrong about.
#[test]
fn stated_chances_hold_with_everything_looked_at() {
    for (shop, seed) in [(USUAL, 30_000), (OTHER, 40_000)] {
        let table = simulated(&shop, &EVERYTHING, 400, seed);
        table.holds(0.10, 0.20);
        assert!(table.alarms < 0.06 * table.sound, "{table}");
        assert!(table.after < 0.65 * table.before, "{table}");
        assert!(
            table.placed > 30.0 && table.right > 0.9 * table.placed,
            "{table}"
        );
    }
}
