//! What is read of the engine as a whole.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::super::judged::judged;
use super::chance::{between, exponential, gamma, happens, normal, student};
use super::engine::{Cylinder, MONOXIDE, Other, TIMING};
use super::gas::{exhaust, vacuum, work};
use super::seen::Hand;
use lashwork::causes::{
    CauseCheck, DwellSign, LambdaSign, MonoxideSign, OxygenSign, Seen, TimingSign, UnburntSign,
};
use lashwork::mixture::gauge::{GaugeCheck, Level, Movement};
use lashwork::quantity::Vacuum;

impl Hand<'_> {
    pub(super) fn dwell(&mut self, check: &mut CauseCheck) {
        let shown = self.read(self.engine.dwell, 0.9);
        let p = judged(shown, 1.0, 46.0, 54.0);
        check.engine.dwell = Seen::judged(&p, DwellSign::Small, DwellSign::Right, DwellSign::Large);
    }

    pub(super) fn timing(&mut self, check: &mut CauseCheck) {
        let mut shown = self.read(self.engine.timing, 0.9);
        if self.slips() {
            shown += between(self.rng, -6.0, 6.0);
        }
        // From 20 degrees after, so that none is under nothing.
        let p = judged(20.0 + shown, 1.0, 20.0 + TIMING[0], 20.0 + TIMING[1]);
        check.engine.timing =
            Seen::judged(&p, TimingSign::Late, TimingSign::Right, TimingSign::Early);
    }

    pub(super) fn gauge(&mut self, check: &mut CauseCheck) {
        let engine = self.engine;
        let each: Vec<(f64, f64)> = engine.cylinders.iter().map(|c| self.strokes(c)).collect();
        let one = |(c, (left, missing)): (&Cylinder, &(f64, f64))| {
            (1.0 - missing) * work(self.lambda_of(c), engine.timing, *left)
        };
        let works: Vec<f64> = engine.cylinders.iter().zip(&each).map(one).collect();
        let n = works.len() as f64;
        let mean = works.iter().sum::<f64>() / n;
        // A cam that is late pushes charge back, one that is early keeps burnt gas.
        let cam = 1.0 - 0.010 * engine.cam_late.max(0.0) - 0.006 * (-engine.cam_late).max(0.0);
        let back = if engine.other == Some(Other::ExhaustBlocked) {
            gamma(self.rng, 2.0, 4.0)
        } else {
            0.0
        };
        // Air past the throttle lifts the speed, and with it what friction takes.
        let friction = engine.friction * (1.0 + 0.35 * engine.air);
        let level = vacuum(mean * cam, friction, back);
        let best = works.iter().fold(0.01_f64, |a, b| a.max(*b));
        let least = works.iter().fold(best, |a, b| a.min(*b));
        let intake = engine
            .cylinders
            .iter()
            .fold(0.0_f64, |a, c| a.max(c.intake.leak));
        let damped = (0.25 * normal(self.rng)).exp();
        let dip = damped * (16.0 / n * (1.0 - least / best) + 0.9 * intake.min(5.0));
        let dip = self.read(dip, 0.25);
        let missing = each.iter().fold(0.0_f64, |a, (_, b)| a.max(*b));
        let lambda = engine.lambda * (1.0 + engine.air);
        let movement = match () {
            () if self.slips() => Movement::ALL[self.rng.usize(..7)],
            () if engine.other == Some(Other::SpringsWeak) && happens(self.rng, 0.5) => {
                Movement::WideSwing
            }
            () if engine.other == Some(Other::GuidesWorn) && happens(self.rng, 0.3) => {
                Movement::WideSwing
            }
            () if missing > 0.03 && missing < 0.25 && happens(self.rng, 0.7) => {
                Movement::NowAndThen
            }
            () if dip > 2.2 => Movement::RegularDrop,
            () if (lambda - 0.95).abs() > 0.14 && happens(self.rng, 0.6) => Movement::SlowDrift,
            () if dip > 0.9 => Movement::SmallFlick,
            () if happens(self.rng, if n < 5.0 { 0.4 } else { 0.1 }) => Movement::EvenRipple,
            () => Movement::Steady,
        };
        let inhg = |value: f64| Vacuum::from_number(value, "inHg").unwrap();
        let shown = self.read(level, 0.4).clamp(2.0, 25.0);
        check.engine.gauge = Some(GaugeCheck {
            cylinders: Some(works.len()),
            movement: Some(movement),
            level: Some(Level {
                vacuum: inhg(shown),
                standard_uncertainty: None,
            }),
            drop: (movement == Movement::RegularDrop).then(|| inhg(dip.clamp(0.5, 15.0))),
            ..GaugeCheck::default()
        });
    }

    pub(super) fn gas(&mut self, check: &mut CauseCheck) {
        let mut all = [0.0; 3];
        let n = self.engine.cylinders.len() as f64;
        for c in &self.engine.cylinders {
            let own = exhaust(self.lambda_of(c), self.strokes(c).1);
            let oil = [0.0, 0.0, 45.0 * c.rings];
            for ((sum, part), oil) in all.iter_mut().zip(own).zip(oil) {
                *sum += (part + oil) / n;
            }
        }
        // Air in at the exhaust's joints or past the probe.
        let diluted = if happens(self.rng, 0.05) {
            0.08 * exponential(self.rng)
        } else {
            0.006 * exponential(self.rng)
        };
        let [co, o2, hc] = all.map(|part| (1.0 - diluted) * part);
        let span = 1.0 + 0.03 * student(self.rng, 5.0);
        let co = self.read(span * co, 0.12).max(0.0);
        let o2 = self.read(o2 + 20.9 * diluted, 0.15).max(0.0);
        let hc = (hc * (0.2 * normal(self.rng)).exp()).max(0.0);
        if happens(self.rng, 0.15) {
            // A probe for lambda alone: oxygen over what burns.
            let lambda = self.read(1.0 + 0.047 * (o2 - 0.5 * co), 0.01);
            let p = judged(10.0 * lambda, 0.1, 8.9, 9.75);
            check.engine.lambda =
                Seen::judged(&p, LambdaSign::Rich, LambdaSign::Right, LambdaSign::Lean);
            return;
        }
        let p = judged(co, 0.15, MONOXIDE[0], MONOXIDE[1]);
        check.engine.monoxide = Seen::judged(
            &p,
            MonoxideSign::Low,
            MonoxideSign::Right,
            MonoxideSign::High,
        );
        let p = judged(hc / 100.0, 0.3, 0.0, 5.5);
        check.engine.unburnt = Seen::judged(
            &p,
            UnburntSign::Right,
            UnburntSign::Right,
            UnburntSign::High,
        );
        if happens(self.rng, 0.7) {
            let p = judged(o2, 0.2, 0.0, 1.8);
            check.engine.oxygen =
                Seen::judged(&p, OxygenSign::Right, OxygenSign::Right, OxygenSign::High);
        }
    }
}
