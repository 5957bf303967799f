//! Stated probabilities on engines that no number of the model was chosen by.
//!
//! Its tables were seen while the model was still being set, before the last entries were changed by the first generator
//! and by what whole documents showed; no number was chosen by them, and the generator was not changed after. What it gave
//! with the model as it stands (2400 and 2000 engines) is in the documentation of `lashwork::causes`.
//!
//! Holes let gas out by mass and energy, an idling engine finds its vacuum by what its strokes do, burnt gas is balanced by
//! its elements, lash wears in steps that add up, readings have heavy tails and testers differ ([`engine`], [`gas`],
//! [`seen`], [`whole`]). Where a figure here is off, it is said so in the documentation; the model is not moved.
#![allow(
    clippy::unwrap_used,
    reason = "a test stops at the first thing it does not expect"
)]

mod chance;
mod engine;
mod gas;
mod seen;
mod whole;

use super::table::{EVERYTHING, SERVICE, Table, Taken, engines};
use engine::Used;
use fastrand::Rng;
use seen::Hand;

fn simulated(taken: &Taken, count: u64, seed: u64) -> Table {
    let mut table = Table::default();
    for at in 0..engines(count) {
        let rng = &mut Rng::with_seed(seed + at);
        let engine = Used::new(rng);
        let answer = Hand::new(&engine, rng).check(taken).weighed().unwrap();
        table.add(&engine.causes, engine.is_sound(), &answer);
    }
    table
}

#[test]
fn stated_chances_hold_after_a_service() {
    let table = simulated(&SERVICE, 600, 0x7e1d_0000);
    table.holds(0.10, 0.25);
    assert!(table.alarms < 0.03 * table.sound, "{table}");
}

#[test]
fn stated_chances_hold_with_everything_looked_at() {
    let table = simulated(&EVERYTHING, 500, 0x7e1d_8000);
    table.holds(0.10, 0.25);
    assert!(table.alarms < 0.05 * table.sound, "{table}");
    assert!(
        table.placed > 30.0 && table.right > 0.9 * table.placed,
        "{table}"
    );
}

/// The physics by itself, against what is published or plain: without it the rest says nothing.
#[test]
fn a_sound_engine_shows_what_sound_engines_show() {
    use gas::{Stroke, compressed, exhaust, lost, monoxide, vacuum, work};
    let stroke = Stroke {
        ratio: 8.5,
        closes: 52.0,
        filled: 0.97,
        hole: 0.2,
        rpm: 210.0,
    };
    let (sound, left) = compressed(stroke);
    // A polytrope of 1.18 to 1.3 from the closing of the intake; a hole takes some away, a smaller filling too.
    assert!(
        sound > 850.0 && sound < 1400.0 && left > 0.9,
        "{sound} {left}"
    );
    let leaky = compressed(Stroke {
        hole: 2.0,
        ..stroke
    })
    .0;
    let late = compressed(Stroke {
        closes: 70.0,
        ..stroke
    })
    .0;
    assert!(
        leaky < 0.85 * sound && late < 0.93 * sound,
        "{leaky} {late}"
    );
    // 17 to 22 inHg at idle (US Army OD 1001).
    let level = vacuum(work(0.93, 10.0, 0.95), 88.0, 0.0);
    assert!(level > 17.0 && level < 22.0, "{level}");
    assert!(vacuum(work(0.93, 2.0, 0.95), 88.0, 0.0) < level - 0.7);
    // Holes that let as much through as the tester's own: a fifth is lost (0.8 of it in front, the speed of sound behind).
    let [little, equal] = [0.2, 0.897].map(|mm2| lost(690_000.0, 1.0, mm2));
    assert!(
        little < 0.05 && (equal - 0.2).abs() < 0.02,
        "{little} {equal}"
    );
    // Carbon monoxide in percent by lambda: about 10 to 11 at 0.75, under 1 past 1 (Heywood, figure 4-20, from memory).
    assert!((monoxide(0.75) - 8.5).abs() < 2.0, "{}", monoxide(0.75));
    assert!(monoxide(1.05) < 0.8 && monoxide(0.93) > 1.5 && monoxide(0.93) < 3.5);
    // One of four without a spark: a quarter of its air comes out as it went in.
    let miss = exhaust(0.93, 0.25);
    assert!((miss[1] - 5.4).abs() < 0.5 && miss[2] > 3_000.0, "{miss:?}");
}
