//! What the drawn engine shows standing: clearances, pressures from the gas that is left, leaks; read with scatter and slips, and
//! judged as the library judges.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::drawn::{CYLINDERS, Drawn, Shop, about, between, normal};
use super::judged::{compression, judged, kilopascals, label, rows};
use super::table::Taken;
use lashwork::causes::{
    CauseCheck, CylinderSigns, DriftSign, DwellSign, LashSign, LeakSign, Seen, TimingSign,
};
use lashwork::condition::leak::{Hiss, LeakPath, LeakReading, LeakRule, LeakTest, RuleBy, Tester};
use lashwork::quantity::{AbsolutePressure, Area, GaugePressure, Length};
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
    pub(super) engine: &'e Drawn,
    shop: &'e Shop,
    pub(super) rng: fastrand::Rng,
}

impl<'e> Bench<'e> {
    pub(super) fn new(engine: &'e Drawn, shop: &'e Shop) -> Self {
        let rng = engine.clock.clone();
        Self { engine, shop, rng }
    }

    fn is_taken(&mut self, chance: f64) -> bool {
        self.rng.f64() < chance
    }

    pub(super) fn slips(&mut self) -> bool {
        self.rng.f64() < self.shop.slip
    }

    pub(super) fn read(&mut self, value: f64, u: f64) -> f64 {
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
}
