//! Whether a stated probability is right as often as it says, on engines drawn by other means than the model's.
//!
//! Found when this was written (2000 engines a shop, other seeds): what is stated under 0.1 is found as often as
//! stated; from 0.1 to 0.7 it is found more often, by up to 0.2, with everything looked at by up to 0.3; from 0.9 to
//! 0.97 it is found in 0.90 after a service and in 0.82 with everything looked at; over that in 0.97 and more. Where
//! half as much goes wrong as the library assumes, what is stated under 0.1 is found half as often, and 0.9 to 0.97 in
//! 0.75. Of sound engines 0.4 % get a cause at 0.5 or more after a service, 1.7 % with everything looked at. Some
//! entries of the model were set with such results known: these bounds hold the model, they do not calibrate it. A
//! lean mixture and air behind the throttle are hardly told apart.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::drawn::{Drawn, Shop};
use super::shown::{Bench, Taken};
use lashwork::causes::CauseAnswer;

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

/// What is looked at on the way through a service.
const SERVICE: Taken = Taken {
    clearances: 0.8,
    drift: 0.3,
    compression: 0.6,
    leak: 0.3,
    plugs: 0.6,
    dwell: 0.7,
    timing: 0.7,
    gauge: 0.6,
    gas: 0.5,
};
const EVERYTHING: Taken = Taken {
    clearances: 1.0,
    drift: 1.0,
    compression: 1.0,
    leak: 1.0,
    plugs: 1.0,
    dwell: 1.0,
    timing: 1.0,
    gauge: 1.0,
    gas: 1.0,
};

/// Upper ends of the bins.
const ENDS: [f64; 6] = [0.03, 0.1, 0.3, 0.6, 0.9, 1.0];

#[derive(Clone, Copy, Debug, Default)]
struct Bin {
    count: f64,
    stated: f64,
    found: f64,
}

impl Bin {
    /// The mean of what was stated, and the bounds that hold what was found in 999 of 1000 tries: E. B. Wilson,
    /// "Probable inference", Journal of the American Statistical Association 22, 1927.
    fn bounds(&self) -> (f64, f64, f64) {
        let (n, z) = (self.count, 3.29);
        let p = self.found / n;
        let middle = (p + z * z / (2.0 * n)) / (1.0 + z * z / n);
        let half = z / (1.0 + z * z / n) * (p * (1.0 - p) / n + z * z / (4.0 * n * n)).sqrt();
        (self.stated / n, middle - half, middle + half)
    }
}

/// What came of a shop's engines.
#[derive(Debug, Default)]
struct Table {
    bins: [Bin; ENDS.len()],
    /// Sound engines, and those of them that got a cause at 0.5 or more.
    sound: f64,
    alarms: f64,
    /// Bits of surprise at what was the matter, after looking and before.
    after: f64,
    before: f64,
    /// Causes at 0.9 or more that sit in one place, and those of which the first place is right.
    placed: f64,
    right: f64,
}

fn simulated(shop: &Shop, taken: &Taken, engines: u64, seed: u64) -> Table {
    let mut table = Table::default();
    for at in 0..engines {
        let engine = Drawn::new(seed + at, shop);
        let answer = Bench::new(&engine, shop).check(taken).weighed().unwrap();
        table.add(&engine, &answer);
    }
    table
}

impl Table {
    fn add(&mut self, engine: &Drawn, answer: &CauseAnswer) {
        for own in &answer.causes {
            let there = engine.has(own.cause);
            let at = ENDS.iter().position(|end| own.probability <= *end).unwrap();
            let bin = &mut self.bins[at];
            bin.count += 1.0;
            bin.stated += own.probability;
            bin.found += f64::from(u8::from(there));
            let bits = |p: f64| -if there { p } else { 1.0 - p }.log2();
            self.after += bits(own.probability);
            self.before += bits(own.prior);
            if there && own.probability >= 0.9 {
                let place = (own.cause, own.places[0].place);
                self.placed += 1.0;
                self.right += f64::from(u8::from(engine.causes.contains(&place)));
            }
        }
        if engine.causes.is_empty() && engine.other.is_none() {
            self.sound += 1.0;
            self.alarms += f64::from(u8::from(answer.causes[0].probability >= 0.5));
        }
    }

    /// Holds the table against what the documentation says of it.
    fn holds(&self) {
        for bin in self.bins.iter().filter(|bin| bin.count > 0.0) {
            let (stated, low, high) = bin.bounds();
            // Stated too high by no more than a twelfth, too low by no more than a fifth of all.
            assert!(
                high > stated - 0.08,
                "{bin:?}: {low} to {high} of {stated}\n{self:#?}"
            );
            assert!(
                low < stated + 0.20,
                "{bin:?}: {low} to {high} of {stated}\n{self:#?}"
            );
        }
    }
}

/// What a service finds: stated chances hold within what the documentation says, sound engines are left alone, and
/// looking takes away at least a third of the surprise.
#[test]
fn stated_chances_hold_after_a_service() {
    for (shop, seed) in [(USUAL, 10_000), (OTHER, 20_000)] {
        let table = simulated(&shop, &SERVICE, 500, seed);
        table.holds();
        // What is rare is rare: of what is stated under 0.03, no more than 1 in 40 is there.
        let (_, low, _) = table.bins[0].bounds();
        assert!(low < 0.025, "{table:#?}");
        assert!(
            table.sound > 200.0 && table.alarms < 0.03 * table.sound,
            "{table:#?}"
        );
        assert!(table.after < 0.72 * table.before, "{table:#?}");
    }
}

/// With everything looked at there is most to be sure of, and most to be wrong about.
#[test]
fn stated_chances_hold_with_everything_looked_at() {
    let table = simulated(&USUAL, &EVERYTHING, 400, 30_000);
    table.holds();
    assert!(table.alarms < 0.05 * table.sound, "{table:#?}");
    assert!(table.after < 0.5 * table.before, "{table:#?}");
    assert!(
        table.placed > 30.0 && table.right > 0.9 * table.placed,
        "{table:#?}"
    );
}
