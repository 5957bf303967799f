//! What the drawn engine shows: pressures from the gas that is left, vacuum from the air that comes in, gases
//! from what burns; read with scatter and slips, and judged as the library judges.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::drawn::{CYLINDERS, Drawn, Other, Shop, about, between, normal};
use super::judged::{compression, judged, kilopascals, label, rows};
use super::table::Taken;
use lashwork::causes::{
    CauseCheck, CylinderSigns, DriftSign, DwellSign, LashSign, LeakSign, MonoxideSign, OxygenSign,
    PlugSign, Seen, TimingSign, UnburntSign,
};
use lashwork::condition::leak::{Hiss, LeakPath, LeakReading, LeakRule, LeakTest, RuleBy, Tester};
use lashwork::mixture::gauge::{GaugeCheck, Level, Movement};
use lashwork::quantity::{AbsolutePressure, Area, GaugePressure, Length, Vacuum};
use lashwork::tolerance::{Estimate, Uncertainty};

/// How a crank turns the gas of one cylinder from the closing of the intake to top dead centre: what is left of
/// it, by the leak's area, when compression is a polytrope of 1.28 and the leak chokes from 1.9 on.
fn peak(closes: f64, ratio: f64, filled: f64, leak: f64) -> f64 {
    const STEPS: usize = 40;
    // A cylinder of 400 cm³ at 200 rpm; 101.3 kPa and 300 K when the valve closes.
    let (swept, rpm, n) = (400.0e-6, 200.0, 1.28_f64);
    let volume = |deg: f64| {
        let a = deg.to_radians();
        let travel = 0.5 * (1.0 - a.cos()) + 0.04 * (1.0 - (2.0 * a).cos());
        swept * (1.0 / (ratio - 1.0) + travel)
    };
    let start = 180.0 - closes;
    let (v0, p0) = (volume(start), 101_325.0 * filled);
    let step = start / STEPS as f64;
    let seconds = step / (6.0 * rpm);
    let mut left = 1.0_f64;
    for at in 0..STEPS {
        let v = volume(start - step * (at as f64 + 0.5));
        let p = p0 * left.powf(n) * (v0 / v).powf(n);
        let over = (p / 101_325.0).max(1.0);
        let flow = if over > 1.9 {
            1.0
        } else {
            ((over - 1.0) / 0.9).sqrt()
        };
        let kelvin = 300.0 * (v0 / v).powf(n - 1.0);
        let mass_flow = 0.8 * leak * 1e-6 * p * 0.0404 * flow / kelvin.sqrt();
        let mass = p0 * v0 / (287.0 * 300.0);
        left = (left - mass_flow * seconds / mass).max(0.02);
    }
    (p0 * left.powf(n) * (v0 / volume(0.0)).powf(n) - 101_325.0) / 1000.0
}

pub(super) struct Bench<'e> {
    engine: &'e Drawn,
    shop: &'e Shop,
    rng: fastrand::Rng,
}

impl<'e> Bench<'e> {
    pub(super) fn new(engine: &'e Drawn, shop: &'e Shop) -> Self {
        let rng = engine.clock.clone();
        Self { engine, shop, rng }
    }

    fn is_taken(&mut self, chance: f64) -> bool {
        self.rng.f64() < chance
    }

    fn slips(&mut self) -> bool {
        self.rng.f64() < self.shop.slip
    }

    fn read(&mut self, value: f64, u: f64) -> f64 {
        value + self.shop.scatter * u * normal(&mut self.rng)
    }

    /// All that is found.
    pub(super) fn check(mut self, taken: &Taken) -> CauseCheck {
        let mut check = CauseCheck::in_line(CYLINDERS);
        if self.is_taken(taken.clearances) {
            self.clearances(&mut check.cylinders);
        }
        if self.is_taken(taken.drift) {
            self.drift(&mut check.cylinders);
        }
        if self.is_taken(taken.compression) {
            self.compression(&mut check);
        }
        if self.is_taken(taken.leak) {
            self.leak(&mut check.cylinders);
        }
        if self.is_taken(taken.plugs) {
            self.plugs(&mut check.cylinders);
        }
        let deg = |value, low, high| judged(value, 1.0, low, high);
        if self.is_taken(taken.dwell) {
            let found = self.read(self.engine.dwell, 1.0);
            check.engine.dwell = Seen::judged(
                &deg(found, 46.5, 53.5),
                DwellSign::Small,
                DwellSign::Right,
                DwellSign::Large,
            );
        }
        if self.is_taken(taken.timing) {
            let found = self.read(self.engine.timing, 1.0);
            // From 20 degrees after, so that none is under nothing.
            check.engine.timing = Seen::judged(
                &deg(20.0 + found, 25.5, 30.5),
                TimingSign::Late,
                TimingSign::Right,
                TimingSign::Early,
            );
        }
        if self.is_taken(taken.gauge) {
            check.engine.gauge = Some(self.gauge());
        }
        if self.is_taken(taken.gas) {
            self.gas(&mut check);
        }
        check
    }

    fn clearances(&mut self, cylinders: &mut [CylinderSigns]) {
        for (at, signs) in cylinders.iter_mut().enumerate() {
            let lash = self.engine.cylinders[at].lash;
            let [small, large] = lash.map(|mm| self.read(mm, 0.01).max(0.0));
            let of = |mm: f64| judged(mm * 100.0, 1.0, 15.0, 25.0);
            let seen = |mm: f64| {
                Seen::judged(
                    &of(mm),
                    LashSign::Tight,
                    LashSign::InLimits,
                    LashSign::Loose,
                )
            };
            let (small, large) = (seen(small), seen(large));
            let is_in = |seen: &Option<Seen<LashSign>>| {
                seen.is_some_and(|s| s.found() == LashSign::InLimits)
            };
            signs.lash = if is_in(&small) { large } else { small };
            if self.slips() {
                signs.lash = Some(LashSign::ALL[self.rng.usize(0..3)].into());
            }
        }
    }

    fn drift(&mut self, cylinders: &mut [CylinderSigns]) {
        for (at, signs) in cylinders.iter_mut().enumerate() {
            let [small, large] = self.engine.cylinders[at].drift;
            let (small, large) = (self.read(small, 0.006), self.read(large, 0.006));
            signs.drift = Some(match () {
                () if small < -0.028 => DriftSign::Closing.into(),
                () if large > 0.028 => DriftSign::Opening.into(),
                () => DriftSign::AsItsMates.into(),
            });
        }
    }

    fn compression(&mut self, check: &mut CauseCheck) {
        let engine = self.engine;
        let common = self.read(0.0, 15.0);
        let closes = engine.closes + engine.cam_late;
        let mut read = Vec::new();
        for c in &engine.cylinders {
            let cold = about(&mut self.rng, 1.0, 1.02);
            let others = c.exhaust + c.intake + c.gasket[0] + c.gasket[1] + c.coolant;
            let dry = peak(closes, engine.ratio, c.filled * cold, c.rings + others);
            // Oil seals most of what goes past the rings, and takes room.
            let sealed = c.rings * between(&mut self.rng, 0.15, 0.5);
            let wet = peak(closes, engine.ratio + 0.2, c.filled * cold, sealed + others);
            let dry = self.read(dry, 12.0) + common;
            let wet = (self.read(wet, 12.0) + common).max(dry - 20.0);
            read.push((dry, wet));
        }
        let with_oil = self.rng.f64() < 0.7;
        compression(&read, with_oil, 0.85, check);
    }

    fn leak(&mut self, cylinders: &mut [CylinderSigns]) {
        let bore = Length::parse("82 mm").unwrap();
        let supply = GaugePressure::from_kilopascals(551.6).unwrap();
        let supply =
            Estimate::between(supply, supply, Uncertainty::from_number(3.0).unwrap()).unwrap();
        let tester = Tester::of_bore(supply, bore).unwrap();
        let air = AbsolutePressure::from_kilopascals(101.325).unwrap();
        for (at, signs) in cylinders.iter_mut().enumerate() {
            let c = &self.engine.cylinders[at];
            // Rings leak less when nothing moves: they lie on the bottom of their grooves.
            let paths = [
                (Hiss::Exhaust, c.exhaust),
                (Hiss::Intake, c.intake),
                (Hiss::Breather, 0.8 * c.rings),
                (
                    Hiss::PlugHole(label((at + CYLINDERS - 1) % CYLINDERS)),
                    c.gasket[0],
                ),
                (Hiss::PlugHole(label((at + 1) % CYLINDERS)), c.gasket[1]),
                (Hiss::Coolant, c.coolant),
            ];
            let area: f64 = paths.iter().map(|(_, mm2)| mm2).sum();
            let shown = tester
                .would_show(Area::from_square_millimetres(area).unwrap(), air)
                .unwrap();
            let shown = self.read(shown.kilopascals(), 5.0).clamp(15.0, 551.0);
            // The loudest is named; a breather drones a little on every engine.
            let mut loudest = (Hiss::Breather, 0.0);
            for (hiss, mm2) in paths {
                let loud = mm2 * about(&mut self.rng, 1.0, 1.5);
                if loud > loudest.1 {
                    loudest = (hiss, loud);
                }
            }
            let test = LeakTest {
                readings: vec![LeakReading {
                    cylinder: label(at),
                    tester,
                    shown: kilopascals(shown),
                    held: true,
                    hisses: vec![loudest.0],
                }],
                rows: rows(CYLINDERS),
                rule: Some((LeakRule::ac_43_13(bore).unwrap(), RuleBy::Area)),
                ..LeakTest::default()
            };
            let answer = test.answered().unwrap();
            let own = &answer.cylinders[0];
            let large = match own.paths[0] {
                LeakPath::ExhaustValve => LeakSign::AtExhaust,
                LeakPath::IntakeValve | LeakPath::ThroughManifold => LeakSign::AtIntake,
                LeakPath::Rings => LeakSign::AtBreather,
                _ => LeakSign::AtGasket,
            };
            let large = if self.rng.f64() < 0.15 {
                LeakSign::Large
            } else {
                large
            };
            signs.leak = Seen::judged(
                &own.by_rule.unwrap().probabilities,
                LeakSign::Small,
                LeakSign::Small,
                large,
            );
        }
    }

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

    fn plugs(&mut self, cylinders: &mut [CylinderSigns]) {
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

    fn gauge(&mut self) -> GaugeCheck {
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

    fn gas(&mut self, check: &mut CauseCheck) {
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
