//! How probable one reading is for a given distribution of the true lash.

use crate::quantity::{Lash, LashChange};
use crate::statistics::{ln_normal_density, ln_normal_interval, ln_normal_tail};
use crate::tolerance::Estimate;

/// A reading in millimetres: the bracket, the standard uncertainty of its ends, and the logarithm
/// of the factor by which a density must be multiplied when the reading was scaled.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gap {
    low: Option<f64>,
    high: Option<f64>,
    u: f64,
    ln_factor: f64,
}

impl Gap {
    /// A reading as felt.
    pub(super) fn felt(estimate: &Estimate<Lash>) -> Self {
        Self {
            low: estimate.low().map(Lash::mm),
            high: estimate.high().map(Lash::mm),
            u: estimate.normal_uncertainty().mm(),
            ln_factor: 0.0,
        }
    }

    /// Whether it has both ends, or is a light drag.
    pub(super) const fn is_closed(&self) -> bool {
        self.low.is_some() && self.high.is_some()
    }

    /// The reading if every number of it stood for so many times as much.
    ///
    /// The bracket widens with it, so its probability is that of the wider bracket; a light drag is
    /// a density of the number written, hence the factor.
    pub(super) fn times(self, factor: f64) -> Self {
        Self {
            low: self.low.map(|x| x * factor),
            high: self.high.map(|x| x * factor),
            u: self.u * factor,
            ln_factor: self.ln_factor + libm::log(factor),
        }
    }

    /// The reading less what warmth added to it.
    pub(super) fn less(self, warmth: LashChange) -> Self {
        Self {
            low: self.low.map(|x| x - warmth.mm()),
            high: self.high.map(|x| x - warmth.mm()),
            ..self
        }
    }

    /// The logarithm of the probability of the bracket (of the density, after a light drag) when
    /// the true lash is normal.
    pub(super) fn ln_mass(&self, mean: f64, spread: f64) -> f64 {
        self.ln_mass_of(spread)(mean)
    }

    /// The same for one spread and many means.
    pub(super) fn ln_mass_of(&self, spread: f64) -> impl Fn(f64) -> f64 + use<> {
        let gap = *self;
        let sigma = libm::hypot(spread, gap.u);
        let ln_sigma = libm::log(sigma);
        move |mean| gap.ln_blurred(mean, sigma, ln_sigma)
    }

    fn ln_blurred(&self, mean: f64, sigma: f64, ln_sigma: f64) -> f64 {
        let at = |x: f64| (x - mean) / sigma;
        match (self.low, self.high) {
            (Some(low), Some(high)) if high > low => ln_normal_interval(at(low), at(high)),
            (Some(low), Some(_)) => ln_normal_density(at(low)) - ln_sigma + self.ln_factor,
            (Some(low), None) => ln_normal_tail(at(low)),
            (None, Some(high)) => ln_normal_tail(-at(high)),
            (None, None) => 0.0,
        }
    }
}

/// The logarithm of a sum of two numbers given by their logarithms.
pub(super) fn ln_add(a: f64, b: f64) -> f64 {
    let (small, great) = if a < b { (a, b) } else { (b, a) };
    if small > f64::NEG_INFINITY {
        great + libm::log1p(libm::exp(small - great))
    } else {
        great
    }
}
