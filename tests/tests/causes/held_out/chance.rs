//! Draws with heavier tails and other shapes than those of the first generator.

use fastrand::Rng;

pub(super) fn between(rng: &mut Rng, low: f64, high: f64) -> f64 {
    low + (high - low) * rng.f64()
}

pub(super) fn exponential(rng: &mut Rng) -> f64 {
    -(1.0 - rng.f64()).ln()
}

/// G. Marsaglia's polar method.
pub(super) fn normal(rng: &mut Rng) -> f64 {
    loop {
        let (u, v) = (between(rng, -1.0, 1.0), between(rng, -1.0, 1.0));
        let s = u * u + v * v;
        if s > 0.0 && s < 1.0 {
            return u * (-2.0 * s.ln() / s).sqrt();
        }
    }
}

/// G. Marsaglia and W. W. Tsang, "A simple method for generating gamma variables", 2000; shapes from 1.
pub(super) fn gamma(rng: &mut Rng, shape: f64, scale: f64) -> f64 {
    let d = shape - 1.0 / 3.0;
    let c = 1.0 / (9.0 * d).sqrt();
    loop {
        let x = normal(rng);
        let v = (1.0 + c * x).powi(3);
        if v > 0.0 && exponential(rng) > d * v - d - d * v.ln() - 0.5 * x * x {
            return scale * d * v;
        }
    }
}

pub(super) fn weibull(rng: &mut Rng, shape: f64, scale: f64) -> f64 {
    scale * exponential(rng).powf(1.0 / shape)
}

pub(super) fn laplace(rng: &mut Rng, scale: f64) -> f64 {
    let size = scale * exponential(rng);
    if rng.bool() { size } else { -size }
}

/// Student's t.
pub(super) fn student(rng: &mut Rng, freedom: f64) -> f64 {
    normal(rng) / (gamma(rng, freedom / 2.0, 2.0) / freedom).sqrt()
}

/// Whether it happens.
pub(super) fn happens(rng: &mut Rng, chance: f64) -> bool {
    rng.f64() < chance
}

/// How far along a soft step, from 0 to 1.
pub(super) fn step(over: f64, width: f64) -> f64 {
    1.0 / (1.0 + (-over / width).exp())
}
