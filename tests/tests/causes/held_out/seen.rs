//! What is read of a used engine: testers that differ, eyes that differ, heavy tails.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::super::judged::{compression, judged};
use super::super::table::Taken;
use super::chance::{between, exponential, gamma, happens, normal, step, student};
use super::engine::{Cylinder, LASH, Other, Used};
use super::gas::{Stroke, compressed, lost};
use fastrand::Rng;
use lashwork::causes::{CauseCheck, DriftSign, LashSign, LeakSign, PlugSign, Seen};

/// A look at an engine, and what it enters.
type Look<'e> = fn(&mut Hand<'e>, &mut CauseCheck);

pub(super) struct Hand<'e> {
    pub(super) engine: &'e Used,
    pub(super) rng: &'e mut Rng,
    /// How far this hand's readings scatter, and how often it slips.
    scatter: f64,
    slip: f64,
}

impl<'e> Hand<'e> {
    pub(super) fn new(engine: &'e Used, rng: &'e mut Rng) -> Self {
        let (scatter, slip) = (between(rng, 0.8, 1.7), 0.03 * rng.f64().powi(2));
        Self {
            engine,
            rng,
            scatter,
            slip,
        }
    }

    pub(super) fn slips(&mut self) -> bool {
        happens(self.rng, self.slip)
    }

    pub(super) fn read(&mut self, value: f64, size: f64) -> f64 {
        value + self.scatter * size * student(self.rng, 4.0)
    }

    pub(super) fn check(mut self, taken: &Taken) -> CauseCheck {
        let mut check = CauseCheck::in_line(self.engine.cylinders.len());
        let all: [(f64, Look<'e>); 9] = [
            (taken.clearances, Self::clearances),
            (taken.drift, Self::drift),
            (taken.compression, Self::compression),
            (taken.leak, Self::leak),
            (taken.plugs, Self::plugs),
            (taken.dwell, Self::dwell),
            (taken.timing, Self::timing),
            (taken.gauge, Self::gauge),
            (taken.gas, Self::gas),
        ];
        for (chance, look) in all {
            if happens(self.rng, chance) {
                look(&mut self, &mut check);
            }
        }
        check
    }

    fn clearances(&mut self, check: &mut CauseCheck) {
        // One set of leaves, worn or bent.
        let leaves = 0.004 * normal(self.rng);
        for at in 0..check.cylinders.len() {
            let c = self.engine.cylinders[at];
            let side = |lash: f64, hand: &mut Self| {
                // Between two leaves 0.02 mm apart.
                let felt = (hand.read(lash + leaves, 0.006).max(0.0) / 0.02).round() * 0.02;
                let p = judged(felt * 100.0, 1.1, 100.0 * LASH[0], 100.0 * LASH[1]);
                Seen::judged(&p, LashSign::Tight, LashSign::InLimits, LashSign::Loose)
            };
            let both = [side(c.exhaust.lash, self), side(c.intake.lash, self)];
            let is = |sign: LashSign| {
                let of = |seen: &&Seen<LashSign>| seen.found() == sign;
                both.iter().flatten().find(of).copied()
            };
            let all_known = both.iter().all(Option::is_some);
            check.cylinders[at].lash = is(LashSign::Tight)
                .or_else(|| is(LashSign::Loose))
                .or_else(|| is(LashSign::InLimits).filter(|_| all_known));
            if self.slips() {
                check.cylinders[at].lash = Some(LashSign::ALL[self.rng.usize(..3)].into());
            }
        }
    }

    /// Against the others of its kind, by their median.
    fn drift(&mut self, check: &mut CauseCheck) {
        let n = check.cylinders.len();
        let mut worst: Vec<f64> = vec![0.0; n];
        for is_exhaust in [true, false] {
            let gone = |hand: &mut Self, c: &Cylinder| {
                let valve = if is_exhaust { c.exhaust } else { c.intake };
                hand.read(valve.lash - valve.set, 0.011)
            };
            let all: Vec<f64> = (0..n)
                .map(|at| gone(self, &self.engine.cylinders[at].clone()))
                .collect();
            let mut sorted = all.clone();
            sorted.sort_by(f64::total_cmp);
            let median = 0.5 * (sorted[(n - 1) / 2] + sorted[n / 2]);
            for (worst, own) in worst.iter_mut().zip(&all) {
                if (own - median).abs() > worst.abs() {
                    *worst = own - median;
                }
            }
        }
        for (signs, off) in check.cylinders.iter_mut().zip(worst) {
            let found = match off {
                _ if off < -0.045 => DriftSign::Closing,
                _ if off > 0.045 => DriftSign::Opening,
                _ => DriftSign::AsItsMates,
            };
            signs.drift = Seen::with_chance(found, 0.93).ok();
        }
    }

    fn holes(c: &Cylinder) -> f64 {
        // A neighbour's plug hole is open; when cranked it is at the air's pressure most of the time.
        c.exhaust.leak + c.intake.leak + 0.8 * (c.gasket[0] + c.gasket[1]) + c.water
    }

    fn compression(&mut self, check: &mut CauseCheck) {
        let engine = self.engine;
        let (rpm, tester) = (
            between(self.rng, 160.0, 260.0),
            1.0 + 0.02 * student(self.rng, 5.0),
        );
        let mut read = Vec::new();
        for c in &engine.cylinders {
            let stroke = Stroke {
                ratio: engine.ratio,
                closes: engine.closes + engine.cam_late,
                filled: 0.97 * c.filled,
                hole: c.rings + Self::holes(c),
                rpm,
            };
            // Oil takes room, runs to one side, and helps a valve a little.
            let sealed = between(self.rng, 0.35, 0.92);
            let wet = Stroke {
                ratio: engine.ratio + between(self.rng, 0.1, 0.4),
                hole: (1.0 - sealed) * c.rings + between(self.rng, 0.85, 1.0) * Self::holes(c),
                ..stroke
            };
            let [dry, wet] = [stroke, wet].map(|s| 0.93 * tester * compressed(s).0);
            let (dry, wet) = (self.read(dry, 9.0), self.read(wet, 9.0));
            read.push((dry, wet.max(dry - 15.0)));
        }
        if self.slips() {
            let (a, b) = (self.rng.usize(..read.len()), self.rng.usize(..read.len()));
            read.swap(a, b);
        }
        let with_oil = happens(self.rng, 0.65);
        compression(&read, with_oil, 0.86, check);
    }

    fn leak(&mut self, check: &mut CauseCheck) {
        let (own, tester) = (
            between(self.rng, 0.95, 1.08),
            0.015 * student(self.rng, 5.0),
        );
        let last = check.cylinders.len() - 1;
        for at in 0..=last {
            let c = self.engine.cylinders[at];
            let heard = [
                (LeakSign::AtExhaust, c.exhaust.leak),
                (LeakSign::AtIntake, c.intake.leak),
                (LeakSign::AtBreather, 0.85 * c.rings),
                (LeakSign::AtGasket, c.gasket[0] + c.gasket[1] + c.water),
            ];
            let hole: f64 = heard.iter().map(|(_, mm2)| mm2).sum();
            let shown = self.read(lost(690_000.0, own, hole) + tester, 0.015);
            let p = judged(100.0 * shown.max(0.0), 2.5, 0.0, 20.0);
            // A workshop is not silent, and air comes round corners.
            let mut loudest = (LeakSign::Large, 0.25 * exponential(self.rng));
            for (path, mm2) in heard {
                let loud = mm2.sqrt() * (0.3 * normal(self.rng)).exp();
                if loud > loudest.1 {
                    loudest = (path, loud);
                }
            }
            let path = if self.slips() || happens(self.rng, 0.04) {
                LeakSign::ALL[1 + self.rng.usize(..4)]
            } else {
                loudest.0
            };
            check.cylinders[at].leak = Seen::judged(&p, LeakSign::Small, LeakSign::Small, path);
        }
    }

    pub(super) fn lambda_of(&self, c: &Cylinder) -> f64 {
        self.engine.lambda * (1.0 + self.engine.air) * (1.0 + c.air)
    }

    /// What is left of the charge of an idling stroke, and the share of strokes that do not burn.
    pub(super) fn strokes(&self, c: &Cylinder) -> (f64, f64) {
        let stroke = Stroke {
            ratio: self.engine.ratio,
            closes: self.engine.closes + self.engine.cam_late,
            filled: 0.38 * c.filled,
            hole: 0.8 * c.rings + Self::holes(c),
            rpm: 800.0,
        };
        let left = compressed(stroke).1 * c.filled;
        let lambda = self.lambda_of(c);
        let poor = 0.9 * step(0.45 - left, 0.07);
        let lean = step(lambda - 1.24, 0.028);
        let rich = step(0.66 - lambda, 0.02);
        let lit = (1.0 - c.unlit) * (1.0 - poor) * (1.0 - lean) * (1.0 - rich);
        (left, 1.0 - lit)
    }

    fn plugs(&mut self, check: &mut CauseCheck) {
        let n = check.cylinders.len();
        let mut seen = Vec::new();
        for c in &self.engine.cylinders {
            let (lambda, (_, missing)) = (self.lambda_of(c), self.strokes(c));
            let guides = if self.engine.other == Some(Other::GuidesWorn) {
                gamma(self.rng, 2.0, 0.5)
            } else {
                0.0
            };
            let hot = if self.engine.other == Some(Other::PlugsTooHot) {
                3.0
            } else {
                0.0
            };
            let scores = [
                (PlugSign::Normal, 1.8),
                (PlugSign::Sooty, (0.885 - lambda) / 0.022 + 2.0 * missing),
                (
                    PlugSign::White,
                    (lambda - 1.02) / 0.022 + hot + 0.8 * c.water,
                ),
                (PlugSign::Oily, (0.8 * c.rings + guides - 0.5) / 0.16),
                (PlugSign::Wet, (missing - 0.45) / 0.10),
            ];
            // Each eye adds something of its own.
            let mut most = (PlugSign::Normal, f64::MIN);
            for (sign, score) in scores {
                let score = score.min(8.0) - exponential(self.rng).ln();
                if score > most.1 {
                    most = (sign, score);
                }
            }
            seen.push(most.0);
        }
        if self.slips() {
            let (a, b) = (self.rng.usize(..n), self.rng.usize(..n));
            seen.swap(a, b);
        }
        for (signs, sign) in check.cylinders.iter_mut().zip(seen) {
            signs.plug = Some(sign.into());
        }
    }
}
