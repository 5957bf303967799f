//! What was read of each lobe, and whether it can be.

use crate::Refusal;
use crate::engine::{CylinderIndex, CylinderLabel, Engine};
use crate::quantity::{Advance, CrankAngle, DistributorAngle, Length};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;
use alloc::vec::Vec;
use core::f64::consts::PI;
use core::fmt;
use serde::Serialize;

/// Under which cylinder an instrument shows a closed angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum DwellShown {
    /// Under the one whose spark ends it.
    BeforeItsSpark,
    /// Under the one that fired before, as a trace that begins with its spark shows it.
    AfterItsSpark,
}

/// What was read, one reading for each cylinder.
#[derive(Clone, Debug, PartialEq)]
pub enum LobeReadings {
    /// The timing of each cylinder, read by a lamp at its own mark.
    Timing {
        /// Where each sparks.
        read: Vec<(CylinderIndex, Advance)>,
        /// What all of them should read; without it the mean is not judged.
        book: Option<Advance>,
        /// Standard uncertainty of each reading, independent of the others.
        each: CrankAngle,
        /// Standard uncertainty that all share, as that of the mark; it moves the mean alone.
        shared: CrankAngle,
    },
    /// Where the flashes stand on the ring of a stand, counted in the rotor's sense from any zero.
    Ring {
        /// Where each stands.
        read: Vec<(CylinderIndex, DistributorAngle)>,
        /// Standard uncertainty of each reading, independent of the others.
        each: DistributorAngle,
    },
    /// How long the contacts are closed.
    Dwell {
        /// The closed angle of each.
        read: Vec<(CylinderIndex, DistributorAngle)>,
        /// Under which cylinder it is shown.
        shown: DwellShown,
        /// Standard uncertainty of each reading, independent of the others.
        each: DistributorAngle,
    },
}

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum EvennessAssumption {
    /// Lobes open and close alike.
    SymmetricalLobes,
    /// A play of every second spark does not show in dwell.
    EveryOtherHidden,
    /// The eccentricity is worked out from the sideways shift alone.
    FlankNotStated,
}

impl EvennessAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::ignition::evenness::EvennessAssumption;
    /// assert_eq!(EvennessAssumption::SymmetricalLobes.code(), "ignition.symmetrical-lobes");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::SymmetricalLobes => "ignition.symmetrical-lobes",
            Self::EveryOtherHidden => "ignition.every-other-hidden",
            Self::FlankNotStated => "ignition.flank-not-stated",
        }
    }
}

impl fmt::Display for EvennessAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::SymmetricalLobes => {
                "each lobe is taken to close as early as it opens late, so that dwell shows the spark"
            }
            Self::EveryOtherHidden => {
                "with an even number of lobes, sparks that are early and late in turn leave all dwells alike: \
                 only flashes show that"
            }
            Self::FlankNotStated => {
                "how far the contacts open in a degree is not stated, so the eccentricity is worked out from \
                 the sideways shift of the lobe alone and is at most that"
            }
        })
    }
}

/// Why evenness cannot be worked out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EvennessError {
    /// One cylinder has nothing to be even with.
    #[error("evenness needs two cylinders or more, the engine has {got}")]
    TooFewCylinders {
        /// How many it has.
        got: usize,
    },
    /// A cylinder without a reading.
    #[error("cylinder {cylinder} has no reading")]
    Missing {
        /// Its name.
        cylinder: CylinderLabel,
    },
    /// A cylinder read twice.
    #[error("cylinder {cylinder} has more than one reading")]
    Twice {
        /// Its name.
        cylinder: CylinderLabel,
    },
    /// A reading of a cylinder the engine does not have.
    #[error("reading {} belongs to no cylinder of the engine", .reading + 1)]
    NoSuchCylinder {
        /// Its place in the list, from 0.
        reading: usize,
    },
    /// An uncertainty that is not above zero.
    #[error("a standard uncertainty of {got} deg of a reading is not above zero")]
    Uncertainty {
        /// The refused number.
        got: f64,
    },
    /// A reading that lies nearer to another cylinder's place.
    #[error(
        "the flash of cylinder {cylinder} lies {off:.1} deg of the crank from its place beside the others, more than half the way to the next"
    )]
    AnotherPlace {
        /// Its name.
        cylinder: CylinderLabel,
        /// How far, in crank degrees.
        off: f64,
    },
    /// A dwell that fills the whole way between two sparks, or is none.
    #[error("a dwell of {} deg for cylinder {cylinder} is not between 0 and the {} deg from spark to spark", .got.degrees(), .spacing.degrees())]
    Dwell {
        /// Its name.
        cylinder: CylinderLabel,
        /// The refused dwell.
        got: DistributorAngle,
        /// From the spark before to its own.
        spacing: DistributorAngle,
    },
    /// Two lobes: each dwell holds both.
    #[error("with two lobes both dwells hold both lobes, so they cannot show which sparks late")]
    DwellOfTwo,
    /// A tolerance that is not above zero, or as wide as the spacing.
    #[error("a tolerance of {} distributor degrees either way is not above 0 and below half the spacing of {:.1}", .got.degrees(), .spacing.degrees())]
    Tolerance {
        /// The refused tolerance.
        got: DistributorAngle,
        /// The least spacing of two sparks.
        spacing: DistributorAngle,
    },
    /// A cam section that turns nothing.
    #[error("a cam radius of {} mm and a flank of {flank_mm} mm are not above zero", .radius.mm())]
    CamSection {
        /// The radius.
        radius: Length,
        /// The opening of the flank.
        flank_mm: f64,
    },
    /// An uncertainty that is a slip.
    #[error(transparent)]
    Estimate(#[from] ToleranceError),
}

impl Refusal for EvennessError {
    fn code(&self) -> &'static str {
        match self {
            Self::TooFewCylinders { .. } => "ignition.too-few-cylinders",
            Self::Missing { .. } => "ignition.reading-missing",
            Self::Twice { .. } => "ignition.reading-twice",
            Self::NoSuchCylinder { .. } => "ignition.no-such-cylinder",
            Self::Uncertainty { .. } => "ignition.reading-uncertainty",
            Self::AnotherPlace { .. } => "ignition.another-place",
            Self::Dwell { .. } => "ignition.dwell-of-cylinder",
            Self::DwellOfTwo => "ignition.dwell-of-two",
            Self::Tolerance { .. } => "ignition.evenness-tolerance",
            Self::CamSection { .. } => "ignition.cam-section",
            Self::Estimate(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::TooFewCylinders { .. } => "with one cylinder read its timing alone",
            Self::Missing { .. } => {
                "read every cylinder: the mean and the harmonic of some are not those of all"
            }
            Self::Twice { .. } => "give one reading, the mean where it was read several times",
            Self::NoSuchCylinder { .. } => "check the cylinder's name",
            Self::Uncertainty { .. } => {
                "give a standard uncertainty, such as 0.5 deg for a lamp at a mark"
            }
            Self::AnotherPlace { .. } => {
                "check on which lead the lamp was, at which mark it was read, and whether the ring was counted in the rotor's sense"
            }
            Self::Dwell { .. } => {
                "give the closed angle in distributor degrees, and the meter's scale for this number of lobes"
            }
            Self::DwellOfTwo => "read the flash of each cylinder at its own mark",
            Self::Tolerance { .. } => "give the book's figure either way, such as 2 deg",
            Self::CamSection { .. } => {
                "give the radius on which the follower runs, and over how many degrees the contacts open how far"
            }
            Self::Estimate(inner) => return inner.hint(),
        })
    }
}

/// Checked readings, lobe by lobe along the firing order, in crank degrees.
pub(super) struct Lobes {
    pub(super) cylinders: Vec<CylinderIndex>,
    /// Where each lobe stands on the cam, in radians of it.
    pub(super) places: Vec<f64>,
    /// How late each reads, from a zero of its own.
    pub(super) late: Vec<f64>,
    /// Standard uncertainty of each.
    pub(super) u: f64,
    /// Whether they are closed angles.
    pub(super) is_dwell: bool,
    /// What the mean is known with besides, if it was compared with the book.
    pub(super) book: Option<f64>,
    /// The least crank angle from spark to spark.
    pub(super) spacing: f64,
}

impl Lobes {
    pub(super) fn of(engine: &Engine, readings: &LobeReadings) -> Result<Self, Vec<EvennessError>> {
        let turns = engine.cycle().crank_turns();
        let count = engine.order().len();
        if count < 2 {
            return Err(alloc::vec![EvennessError::TooFewCylinders { got: count }]);
        }
        let intervals = engine.intervals();
        let spacing = intervals
            .iter()
            .fold(f64::INFINITY, |least, i| least.min(i.degrees()));
        let place = |i: &CylinderIndex| engine.firing_position(*i).degrees();
        let (late, u, book, is_dwell) = match readings {
            LobeReadings::Timing {
                read,
                book,
                each,
                shared,
            } => {
                let read = each_once(engine, read)?;
                let from = book.unwrap_or(Advance::TDC);
                let late = read.iter().map(|at| (from - *at).degrees());
                let shared = book.map(|_| shared.degrees());
                (late.collect(), each.degrees(), shared, false)
            }
            LobeReadings::Ring { read, each } => {
                let read = each_once(engine, read)?;
                let first = read.first().map_or(0.0, |at| at.degrees());
                let late = read.iter().zip(engine.order()).map(|(at, cylinder)| {
                    let off = at.degrees() - first - place(cylinder) / turns;
                    (off - 360.0 * libm::round(off / 360.0)) * turns
                });
                (late.collect(), each.degrees() * turns, None, false)
            }
            LobeReadings::Dwell { read, shown, each } => {
                if count == 2 {
                    return Err(alloc::vec![EvennessError::DwellOfTwo]);
                }
                let mut read = each_once(engine, read)?;
                if *shown == DwellShown::AfterItsSpark {
                    read.rotate_right(1);
                }
                let mut before = intervals.clone();
                before.rotate_right(1);
                dwells(engine, &read, &before)?;
                let late = read
                    .iter()
                    .zip(&before)
                    .map(|(dwell, way)| dwell.degrees() * turns - way.degrees());
                (late.collect(), each.degrees() * turns, None, true)
            }
        };
        let lobes = Self {
            cylinders: engine.order().to_vec(),
            places: engine
                .order()
                .iter()
                .map(|i| place(i) / engine.cycle().degrees() * 2.0 * PI)
                .collect(),
            late,
            u,
            is_dwell,
            book,
            spacing,
        };
        lobes.check(engine)?;
        Ok(lobes)
    }

    /// Uncertainties above zero, and no flash nearer to another place.
    fn check(&self, engine: &Engine) -> Result<(), Vec<EvennessError>> {
        let mut problems = Vec::new();
        if self.u <= 0.0 {
            problems.push(EvennessError::Uncertainty { got: self.u });
        }
        if let Some(shared) = self.book.filter(|shared| *shared < 0.0) {
            problems.push(EvennessError::Uncertainty { got: shared });
        }
        let middle = median(self.late.clone());
        for (late, cylinder) in self.late.iter().zip(&self.cylinders) {
            let off = (late - middle).abs();
            if off > 0.5 * self.spacing && !self.is_dwell {
                problems.push(EvennessError::AnotherPlace {
                    cylinder: label(engine, *cylinder),
                    off,
                });
            }
        }
        if problems.is_empty() {
            Ok(())
        } else {
            Err(problems)
        }
    }
}

fn dwells(
    engine: &Engine,
    read: &[DistributorAngle],
    before: &[CrankAngle],
) -> Result<(), Vec<EvennessError>> {
    let mut problems = Vec::new();
    for ((dwell, way), cylinder) in read.iter().zip(before).zip(engine.order()) {
        let spacing = way.at_distributor(engine.cycle());
        if dwell.degrees() <= 0.0 || *dwell >= spacing {
            problems.push(EvennessError::Dwell {
                cylinder: label(engine, *cylinder),
                got: *dwell,
                spacing,
            });
        }
    }
    if problems.is_empty() {
        Ok(())
    } else {
        Err(problems)
    }
}

/// One reading of each cylinder, along the firing order.
fn each_once<T: Copy>(
    engine: &Engine,
    read: &[(CylinderIndex, T)],
) -> Result<Vec<T>, Vec<EvennessError>> {
    let mut problems: Vec<EvennessError> = read
        .iter()
        .enumerate()
        .filter(|(_, (cylinder, _))| engine.cylinder(*cylinder).is_none())
        .map(|(reading, _)| EvennessError::NoSuchCylinder { reading })
        .collect();
    let mut found = Vec::new();
    for cylinder in engine.order() {
        let mut own = read.iter().filter(|(of, _)| of == cylinder);
        match (own.next(), own.next()) {
            (Some((_, value)), None) => found.push(*value),
            (None, _) => problems.push(EvennessError::Missing {
                cylinder: label(engine, *cylinder),
            }),
            (Some(_), Some(_)) => problems.push(EvennessError::Twice {
                cylinder: label(engine, *cylinder),
            }),
        }
    }
    if problems.is_empty() {
        Ok(found)
    } else {
        Err(problems)
    }
}

pub(super) fn label(engine: &Engine, index: CylinderIndex) -> CylinderLabel {
    engine.cylinder(index).map_or_else(
        || CylinderLabel::numbered(index.get() + 1),
        |cylinder| cylinder.label.clone(),
    )
}

fn median(mut list: Vec<f64>) -> f64 {
    list.sort_by(f64::total_cmp);
    let at = |i: usize| list.get(i).copied().unwrap_or(0.0);
    f64::midpoint(at((list.len() - 1) / 2), at(list.len() / 2))
}
