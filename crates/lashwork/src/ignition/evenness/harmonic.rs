//! The first harmonic over one turn of the cam, and the run-out that makes it.
//!
//! # Method
//! A cam whose middle runs out by `e` carries each lobe sideways past the follower by `e sin`, which at a
//! radius `r` is an angle `e sin / r`, and lifts it by `e cos`, which on a flank that opens `g` in an angle
//! `f` moves the spark by `e cos f / g`. The two are a quarter of a turn apart: the amplitude is
//! `e sqrt(1 / r^2 + (f / g)^2)`.
//!
//! # Source
//! Geometry.

use super::EvennessError;
use super::vectors::{dot, norm};
use crate::quantity::si::plain;
use crate::quantity::{CrankAngle, Cycle, DistributorAngle, Length};
use alloc::vec::Vec;
use serde::Serialize;
use uom::si::length::millimeter;

/// From so many standard uncertainties on the place of the latest spark is worth saying.
const DIRECTED: f64 = 2.0;

/// The part of the errors that goes once up and down in a turn of the cam.
///
/// ```
/// use lashwork::ignition::evenness::{CamSection, FirstHarmonic, Flank};
/// use lashwork::quantity::{CrankAngle, Cycle, DistributorAngle, Length};
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let harmonic = FirstHarmonic {
///     amplitude: CrankAngle::from_degrees(0.716)?,
///     amplitude_u: CrankAngle::from_degrees(0.1)?,
///     latest_at: DistributorAngle::ZERO,
///     latest_at_u: None,
///     chance_by_reading: 0.001,
/// };
/// let radius = Length::from_mm(8.0)?;
/// let bare = CamSection { radius, flank: None };
/// let run_out = harmonic.run_out(&bare, Cycle::FourStroke)?;
/// assert!((run_out.eccentricity.mm() - 0.05).abs() < 1e-4);
/// // A flank that opens 0.1 mm in 3 degrees makes the same harmonic of a smaller run-out.
/// let flank = Flank { angle: DistributorAngle::from_degrees(3.0)?, opens: Length::from_mm(0.1)? };
/// let known = CamSection { radius, flank: Some(flank) };
/// assert!(harmonic.run_out(&known, Cycle::FourStroke)?.eccentricity.mm() < 0.02);
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FirstHarmonic {
    /// Half of the way from earliest to latest.
    pub amplitude: CrankAngle,
    /// Its standard uncertainty, to first order; where the amplitude is as small as that, the harmonic may
    /// well be none.
    pub amplitude_u: CrankAngle,
    /// How far the rotor is past the first lobe where a spark would come latest, from 0 up to 360.
    pub latest_at: DistributorAngle,
    /// Its standard uncertainty; none where the amplitude is below two of its own.
    pub latest_at_u: Option<DistributorAngle>,
    /// The chance that the doubt of the readings alone makes one so large.
    pub chance_by_reading: f64,
}

impl FirstHarmonic {
    /// From the weights of `a cos + b sin` and the readings, each of one standard uncertainty.
    pub(super) fn of(weights: [&[f64]; 2], late: &[f64], u: f64, cycle: Cycle) -> Self {
        let [cos, sin] = weights;
        let (a, b) = (dot(cos, late), dot(sin, late));
        let (aa, bb, ab) = (dot(cos, cos), dot(sin, sin), dot(cos, sin));
        let amplitude = libm::hypot(a, b);
        let determinant = aa * bb - ab * ab;
        let square = (bb * a * a - 2.0 * ab * a * b + aa * b * b) / determinant / (u * u);
        let along: Vec<f64> = weighted(weights, [a, b], amplitude);
        let across: Vec<f64> = weighted(weights, [-b, a], amplitude);
        let amplitude_u = u * norm(&along);
        let angle = libm::atan2(b, a).to_degrees();
        let round = |crank: f64| CrankAngle::computed(crank).at_distributor(cycle);
        // Degrees of the cam, through the crank's type to the distributor's.
        let of_cam = |degrees: f64| round(degrees * cycle.crank_turns());
        Self {
            amplitude: CrankAngle::computed(amplitude),
            amplitude_u: CrankAngle::computed(amplitude_u),
            latest_at: of_cam(within_turn(angle)),
            latest_at_u: (amplitude >= DIRECTED * amplitude_u && amplitude > 0.0)
                .then(|| of_cam((u * norm(&across) / amplitude).to_degrees())),
            chance_by_reading: libm::exp(-0.5 * square),
        }
    }

    /// The run-out that makes this harmonic.
    ///
    /// # Errors
    /// [`EvennessError::CamSection`] for a radius, an angle or an opening of nought.
    pub fn run_out(&self, cam: &CamSection, cycle: Cycle) -> Result<RunOut, EvennessError> {
        let refused = || EvennessError::CamSection {
            radius: cam.radius,
            flank_mm: cam.flank.map_or(0.0, |flank| flank.opens.mm()),
        };
        let flank = cam.flank;
        let is_flat = |f: Flank| f.opens.mm() <= 0.0 || f.angle.degrees() <= 0.0;
        if cam.radius.mm() <= 0.0 || flank.is_some_and(is_flat) {
            return Err(refused());
        }
        // How much steeper the flank moves the spark than the shift sideways does.
        let steeper = flank.map_or(0.0, |f| {
            let moved = plain(f.angle.radians()) * cam.radius.si() / f.opens.si();
            moved.value
        });
        let by = |crank: CrankAngle| {
            let angle = crank.at_distributor(cycle).radians();
            let shift = cam.radius.si() * plain(angle / libm::hypot(1.0, steeper));
            Length::from_mm(shift.get::<millimeter>()).map_err(|_| refused())
        };
        Ok(RunOut {
            eccentricity: by(self.amplitude)?,
            standard_uncertainty: by(self.amplitude_u)?,
            is_upper_bound: flank.is_none(),
        })
    }
}

/// From 0 up to 360; what lies within rounding below counts as 0.
fn within_turn(angle: f64) -> f64 {
    const ROUNDING: f64 = 1e-9;
    let rest = if angle < 0.0 { angle + 360.0 } else { angle };
    if rest >= 360.0 - ROUNDING { 0.0 } else { rest }
}

/// A weighted sum of two columns over a length; of the longer one where that is nought.
fn weighted(columns: [&[f64]; 2], by: [f64; 2], length: f64) -> Vec<f64> {
    let ([x, y], [p, q]) = (columns, by);
    if length > 0.0 {
        let pairs = x.iter().zip(y);
        pairs.map(|(x, y)| (p * x + q * y) / length).collect()
    } else if norm(x) >= norm(y) {
        x.to_vec()
    } else {
        y.to_vec()
    }
}

/// Where the follower runs on the cam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CamSection {
    /// From the middle of the shaft to where the follower touches as the contacts open.
    pub radius: Length,
    /// How steep the flank is there.
    pub flank: Option<Flank>,
}

/// How far the contacts open in a small angle after they begin to, seen at the follower.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flank {
    /// The angle.
    pub angle: DistributorAngle,
    /// How far the follower is lifted in it.
    pub opens: Length,
}

/// How far the middle of the cam runs out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RunOut {
    /// From the middle it turns about; a dial gauge shows twice as much from top to bottom.
    pub eccentricity: Length,
    /// Its standard uncertainty, from the readings.
    pub standard_uncertainty: Length,
    /// Whether it is the most it can be, because the flank was not stated.
    pub is_upper_bound: bool,
}
