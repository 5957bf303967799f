//! The weighing of causes along a row of the head.
//!
//! # Method
//! Each cylinder is sound or has one of three faults; each pair of neighbours has a sound gasket or a leaking
//! one, which lowers both to about one level whatever else they have. Along a row what one gasket does
//! reaches the next cylinder only, so the sums over all cases are exact in one pass forward and one back.
//!
//! # Source
//! What oil and build-up point to: published, named in the tests. Shares and bands: this library's choice.

use super::standard::NATURAL;
use super::{BuildUp, CompressionCause};
use crate::statistics::normal_cdf;
use alloc::vec::Vec;
use core::f64::consts::TAU;

/// How often a cylinder is sound, has worn rings, a leaking valve, something else; and how often a gasket
/// leaks between two neighbours.
const PRIORS: [f64; 4] = [0.90, 0.04, 0.05, 0.01];
const GASKET: f64 = 0.01;
/// How closely two cylinders that leak into each other agree, as a part of what they should show.
const ALIKE: f64 = 0.08;
/// The chance of a note of the build-up that was taken down wrong.
const MISREAD: f64 = 0.05;
/// What oil adds by its room where that was left open, as a part.
pub(super) const OIL_OPEN: (f64, f64) = (0.0, 0.08);

/// What was read of a cylinder, over what it should show.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Seen {
    /// Dry, with its standard uncertainty.
    pub(super) dry: Option<(f64, f64)>,
    /// What oil added, with its standard uncertainty.
    pub(super) gain: Option<(f64, f64)>,
    /// What oil adds to a sound cylinder, from and to, as a part.
    pub(super) oil: (f64, f64),
    /// How the gauge rose.
    pub(super) build_up: Option<BuildUp>,
}

/// The density of a rectangle, blurred.
fn band(at: f64, low: f64, high: f64, blur: f64) -> f64 {
    if high - low < 1e-3 * blur {
        let z = (at - 0.5 * (low + high)) / blur;
        return libm::exp(-0.5 * z * z) / (blur * libm::sqrt(TAU));
    }
    ((normal_cdf((at - low) / blur) - normal_cdf((at - high) / blur)) / (high - low)).max(0.0)
}

impl Seen {
    /// The density of a dry reading.
    fn dry(self, cause: CompressionCause) -> f64 {
        let Some((at, u)) = self.dry else { return 1.0 };
        let (low, high) = match cause {
            CompressionCause::Sound => return band(at, 1.0, 1.0, libm::hypot(NATURAL, u)),
            CompressionCause::Rings => (0.30, 0.95),
            CompressionCause::Valve => (0.0, 0.93),
            CompressionCause::Gasket => (0.15, 0.85),
            CompressionCause::SomethingElse => (0.0, 1.20),
        };
        band(at, low, high, u.max(0.01))
    }

    /// The density of what oil added, and the chance of the build-up.
    fn beside(self, cause: CompressionCause) -> f64 {
        use CompressionCause as C;
        let mut all = 1.0;
        if let (Some((gain, u)), Some((dry, _))) = (self.gain, self.dry) {
            let lost = (1.0 - dry).max(0.0);
            // The part of what is lost that oil brings back.
            let (least, most) = match cause {
                C::Sound => (0.0, 0.3),
                C::Rings => (0.35, 1.0),
                C::Valve | C::Gasket => (0.0, 0.15),
                C::SomethingElse => (0.0, 1.0),
            };
            let (from, to) = self.oil;
            let (low, high) = (least * lost + from * dry, most * lost + to * dry);
            all *= band(gain, low, high, u.max(0.01));
        }
        if let Some(seen) = self.build_up {
            let [even, builds, stays] = match cause {
                C::Sound => [0.93, 0.05, 0.02],
                C::Rings => [0.15, 0.75, 0.10],
                C::Valve | C::Gasket => [0.07, 0.13, 0.80],
                C::SomethingElse => [1.0 / 3.0; 3],
            };
            let p = match seen {
                BuildUp::Even => even,
                BuildUp::LowThenBuilds => builds,
                BuildUp::StaysLow => stays,
            };
            all *= (1.0 - MISREAD) * p + MISREAD / 3.0;
        }
        all
    }

    /// Weight of each own cause: sound, rings, valve, something else.
    fn own(self) -> [f64; 4] {
        use CompressionCause as C;
        let [sound, rings, valve, other] = PRIORS;
        [
            sound * self.dry(C::Sound) * self.beside(C::Sound),
            rings * self.dry(C::Rings) * self.beside(C::Rings),
            valve * self.dry(C::Valve) * self.beside(C::Valve),
            other * self.dry(C::SomethingElse) * self.beside(C::SomethingElse),
        ]
    }

    /// Weight with a leaking gasket; `left` is the neighbour before it, if that gasket is the one.
    fn with_gasket(self, left: Option<&Self>) -> f64 {
        let level = match (self.dry, left.and_then(|l| l.dry)) {
            (Some((own, u)), Some((other, other_u))) => band(
                own,
                other,
                other,
                libm::hypot(ALIKE, libm::hypot(u, other_u)),
            ),
            _ => self.dry(CompressionCause::Gasket),
        };
        level * self.beside(CompressionCause::Gasket)
    }
}

/// What came out for a row: for each cylinder the chance of each cause in the order of
/// [`CompressionCause::ALL`], and for each pair of neighbours that of a leaking gasket.
pub(super) fn row(seen: &[Seen]) -> (Vec<[f64; 5]>, Vec<f64>) {
    let prior = |leaks: bool| if leaks { GASKET } else { 1.0 - GASKET };
    let states = [false, true];
    // The weight of a cylinder between its gaskets.
    let weight = |i: usize, before: bool, after: bool| -> f64 {
        let Some(own) = seen.get(i) else { return 1.0 };
        match (before, after) {
            (false, false) => own.own().iter().sum(),
            (true, _) => own.with_gasket(i.checked_sub(1).and_then(|l| seen.get(l))),
            (false, true) => own.with_gasket(None),
        }
    };
    let last = seen.len().saturating_sub(1);
    let after = |i: usize| if i == last { &states[..1] } else { &states[..] };
    // Forward: the weight of all up to a cylinder with the gasket after it so.
    let mut forward: Vec<[f64; 2]> = Vec::new();
    let mut came = [1.0, 0.0];
    for i in 0..seen.len() {
        let mut next = [0.0, 0.0];
        for leaks in after(i) {
            let sum: f64 = states
                .iter()
                .zip(came)
                .map(|(b, p)| p * weight(i, *b, *leaks))
                .sum();
            let share = if i == last { 1.0 } else { prior(*leaks) };
            *pick(&mut next, *leaks) = sum * share;
        }
        // Kept near one; only shares count.
        let all = (next[0] + next[1]).max(f64::MIN_POSITIVE);
        next = next.map(|p| p / all);
        forward.push(came);
        came = next;
    }
    // Back: the weight of all after a cylinder with the gasket after it so.
    let mut back = [1.0, 1.0];
    let (mut cylinders, mut pairs) = (Vec::new(), Vec::new());
    for i in (0..seen.len()).rev() {
        let before = forward.get(i).copied().unwrap_or([1.0, 0.0]);
        let mut joint = [[0.0; 2]; 2];
        for b in states {
            for a in after(i) {
                let share = if i == last { 1.0 } else { prior(*a) };
                let rest = if *a { back[1] } else { back[0] };
                let own = if b { before[1] } else { before[0] };
                *pick(pick(&mut joint, b), *a) = own * weight(i, b, *a) * share * rest;
            }
        }
        let [[clear, right], [left, both]] = joint;
        let all = (clear + right + left + both).max(f64::MIN_POSITIVE);
        let gasket = (right + left + both) / all;
        let own = seen.get(i).map_or([1.0, 0.0, 0.0, 0.0], |s| s.own());
        let sum = own.iter().sum::<f64>().max(f64::MIN_POSITIVE);
        let [sound, rings, valve, other] = own.map(|p| (1.0 - gasket) * p / sum);
        cylinders.push([sound, rings, valve, gasket, other]);
        if i > 0 {
            pairs.push((left + both) / all);
        }
        let mut earlier = [0.0, 0.0];
        for b in states {
            let terms = after(i).iter().map(|a| {
                let share = if i == last { 1.0 } else { prior(*a) };
                weight(i, b, *a) * share * if *a { back[1] } else { back[0] }
            });
            *pick(&mut earlier, b) = terms.sum();
        }
        let most = (earlier[0] + earlier[1]).max(f64::MIN_POSITIVE);
        back = earlier.map(|p| p / most);
    }
    cylinders.reverse();
    pairs.reverse();
    (cylinders, pairs)
}

/// The entry for a gasket that leaks, or for one that does not.
fn pick<T>([sound, leaking]: &mut [T; 2], leaks: bool) -> &mut T {
    if leaks { leaking } else { sound }
}
