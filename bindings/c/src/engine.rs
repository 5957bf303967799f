//! An engine behind a handle: when each cylinder fires.

use crate::boundary::{Outcome, boundary};
use crate::engine_parts::lw_engine_parts;
use crate::error::lw_error;
use crate::pointers::{bytes, fill, place, record, shared};
use crate::status::lw_status;
use crate::text::fill_text;
use lashwork::engine::{CylinderIndex, Engine};
use std::ffi::c_char;

/// An engine whose parts agree. It never changes.
#[derive(Debug)]
pub struct lw_engine(pub(crate) Engine);

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
        let (document, engine) =
            unsafe { (bytes("document", document, len)?, place("engine", engine)?) };
        let request = lashwork_wire::read(document)?;
        engine.write(Box::into_raw(Box::new(lw_engine(request.engine))));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Frees an engine; NULL is allowed. Once for each engine. Plans made from it stay valid.
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

/// A number of each cylinder.
///
/// # Safety
/// As `lw_firing_offsets`.
unsafe fn of_each(
    name: &'static str,
    engine: *const lw_engine,
    array: (*mut f64, usize),
    count: *mut usize,
    at: impl Fn(&Engine, CylinderIndex) -> f64,
) -> Outcome {
    // SAFETY: null is refused here; the rest is the caller's part of the contract.
    let engine = &unsafe { shared("engine", engine) }?.0;
    let values: Vec<f64> = engine.indices().map(|index| at(engine, index)).collect();
    // SAFETY: as above.
    unsafe { fill(name, &values, array, count) }
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
    let at = |engine: &Engine, index| engine.firing_position(index).degrees();
    // SAFETY: the contract is passed on.
    unsafe {
        boundary(error, || {
            of_each("offsets_deg", engine, (offsets_deg, capacity), count, at)
        })
    }
}

/// Crank degrees from the first cylinder of the firing order, as it fires, to where the piston of each
/// is at its firing top dead centre, 0 to the cycle. With link rods, which a document can describe,
/// that is not quite where it fires.
///
/// Array, `capacity`, `count` and `error` as in `lw_firing_offsets`. Any thread.
///
/// # Safety
/// As `lw_firing_offsets`.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_tdc_offsets(
    engine: *const lw_engine,
    offsets_deg: *mut f64,
    capacity: usize,
    count: *mut usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let at = |engine: &Engine, index| engine.dead_centre(index).degrees();
    // SAFETY: the contract is passed on.
    unsafe {
        boundary(error, || {
            of_each("offsets_deg", engine, (offsets_deg, capacity), count, at)
        })
    }
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
    let at = |engine: &Engine, index| engine.rotor_angle(index).degrees();
    // SAFETY: the contract is passed on.
    unsafe {
        boundary(error, || {
            of_each("angles_deg", engine, (angles_deg, capacity), count, at)
        })
    }
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
