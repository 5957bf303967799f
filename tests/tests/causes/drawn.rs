//! An engine drawn at random: what is the matter with it, and what that does to its parts.
//!
//! Nothing here knows of the likelihoods in `lashwork::causes`: a fault is an area, a gap, an angle or a share of
//! air, of a size drawn from a continuous spread. All spreads are invented; those of one shop differ from those
//! of another ([`Shop`]).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::causes::{Cause, CausePriors, Place};

pub(super) const CYLINDERS: usize = 4;

/// What else may be the matter: nothing that is weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Other {
    ExhaustBlocked,
    SpringsWeak,
    ValveSticks,
}

/// How a shop's engines are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shop {
    /// How much of the stated rate of faults its engines have.
    pub(super) faults: f64,
    /// How large faults are beside the usual.
    pub(super) size: f64,
    /// How much its readings scatter beside the usual, and its chance of a slip with each.
    pub(super) scatter: f64,
    pub(super) slip: f64,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Cylinder {
    /// Areas of the leaks, in mm².
    pub(super) rings: f64,
    pub(super) exhaust: f64,
    pub(super) intake: f64,
    /// To each neighbour, and to the coolant.
    pub(super) gasket: [f64; 2],
    pub(super) coolant: f64,
    /// The smaller and the larger clearance of its two valves, in mm; and how they go, in mm a service.
    pub(super) lash: [f64; 2],
    pub(super) drift: [f64; 2],
    /// The share of the charge that a worn lobe lets in.
    pub(super) filled: f64,
    /// Lambda beside that of the engine.
    pub(super) lambda: f64,
    /// The share of cycles in which it does not fire for want of a spark.
    pub(super) unlit: f64,
}

/// An engine as it is.
#[derive(Clone, Debug)]
pub(super) struct Drawn {
    pub(super) causes: Vec<(Cause, Place)>,
    pub(super) other: Option<Other>,
    pub(super) cylinders: [Cylinder; CYLINDERS],
    /// Ratio, and where the intake closes, in degrees of crank after bottom dead centre.
    pub(super) ratio: f64,
    pub(super) closes: f64,
    /// Degrees of crank that the cam stands late.
    pub(super) cam_late: f64,
    pub(super) lambda: f64,
    /// Air behind the throttle over the air through it.
    pub(super) air: f64,
    pub(super) timing: f64,
    pub(super) dwell: f64,
    /// Vacuum of this engine when sound, in inHg.
    pub(super) vacuum: f64,
    pub(super) clock: fastrand::Rng,
}

pub(super) fn normal(rng: &mut fastrand::Rng) -> f64 {
    let u = 1.0 - rng.f64();
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * rng.f64()).cos()
}

/// Log-normal: a median, and the factor of one standard deviation.
pub(super) fn about(rng: &mut fastrand::Rng, median: f64, factor: f64) -> f64 {
    median * (factor.ln() * normal(rng)).exp()
}

pub(super) fn between(rng: &mut fastrand::Rng, low: f64, high: f64) -> f64 {
    low + (high - low) * rng.f64()
}

impl Drawn {
    pub(super) fn new(seed: u64, shop: &Shop) -> Self {
        let mut r = fastrand::Rng::with_seed(seed);
        let rng = &mut r;
        let cylinders = core::array::from_fn(|_| {
            let lash = [0.20 + 0.018 * normal(rng), 0.20 + 0.018 * normal(rng)];
            Cylinder {
                rings: about(rng, 0.15, 1.5),
                exhaust: about(rng, 0.03, 1.8),
                intake: about(rng, 0.03, 1.8),
                gasket: [0.0; 2],
                coolant: 0.0,
                lash: [lash[0].min(lash[1]), lash[0].max(lash[1])],
                drift: [0.006 * normal(rng), 0.006 * normal(rng)],
                filled: 1.0,
                lambda: 1.0 + 0.015 * normal(rng),
                unlit: 0.0,
            }
        });
        let mut engine = Self {
            causes: Vec::new(),
            other: None,
            cylinders,
            ratio: 8.5 + 0.15 * normal(rng),
            closes: 52.0 + 2.0 * normal(rng),
            cam_late: 1.5 * normal(rng),
            lambda: 0.935 + 0.013 * normal(rng),
            air: 0.0,
            timing: 8.0 + 1.0 * normal(rng),
            dwell: 50.0 + 1.6 * normal(rng),
            vacuum: 19.5 + 1.1 * normal(rng),
            clock: fastrand::Rng::with_seed(seed ^ 0x5eed),
        };
        let usual = CausePriors::assumed();
        for cause in Cause::ALL {
            if rng.f64() < shop.faults * usual.percent(cause) / 100.0 {
                engine.break_it(cause, shop.size, rng);
            }
        }
        // What was worn or set out of its limits without a fault of its own is so too.
        for at in 0..CYLINDERS {
            if engine.cylinders[at].lash[0] < 0.15
                && !engine.has(Cause::ValveBurnt)
                && !engine.has(Cause::ValveTight)
            {
                engine.causes.push((Cause::ValveTight, Place::Cylinder(at)));
            }
        }
        if engine.timing < 5.5 && !engine.has(Cause::SparkLate) {
            engine.causes.push((Cause::SparkLate, Place::Engine));
        }
        // 4.2 and 1.2 % of carbon monoxide.
        for (cause, is) in [
            (Cause::MixtureRich, engine.lambda < 0.896),
            (Cause::MixtureLean, engine.lambda > 0.975),
        ] {
            if is && !engine.has(cause) {
                engine.causes.push((cause, Place::Engine));
            }
        }
        if rng.f64() < 0.03 {
            engine.pass(rng);
        }
        if rng.f64() < 0.03 {
            engine.other(rng);
        }
        engine
    }

    /// One of its cylinders, now and then two.
    fn some(rng: &mut fastrand::Rng) -> Vec<usize> {
        let first = rng.usize(0..CYLINDERS);
        let second = (first + rng.usize(1..CYLINDERS)) % CYLINDERS;
        if rng.f64() < 0.2 {
            vec![first, second]
        } else {
            vec![first]
        }
    }

    fn each(&mut self, cause: Cause, places: &[usize], mut of: impl FnMut(&mut Cylinder)) {
        for at in places {
            of(&mut self.cylinders[*at]);
            self.causes.push((cause, Place::Cylinder(*at)));
        }
    }

    #[expect(
        clippy::too_many_lines,
        reason = "a paragraph a cause, each read by itself"
    )]
    fn break_it(&mut self, cause: Cause, size: f64, rng: &mut fastrand::Rng) {
        let some = Self::some(rng);
        let all: Vec<usize> = (0..CYLINDERS).collect();
        match cause {
            Cause::ValveBurnt => {
                let (at_exhaust, sinks) = (rng.f64() < 0.8, rng.f64() < 0.55);
                let area = size * about(rng, 1.8, 2.2);
                let sunk = size * about(rng, 0.06, 1.8);
                self.each(cause, &some, |c| {
                    *(if at_exhaust {
                        &mut c.exhaust
                    } else {
                        &mut c.intake
                    }) += area;
                    if sinks {
                        c.lash[0] -= sunk;
                        c.drift[0] -= 0.5 * sunk;
                    }
                });
            }
            Cause::ValveTight => {
                let (lash, gone) = (between(rng, 0.0, 0.14), rng.f64() < 0.4);
                // What warms up closes it: under 0.05 mm cold it stands open hot.
                let open = size * 12.0 * (0.05 - lash).max(0.0);
                let at_exhaust = rng.f64() < 0.7;
                self.each(cause, &some, |c| {
                    c.lash[0] = lash;
                    *(if at_exhaust {
                        &mut c.exhaust
                    } else {
                        &mut c.intake
                    }) += open;
                    if gone {
                        c.drift[0] -= 0.5 * (0.2 - lash);
                    }
                });
            }
            Cause::CamWorn => {
                // A worn nose keeps the clearance, a worn follower opens it.
                let follower = rng.f64() < 0.65;
                let worn = size * about(rng, 0.12, 1.7);
                let filled = (1.0 - between(rng, 0.0, 0.3) * size).max(0.3);
                self.each(cause, &some, |c| {
                    c.filled *= filled;
                    if follower {
                        c.lash[1] += worn;
                        c.drift[1] += 0.5 * worn;
                    }
                });
            }
            Cause::CamToothOut => {
                self.cam_late += if rng.f64() < 0.75 { 17.0 } else { -17.0 };
                self.causes.push((cause, Place::Engine));
            }
            Cause::RingsWorn => {
                let factor = size * about(rng, 9.0, 1.8);
                if rng.f64() < 0.6 {
                    for at in all {
                        self.cylinders[at].rings *= factor * about(rng, 1.0, 1.2);
                    }
                    self.causes.push((cause, Place::Engine));
                } else {
                    self.each(cause, &some, |c| c.rings *= 1.3 * factor);
                }
            }
            Cause::HeadGasket => {
                let area = size * about(rng, 3.0, 2.0);
                if rng.f64() < 0.7 {
                    let first = rng.usize(0..CYLINDERS - 1);
                    self.cylinders[first].gasket[1] += area;
                    self.cylinders[first + 1].gasket[0] += area;
                    self.causes.push((cause, Place::Between(first, first + 1)));
                } else {
                    self.each(cause, &some[..1], |c| c.coolant += 0.5 * area);
                }
            }
            Cause::IntakeLeak => {
                let air = size * about(rng, 0.18, 1.7);
                if rng.f64() < 0.6 {
                    self.air += air;
                    self.causes.push((cause, Place::Engine));
                } else {
                    self.air += 0.4 * air;
                    self.each(cause, &some[..1], |c| c.lambda *= 1.0 + air);
                }
            }
            Cause::SparkWeak => {
                if rng.f64() < 0.3 {
                    let unlit = (size * between(rng, 0.03, 0.3)).min(0.9);
                    self.dwell += if rng.f64() < 0.5 {
                        between(rng, -9.0, 0.0)
                    } else {
                        0.0
                    };
                    for at in all {
                        self.cylinders[at].unlit = unlit * between(rng, 0.5, 1.5);
                    }
                    self.causes.push((cause, Place::Engine));
                } else {
                    let unlit = (size * between(rng, 0.1, 1.0)).min(1.0);
                    self.each(cause, &some, |c| c.unlit = unlit);
                }
            }
            Cause::SparkLate => {
                let late = 2.5 + size * between(rng, 0.5, 9.0);
                self.timing -= late;
                if rng.f64() < 0.5 {
                    self.dwell += late.min(8.0);
                }
                self.causes.push((cause, Place::Engine));
            }
            Cause::MixtureRich => {
                self.lambda -= 0.03 + size * between(rng, 0.02, 0.12);
                self.causes.push((cause, Place::Engine));
            }
            Cause::MixtureLean => {
                self.lambda += 0.05 + size * between(rng, 0.03, 0.15);
                self.causes.push((cause, Place::Engine));
            }
        }
    }

    /// Carbon under a valve or dry bores, which pass.
    fn pass(&mut self, rng: &mut fastrand::Rng) {
        let (area, kind) = (about(rng, 1.0, 1.8), rng.usize(0..3));
        let cylinder = &mut self.cylinders[rng.usize(0..CYLINDERS)];
        match kind {
            0 => cylinder.exhaust += area,
            1 => cylinder.intake += area,
            _ => cylinder.rings += area,
        }
    }

    fn other(&mut self, rng: &mut fastrand::Rng) {
        let all = [
            Other::ExhaustBlocked,
            Other::SpringsWeak,
            Other::ValveSticks,
        ];
        self.other = Some(all[rng.usize(0..3)]);
    }

    pub(super) fn has(&self, cause: Cause) -> bool {
        self.causes.iter().any(|(own, _)| *own == cause)
    }
}
