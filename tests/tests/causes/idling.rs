//! What the drawn engine shows at idle: plugs, vacuum from the air that comes in, gases from what burns.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::drawn::{CYLINDERS, Other, about, between, normal};
use super::judged::judged;
use super::shown::Bench;
use lashwork::causes::{
    CauseCheck, CylinderSigns, MonoxideSign, OxygenSign, PlugSign, Seen, UnburntSign,
};
use lashwork::mixture::gauge::{GaugeCheck, Level, Movement};
use lashwork::quantity::Vacuum;

impl Bench<'_> {
    /// The share of cycles in which a cylinder does not fire at idle: no spark, too little left, too lean.
    fn missing(&self, at: usize) -> f64 {
        let (engine, c) = (self.engine, &self.engine.cylinders[at]);
        let leaks = c.exhaust + c.intake + c.gasket[0] + c.gasket[1] + c.coolant;
        let leaky = 1.0 / (1.0 + (3.0 - leaks).exp());
        let lambda = self.lambda() * c.lambda;
        let lean = 1.0 / (1.0 + (-(lambda - 1.22) / 0.03).exp());
        let sticks = if engine.other == Some(Other::ValveSticks) && at == 0 {
            0.12
        } else {
            0.0
        };
        1.0 - (1.0 - c.unlit) * (1.0 - leaky) * (1.0 - lean) * (1.0 - sticks)
    }

    /// Lambda of what the engine burns: the leak's air comes on top.
    fn lambda(&self) -> f64 {
        self.engine.lambda * (1.0 + 0.8 * self.engine.air)
    }

    pub(super) fn plugs(&mut self, cylinders: &mut [CylinderSigns]) {
        for (at, signs) in cylinders.iter_mut().enumerate() {
            let c = &self.engine.cylinders[at];
            let lambda = self.lambda() * c.lambda + 0.03 * normal(&mut self.rng);
            let missing = self.missing(at);
            let oil = c.rings * about(&mut self.rng, 1.0, 1.6);
            let sign = match () {
                () if self.slips() => PlugSign::ALL[self.rng.usize(0..5)],
                () if missing > between(&mut self.rng, 0.35, 0.9) => PlugSign::Wet,
                () if oil > 0.9 => PlugSign::Oily,
                () if c.coolant > 1.0 && self.rng.f64() < 0.5 => PlugSign::White,
                () if lambda < 0.87 || missing > between(&mut self.rng, 0.15, 0.9) => {
                    PlugSign::Sooty
                }
                () if lambda > 1.04 => PlugSign::White,
                () => PlugSign::Normal,
            };
            signs.plug = Some(sign.into());
        }
    }

    pub(super) fn gauge(&mut self) -> GaugeCheck {
        let engine = self.engine;
        let missing: Vec<f64> = (0..CYLINDERS).map(|at| self.missing(at)).collect();
        // Absolute pressure of the manifold grows with the air let in and with what the engine fails to pump.
        let mut absolute = 29.9 - engine.vacuum;
        absolute *= 1.0 + 0.7 * engine.air;
        absolute += 0.08 * (8.0 - engine.timing).max(0.0);
        absolute += 0.25 * engine.cam_late.abs() * if engine.cam_late > 0.0 { 1.0 } else { 0.6 };
        let rings: f64 = engine.cylinders.iter().map(|c| c.rings).sum::<f64>() / CYLINDERS as f64;
        absolute += 1.6 * (rings - 0.15).max(0.0);
        absolute += 1.2 * missing.iter().sum::<f64>();
        let off = (self.lambda() - 0.95).abs();
        absolute += 12.0 * (off - 0.08).max(0.0);
        if engine.other == Some(Other::ExhaustBlocked) {
            absolute += 1.5;
        }
        let weakest = |at: usize| {
            let c = &engine.cylinders[at];
            let leak = c.exhaust + c.intake + 1.6 * (c.gasket[0] + c.gasket[1]) + 0.4 * c.rings;
            4.0 * missing[at]
                + 2.0 * (leak - 0.2).clamp(0.0, 4.0)
                + 3.0 * (1.0 - c.filled)
                + if c.lash[0] < 0.05 { 1.5 } else { 0.0 }
        };
        let all: Vec<f64> = (0..CYLINDERS).map(weakest).collect();
        let (worst, mean) = (
            all.iter().fold(0.0_f64, |a, b| a.max(*b)),
            all.iter().sum::<f64>() / CYLINDERS as f64,
        );
        let drop = self.read(0.9 * (worst - mean) + 0.3 * worst, 0.4);
        // A spark that fails now and then, not stroke by stroke.
        let now_and_then = missing.iter().fold(0.0_f64, |a, b| a.max(*b));
        let movement = match () {
            () if self.slips() => Movement::ALL[self.rng.usize(0..7)],
            () if engine.other == Some(Other::SpringsWeak) && self.rng.f64() < 0.6 => {
                Movement::WideSwing
            }
            () if drop > 2.5 && now_and_then > 0.05 && now_and_then < 0.3 => Movement::NowAndThen,
            () if drop > 2.5 => Movement::RegularDrop,
            () if off > 0.12 && self.rng.f64() < 0.7 => Movement::SlowDrift,
            () if drop > 0.8 => Movement::SmallFlick,
            () if self.rng.f64() < 0.45 => Movement::EvenRipple,
            () => Movement::Steady,
        };
        let level = self.read(29.9 - absolute, 0.5).clamp(2.0, 25.0);
        GaugeCheck {
            cylinders: Some(CYLINDERS),
            movement: Some(movement),
            level: Some(Level {
                vacuum: Vacuum::from_number(level, "inHg").unwrap(),
                standard_uncertainty: None,
            }),
            drop: (matches!(movement, Movement::RegularDrop) && drop > 0.0)
                .then(|| Vacuum::from_number(drop.min(20.0), "inHg").unwrap()),
            ..GaugeCheck::default()
        }
    }

    pub(super) fn gas(&mut self, check: &mut CauseCheck) {
        // What burns: carbon monoxide falls and oxygen rises with lambda; what does not burn goes out as it came.
        let (mut co, mut o2, mut hc) = (0.0, 0.0, 0.0);
        for at in 0..CYLINDERS {
            let lambda = self.lambda() * self.engine.cylinders[at].lambda;
            let missing = self.missing(at);
            let burnt_co = 0.25 + 38.0 * (0.0 + (1.0 - lambda)).max(0.0);
            let burnt_o2 = 0.7 + 21.0 * (lambda - 1.0).max(0.0);
            co += (1.0 - missing) * burnt_co / CYLINDERS as f64;
            o2 += ((1.0 - missing) * burnt_o2 + missing * 20.0) / CYLINDERS as f64;
            let rich = 500.0 * (0.93 - lambda).max(0.0) * 10.0;
            let oil = 60.0 * self.engine.cylinders[at].rings;
            hc += (220.0 + rich + oil + missing * 16_000.0) / CYLINDERS as f64;
        }
        hc *= about(&mut self.rng, 1.0, 1.25);
        let co = self.read(co, 0.15).max(0.0);
        let o2 = self.read(o2, 0.2).max(0.0);
        check.engine.monoxide = Seen::judged(
            &judged(co, 0.15, 1.2, 4.2),
            MonoxideSign::Low,
            MonoxideSign::Right,
            MonoxideSign::High,
        );
        check.engine.oxygen = Seen::judged(
            &judged(o2, 0.2, 0.0, 2.0),
            OxygenSign::Right,
            OxygenSign::Right,
            OxygenSign::High,
        );
        check.engine.unburnt = Seen::judged(
            &judged(hc / 100.0, 0.3, 0.0, 6.0),
            UnburntSign::Right,
            UnburntSign::Right,
            UnburntSign::High,
        );
    }
}
