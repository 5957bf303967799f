//! Which cause explains the readings of a curve, with its probability.
//!
//! # Models
//! A reading is static point + advance + its own normal error. The advance of a sound distributor is the
//! middle of the table plus, at all speeds alike, a share of half its width, normal with the standard
//! deviation of a rectangle. Its static point is normal about the printed one, with half the limits as a
//! rectangle and [`CurveReadings::SHARED_U`]. Each cause changes that:
//! - Static point off: normal about the printed one with 6 degrees more.
//! - Springs weak: the advance is 1.1 to 2 times the table up to its end, or comes at a speed that many times
//!   lower (its root); each half the chance.
//! - Springs strong or shaft binding: 0.3 to 0.9 times, likewise.
//! - Weights sticking: each reading is off by 2 to 5 degrees more; or nothing moves until 0.2 to 0.8 of
//!   the advance is due.
//! - End wrong: the advance ends 2 degrees to half of itself short; or, seen only beyond a table that
//!   ends, as much late.
//! - Advance used up at idle: 3 degrees to 0.8 of the advance are out with the engine idling already, so that
//!   the static point was set as much late.
//! - Set with the vacuum connected: the static point is late by what the capsule gives, normal about that
//!   with 4 degrees, or about 22 with 7 where no capsule's table is given.
//! - Set at speed: late by 0.3 to 1 of the advance.
//! - Something else: each reading off by 5 degrees, and all by 10.
//!
//! Ranges are gone through in equal steps. All numbers are this library's choice.
//!
//! # Prior
//! A probability of any fault, shared equally among the causes that these readings could show.
//!
//! # Source
//! Bayes' theorem; patterns by cause: TM 5-4210-230-14&P-1 and common practice. How often what is stated is
//! right is counted by simulation in `tests/tests/ignition/timing_calibration.rs`.

use super::TimingError;
use super::readings::CurveReadings;
use crate::quantity::CrankAngle;
use alloc::vec::Vec;
use serde::Serialize;

/// Why a distributor does not follow its curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum CurveCause {
    /// The body stands wrong; the advance is sound.
    StaticPointOff,
    /// Springs are weak or stretched: too much advance at a speed.
    SpringsWeak,
    /// Springs are too strong, or the shaft binds: too little.
    SpringsStrong,
    /// Weights or plate stick: erratic, or too little first and then all at once.
    WeightsSticking,
    /// The advance ends too soon or too late: stop, slot or wrong weights.
    EndWrong,
    /// Some of the advance is out at idle already: right there, short at speed. Worn; turning the body does
    /// not cure it.
    UsedUpAtIdle,
    /// The static point was set with the vacuum hose connected.
    SetWithVacuum,
    /// The static figure was set with the engine running where the weights were out.
    SetAtSpeed,
    /// More than one of these, or something not weighed.
    SomethingElse,
}

impl CurveCause {
    /// All of them, in the order in which equals are listed.
    pub const ALL: [Self; 9] = [
        Self::StaticPointOff,
        Self::SpringsWeak,
        Self::SpringsStrong,
        Self::WeightsSticking,
        Self::EndWrong,
        Self::UsedUpAtIdle,
        Self::SetWithVacuum,
        Self::SetAtSpeed,
        Self::SomethingElse,
    ];

    /// Whether turning the body cures it. A worn distributor turned until one speed reads right is wrong at
    /// all others.
    ///
    /// ```
    /// use lashwork::ignition::timing::CurveCause;
    /// assert!(CurveCause::SetWithVacuum.is_cured_by_turning());
    /// assert!(!CurveCause::UsedUpAtIdle.is_cured_by_turning());
    /// ```
    #[must_use]
    pub const fn is_cured_by_turning(self) -> bool {
        matches!(
            self,
            Self::StaticPointOff | Self::SetWithVacuum | Self::SetAtSpeed
        )
    }
}

/// A cause and how probable it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WeighedCause {
    /// The cause.
    pub cause: CurveCause,
    /// Before the readings.
    pub prior: f64,
    /// After them.
    pub posterior: f64,
}

/// What the readings of a curve say together.
///
/// ```
/// # use lashwork::ignition::timing::{
/// #     AboveLast, CentrifugalCurve, CrankPoint, CurveReadings, Hose, LampDelay, PrintedTiming, Running, Taken,
/// #     TimingReading,
/// # };
/// use lashwork::ignition::timing::{CurveCause, CurveCauses};
/// # use lashwork::quantity::{Advance, CrankAngle, CrankSpeed};
/// # let rpm = |rpm| CrankSpeed::from_rpm(rpm);
/// # let point = |speed, advance| -> Result<_, lashwork::quantity::QuantityError> {
/// #     let advance = CrankAngle::from_degrees(advance)?;
/// #     Ok(CrankPoint { speed: rpm(speed)?, least: advance, most: advance })
/// # };
/// # let curve = CentrifugalCurve::at_crank(&[point(1000.0, 0.0)?, point(2200.0, 20.0)?], AboveLast::Ends)?;
/// # let limits = "8 deg BTDC to 12 deg BTDC".parse()?;
/// # let book = PrintedTiming::new(limits, Taken::Standing, Some(&curve), None)?;
/// # let read = |speed, advance: f64| -> Result<_, Box<dyn std::error::Error>> {
/// #     Ok(TimingReading {
/// #         read: Advance::from_degrees_before(advance)?,
/// #         u: TimingReading::usual_u()?,
/// #         taken: Taken::Running(Running::at(rpm(speed)?, Hose::Plugged)),
/// #         lamp: LampDelay::NONE,
/// #     })
/// # };
/// // Printed: 10 deg, from 1000 rpm up to 20 more at 2200. Right at idle, six short from half way on.
/// let readings = [read(800.0, 10.0)?, read(1300.0, 10.0)?, read(1900.0, 19.0)?, read(2600.0, 24.0)?];
/// let found = CurveCauses::weigh(&CurveReadings::new(&book, &readings)?, None, 0.5)?;
/// assert!(found.sound < 0.01);
/// assert_eq!(found.causes[0].cause, CurveCause::UsedUpAtIdle);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CurveCauses {
    /// Probability that nothing is wrong.
    pub sound: f64,
    /// The causes that could be weighed, the most probable first.
    pub causes: Vec<WeighedCause>,
    /// The causes that these readings could not show.
    pub not_weighed: Vec<CurveCause>,
}

/// Steps through the range of a cause.
const STEPS: usize = 25;
/// A cause shows if it moves a reading by so many degrees somewhere in its range, or scatters them.
const SHOWS: f64 = 1.0;

/// One place in the range of a cause: the advance of every reading, and what is added to the doubt.
struct Place {
    advance: Vec<f64>,
    late: f64,
    static_sd: f64,
    scatter: f64,
}

impl CurveCauses {
    /// Weighs the causes. `capsule` is what the vacuum capsule gives at idle, if it is known: its middle and
    /// its standard uncertainty; `fault` is the probability of any fault before the readings.
    ///
    /// # Errors
    /// [`TimingError::Prior`] unless `fault` lies strictly between 0 and 1.
    pub fn weigh(
        readings: &CurveReadings,
        capsule: Option<(CrankAngle, f64)>,
        fault: f64,
    ) -> Result<Self, TimingError> {
        if !(fault > 0.0 && fault < 1.0) {
            return Err(TimingError::Prior { got: fault });
        }
        let model = Model { readings, capsule };
        let sound = model.ln_mean(&[model.sound()]);
        let mut weighed = Vec::new();
        let mut not_weighed = Vec::new();
        for cause in CurveCause::ALL {
            let places = model.places(cause);
            let is_possible = cause != CurveCause::SetWithVacuum || readings.may_have_capsule;
            if is_possible && model.shows(&places) {
                weighed.push((cause, model.ln_mean(&places)));
            } else {
                not_weighed.push(cause);
            }
        }
        let prior = fault / weighed.len().max(1) as f64;
        let most = weighed.iter().fold(sound, |most, (_, ln)| most.max(*ln));
        let sound = (1.0 - fault) * libm::exp(sound - most);
        let mut causes: Vec<WeighedCause> = weighed
            .into_iter()
            .map(|(cause, ln)| WeighedCause {
                cause,
                prior,
                posterior: prior * libm::exp(ln - most),
            })
            .collect();
        let sum = sound + causes.iter().map(|c| c.posterior).sum::<f64>();
        for cause in &mut causes {
            cause.posterior /= sum;
        }
        causes.sort_by(|a, b| b.posterior.total_cmp(&a.posterior));
        Ok(Self {
            sound: sound / sum,
            causes,
            not_weighed,
        })
    }

    /// Whether turning the body is the cure, as far as is known: the causes that it cures, and nothing wrong
    /// at all, are together at least as probable as this.
    #[must_use]
    pub fn turning_helps(&self, at_least: f64) -> bool {
        let cured = self.causes.iter().filter(|c| c.cause.is_cured_by_turning());
        self.sound + cured.map(|c| c.posterior).sum::<f64>() >= at_least
    }
}

struct Model<'r> {
    readings: &'r CurveReadings,
    capsule: Option<(CrankAngle, f64)>,
}

impl Model<'_> {
    fn middles(&self) -> Vec<f64> {
        self.readings.rows.iter().map(|r| r.middle).collect()
    }

    fn static_sd(&self) -> f64 {
        let half = self.readings.static_half / libm::sqrt(3.0);
        libm::hypot(half, CurveReadings::SHARED_U)
    }

    fn sound(&self) -> Place {
        self.place(self.middles())
    }

    fn place(&self, advance: Vec<f64>) -> Place {
        Place {
            advance,
            late: 0.0,
            static_sd: self.static_sd(),
            scatter: 0.0,
        }
    }

    fn late(&self, late: f64, sd: f64) -> Place {
        Place {
            late,
            static_sd: libm::hypot(self.static_sd(), sd),
            ..self.sound()
        }
    }

    fn of_rows(&self, of: impl Fn(&super::readings::CurveRow) -> f64) -> Place {
        self.place(self.readings.rows.iter().map(of).collect())
    }

    fn places(&self, cause: CurveCause) -> Vec<Place> {
        let most = self.readings.most;
        match cause {
            CurveCause::StaticPointOff => alloc::vec![self.late(0.0, 6.0)],
            CurveCause::SpringsWeak => self.springs(1.1, 2.0),
            CurveCause::SpringsStrong => self.springs(0.3, 0.9),
            CurveCause::WeightsSticking => {
                let erratic = steps(2.0, 5.0).map(|scatter| Place {
                    scatter,
                    ..self.sound()
                });
                let stuck = steps(0.2, 0.8).map(|share| {
                    self.of_rows(|r| {
                        if r.middle < share * most {
                            0.0
                        } else {
                            r.middle
                        }
                    })
                });
                erratic.chain(stuck).collect()
            }
            CurveCause::EndWrong => {
                let short = steps(2.0_f64.min(most / 2.0), most / 2.0)
                    .map(|by| self.of_rows(|r| r.middle.min(most - by)));
                let far = steps(2.0_f64.min(most / 2.0), most / 2.0)
                    .map(|by| self.of_rows(|r| r.middle + if r.at_end { by } else { 0.0 }));
                if self.readings.rows.iter().any(|r| r.at_end) {
                    short.chain(far).collect()
                } else {
                    short.collect()
                }
            }
            CurveCause::UsedUpAtIdle => steps(3.0_f64.min(0.8 * most), 0.8 * most)
                .map(|used| self.of_rows(|r| r.middle.max(used) - used))
                .collect(),
            CurveCause::SetWithVacuum => {
                let (late, sd) = self.capsule.map_or((22.0, 7.0), |(middle, u)| {
                    (middle.degrees(), libm::hypot(u, 4.0))
                });
                alloc::vec![self.late(late, sd)]
            }
            CurveCause::SetAtSpeed => steps(0.3, 1.0)
                .map(|share| self.late(share * most, 0.0))
                .collect(),
            CurveCause::SomethingElse => alloc::vec![Place {
                scatter: 5.0,
                ..self.late(0.0, 10.0)
            }],
        }
    }

    /// The advance so many times the table's, or at so many times the force of the springs.
    fn springs(&self, from: f64, to: f64) -> Vec<Place> {
        let most = self.readings.most;
        let table = self.readings.curve.table();
        let by_size = steps(from, to).map(|times| {
            self.of_rows(|r| {
                let more = times * r.middle;
                if self.readings.ends {
                    more.min(most)
                } else {
                    more
                }
            })
        });
        // Weights pull with the square of the speed.
        let by_speed = steps(from, to).map(|times| {
            self.of_rows(|r| {
                let rpm = r.rpm * libm::sqrt(times);
                let rpm = rpm.min(table.last().x);
                if r.rpm > 0.0 {
                    table.at(rpm).map_or(most, super::piecewise::At::middle)
                } else {
                    0.0
                }
            })
        });
        by_size.chain(by_speed).collect()
    }

    fn shows(&self, places: &[Place]) -> bool {
        let sound = self.sound();
        places.iter().any(|place| {
            let moved = place
                .advance
                .iter()
                .zip(&sound.advance)
                .any(|(a, b)| (a - b).abs() >= SHOWS);
            moved
                || place.scatter > 0.0
                || place.late.abs() >= SHOWS
                || place.static_sd > sound.static_sd + SHOWS
        })
    }

    /// Logarithm of the mean likelihood over places.
    fn ln_mean(&self, places: &[Place]) -> f64 {
        let all: Vec<f64> = places.iter().map(|place| self.ln(place)).collect();
        let most = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let sum: f64 = all.iter().map(|ln| libm::exp(ln - most)).sum();
        most + libm::log(sum / all.len().max(1) as f64)
    }

    /// Logarithm of the density of the readings at a place: normal, with the reading's own error on the
    /// diagonal and two errors shared by all, the static point and the place within the table's width.
    fn ln(&self, place: &Place) -> f64 {
        let (mut ln, mut cross, mut capacity) = (0.0, [0.0; 2], [1.0, 0.0, 1.0]);
        for (row, advance) in self.readings.rows.iter().zip(&place.advance) {
            let variance = row.u * row.u + place.scatter * place.scatter;
            let off = row.over - (advance - place.late);
            let shared = [place.static_sd, row.half / libm::sqrt(3.0)];
            ln -= 0.5 * (off * off / variance + libm::log(core::f64::consts::TAU * variance));
            let [a, b] = shared;
            cross[0] += a * off / variance;
            cross[1] += b * off / variance;
            capacity[0] += a * a / variance;
            capacity[1] += a * b / variance;
            capacity[2] += b * b / variance;
        }
        // Woodbury's identity and the determinant lemma, for two shared errors.
        let [p, q, s] = capacity;
        let [a, b] = cross;
        let determinant = p * s - q * q;
        let explained = (s * a * a - 2.0 * q * a * b + p * b * b) / determinant;
        ln + 0.5 * explained - 0.5 * libm::log(determinant)
    }
}

/// Equal steps from one end to the other, both included.
fn steps(from: f64, to: f64) -> impl Iterator<Item = f64> {
    (0..STEPS).map(move |i| from + (to - from) * i as f64 / (STEPS - 1) as f64)
}
