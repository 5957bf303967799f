//! Drawn engines: what is printed for them, how their valves lie, and what a mechanic would feel.

use fastrand::Rng;
use lashwork::diagnosis::{Evidence, Prior, Seen, Source, Warming, WrongStroke, one_turn_out};
use lashwork::engine::{CylinderIndex, Engine, Intervals, layout};
use lashwork::quantity::{Lash, LashChange, LengthUnit, Marked};
use lashwork::thermal::{WARM_UP, unknown_shift};
use lashwork::tolerance::{Estimate, Limits, Uncertainty};
use lashwork::valve::ValveLimits;
use lashwork::valve::{CamEvents, ValveId, ValveKind, ValveTrain};
use lashwork_tests::engines::four_stroke;
use lashwork_tests::values::deg;

/// Actual error of a leaf: at most this, in millimetres; the kernel is told the same.
pub(crate) const LEAF: f64 = 0.003;

/// Set value, half the set band and half the leave-alone band of a kind, in millimetres.
pub(crate) type Kind = (f64, f64, Option<f64>);
/// What makers print, invented: intake and exhaust.
pub(crate) const PRINTED: [(Kind, Kind); 5] = [
    ((0.20, 0.02, Some(0.05)), (0.30, 0.02, Some(0.05))),
    ((0.15, 0.02, None), (0.20, 0.02, None)),
    ((0.10, 0.02, Some(0.05)), (0.20, 0.03, Some(0.05))),
    ((0.25, 0.03, Some(0.05)), (0.25, 0.03, Some(0.05))),
    ((0.15, 0.03, None), (0.35, 0.03, Some(0.06))),
];

/// A draw from the standard normal (Box and Muller).
pub(crate) fn normal(rng: &mut Rng) -> f64 {
    let (u, v) = (1.0 - rng.f64(), rng.f64());
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

pub(crate) fn flat(rng: &mut Rng, half: f64) -> f64 {
    half * (2.0 * rng.f64() - 1.0)
}

pub(crate) fn limits(kind: Kind) -> ValveLimits {
    let mark = |mm: f64| Marked::parse(&format!("{mm:.3} mm")).unwrap();
    let band = |half: f64| Limits::between(mark(kind.0 - half), mark(kind.0 + half)).unwrap();
    ValveLimits::new(mark(kind.0), band(kind.1), kind.2.map(band)).unwrap()
}

pub(crate) fn source(printed: (Kind, Kind)) -> Source {
    Source {
        intake: limits(printed.0),
        exhaust: limits(printed.1),
        warmth: LashChange::ZERO,
        warmth_uncertainty: Uncertainty::ZERO,
    }
}

/// A set of leaves as they really are: mark and true thickness, in millimetres.
pub(crate) struct Leaves(Vec<(f64, f64)>);

impl Leaves {
    /// Metric: 0.05 to 1.00 mm by 0.02 mm, which a set of 20 leaves gives in stacks of two.
    pub(crate) fn metric(rng: &mut Rng) -> Self {
        let marks = (0..48).map(|i| 0.05 + 0.02 * f64::from(i));
        Self(marks.map(|m| (m, m + flat(rng, LEAF))).collect())
    }

    /// Coarse metric: 0.05 to 1.00 mm by 0.05 mm.
    pub(crate) fn coarse(rng: &mut Rng) -> Self {
        let marks = (1..=20).map(|i| 0.05 * f64::from(i));
        Self(marks.map(|m| (m, m + flat(rng, LEAF))).collect())
    }

    /// Inch: 0.002 to 0.040 in by 0.001 in.
    pub(crate) fn inch(rng: &mut Rng) -> Self {
        let marks = (2..=40).map(|i| 0.0254 * f64::from(i));
        Self(marks.map(|m| (m, m + flat(rng, LEAF))).collect())
    }

    /// The marks of the thickest that goes and of the next.
    fn feel(&self, lash: f64) -> (Option<f64>, Option<f64>) {
        let goes = self.0.iter().rposition(|(_, real)| *real <= lash);
        let next = goes.map_or(0, |i| i + 1);
        (goes.map(|i| self.0[i].0), self.0.get(next).map(|l| l.0))
    }
}

/// A drawn engine: its valves with their true lashes.
pub(crate) struct Drawn {
    pub(crate) cylinders: usize,
    pub(crate) printed: (Kind, Kind),
    pub(crate) lashes: Vec<(ValveId, f64)>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Population {
    /// As the kernel models it.
    Model,
    /// Anywhere in the band, equally likely.
    Flat,
    /// Near the set value, some valves tight by 0.05 mm.
    Worn,
    /// Long neglected: exhaust valves closed up by 0.03 mm together, intake by 0.01 mm.
    Neglected,
    /// Set with a heavy or a light hand: all valves 0.02 mm off alike.
    Hand,
    /// Log-normal about the set value, so many per cent wide, felt too wide by so many hundredths of
    /// a millimetre.
    LogNormal(u8, u8),
}

pub(crate) fn of_kind(printed: (Kind, Kind), kind: ValveKind) -> Kind {
    match kind {
        ValveKind::Intake => printed.0,
        ValveKind::Exhaust => printed.1,
    }
}

pub(crate) fn draw(
    rng: &mut Rng,
    population: Population,
    printed: (Kind, Kind),
    cylinders: usize,
) -> Drawn {
    let drift = [0.015 * normal(rng), 0.015 * normal(rng)];
    let hand = if rng.bool() { 0.02 } else { -0.02 };
    let mut lashes = Vec::new();
    for cylinder in 0..cylinders {
        for kind in [ValveKind::Intake, ValveKind::Exhaust] {
            let (set, half_set, alone) = of_kind(printed, kind);
            let half = alone.unwrap_or(half_set);
            let is_exhaust = kind == ValveKind::Exhaust;
            let off = match population {
                Population::Model => {
                    let spread = (half * half / 3.0 + 0.015 * 0.015).sqrt();
                    let times = if rng.f64() < 0.03 { 2.0 } else { 1.0 };
                    drift[usize::from(is_exhaust)] + times * spread * normal(rng)
                }
                Population::Flat => flat(rng, half),
                Population::Worn => {
                    let worn = if rng.f64() < 0.15 { 0.05 } else { 0.0 };
                    flat(rng, half_set) + 0.005 * normal(rng) - worn
                }
                Population::Neglected => {
                    let closed = if is_exhaust { 0.03 } else { 0.01 };
                    flat(rng, half_set) + 0.015 * normal(rng) - closed
                }
                Population::Hand => 0.012 * normal(rng) + hand,
                Population::LogNormal(percent, heavy) => {
                    let width = f64::from(percent) / 100.0;
                    set * ((width * normal(rng)).exp() - 1.0) + f64::from(heavy) / 100.0
                }
            };
            let valve = ValveId {
                cylinder: CylinderIndex::new(cylinder),
                kind,
                number: 1,
            };
            lashes.push((valve, set + off));
        }
    }
    Drawn {
        cylinders,
        printed,
        lashes,
    }
}

/// The reading of a lash; `times` is what a slip made of its number.
pub(crate) fn seen(
    valve: ValveId,
    lash: f64,
    leaves: &Leaves,
    marked_in: LengthUnit,
    times: f64,
) -> Seen {
    let mm = |x: f64| Lash::from_mm(x * times).unwrap();
    let u = Uncertainty::from_mm(LEAF / 3.0_f64.sqrt() * times).unwrap();
    let felt = match leaves.feel(lash) {
        (Some(low), Some(high)) => Estimate::between(mm(low), mm(high), u).unwrap(),
        (Some(low), None) => Estimate::at_least(mm(low), u),
        (None, Some(high)) => Estimate::at_most(mm(high), u),
        (None, None) => panic!("a set has leaves"),
    };
    Seen {
        valve,
        felt,
        marked_in,
    }
}

pub(crate) fn engine(cylinders: usize) -> Engine {
    let order: &[usize] = match cylinders {
        2 => &[1, 2],
        3 => &[1, 3, 2],
        4 => &[1, 3, 4, 2],
        5 => &[1, 2, 4, 5, 3],
        6 => &[1, 5, 3, 6, 2, 4],
        8 => &[1, 8, 4, 3, 6, 5, 7, 2],
        _ => panic!("no firing order for {cylinders}"),
    };
    four_stroke(layout::inline(cylinders, &[]), order, Intervals::Even)
}

/// The ways of being one turn out; cam of moderate overlap, invented.
pub(crate) fn turns(cylinders: usize) -> Vec<WrongStroke> {
    let engine = engine(cylinders);
    let events = CamEvents::new(deg(14.0), deg(52.0), deg(54.0), deg(12.0)).unwrap();
    let train = ValveTrain::new(&engine, &events, deg(20.0), 1, 1).unwrap();
    let walk = train.cylinder_by_cylinder(None);
    let table = train.two_position(engine.order()[0]);
    one_turn_out(&engine, &events, &walk, table.as_ref())
}

/// The evidence of an engine without any fault; a second source 0.04 mm away is at hand.
pub(crate) fn evidence(drawn: &Drawn, leaves: &Leaves, marked_in: LengthUnit) -> Evidence {
    let near = |k: Kind| (k.0 + 0.04, k.1, k.2);
    let readings = drawn
        .lashes
        .iter()
        .map(|(valve, lash)| seen(*valve, *lash, leaves, marked_in, 1.0))
        .collect();
    Evidence {
        readings,
        sources: vec![
            source(drawn.printed),
            source((near(drawn.printed.0), near(drawn.printed.1))),
        ],
        one_turn_out: turns(drawn.cylinders),
        // What a request without parts gets.
        warming: Warming::Unknown(unknown_shift(WARM_UP).unwrap()),
        prior: Prior::usual(),
    }
}

/// Cylinders of a drawn engine.
pub(crate) const SIZES: [usize; 6] = [2, 3, 4, 5, 6, 8];
