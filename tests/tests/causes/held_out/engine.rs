//! An engine as years of use leave it: lash by steps of wear that add up, holes in square millimetres, air and fuel.
//! Sizes are invented.
#![allow(
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::chance::{between, exponential, gamma, happens, laplace, student, weibull};
use super::gas::monoxide;
use fastrand::Rng;
use lashwork::causes::{Cause, CausePriors, Place};

/// Printed limits: lash in mm, timing in degrees before top dead centre, carbon monoxide in percent.
pub(super) const LASH: [f64; 2] = [0.15, 0.25];
pub(super) const TIMING: [f64; 2] = [7.0, 13.0];
pub(super) const MONOXIDE: [f64; 2] = [1.0, 4.0];

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Other {
    ExhaustBlocked,
    SpringsWeak,
    GuidesWorn,
    PlugsTooHot,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Valve {
    /// As the last service left it, and now; in mm.
    pub(super) set: f64,
    pub(super) lash: f64,
    /// Past its seat, in mm².
    pub(super) leak: f64,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Cylinder {
    pub(super) exhaust: Valve,
    pub(super) intake: Valve,
    /// Past the rings, to the cylinder before and after it, and into the water; in mm².
    pub(super) rings: f64,
    pub(super) gasket: [f64; 2],
    pub(super) water: f64,
    /// What a worn lobe leaves of the filling.
    pub(super) filled: f64,
    /// Air into its own branch, over what comes through the throttle.
    pub(super) air: f64,
    /// The share of strokes without a spark.
    pub(super) unlit: f64,
}

#[derive(Clone, Debug)]
pub(super) struct Used {
    pub(super) causes: Vec<(Cause, Place)>,
    pub(super) other: Option<Other>,
    pub(super) cylinders: Vec<Cylinder>,
    pub(super) ratio: f64,
    /// Where the intake closes, in degrees after bottom dead centre, and how late the cam stands, in degrees of crank.
    pub(super) closes: f64,
    pub(super) cam_late: f64,
    /// What the carburettor gives, and air behind the throttle over what comes through it.
    pub(super) lambda: f64,
    pub(super) air: f64,
    pub(super) timing: f64,
    pub(super) dwell: f64,
    /// What friction takes, in kPa of mean pressure.
    pub(super) friction: f64,
}

impl Used {
    pub(super) fn new(rng: &mut Rng) -> Self {
        let cylinders = [3, 4, 6][rng.usize(..3)];
        let mut engine = Self::sound(cylinders, rng);
        let usual = CausePriors::assumed();
        for cause in Cause::ALL {
            // Shops differ; a few engines are out of their limits without more than use.
            let rate =
                usual.percent(cause) * (0.3 * student(rng, 5.0)).exp().clamp(0.3, 3.0) / 1.06;
            let rate = match cause {
                Cause::ValveTight => rate - 2.0,
                Cause::SparkLate => rate - 1.0,
                _ => rate,
            };
            if happens(rng, rate / 100.0) {
                engine.fail(cause, rng);
            }
        }
        engine.name_what_is_out();
        if happens(rng, 0.02) {
            let at = rng.usize(..cylinders);
            let area = weibull(rng, 1.5, 1.2);
            let c = &mut engine.cylinders[at];
            *(if rng.bool() {
                &mut c.exhaust.leak
            } else {
                &mut c.intake.leak
            }) += area;
        }
        if happens(rng, 0.015) {
            for c in &mut engine.cylinders {
                c.rings += gamma(rng, 2.0, 0.25);
            }
        }
        if happens(rng, 0.035) {
            let all = [
                Other::ExhaustBlocked,
                Other::SpringsWeak,
                Other::GuidesWorn,
                Other::PlugsTooHot,
            ];
            engine.other = Some(all[rng.usize(..4)]);
        }
        engine
    }

    fn sound(cylinders: usize, rng: &mut Rng) -> Self {
        let mut valve = |sinks: f64| {
            let set = 0.20 + laplace(rng, 0.007);
            let lash = set - gamma(rng, 2.0, 0.5 * sinks) + gamma(rng, 2.0, 0.003);
            let leak = weibull(rng, 1.2, 0.04);
            Valve { set, lash, leak }
        };
        let valves: Vec<[Valve; 2]> = (0..cylinders)
            .map(|_| [valve(0.012), valve(0.004)])
            .collect();
        let mut one = |[exhaust, intake]: [Valve; 2]| Cylinder {
            exhaust,
            intake,
            rings: gamma(rng, 4.0, 0.05),
            gasket: [0.0; 2],
            water: 0.0,
            filled: 1.0,
            air: 0.015 * student(rng, 5.0),
            unlit: 0.002 * exponential(rng),
        };
        let cylinders = valves.into_iter().map(&mut one).collect();
        Self {
            causes: Vec::new(),
            other: None,
            cylinders,
            ratio: between(rng, 8.3, 8.7),
            closes: 52.0 + student(rng, 4.0),
            cam_late: laplace(rng, 1.2),
            lambda: between(rng, 0.905, 0.955),
            air: 0.0,
            timing: 10.0 + 0.8 * student(rng, 4.0),
            dwell: 50.0 + 1.3 * student(rng, 5.0),
            friction: 88.0 * (0.07 * student(rng, 6.0)).exp(),
        }
    }

    /// Its first place and now and then a second one, by chance.
    fn some(&self, rng: &mut Rng) -> Vec<usize> {
        let n = self.cylinders.len();
        let first = rng.usize(..n);
        let again = happens(rng, 0.15).then(|| (first + rng.usize(1..n)) % n);
        core::iter::once(first).chain(again).collect()
    }

    fn at(&mut self, cause: Cause, places: &[usize], mut of: impl FnMut(&mut Cylinder)) {
        for at in places {
            of(&mut self.cylinders[*at]);
            self.causes.push((cause, Place::Cylinder(*at)));
        }
    }

    fn everywhere(&mut self, cause: Cause, mut of: impl FnMut(&mut Cylinder)) {
        self.cylinders.iter_mut().for_each(&mut of);
        self.causes.push((cause, Place::Engine));
    }

    fn fail(&mut self, cause: Cause, rng: &mut Rng) {
        match cause {
            Cause::ValveBurnt | Cause::ValveTight | Cause::CamWorn => self.fail_valve(cause, rng),
            Cause::RingsWorn | Cause::HeadGasket => self.fail_seal(cause, rng),
            Cause::IntakeLeak | Cause::SparkWeak => self.fail_somewhere(cause, rng),
            _ => self.fail_all(cause, rng),
        }
    }

    fn fail_valve(&mut self, cause: Cause, rng: &mut Rng) {
        let some = self.some(rng);
        let at_exhaust = happens(rng, 0.8);
        let of = |c: &mut Cylinder, change: &dyn Fn(&mut Valve)| {
            change(if at_exhaust {
                &mut c.exhaust
            } else {
                &mut c.intake
            });
        };
        match cause {
            Cause::ValveBurnt => {
                let hole = weibull(rng, 1.1, 2.5);
                let sunk = if happens(rng, 0.5) {
                    gamma(rng, 1.5, 0.04)
                } else {
                    0.0
                };
                self.at(cause, &some, |c| {
                    of(c, &|valve| {
                        valve.leak += hole;
                        valve.lash -= sunk;
                    });
                });
            }
            Cause::ValveTight => {
                let lash = (0.15 - gamma(rng, 1.3, 0.04)).max(-0.02);
                let was_set_so = happens(rng, 0.55);
                // Hot, what is too tight stands off its seat: a ring of 30 mm, half of it in the way.
                let open = 47.0 * (between(rng, 0.02, 0.10) - lash).max(0.0);
                self.at(cause, &some, |c| {
                    of(c, &|valve| {
                        let closed = valve.set - valve.lash;
                        valve.lash = lash;
                        valve.leak += open;
                        if was_set_so {
                            valve.set = lash + closed;
                        }
                    });
                });
            }
            _ => {
                let filled = 1.0 - between(rng, 0.03, 0.35);
                let worn = if happens(rng, 0.65) {
                    gamma(rng, 2.0, 0.06)
                } else {
                    0.0
                };
                self.at(cause, &some, |c| {
                    c.filled *= filled;
                    of(c, &|valve| valve.lash += worn);
                });
            }
        }
    }

    fn fail_seal(&mut self, cause: Cause, rng: &mut Rng) {
        let some = self.some(rng);
        if cause == Cause::RingsWorn {
            let worn = 0.3 + gamma(rng, 2.0, 0.6);
            if happens(rng, 0.55) {
                let all: Vec<f64> = (0..self.cylinders.len())
                    .map(|_| worn * between(rng, 0.6, 1.4))
                    .collect();
                let mut all = all.into_iter();
                self.everywhere(cause, |c| c.rings += all.next().unwrap_or(worn));
            } else {
                self.at(cause, &some, |c| c.rings += 1.2 * worn);
            }
            return;
        }
        let hole = weibull(rng, 1.2, 3.0);
        if happens(rng, 0.65) {
            let first = rng.usize(..self.cylinders.len() - 1);
            self.cylinders[first].gasket[1] += hole;
            self.cylinders[first + 1].gasket[0] += hole;
            self.causes.push((cause, Place::Between(first, first + 1)));
        } else {
            self.at(cause, &some[..1], |c| c.water += 0.4 * hole);
        }
    }

    fn fail_somewhere(&mut self, cause: Cause, rng: &mut Rng) {
        let some = self.some(rng);
        if cause == Cause::IntakeLeak {
            let air = gamma(rng, 2.0, 0.12);
            if happens(rng, 0.6) {
                self.air += air;
                self.causes.push((cause, Place::Engine));
            } else {
                self.at(cause, &some[..1], |c| c.air += 1.5 * air);
            }
        } else if happens(rng, 0.3) {
            let unlit = weibull(rng, 1.2, 0.12).min(0.8);
            // A worn condenser or coil leaves the gap alone; a gap too wide makes a small dwell.
            if happens(rng, 0.3) {
                self.dwell -= gamma(rng, 2.0, 2.5);
            }
            self.everywhere(cause, |c| c.unlit = unlit);
        } else {
            let unlit = if happens(rng, 0.3) {
                1.0
            } else {
                between(rng, 0.05, 0.9)
            };
            self.at(cause, &some, |c| c.unlit = unlit);
        }
    }

    fn fail_all(&mut self, cause: Cause, rng: &mut Rng) {
        match cause {
            Cause::CamToothOut => {
                let tooth = between(rng, 16.0, 21.0);
                self.cam_late += if happens(rng, 0.7) { tooth } else { -tooth };
            }
            Cause::SparkLate => {
                let late = 2.0 + gamma(rng, 2.0, 2.2);
                self.timing -= late;
                // A rubbing block that wears closes the gap.
                if happens(rng, 0.45) {
                    self.dwell += late.min(10.0);
                }
            }
            Cause::MixtureRich => self.lambda -= 0.03 + gamma(rng, 2.0, 0.03),
            _ => self.lambda += 0.04 + gamma(rng, 2.0, 0.035),
        }
        self.causes.push((cause, Place::Engine));
    }

    /// What is out of its printed limits is so, whatever brought it there.
    fn name_what_is_out(&mut self) {
        for at in 0..self.cylinders.len() {
            let c = &self.cylinders[at];
            let place = Place::Cylinder(at);
            let is_out = c.exhaust.lash.min(c.intake.lash) < LASH[0];
            let is_known = [Cause::ValveBurnt, Cause::ValveTight]
                .iter()
                .any(|cause| self.causes.contains(&(*cause, place)));
            if is_out && !is_known {
                self.causes.push((Cause::ValveTight, place));
            }
        }
        let co = monoxide(self.lambda);
        for (cause, is_out) in [
            (Cause::SparkLate, self.timing < TIMING[0]),
            (Cause::MixtureRich, co > MONOXIDE[1]),
            (Cause::MixtureLean, co < MONOXIDE[0]),
        ] {
            if is_out && !self.has(cause) {
                self.causes.push((cause, Place::Engine));
            }
        }
    }

    pub(super) fn has(&self, cause: Cause) -> bool {
        self.causes.iter().any(|(own, _)| *own == cause)
    }

    pub(super) fn is_sound(&self) -> bool {
        self.causes.is_empty() && self.other.is_none()
    }
}
