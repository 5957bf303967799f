//! What was stated of many engines, beside what was the matter with them.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::causes::{Cause, CauseAnswer, Place};
use std::fmt::{self, Display};

/// Which of the looks are taken, each with its chance.
#[derive(Clone, Copy, Debug)]
pub(super) struct Taken {
    pub(super) clearances: f64,
    pub(super) drift: f64,
    pub(super) compression: f64,
    pub(super) leak: f64,
    pub(super) plugs: f64,
    pub(super) dwell: f64,
    pub(super) timing: f64,
    pub(super) gauge: f64,
    pub(super) gas: f64,
}

/// What is looked at on the way through a service.
pub(super) const SERVICE: Taken = Taken {
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
pub(super) const EVERYTHING: Taken = Taken {
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

/// How many engines to draw: the usual number, or as many times more as the environment asks for.
pub(super) fn engines(usual: u64) -> u64 {
    let times = std::env::var("ENGINES_TIMES").ok();
    usual
        * times
            .and_then(|times| times.parse::<u64>().ok())
            .unwrap_or(1)
}

/// Upper ends of the bands.
const ENDS: [f64; 7] = [0.03, 0.1, 0.3, 0.5, 0.7, 0.9, 1.0];

/// The bounds that hold what is met in 999 of 1000 tries: E. B. Wilson, "Probable inference", Journal of the
/// American Statistical Association 22, 1927.
pub(super) fn wilson(n: f64, met: f64) -> (f64, f64) {
    let z = 3.29;
    let p = met / n;
    let middle = (p + z * z / (2.0 * n)) / (1.0 + z * z / n);
    let half = z / (1.0 + z * z / n) * (p * (1.0 - p) / n + z * z / (4.0 * n * n)).sqrt();
    (middle - half, middle + half)
}

#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Band {
    count: f64,
    stated: f64,
    met: f64,
}

impl Band {
    fn bounds(&self) -> (f64, f64) {
        wilson(self.count, self.met)
    }
}

#[derive(Clone, Debug, Default)]
pub(super) struct Table {
    bands: [Band; ENDS.len()],
    /// Sound engines, and those of them that got a cause at 0.5 or more.
    pub(super) sound: f64,
    pub(super) alarms: f64,
    /// Bits of surprise at what was the matter, after looking and before.
    pub(super) after: f64,
    pub(super) before: f64,
    /// Causes at 0.9 or more that are there, and those of which the first place is right.
    pub(super) placed: f64,
    pub(super) right: f64,
}

impl Table {
    /// Enters an engine: what is the matter with it, and what was stated.
    pub(super) fn add(&mut self, causes: &[(Cause, Place)], is_sound: bool, answer: &CauseAnswer) {
        for own in &answer.causes {
            let there = causes.iter().any(|(cause, _)| *cause == own.cause);
            let at = ENDS.iter().position(|end| own.probability <= *end).unwrap();
            let band = &mut self.bands[at];
            band.count += 1.0;
            band.stated += own.probability;
            band.met += f64::from(u8::from(there));
            let bits = |p: f64| -if there { p } else { 1.0 - p }.log2();
            self.after += bits(own.probability);
            self.before += bits(own.prior);
            if there && own.probability >= 0.9 {
                let place = (own.cause, own.places[0].place);
                self.placed += 1.0;
                self.right += f64::from(u8::from(causes.contains(&place)));
            }
        }
        if is_sound {
            self.sound += 1.0;
            self.alarms += f64::from(u8::from(answer.causes[0].probability >= 0.5));
        }
    }

    /// Holds the table against what the documentation says of it: what is stated is met as often but for `too_high`
    /// less or `too_low` more of all.
    pub(super) fn holds(&self, too_high: f64, too_low: f64) {
        println!("{self}");
        for band in self.bands.iter().filter(|band| band.count > 0.0) {
            let (stated, (low, high)) = (band.stated / band.count, band.bounds());
            assert!(
                high > stated - too_high && low < stated + too_low,
                "{low} to {high} of {stated}\n{self}"
            );
        }
    }

    /// What is met of what is stated under 0.03, at the least.
    pub(super) fn rare(&self) -> f64 {
        self.bands[0].bounds().0
    }
}

impl Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (end, band) in ENDS.iter().zip(&self.bands) {
            let n = band.count;
            let (stated, met) = (band.stated / n, band.met / n);
            writeln!(
                f,
                "up to {end:.2}: {stated:.3} stated, {met:.3} met, of {n}"
            )?;
        }
        writeln!(
            f,
            "sound {}, alarms {:.2} %; bits {:.3} of {:.3}; placed {} of {}",
            self.sound,
            100.0 * self.alarms / self.sound,
            self.after,
            self.before,
            self.right,
            self.placed
        )
    }
}
