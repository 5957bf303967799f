//! An engine behind a handle: when each cylinder fires.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::pointers::{Record, fill, items, optional_items, place, record, shared};
use crate::quantity::choose;
use crate::status::lw_status;
use crate::text::fill_text;
use lashwork::engine::{
    Cylinder, CylinderIndex, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering,
    Rotation, Sense,
};
use lashwork::quantity::{
    AxisAngle, CrankAngle, Cycle, CyclePosition, DistributorAngle, QuantityError,
};
use std::ffi::c_char;

/// An engine whose parts agree. It never changes.
#[derive(Debug)]
pub struct lw_engine(pub(crate) Engine);

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
    /// All alike.
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
    /// The end that gives the power.
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
    /// Of `lw_cycle`.
    pub cycle: u32,
    /// Of `lw_intervals`.
    pub intervals: u32,
    /// Of `lw_sense`.
    pub sense: u32,
    /// The end it is seen from, of `lw_end`.
    pub seen_from: u32,
    /// Of `lw_numbering`.
    pub numbering: u32,
    /// How many cylinders, 1 to 64.
    pub cylinders: u32,
    /// `cylinders` numbers, as they fire.
    pub firing_order: *const u32,
    /// `cylinders` crank angles from each firing to the next, the last back to the first; NULL unless
    /// they are listed.
    pub intervals_deg: *const f64,
    /// `cylinders` directions of the bores round the crank axis, in the running direction; NULL if not
    /// known. Given together with `crankpin_deg`; they must agree with the intervals.
    pub bank_deg: *const f64,
    /// `cylinders` directions of the crankpins, in the running direction; NULL if not known.
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
    unsafe fn typed(&self) -> Outcome<EngineParts> {
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

impl lw_engine {
    /// The place of a cylinder that the caller numbers from 1.
    pub(crate) fn place(&self, cylinder: u32) -> Outcome<CylinderIndex> {
        let count = self.0.cylinders().len();
        match (cylinder as usize).checked_sub(1) {
            Some(place) if place < count => Ok(CylinderIndex::new(place)),
            _ => Err(lw_error::of(lw_status::OutOfBounds, "cylinder", || {
                format!("cylinder {cylinder} is none of 1 to {count}")
            })),
        }
    }
}

/// Makes an engine and checks that its parts agree.
///
/// On `LW_STATUS_OK` `engine` gets a handle owned by the caller, who gives it back with
/// `lw_engine_free`. `LW_STATUS_REFUSED` has every contradiction in a line of its message. `error` may
/// be NULL. Any thread.
///
/// # Safety
/// `parts` states its size and its arrays are as long as it says, or it is NULL; `engine` is writable or
/// NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_engine_new(
    parts: *const lw_engine_parts,
    engine: *mut *mut lw_engine,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (parts, engine) =
            unsafe { (record("parts", parts)?.typed()?, place("engine", engine)?) };
        engine.write(Box::into_raw(Box::new(lw_engine(Engine::new(parts)?))));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Takes the engine of a document. Cylinders are numbered from 1 in the order in which it lists them.
///
/// `document` is `len` bytes as in `lw_run`; every part of it must be acceptable. Otherwise as
/// `lw_engine_new`.
///
/// # Safety
/// `document` is readable for `len` bytes or NULL; `engine` is writable or NULL; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_engine_of_document(
    document: *const c_char,
    len: usize,
    engine: *mut *mut lw_engine,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (document, engine) = unsafe {
            (
                items("document", document.cast(), len)?,
                place("engine", engine)?,
            )
        };
        let request = lashwork_wire::read(document)?;
        engine.write(Box::into_raw(Box::new(lw_engine(request.engine))));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Frees an engine; NULL is allowed. Once for each engine. Plans made from it stay good.
///
/// # Safety
/// `engine` is NULL or a handle that was not freed and that nothing uses any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_engine_free(engine: *mut lw_engine) {
    if !engine.is_null() {
        // SAFETY: it was made from a box, and was not freed since.
        drop(unsafe { Box::from_raw(engine) });
    }
}

/// How many cylinders the engine has.
///
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `engine` is a handle or NULL; `count` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_engine_cylinders(
    engine: *const lw_engine,
    count: *mut usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (engine, count) = unsafe { (shared("engine", engine)?, place("count", count)?) };
        count.write(engine.0.cylinders().len());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// What a cylinder is called: its number, or the label that a document gives it.
///
/// `cylinder` counts from 1. `buffer` has room for `capacity` bytes and may be NULL if that is 0;
/// `needed` gets the bytes it takes, the NUL included. `error` may be NULL. Any thread.
///
/// # Safety
/// `engine` is a handle or NULL; `buffer` is writable for `capacity` bytes; `needed` is writable or
/// NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_engine_label(
    engine: *const lw_engine,
    cylinder: u32,
    buffer: *mut c_char,
    capacity: usize,
    needed: *mut usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let engine = unsafe { shared("engine", engine) }?;
        let found = engine.0.cylinder(engine.place(cylinder)?);
        let label = found.map_or("", |c| c.label.as_str());
        // SAFETY: as above.
        unsafe { fill_text(label, (buffer, capacity), needed) }
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Crank degrees from the first cylinder of the firing order to the firing of each, 0 to the cycle.
///
/// Place n - 1 is cylinder n. `offsets_deg` has room for `capacity` numbers and may be NULL if that is 0;
/// `count` gets how many there are. `LW_STATUS_SHORT_BUFFER` if there is less room. `error` may be NULL.
/// Any thread.
///
/// # Safety
/// `engine` is a handle or NULL; `offsets_deg` is writable for `capacity` numbers; `count` is writable or
/// NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_firing_offsets(
    engine: *const lw_engine,
    offsets_deg: *mut f64,
    capacity: usize,
    count: *mut usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let engine = &unsafe { shared("engine", engine) }?.0;
        let at = |index| CyclePosition::degrees(engine.firing_position(index));
        let offsets: Vec<f64> = engine.indices().map(at).collect();
        // SAFETY: as above.
        unsafe { fill("offsets_deg", &offsets, (offsets_deg, capacity), count) }
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Degrees of the distributor's rotor from the first cylinder of the firing order to each.
///
/// Array, `capacity`, `count` and `error` as in `lw_firing_offsets`. Any thread.
///
/// # Safety
/// As `lw_firing_offsets`.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_rotor_angles(
    engine: *const lw_engine,
    angles_deg: *mut f64,
    capacity: usize,
    count: *mut usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let engine = &unsafe { shared("engine", engine) }?.0;
        let at = |index| DistributorAngle::degrees(engine.rotor_angle(index));
        let angles: Vec<f64> = engine.indices().map(at).collect();
        // SAFETY: as above.
        unsafe { fill("angles_deg", &angles, (angles_deg, capacity), count) }
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The cylinder at overlap when `cylinder` fires; 0 if there is none.
///
/// Cylinders count from 1. `error` may be NULL. Any thread.
///
/// # Safety
/// `engine` is a handle or NULL; `companion` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_companion(
    engine: *const lw_engine,
    cylinder: u32,
    companion: *mut u32,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (engine, companion) =
            unsafe { (shared("engine", engine)?, place("companion", companion)?) };
        companion.write(number(engine.0.companion(engine.place(cylinder)?)));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// A cylinder's number as the caller counts, from 1; 0 for none.
pub(crate) fn number(index: Option<CylinderIndex>) -> u32 {
    index.map_or(0, |i| u32::try_from(i.get() + 1).unwrap_or(u32::MAX))
}
