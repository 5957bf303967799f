//! An old engine that comes to a service, drawn: its dimensions, what wear has left of it, and what is the matter.

use super::chance::{about, between, happens, normal};
use super::lash::{self, Past};
use fastrand::Rng;
use lashwork::causes::Cause;

/// How often each of the causes is met in an old engine that comes to a service: common practice, no source. Valves
/// that wear alone has brought under the book's least since they were last set come on top, about one engine in ten.
const RATES: [(Cause, f64); 11] = [
    (Cause::ValveBurnt, 0.07),
    (Cause::ValveTight, 0.09),
    (Cause::CamWorn, 0.035),
    (Cause::CamToothOut, 0.015),
    (Cause::RingsWorn, 0.09),
    (Cause::HeadGasket, 0.04),
    (Cause::IntakeLeak, 0.06),
    (Cause::SparkWeak, 0.10),
    (Cause::SparkLate, 0.09),
    (Cause::MixtureRich, 0.09),
    (Cause::MixtureLean, 0.06),
];

/// The causes in the order of this file.
pub(super) fn every_cause() -> impl Iterator<Item = Cause> {
    RATES.iter().map(|&(cause, _)| cause)
}

/// Where the gasket leaks to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Gasket {
    Neighbour(usize),
    Coolant(usize),
    Edge(usize),
}

/// Something that no cause stands for and that a mechanic may meet all the same.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Nuisance {
    /// Oil along the valve stems of a cylinder.
    StemOil(usize),
    /// Carbon that holds a valve open today: cylinder, and which valve.
    Carbon(usize, usize),
    /// A starter that tires from the first cylinder read to the last.
    TiredStarter,
    /// Plugs sooted by short runs with the choke out.
    ShortRuns,
}

pub(super) struct Engine {
    pub faults: Vec<Cause>,
    pub nuisance: Option<Nuisance>,
    pub cylinders: usize,
    pub bore: f64,
    pub swept: f64,
    /// Compression ratio as it is, and as printed.
    pub ratio: f64,
    pub ratio_printed: f64,
    /// Clearance volume of each cylinder as a share of what the ratio says: castings and carbon.
    pub clearance: Vec<f64>,
    /// As printed, and as the camshaft stands: degrees after bottom dead centre.
    pub closes_printed: f64,
    pub closes: f64,
    pub altitude: f64,
    /// mm² past the rings, through the valves (intake, exhaust) when hot, and through the gasket.
    pub rings: Vec<f64>,
    pub valves: Vec<[f64; 2]>,
    pub gasket: Option<(Gasket, f64)>,
    pub ring_shared: bool,
    /// Cold lash in mm, and what past services found.
    pub lash: Vec<[f64; 2]>,
    pub past: Past,
    /// mm of lift that a lobe has lost: cylinder, valve.
    pub lobe: Option<(usize, usize, f64)>,
    /// Degrees by which the camshaft is late.
    pub cam_late: f64,
    /// Area beside the throttle as a share of the throttle's, and whose runner it is in.
    pub beside: Option<(Option<usize>, f64)>,
    /// Share of sparks that do not light, by cylinder.
    pub missed: Vec<f64>,
    pub dwell: f64,
    /// By how much it has grown since the first of the past services.
    pub dwell_grew: f64,
    pub dwell_middle: f64,
    /// Degrees before top dead centre; the book asks for 8, 2 either way.
    pub spark: f64,
    /// Of what the carburettor gives.
    pub lambda: f64,
}

impl Engine {
    /// One engine with none to three faults.
    pub(super) fn draw(rng: &mut Rng) -> Self {
        let mut engine = Self::sound(rng);
        let faults = loop {
            let drawn: Vec<Cause> = RATES
                .iter()
                .filter(|&&(_, rate)| happens(rng, rate))
                .map(|&(cause, _)| cause)
                .collect();
            let both = drawn.contains(&Cause::MixtureRich) && drawn.contains(&Cause::MixtureLean);
            if drawn.len() <= 3 && !both {
                break drawn;
            }
        };
        let has = |cause: Cause| faults.contains(&cause);
        let sunk = has(Cause::ValveBurnt).then(|| engine.burn(rng));
        let worn = has(Cause::CamWorn).then(|| engine.wear_lobe(rng));
        engine.past = lash::wear(rng, &mut engine, sunk, worn, has(Cause::ValveTight));
        engine.hold_off(rng);
        for &fault in &faults {
            engine.suffer(fault, rng);
        }
        if happens(rng, 0.12) {
            engine.nuisance = Some(engine.annoy(rng));
        }
        engine.faults = faults;
        // What is not so bad that it was drawn, but is there: a sound valve that stands under the book's least.
        if lash::is_tight(&engine.lash, sunk) && !engine.faults.contains(&Cause::ValveTight) {
            engine.faults.push(Cause::ValveTight);
        }
        engine
    }

    fn sound(rng: &mut Rng) -> Self {
        let cylinders = if happens(rng, 0.25) { 6 } else { 4 };
        let bore = between(rng, 68.0, 88.0);
        let swept = 0.25 * core::f64::consts::PI * bore * bore * between(rng, 66.0, 92.0);
        let closes = between(rng, 44.0, 64.0).round();
        let ratio = between(rng, 7.2, 9.4);
        let age = about(rng, 1.0, 1.35);
        let each = |rng: &mut Rng, median: f64, factor: f64| about(rng, median, factor);
        let dwell_middle = if cylinders == 4 { 50.0 } else { 37.0 };
        Self {
            faults: Vec::new(),
            nuisance: None,
            cylinders,
            bore,
            swept,
            ratio,
            ratio_printed: ratio + 0.12 * normal(rng),
            clearance: (0..cylinders).map(|_| 1.0 + 0.018 * normal(rng)).collect(),
            closes_printed: closes,
            closes: closes + 2.0 * normal(rng),
            altitude: about(rng, 150.0, 2.2).min(1200.0),
            rings: (0..cylinders)
                .map(|_| each(rng, 0.22 * age, 1.25))
                .collect(),
            valves: (0..cylinders)
                .map(|_| [each(rng, 0.03, 1.6), each(rng, 0.05, 1.6)])
                .collect(),
            gasket: None,
            ring_shared: false,
            lash: Vec::new(),
            past: Past::default(),
            lobe: None,
            cam_late: 0.0,
            beside: None,
            missed: (0..cylinders)
                .map(|_| each(rng, 0.004, 2.0).min(0.03))
                .collect(),
            dwell: dwell_middle + (1.6 * normal(rng)).clamp(-3.5, 3.5),
            dwell_grew: between(rng, 0.0, 2.0),
            dwell_middle,
            spark: 8.0 + (1.2 * normal(rng)).clamp(-2.5, 2.5),
            lambda: 0.942 + (0.02 * normal(rng)).clamp(-0.035, 0.035),
        }
    }

    /// A valve that has burnt, sunk, or both; gives which, and whether it sinks.
    fn burn(&mut self, rng: &mut Rng) -> (usize, usize, bool) {
        let cylinder = rng.usize(0..self.cylinders);
        let valve = usize::from(happens(rng, 0.88));
        let sinks = happens(rng, 0.55);
        // One that only sinks may seal still.
        let leaks = !sinks || happens(rng, 0.5);
        if leaks {
            self.valves[cylinder][valve] += about(rng, 1.8, 1.9);
        }
        (cylinder, valve, sinks)
    }

    fn wear_lobe(&mut self, rng: &mut Rng) -> (usize, usize) {
        let (cylinder, valve) = (rng.usize(0..self.cylinders), rng.usize(0..2));
        self.lobe = Some((cylinder, valve, about(rng, 0.8, 2.0).min(4.0)));
        (cylinder, valve)
    }

    /// A valve with no lash left when it is hot stands off its seat: a ring as wide as the seat is round.
    fn hold_off(&mut self, rng: &mut Rng) {
        for (lash, leak) in self.lash.iter().zip(&mut self.valves) {
            for (valve, from_hot) in [(0, 0.07), (1, 0.12)] {
                let open = between(rng, 0.6, 1.0) * from_hot - lash[valve];
                let round = 0.4 * core::f64::consts::PI * self.bore;
                leak[valve] += 0.7 * round * open.clamp(0.0, 0.15);
            }
        }
    }

    fn suffer(&mut self, fault: Cause, rng: &mut Rng) {
        let one = rng.usize(0..self.cylinders);
        match fault {
            Cause::RingsWorn if happens(rng, 0.7) => {
                let added = about(rng, 0.8, 1.5);
                self.ring_shared = true;
                for own in &mut self.rings {
                    *own += about(rng, added, 1.25);
                }
            }
            Cause::RingsWorn => self.rings[one] += about(rng, 1.4, 1.7),
            Cause::CamToothOut => {
                let tooth = 720.0 / between(rng, 36.0, 44.0).round();
                self.cam_late = if happens(rng, 0.65) { tooth } else { -tooth };
                self.closes += self.cam_late;
            }
            Cause::HeadGasket => {
                let way = match rng.f64() {
                    x if x < 0.6 => Gasket::Neighbour(rng.usize(0..self.cylinders - 1)),
                    x if x < 0.85 => Gasket::Coolant(one),
                    _ => Gasket::Edge(one),
                };
                self.gasket = Some((way, about(rng, 2.0, 1.8)));
            }
            Cause::IntakeLeak => {
                let whose = happens(rng, 0.5).then_some(one);
                self.beside = Some((whose, between(rng, 0.08, 0.7)));
            }
            Cause::SparkWeak if happens(rng, 0.6) => {
                self.missed[one] = between(rng, 0.08, 1.0);
            }
            Cause::SparkWeak => {
                let share = about(rng, 0.12, 1.8).min(0.5);
                for own in &mut self.missed {
                    *own += about(rng, share, 1.3);
                }
                if happens(rng, 0.4) {
                    let off = between(rng, 5.0, 14.0);
                    let off = if happens(rng, 0.5) { off } else { -off };
                    self.dwell += off;
                    self.dwell_grew += off.max(0.0);
                }
            }
            Cause::SparkLate => {
                let late = 2.5 + between(rng, 1.0, 12.0);
                self.spark = 8.0 - late;
                // A rubbing block that has worn closes the gap: a degree of dwell, a degree of crank.
                if happens(rng, 0.45) {
                    let closed = late * between(rng, 0.7, 1.1);
                    self.dwell += closed;
                    self.dwell_grew += closed;
                }
            }
            Cause::MixtureRich => self.lambda = between(rng, 0.70, 0.87),
            Cause::MixtureLean => self.lambda = between(rng, 1.03, 1.22),
            _ => {}
        }
    }

    fn annoy(&mut self, rng: &mut Rng) -> Nuisance {
        let one = rng.usize(0..self.cylinders);
        match rng.usize(0..4) {
            0 => Nuisance::StemOil(one),
            1 => {
                let valve = rng.usize(0..2);
                self.valves[one][valve] += about(rng, 0.7, 1.6);
                Nuisance::Carbon(one, valve)
            }
            2 => Nuisance::TiredStarter,
            _ => Nuisance::ShortRuns,
        }
    }

    /// Pressure of the air there, in kPa: the standard atmosphere of ISO 2533.
    pub(super) fn air(&self) -> f64 {
        101.325 * (1.0 - 2.255_77e-5 * self.altitude).powf(5.255_88)
    }

    /// What leaves a cylinder when its piston stands at top dead centre, in mm²: rings, intake, exhaust, gasket.
    pub(super) fn leaks(&self, cylinder: usize) -> [f64; 4] {
        let own = match self.gasket {
            Some((Gasket::Neighbour(at), area)) if at == cylinder || at + 1 == cylinder => area,
            Some((Gasket::Coolant(at) | Gasket::Edge(at), area)) if at == cylinder => area,
            _ => 0.0,
        };
        let [intake, exhaust] = self.valves[cylinder];
        [self.rings[cylinder], intake, exhaust, own]
    }
}
