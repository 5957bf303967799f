//! Speed of the engine against the place of the mixture screw.

use super::parabola::{Parabola, places};
use super::{Crown, Fitted, IdleAssumption, IdleError, NoCrown, TopSeen};
use crate::quantity::{CrankSpeed, TurnsOut};
use crate::statistics::student_t_quantile;
use crate::tolerance::{Estimate, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// The part of intervals that holds the value.
const CONFIDENCE: f64 = 0.95;

/// What a mixture screw does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum MixtureScrew {
    /// It lets in fuel, or mixture: out is richer.
    Fuel,
    /// It lets in air: out is leaner.
    Air,
}

/// A side of the crown.
///
/// ```
/// use lashwork::mixture::idle::{MixtureScrew, Side};
/// assert!(Side::Lean.is_out(MixtureScrew::Air) && !Side::Lean.is_out(MixtureScrew::Fuel));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Less fuel.
    Lean,
    /// More fuel.
    Rich,
}

impl Side {
    /// Whether the screw goes out to that side.
    #[must_use]
    pub const fn is_out(self, screw: MixtureScrew) -> bool {
        matches!(
            (self, screw),
            (Self::Lean, MixtureScrew::Air) | (Self::Rich, MixtureScrew::Fuel)
        )
    }

    const fn of_way(out: bool, screw: MixtureScrew) -> Self {
        if Self::Lean.is_out(screw) == out {
            Self::Lean
        } else {
            Self::Rich
        }
    }
}

/// A steady speed at a place of the screw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IdleReading {
    /// Where the screw stood.
    pub place: TurnsOut,
    /// How fast the engine ran, throttle stop untouched.
    pub speed: CrankSpeed,
}

/// A point for drawing the curve, with its band.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CurvePoint {
    /// Place of the screw.
    pub place: TurnsOut,
    /// Speed on the curve.
    pub speed: CrankSpeed,
    /// From this speed, with 95 %.
    pub low: CrankSpeed,
    /// To this one.
    pub high: CrankSpeed,
}

/// Whether the readings are more lopsided than a parabola.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Lopsided {
    /// The next coefficient over its standard uncertainty.
    pub over_uncertainty: f64,
    /// Whether that is beyond 95 %: then the best place may lie off the crown by more than is stated; read
    /// closer to it.
    pub clear: bool,
}

/// A parabola through readings.
///
/// ```
/// use lashwork::mixture::idle::{Crown, IdleCurve, IdleReading, MixtureScrew, Side};
/// use lashwork::quantity::{CrankSpeed, TurnsOut};
/// use lashwork::tolerance::Uncertainty;
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let read = |turns, rpm| -> Result<_, lashwork::quantity::QuantityError> {
///     Ok(IdleReading { place: TurnsOut::from_turns(turns)?, speed: CrankSpeed::from_rpm(rpm)? })
/// };
/// // 900 rpm at 1.5 turns, 80 rpm less half a turn to either side.
/// let readings = [read(0.5, 580.0)?, read(1.0, 820.0)?, read(1.5, 900.0)?, read(2.0, 820.0)?, read(2.25, 720.0)?];
/// let curve = IdleCurve::fitted(&readings, Some(Uncertainty::from_number(5.0)?), MixtureScrew::Fuel)?;
/// let Crown::Seen(top) = curve.crown()? else { return Err("seen".into()) };
/// assert!((top.best.value.turns() - 1.5).abs() < 1e-9);
/// // Twenty rpm down on the lean side of a screw in the fuel is a quarter turn in.
/// assert!((curve.beside(Side::Lean, 20.0)?.value.turns() - 1.25).abs() < 1e-9);
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct IdleCurve {
    fit: Parabola,
    /// Variance of a single reading.
    variance: f64,
    /// Degrees of freedom of that; none if it was stated.
    freedom: Option<f64>,
    /// What was stated of it.
    stated: Option<f64>,
    /// Readings more than a parabola needs.
    spare: f64,
    ends: (f64, f64),
    screw: MixtureScrew,
}

impl IdleCurve {
    /// Fewest readings.
    pub const FEWEST: usize = 4;
    /// Most readings.
    pub const MOST: usize = 24;

    /// Fits readings with a stated scatter of single ones, or without; where they lie further off the curve
    /// than stated, that counts.
    ///
    /// # Errors
    /// [`IdleError::Readings`], [`IdleError::Places`], [`IdleError::Stalled`].
    pub fn fitted(
        readings: &[IdleReading],
        scatter: Option<Uncertainty<CrankSpeed>>,
        screw: MixtureScrew,
    ) -> Result<Self, IdleError> {
        let got = readings.len();
        if !(Self::FEWEST..=Self::MOST).contains(&got) {
            return Err(IdleError::Readings { got });
        }
        if let Some(reading) = readings.iter().position(|r| r.speed.rpm() <= 0.0) {
            return Err(IdleError::Stalled { reading });
        }
        let points: Vec<(f64, f64)> = readings
            .iter()
            .map(|reading| (reading.place.turns(), reading.speed.rpm()))
            .collect();
        let got = places(&points);
        if got < 3 {
            return Err(IdleError::Places { got });
        }
        let fit = Parabola::through(&points);
        let spare = (points.len() - 3) as f64;
        let seen = fit.left / spare;
        let stated = scatter.map(Uncertainty::number).filter(|u| *u > 0.0);
        let (variance, freedom) = match stated {
            Some(u) => (seen.max(u * u), None),
            None => (seen, Some(spare)),
        };
        let place =
            |least: f64, of: fn(f64, f64) -> f64| points.iter().map(|(x, _)| *x).fold(least, of);
        Ok(Self {
            fit,
            variance,
            freedom,
            stated: stated.map(|u| u * u),
            spare,
            ends: (
                place(f64::INFINITY, f64::min),
                place(f64::NEG_INFINITY, f64::max),
            ),
            screw,
        })
    }

    /// How many standard uncertainties the stated part takes.
    fn factor(&self) -> f64 {
        let freedom = self.freedom.unwrap_or(f64::INFINITY);
        // Freedom is one at least, so there is a quantile.
        student_t_quantile(CONFIDENCE, freedom).unwrap_or(f64::INFINITY)
    }

    /// Where the speed is highest, if the readings show that.
    ///
    /// # Errors
    /// [`IdleError::Quantity`], [`IdleError::Tolerance`] for what cannot be a place or a speed.
    pub fn crown(&self) -> Result<Crown, IdleError> {
        let interval = self.fit.top_between(self.factor(), self.variance);
        let within = |(from, to): (f64, f64)| {
            let (from, to) = (from + self.fit.centre, to + self.fit.centre);
            (from >= self.ends.0 && to <= self.ends.1).then_some((from, to))
        };
        let top = self.fit.top();
        match interval.filter(|_| self.fit.c < 0.0).and_then(within) {
            Some((from, to)) => Ok(Crown::Seen(TopSeen {
                best: self.place(top, 0.0, 0.0)?,
                from: TurnsOut::from_turns(from)?,
                to: TurnsOut::from_turns(to)?,
                speed: Fitted {
                    value: CrankSpeed::from_rpm(self.fit.at(self.fit.centre + top))?,
                    standard_uncertainty: self.uncertainty([1.0, top, top * top])?,
                },
            })),
            None => Ok(Crown::NotSeen(NoCrown {
                rises_toward: self.rises_toward(interval),
            })),
        }
    }

    /// The side on which the speed still rises at the end of the readings.
    fn rises_toward(&self, interval: Option<(f64, f64)>) -> Option<Side> {
        let beyond = interval.filter(|_| self.fit.c < 0.0).map(|(from, to)| {
            let (from, to) = (from + self.fit.centre, to + self.fit.centre);
            (from < self.ends.0, to > self.ends.1)
        });
        let out = match beyond {
            Some((false, true)) => Some(true),
            Some((true, false)) => Some(false),
            _ => {
                let u = libm::sqrt(self.variance * self.fit.line_variance());
                let is_clear = self.fit.line.abs() > self.factor() * u;
                is_clear.then_some(self.fit.line > 0.0)
            }
        };
        out.map(|out| Side::of_way(out, self.screw))
    }

    fn uncertainty(&self, by: [f64; 3]) -> Result<Uncertainty<CrankSpeed>, IdleError> {
        let variance = self.variance * self.fit.variance_of(by);
        Ok(Uncertainty::from_number(libm::sqrt(variance))?)
    }

    /// The top moved by so much, whose derivative by the curvature is given.
    fn place(&self, top: f64, by: f64, by_curvature: f64) -> Result<Fitted<TurnsOut>, IdleError> {
        let Parabola { b, c, .. } = self.fit;
        let gradient = [0.0, -0.5 / c, 0.5 * b / (c * c) + by_curvature];
        let variance = self.variance * self.fit.variance_of(gradient);
        Ok(Fitted {
            value: TurnsOut::from_turns(self.fit.centre + top + by)?,
            standard_uncertainty: Uncertainty::from_number(libm::sqrt(variance))?,
        })
    }

    /// Where the speed is so many rpm under the highest, on one side: the lean drop of a book, or the place
    /// from which it rises by so much on leaning.
    ///
    /// # Errors
    /// [`IdleError::NotSeen`] without a crown, [`IdleError::Change`] unless above nought,
    /// [`IdleError::Quantity`] if the screw would be seated before.
    pub fn beside(&self, side: Side, rpm: f64) -> Result<Fitted<TurnsOut>, IdleError> {
        if !(rpm > 0.0 && rpm.is_finite()) {
            return Err(IdleError::Change { got: rpm });
        }
        if !matches!(self.crown()?, Crown::Seen(_)) {
            return Err(IdleError::NotSeen);
        }
        let way = if side.is_out(self.screw) { 1.0 } else { -1.0 };
        let by = way * libm::sqrt(-rpm / self.fit.c);
        self.place(self.fit.top(), by, -0.5 * by / self.fit.c)
    }

    /// How much the speed rises from a place to the highest.
    ///
    /// # Errors
    /// [`IdleError::NotSeen`] without a crown.
    ///
    /// ```
    /// use lashwork::mixture::idle::{IdleCurve, IdleReading, MixtureScrew};
    /// use lashwork::quantity::{CrankSpeed, TurnsOut};
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let readings: Result<Vec<_>, lashwork::quantity::QuantityError> =
    ///     [(1.0, 680.0), (1.25, 695.0), (1.5, 700.0), (1.75, 695.0), (2.0, 680.0)]
    ///         .into_iter()
    ///         .map(|(turns, rpm)| Ok(IdleReading {
    ///             place: TurnsOut::from_turns(turns)?,
    ///             speed: CrankSpeed::from_rpm(rpm)?,
    ///         }))
    ///         .collect();
    /// let curve = IdleCurve::fitted(&readings?, None, MixtureScrew::Fuel)?;
    /// let rise = curve.rise_at(TurnsOut::from_turns(2.0)?)?;
    /// assert!((rise.centre().ok_or("both ends")?.rpm() - 20.0).abs() < 1e-9);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn rise_at(&self, place: TurnsOut) -> Result<Estimate<CrankSpeed>, IdleError> {
        if !matches!(self.crown()?, Crown::Seen(_)) {
            return Err(IdleError::NotSeen);
        }
        let (top, d) = (self.fit.top(), place.turns() - self.fit.centre);
        let rise = -self.fit.c * (d - top) * (d - top);
        let rise = CrankSpeed::from_rpm(rise)?;
        let u = self.uncertainty([0.0, top - d, top * top - d * d])?;
        Ok(Estimate::between(rise, rise, u)?)
    }

    /// Points for drawing, from the first place to the last, with the band that holds the curve at each with
    /// 95 %.
    ///
    /// # Errors
    /// [`IdleError::Points`] below two, [`IdleError::Quantity`] for a speed that cannot be.
    pub fn points(&self, count: usize) -> Result<Vec<CurvePoint>, IdleError> {
        if count < 2 {
            return Err(IdleError::Points { got: count });
        }
        let step = (self.ends.1 - self.ends.0) / (count - 1) as f64;
        let point = |at: usize| {
            let place = if at + 1 == count {
                self.ends.1
            } else {
                self.ends.0 + step * at as f64
            };
            let speed = self.fit.at(place);
            let u = libm::sqrt(self.variance * self.fit.variance_at(place));
            let half = self.factor() * u;
            let at_least = |rpm: f64| CrankSpeed::from_rpm(rpm.clamp(0.0, CrankSpeed::MAX));
            Ok(CurvePoint {
                place: TurnsOut::from_turns(place)?,
                speed: at_least(speed)?,
                low: at_least(speed - half)?,
                high: at_least(speed + half)?,
            })
        };
        (0..count).map(point).collect()
    }

    /// Whether the readings are more lopsided than a parabola; none if there are too few to tell.
    #[must_use]
    pub fn lopsided(&self) -> Option<Lopsided> {
        let cubic = self.fit.cubic?;
        // The cubic takes its share out of what was left.
        let rest = (self.fit.left - cubic.value * cubic.value / cubic.variance).max(0.0);
        let spare = self.spare - 1.0;
        let seen = if spare > 0.0 { rest / spare } else { 0.0 };
        let (variance, freedom) = match self.stated {
            Some(stated) => (seen.max(stated), f64::INFINITY),
            None => (seen, spare),
        };
        let factor = student_t_quantile(CONFIDENCE, freedom).ok()?;
        let over_uncertainty = cubic.value / libm::sqrt(variance * cubic.variance);
        Some(Lopsided {
            over_uncertainty,
            clear: over_uncertainty.abs() > factor,
        })
    }

    /// How far single readings scatter.
    ///
    /// # Errors
    /// [`IdleError::Tolerance`] if that is more than a speed can be uncertain by.
    pub fn scatter(&self) -> Result<Uncertainty<CrankSpeed>, IdleError> {
        Ok(Uncertainty::from_number(libm::sqrt(self.variance))?)
    }

    /// What was taken for granted.
    #[must_use]
    pub fn assumptions(&self) -> Vec<IdleAssumption> {
        let mut all = alloc::vec![IdleAssumption::Parabola, IdleAssumption::NothingElseMoved];
        if self.freedom.is_some() {
            all.push(IdleAssumption::ScatterFromCurve);
        }
        all
    }
}
