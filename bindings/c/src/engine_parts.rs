//! What an engine is made from, as a C program states it.

use crate::boundary::Outcome;
use crate::error::lw_error;
use crate::pointers::{Record, items, optional_items};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::engine::{
    Cylinder, CylinderLabel, End, EngineParts, Intervals, Numbering, Rotation, Sense,
};
use lashwork::quantity::{AxisAngle, CrankAngle, Cycle, QuantityError};

/// How many crank degrees a cycle has.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_cycle {
    /// 360 degrees.
    TwoStroke = 2,
    /// 720 degrees.
    FourStroke = 4,
}

/// Where the firing intervals come from.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_intervals {
    /// All equal: even firing.
    Even = 1,
    /// As `intervals_deg` lists them.
    Listed = 2,
    /// From `bank_deg` and `crankpin_deg`.
    FromGeometry = 3,
}

/// Which way round the crank turns, seen from an end.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_sense {
    /// Clockwise.
    Clockwise = 1,
    /// Anticlockwise.
    Anticlockwise = 2,
}

/// An end of the engine.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_end {
    /// The end without the flywheel or propeller.
    Free = 1,
    /// The end that delivers the power.
    Output = 2,
}

/// From which end the cylinders are counted.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_numbering {
    /// Cylinder 1 is at the free end.
    FromFreeEnd = 1,
    /// Cylinder 1 is at the output end.
    FromOutputEnd = 2,
}

/// What an engine is made from. Cylinders are numbered from 1; cylinder n has place n - 1 in every array
/// except `firing_order` and `intervals_deg`, which run in the order of firing.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_engine_parts {
    /// Size of this structure, `sizeof(lw_engine_parts)`.
    pub struct_size: usize,
    /// A value of `lw_cycle`.
    pub cycle: u32,
    /// A value of `lw_intervals`.
    pub intervals: u32,
    /// A value of `lw_sense`.
    pub sense: u32,
    /// The end it is seen from: a value of `lw_end`.
    pub seen_from: u32,
    /// A value of `lw_numbering`.
    pub numbering: u32,
    /// How many cylinders, 1 to 64.
    pub cylinders: u32,
    /// `cylinders` cylinder numbers, in the order in which they fire.
    pub firing_order: *const u32,
    /// `cylinders` crank angles from each firing to the next, the last back to the first, in degrees,
    /// each above 0 and together one cycle; NULL unless they are listed.
    pub intervals_deg: *const f64,
    /// `cylinders` directions of the bores round the crank axis in degrees, in the running direction;
    /// NULL if not known. Given together with `crankpin_deg`; they must agree with the intervals.
    pub bank_deg: *const f64,
    /// `cylinders` directions of the crankpins in degrees, in the running direction; NULL if not known.
    pub crankpin_deg: *const f64,
}

// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_engine_parts {
    const FIRST_SIZE: usize = size_of::<Self>();
}

/// No engine has more; the bound keeps a wild count from being taken for one.
const MOST_CYLINDERS: u32 = 64;

impl lw_engine_parts {
    /// # Safety
    /// The arrays are as the structure describes them.
    pub(crate) unsafe fn typed(&self) -> Outcome<EngineParts> {
        let count = match self.cylinders {
            n if n <= MOST_CYLINDERS => n as usize,
            n => {
                return Err(lw_error::of(
                    lw_status::OutOfBounds,
                    "parts.cylinders",
                    || format!("{n} cylinders are more than {MOST_CYLINDERS}"),
                ));
            }
        };
        // SAFETY: passed on under the same contract.
        let (order, listed, bank, crankpin) = unsafe {
            (
                items("parts.firing_order", self.firing_order, count)?,
                optional_items("parts.intervals_deg", self.intervals_deg, count)?,
                optional_items("parts.bank_deg", self.bank_deg, count)?,
                optional_items("parts.crankpin_deg", self.crankpin_deg, count)?,
            )
        };
        let label = |number: usize| CylinderLabel::numbered(number);
        let mut cylinders: Vec<Cylinder> = (1..=count).map(|n| Cylinder::new(label(n))).collect();
        for (cylinder, degrees) in cylinders.iter_mut().zip(bank.unwrap_or_default()) {
            cylinder.bank = Some(AxisAngle::from_degrees(*degrees)?);
        }
        for (cylinder, degrees) in cylinders.iter_mut().zip(crankpin.unwrap_or_default()) {
            cylinder.crankpin = Some(AxisAngle::from_degrees(*degrees)?);
        }
        let listed: Result<Vec<CrankAngle>, QuantityError> = listed
            .unwrap_or_default()
            .iter()
            .map(|d| CrankAngle::from_degrees(*d))
            .collect();
        let intervals = [
            (lw_intervals::Even as u32, 0),
            (lw_intervals::Listed as u32, 1),
            (lw_intervals::FromGeometry as u32, 2),
        ];
        Ok(EngineParts {
            cycle: choose(
                "parts.cycle",
                self.cycle,
                &[
                    (lw_cycle::TwoStroke as u32, Cycle::TwoStroke),
                    (lw_cycle::FourStroke as u32, Cycle::FourStroke),
                ],
            )?,
            cylinders,
            order: order.iter().map(|n| label(*n as usize)).collect(),
            intervals: match choose("parts.intervals", self.intervals, &intervals)? {
                0 => Intervals::Even,
                1 => Intervals::Listed(listed?),
                _ => Intervals::FromGeometry,
            },
            rotation: Rotation {
                sense: choose(
                    "parts.sense",
                    self.sense,
                    &[
                        (lw_sense::Clockwise as u32, Sense::Clockwise),
                        (lw_sense::Anticlockwise as u32, Sense::Anticlockwise),
                    ],
                )?,
                seen_from: choose(
                    "parts.seen_from",
                    self.seen_from,
                    &[
                        (lw_end::Free as u32, End::Free),
                        (lw_end::Output as u32, End::Output),
                    ],
                )?,
            },
            numbering: match choose(
                "parts.numbering",
                self.numbering,
                &[
                    (lw_numbering::FromFreeEnd as u32, 0),
                    (lw_numbering::FromOutputEnd as u32, 1),
                ],
            )? {
                0 => Numbering::FromFreeEnd,
                _ => Numbering::FromOutputEnd,
            },
        })
    }
}
