//! The line of one stretch of a subject, to be asked at many times.

use super::drift::{Drift, Member};
use super::mix::Mix;
use super::pooled::Level;
use super::posterior::{Axis, Part};
use crate::statistics::{normal_cdf, normal_tail};
use crate::tolerance::{HasLimits, Limits, Measurand, Probabilities};
use alloc::vec::Vec;

/// What one pair of scatter and spread says of it.
#[derive(Clone, Copy, Debug)]
struct Piece {
    weight: f64,
    level: Level,
    slope: f64,
    variance: f64,
    scatter: f64,
}

/// A line, and readings about it.
#[derive(Clone, Debug)]
pub(super) struct Ray {
    axis: Axis,
    pieces: Vec<Piece>,
}

impl Piece {
    /// Mean and standard deviation of the line.
    fn line(&self, x: f64) -> (f64, f64) {
        let (mean, variance) = self.level.at(x, self.slope, self.variance);
        (mean, libm::sqrt(variance))
    }

    /// The same of a reading.
    fn found(&self, x: f64) -> (f64, f64) {
        let (mean, variance) = self.level.at(x, self.slope, self.variance);
        (mean, libm::sqrt(variance + self.scatter * self.scatter))
    }
}

impl Ray {
    /// That of a stretch; stretches with a level are counted.
    pub(super) fn of<Q: Measurand>(drift: &Drift<Q>, member: &Member, stretch: usize) -> Self {
        let (parts, place) = drift.parts(member);
        let piece = |part: &Part| {
            let (slope, variance) = part.pooled.slopes.get(place)?;
            Some(Piece {
                weight: part.weight,
                level: *part.levels.get(place)?.get(stretch)?,
                slope: *slope,
                variance: *variance,
                scatter: part.scatter,
            })
        };
        Self {
            axis: drift.axis,
            pieces: parts.iter().filter_map(piece).collect(),
        }
    }

    /// Where the line is at a time, and where a reading would be.
    pub(super) fn at(&self, at: f64) -> (Mix, Mix) {
        let x = self.axis.place(at);
        let mix = |of: fn(&Piece, f64) -> (f64, f64)| {
            let part = |piece: &Piece| {
                let (mean, sd) = of(piece, x);
                (piece.weight, mean, sd)
            };
            Mix {
                parts: self.pieces.iter().map(part).collect(),
            }
        };
        (mix(Piece::line), mix(Piece::found))
    }

    /// The chances of a reading at a time to be below, in and above a band.
    pub(super) fn chances<Q: HasLimits>(&self, at: f64, limits: &Limits<Q>) -> Probabilities {
        let x = self.axis.place(at);
        let (lower, upper) = limits.numbers();
        let (mut below, mut above) = (0.0, 0.0);
        for piece in &self.pieces {
            let (mean, sd) = piece.found(x);
            let tail = |limit: Option<f64>, of: fn(f64) -> f64| {
                limit.map_or(0.0, |limit| piece.weight * of((limit - mean) / sd))
            };
            below += tail(lower, normal_cdf);
            above += tail(upper, normal_tail);
        }
        Probabilities::known((below, (1.0_f64 - below - above).max(0.0), above))
    }

    /// The chance that the line itself is below a limit at a time.
    pub(super) fn line_below(&self, at: f64, limit: f64) -> f64 {
        self.line_beyond(at, limit, normal_cdf)
    }

    /// Above it.
    pub(super) fn line_above(&self, at: f64, limit: f64) -> f64 {
        self.line_beyond(at, limit, normal_tail)
    }

    fn line_beyond(&self, at: f64, limit: f64, of: fn(f64) -> f64) -> f64 {
        let x = self.axis.place(at);
        let part = |piece: &Piece| {
            let (mean, sd) = piece.line(x);
            piece.weight * of((limit - mean) / sd)
        };
        self.pieces.iter().map(part).sum()
    }
}
