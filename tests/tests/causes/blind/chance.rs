//! Draws that the parts of this generator share.

use fastrand::Rng;

/// A standard normal draw.
pub(super) fn normal(rng: &mut Rng) -> f64 {
    let (radius, turn) = (1.0 - rng.f64(), rng.f64());
    (-2.0 * radius.ln()).sqrt() * (core::f64::consts::TAU * turn).cos()
}

/// Between two ends, all alike.
pub(super) fn between(rng: &mut Rng, from: f64, to: f64) -> f64 {
    from + (to - from) * rng.f64()
}

/// About a median, with a factor either way that a third of all exceed.
pub(super) fn about(rng: &mut Rng, median: f64, factor: f64) -> f64 {
    median * (factor.ln() * normal(rng)).exp()
}

/// Whether something of a chance happens.
pub(super) fn happens(rng: &mut Rng, chance: f64) -> bool {
    rng.f64() < chance
}

/// A chance that goes from nothing to one as a size passes its middle.
pub(super) fn rising(size: f64, middle: f64, width: f64) -> f64 {
    1.0 / (1.0 + ((middle - size) / width).exp())
}
