//! How steep the cam is where the lash is taken up.

use super::EventsError;
use crate::quantity::{CrankAngle, Lash, Length};
use core::f64::consts::PI;
use serde::Serialize;

/// Ramps that are accepted, in millimetres, and slopes in millimetres a cam degree.
const HEIGHT: (f64, f64) = (0.02, 2.0);
const SLOPE: (f64, f64) = (0.001, 0.3);
/// Lifts in millimetres and durations in crank degrees.
const LIFT: (f64, f64) = (1.0, 60.0);
const DURATION: (f64, f64) = (120.0, 420.0);
/// Most lash on a measured slope, in millimetres.
const MEASURED: f64 = 2.0;
/// Crank degrees of a cam degree.
const CRANK: f64 = 2.0;

/// One side of a lobe, where the lash is taken up.
///
/// ```
/// use lashwork::events::Flank;
/// use lashwork::quantity::{Lash, Length};
/// // 0.010 mm a cam degree: 0.10 mm of lash are 20 crank degrees.
/// let ramp = Flank::ramp(Length::from_mm(0.3)?, Length::from_mm(0.010)?)?;
/// let taken = ramp.taken(Lash::from_mm(0.10)?, 1.0)?;
/// assert!((taken.turned.degrees() - 20.0).abs() < 1e-12 && !taken.beyond_ramp);
/// // 0.40 mm is not taken up by a ramp of 0.3 mm: at least 60 degrees, how far beyond is not known.
/// let taken = ramp.taken(Lash::from_mm(0.40)?, 1.0)?;
/// assert!((taken.turned.degrees() - 60.0).abs() < 1e-12 && taken.beyond_ramp);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(transparent)]
pub struct Flank(Shape);

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
enum Shape {
    /// At the follower, in millimetres and millimetres a cam degree.
    Ramp {
        height: f64,
        slope: f64,
        beyond: Option<f64>,
    },
    /// At the valve, in millimetres a crank degree.
    Measured { slope: f64 },
    /// At the valve, in millimetres and crank degrees.
    Harmonic { lift: f64, duration: f64 },
}

/// Where a lash is taken up, from the end of the base circle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Taken {
    /// Crank degrees; at least these if beyond the ramp.
    pub turned: CrankAngle,
    /// How much further for each millimetre more of lash at the valve, in crank degrees.
    pub per_mm: f64,
    /// The ramp ends under it, and how the flank goes on is not known.
    pub beyond_ramp: bool,
}

fn within(got: f64, (min, max): (f64, f64)) -> bool {
    (min..=max).contains(&got)
}

fn slope(got: f64) -> Result<f64, EventsError> {
    let (min, max) = SLOPE;
    if within(got, SLOPE) {
        Ok(got)
    } else {
        Err(EventsError::Slope { got, min, max })
    }
}

impl Flank {
    /// A ramp of so much height at the follower, that rises so much in a cam degree.
    ///
    /// # Errors
    /// [`EventsError::RampHeight`] outside 0.02 to 2 mm; [`EventsError::Slope`] outside 0.001 to 0.3 mm.
    pub fn ramp(height: Length, per_cam_degree: Length) -> Result<Self, EventsError> {
        let (min, max) = HEIGHT;
        let got = height.mm();
        if !within(got, HEIGHT) {
            return Err(EventsError::RampHeight { got, min, max });
        }
        Ok(Self(Shape::Ramp {
            height: got,
            slope: slope(per_cam_degree.mm())?,
            beyond: None,
        }))
    }

    /// The same ramp with the slope of the flank beyond it; other flanks have none.
    ///
    /// # Errors
    /// [`EventsError::Slope`]; [`EventsError::FlankUnderRamp`] unless steeper than the ramp.
    ///
    /// ```
    /// use lashwork::events::Flank;
    /// use lashwork::quantity::{Lash, Length};
    /// let mm = |mm| Length::from_mm(mm);
    /// let ramp = Flank::ramp(mm(0.3)?, mm(0.010)?)?.then(mm(0.1)?)?;
    /// let taken = ramp.taken(Lash::from_mm(0.40)?, 1.0)?;
    /// assert!((taken.turned.degrees() - 62.0).abs() < 1e-12 && !taken.beyond_ramp);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn then(self, per_cam_degree: Length) -> Result<Self, EventsError> {
        match self.0 {
            Shape::Ramp {
                height,
                slope: ramp,
                ..
            } => {
                let flank = slope(per_cam_degree.mm())?;
                if flank <= ramp {
                    return Err(EventsError::FlankUnderRamp { ramp, flank });
                }
                Ok(Self(Shape::Ramp {
                    height,
                    slope: ramp,
                    beyond: Some(flank),
                }))
            }
            Shape::Measured { .. } | Shape::Harmonic { .. } => Ok(self),
        }
    }

    /// A slope measured at the valve: two leaves, and how many crank degrees lie between where the one is just
    /// gripped and the other.
    ///
    /// # Errors
    /// [`EventsError::Leaves`] for leaves of one size or an angle of nothing; [`EventsError::Slope`].
    ///
    /// ```
    /// use lashwork::events::Flank;
    /// use lashwork::quantity::{CrankAngle, Lash};
    /// let mm = |mm| Lash::from_mm(mm);
    /// let flank = Flank::measured(mm(0.10)?, mm(0.20)?, CrankAngle::from_degrees(8.0)?)?;
    /// assert!((flank.taken(mm(0.05)?, 1.0)?.turned.degrees() - 4.0).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn measured(thin: Lash, thick: Lash, apart: CrankAngle) -> Result<Self, EventsError> {
        let (thin, thick, apart) = (thin.mm(), thick.mm(), apart.degrees().abs());
        if thick <= thin || apart <= 0.0 {
            return Err(EventsError::Leaves { thin, thick, apart });
        }
        let per_crank_degree = (thick - thin) / apart;
        slope(CRANK * per_crank_degree)?;
        Ok(Self(Shape::Measured {
            slope: per_crank_degree,
        }))
    }

    /// A lobe without a ramp: it lifts the valve harmonically, so far, over so many crank degrees from base circle
    /// to base circle.
    ///
    /// # Errors
    /// [`EventsError::Lobe`] outside 1 to 60 mm or 120 to 420 degrees.
    ///
    /// ```
    /// use lashwork::events::Flank;
    /// use lashwork::quantity::{CrankAngle, Lash, Length};
    /// let lobe = Flank::harmonic(Length::from_mm(9.0)?, CrankAngle::from_degrees(290.0)?)?;
    /// let taken = lobe.taken(Lash::from_mm(0.20)?, 1.0)?;
    /// assert!((290.0 - 2.0 * taken.turned.degrees() - 262.376).abs() < 5e-4);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn harmonic(greatest_lift: Length, duration: CrankAngle) -> Result<Self, EventsError> {
        let (lift, duration) = (greatest_lift.mm(), duration.degrees());
        if within(lift, LIFT) && within(duration, DURATION) {
            Ok(Self(Shape::Harmonic { lift, duration }))
        } else {
            Err(EventsError::Lobe { lift, duration })
        }
    }

    /// Where a lash at the valve is taken up; `rocker` is valve movement over cam movement, which a slope measured
    /// at the valve has in it.
    ///
    /// # Errors
    /// [`EventsError::Lash`] below zero, or over 2 mm, or over a quarter of a harmonic lift;
    /// [`EventsError::Rocker`].
    pub fn taken(self, lash: Lash, rocker: f64) -> Result<Taken, EventsError> {
        if !(0.3..=3.0).contains(&rocker) {
            return Err(EventsError::Rocker { got: rocker });
        }
        let mm = lash.mm();
        let max = match self.0 {
            Shape::Harmonic { lift, .. } => 0.25 * lift,
            Shape::Ramp { .. } | Shape::Measured { .. } => MEASURED,
        };
        if !(0.0..=max).contains(&mm) {
            return Err(EventsError::Lash { lash, max });
        }
        let (turned, per_mm, beyond_ramp) = match self.0 {
            Shape::Measured { slope } => (mm / slope, 1.0 / slope, false),
            Shape::Harmonic { lift, duration } => {
                let part = mm / lift;
                let turned = duration / PI * libm::asin(libm::sqrt(part));
                // At no lash the lobe is level: the slope is that of a hundredth.
                let near = part.max(0.01 / lift);
                let steep = 2.0 * libm::sqrt(near * (1.0 - near)) * lift;
                (turned, duration / PI / steep, false)
            }
            Shape::Ramp {
                height,
                slope,
                beyond,
            } => {
                let follower = mm / rocker;
                let over = (follower - height).max(0.0);
                let on_ramp = CRANK * follower.min(height) / slope;
                match (over > 0.0, beyond) {
                    (false, _) => (on_ramp, CRANK / slope / rocker, false),
                    (true, Some(flank)) => (
                        on_ramp + CRANK * over / flank,
                        CRANK / flank / rocker,
                        false,
                    ),
                    (true, None) => (on_ramp, 0.0, true),
                }
            }
        };
        Ok(Taken {
            turned: CrankAngle::from_degrees(turned)?,
            per_mm,
            beyond_ramp,
        })
    }
}
