//! What was read of each lobe, and whether it can be.

use super::EvennessError;
use crate::engine::{CylinderIndex, CylinderLabel, Engine};
use crate::quantity::{Advance, CrankAngle, DistributorAngle};
use alloc::vec::Vec;
use core::f64::consts::PI;
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
