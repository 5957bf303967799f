//! A stop plan behind a handle: where to stop the crank and which valves to check there.

use crate::boundary::{Outcome, boundary};
use crate::engine::{lw_engine, number};
use crate::error::lw_error;
use crate::pointers::{Record, place, record, record_place, shared};
use crate::quantity::choose;
use crate::status::lw_status;
use crate::valve_train::{
    METHODS, PLACES, lw_method, lw_places, lw_plan_cost, lw_stop, lw_valve_check, lw_valve_train,
};
use lashwork::quantity::CrankAngle;
use lashwork::valve::{StopPlan, StoppingPoints, ValveCheck};

/// A stop plan. It never changes and no longer needs the engine.
#[derive(Debug)]
pub struct lw_plan(StopPlan);

fn nth<'a, T>(name: &'static str, list: &'a [T], index: usize) -> Outcome<&'a T> {
    list.get(index).ok_or_else(|| {
        lw_error::of(lw_status::OutOfBounds, name, || {
            format!("{name} {index} is not one of the {}", list.len())
        })
    })
}

/// Plans where to stop.
///
/// `method` is a value of `lw_method`. `places` is a value of `lw_places`, used by the fewest stops only.
/// `start` is a cylinder, from 1, at whose firing top dead centre to begin; 0 leaves it to the plan, and
/// two positions then begin at the first of the firing order; the fewest stops ignore it. On
/// `LW_STATUS_OK` `plan` gets a handle owned by the caller, who gives it back with `lw_plan_free`; NULL
/// if the engine has no plan of that method, because some valve could not be read at either position.
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `engine` is a handle or NULL; `train` states its size, or is NULL; `plan` is writable or NULL; `error`
/// is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_new(
    engine: *const lw_engine,
    train: *const lw_valve_train,
    method: u32,
    places: u32,
    start: u32,
    plan: *mut *mut lw_plan,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (engine, train, plan) = unsafe {
            (
                shared("engine", engine)?,
                record("train", train)?,
                place("plan", plan)?,
            )
        };
        let train = train.typed(engine)?;
        let start = (start != 0).then(|| engine.place(start)).transpose()?;
        let any = || -> Outcome<StoppingPoints> {
            Ok(match choose("places", places, &PLACES)? {
                lw_places::DeadCentres => StoppingPoints::DeadCentres,
                lw_places::AnyAngle => StoppingPoints::AnyAngle,
            })
        };
        let found = match choose("method", method, &METHODS)? {
            lw_method::CylinderByCylinder => Some(train.cylinder_by_cylinder(start)),
            lw_method::TwoPosition => {
                let first = start.or(engine.0.order().first().copied());
                first.and_then(|first| train.two_position(first))
            }
            lw_method::FewestStops => Some(train.fewest_stops(&any()?, None)),
            lw_method::OppositeValve => Some(train.opposite_valve(start, None)),
            lw_method::FullyOpenValve => Some(train.fully_open_valve(start, None)),
        };
        let handle = found.map(|found| Box::into_raw(Box::new(lw_plan(found))));
        plan.write(handle.unwrap_or(std::ptr::null_mut()));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Frees a plan; NULL is allowed. Once for each plan.
///
/// # Safety
/// `plan` is NULL or a handle that was not freed and that nothing uses any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_free(plan: *mut lw_plan) {
    if !plan.is_null() {
        // SAFETY: it was made from a box, and was not freed since.
        drop(unsafe { Box::from_raw(plan) });
    }
}

/// Moves one thing of a plan out.
///
/// # Safety
/// `plan` is a handle or NULL; the structure states its size, or is NULL.
unsafe fn read<T: Record>(
    plan: *const lw_plan,
    (name, to): (&'static str, *mut T),
    of: impl FnOnce(&StopPlan) -> Outcome<T>,
) -> Outcome {
    // SAFETY: null is refused here; the rest is the contract above.
    let (plan, to) = unsafe { (shared("plan", plan)?, record_place(name, to)?) };
    to.write(&of(&plan.0)?);
    Ok(())
}

/// What a plan costs.
///
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `plan` is a handle or NULL; `cost` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_total(
    plan: *const lw_plan,
    cost: *mut lw_plan_cost,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |plan: &StopPlan| {
        Ok(lw_plan_cost {
            struct_size: 0,
            stops: plan.stops.len(),
            walks: plan.walks,
            unreachable: plan.unreachable.len(),
            total_turn_deg: plan.total_turn.degrees(),
        })
    };
    // SAFETY: the contract is passed on.
    unsafe { boundary(error, || read(plan, ("cost", cost), of)) }
}

/// One stop of a plan; `index` counts from 0, in the order in which they are made.
///
/// `LW_STATUS_OUT_OF_BOUNDS` after the last. `error` may be NULL. Any thread.
///
/// # Safety
/// `plan` is a handle or NULL; `stop` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_stop(
    plan: *const lw_plan,
    index: usize,
    stop: *mut lw_stop,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |plan: &StopPlan| {
        let found = nth("stop", &plan.stops, index)?;
        Ok(lw_stop {
            struct_size: 0,
            position_deg: found.position.degrees(),
            turn_deg: found.turn.degrees(),
            checks: found.checks.len(),
            cues: found.signs.len(),
            firing_tdc_of: number(found.firing_tdc),
            overlap_tdc_of: number(found.overlap_tdc),
            may_be_off_before_deg: found.may_be_off.before.degrees(),
            may_be_off_after_deg: found.may_be_off.after.degrees(),
        })
    };
    // SAFETY: the contract is passed on.
    unsafe { boundary(error, || read(plan, ("stop", stop), of)) }
}

/// One valve to check at a stop; both indices count from 0.
///
/// `LW_STATUS_OUT_OF_BOUNDS` after the last. `error` may be NULL. Any thread.
///
/// # Safety
/// `plan` is a handle or NULL; `check` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_check(
    plan: *const lw_plan,
    stop: usize,
    index: usize,
    check: *mut lw_valve_check,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |plan: &StopPlan| {
        let stop = nth("stop", &plan.stops, stop)?;
        let ValveCheck { valve, margin, .. } = *nth("check", &stop.checks, index)?;
        Ok(lw_valve_check::valve(valve, margin))
    };
    // SAFETY: the contract is passed on.
    unsafe { boundary(error, || read(plan, ("check", check), of)) }
}

/// One valve to watch at a stop: with the opposite valve an exhaust valve that begins to open, or an
/// intake valve that has just closed; with the fully open valve one that is fully open. Both indices
/// count from 0.
///
/// `LW_STATUS_OUT_OF_BOUNDS` after the last. `error` may be NULL. Any thread.
///
/// # Safety
/// `plan` is a handle or NULL; `cue` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_cue(
    plan: *const lw_plan,
    stop: usize,
    index: usize,
    cue: *mut lw_valve_check,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |plan: &StopPlan| {
        let stop = nth("stop", &plan.stops, stop)?;
        let found = nth("cue", &stop.signs, index)?;
        let (cylinder, kind) = (found.cylinder, found.kind);
        Ok(lw_valve_check::of(cylinder, kind, 0, CrankAngle::ZERO))
    };
    // SAFETY: the contract is passed on.
    unsafe { boundary(error, || read(plan, ("cue", cue), of)) }
}

/// One valve that cannot be checked at any stop; `index` counts from 0.
///
/// `LW_STATUS_OUT_OF_BOUNDS` after the last. `error` may be NULL. Any thread.
///
/// # Safety
/// `plan` is a handle or NULL; `check` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_unreachable(
    plan: *const lw_plan,
    index: usize,
    check: *mut lw_valve_check,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |plan: &StopPlan| {
        let valve = nth("unreachable", &plan.unreachable, index)?.valve;
        Ok(lw_valve_check::valve(valve, CrankAngle::ZERO))
    };
    // SAFETY: the contract is passed on.
    unsafe { boundary(error, || read(plan, ("check", check), of)) }
}
