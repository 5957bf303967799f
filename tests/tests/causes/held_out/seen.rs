//! What is read of a used engine: testers that differ, eyes that differ, heavy tails.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::super::judged::{compression, judged};
use super::super::table::Taken;
use super::chance::{between, exponential, gamma, happens, normal, step, student};
use super::engine::{Cylinder, LASH, MONOXIDE, Other, TIMING, Used};
use super::gas::{Stroke, compressed, exhaust, lost, vacuum, work};
use fastrand::Rng;
use lashwork::causes::{
    CauseCheck, DriftSign, DwellSign, LambdaSign, LashSign, LeakSign, MonoxideSign, OxygenSign,
    PlugSign, Seen, TimingSign, UnburntSign,
};
use lashwork::mixture::gauge::{GaugeCheck, Level, Movement};
use lashwork::quantity::Vacuum;

pub(super) struct Hand<'e> {
    engine: &'e Used,
    rng: &'e mut Rng,
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

    fn slips(&mut self) -> bool {
        happens(self.rng, self.slip)
    }

    fn read(&mut self, value: f64, size: f64) -> f64 {
        value + self.scatter * size * student(self.rng, 4.0)
    }

    pub(super) fn check(mut self, taken: &Taken) -> CauseCheck {
        let mut check = CauseCheck::in_line(self.engine.cylinders.len());
        let all: [(f64, fn(&mut Self, &mut CauseCheck)); 9] = [
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

    fn lambda_of(&self, c: &Cylinder) -> f64 {
        self.engine.lambda * (1.0 + self.engine.air) * (1.0 + c.air)
    }

    /// What is left of the charge of an idling stroke, and the share of strokes that do not burn.
    fn strokes(&self, c: &Cylinder) -> (f64, f64) {
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

    fn dwell(&mut self, check: &mut CauseCheck) {
        let shown = self.read(self.engine.dwell, 0.9);
        let p = judged(shown, 1.0, 46.0, 54.0);
        use DwellSign as S;
        check.engine.dwell = Seen::judged(&p, S::Small, S::Right, S::Large);
    }

    fn timing(&mut self, check: &mut CauseCheck) {
        let mut shown = self.read(self.engine.timing, 0.9);
        if self.slips() {
            shown += between(self.rng, -6.0, 6.0);
        }
        // From 20 degrees after, so that none is under nothing.
        let p = judged(20.0 + shown, 1.0, 20.0 + TIMING[0], 20.0 + TIMING[1]);
        use TimingSign as S;
        check.engine.timing = Seen::judged(&p, S::Late, S::Right, S::Early);
    }

    fn gauge(&mut self, check: &mut CauseCheck) {
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

    fn gas(&mut self, check: &mut CauseCheck) {
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
            use LambdaSign as S;
            check.engine.lambda = Seen::judged(&p, S::Rich, S::Right, S::Lean);
            return;
        }
        let p = judged(co, 0.15, MONOXIDE[0], MONOXIDE[1]);
        use MonoxideSign as M;
        check.engine.monoxide = Seen::judged(&p, M::Low, M::Right, M::High);
        let p = judged(hc / 100.0, 0.3, 0.0, 5.5);
        use UnburntSign as U;
        check.engine.unburnt = Seen::judged(&p, U::Right, U::Right, U::High);
        if happens(self.rng, 0.7) {
            let p = judged(o2, 0.2, 0.0, 1.8);
            use OxygenSign as O;
            check.engine.oxygen = Seen::judged(&p, O::Right, O::Right, O::High);
        }
    }
}
