//! A stop plan behind a handle: where to stop the crank and which valves to check there.

use crate::boundary::{Outcome, boundary};
use crate::engine::{lw_engine, number};
use crate::error::lw_error;
use crate::pointers::{Record, place, record, record_place, shared};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::quantity::CrankAngle;
use lashwork::valve::{CamEvents, StopPlan, ValveCheck, ValveId, ValveKind, ValveTrain};

/// A stop plan. It never changes and needs the engine no more.
#[derive(Debug)]
pub struct lw_plan(StopPlan);

/// How stops are chosen.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_method {
    /// Each cylinder at its firing top dead centre, in firing order.
    CylinderByCylinder = 1,
    /// Two positions one turn apart.
    TwoPosition = 2,
}

/// A kind of valve.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_valve_kind {
    /// Intake.
    Intake = 1,
    /// Exhaust.
    Exhaust = 2,
}

/// Valves and cam events as a manual prints them, in crank degrees; an event on the other side of dead
/// centre is negative.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_valve_train {
    /// Size of this structure, `sizeof(lw_valve_train)`.
    pub struct_size: usize,
    /// Intake opens before top dead centre.
    pub intake_opens_btdc_deg: f64,
    /// Intake closes after bottom dead centre.
    pub intake_closes_abdc_deg: f64,
    /// Exhaust opens before bottom dead centre.
    pub exhaust_opens_bbdc_deg: f64,
    /// Exhaust closes after top dead centre.
    pub exhaust_closes_atdc_deg: f64,
    /// How far from the events the ramps reach, 0 to 180.
    pub guard_deg: f64,
    /// Intake valves of a cylinder, 1 to 4.
    pub intake_per_cylinder: u32,
    /// Exhaust valves of a cylinder, 1 to 4.
    pub exhaust_per_cylinder: u32,
}

/// What a plan costs.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_plan_cost {
    /// Size of this structure, `sizeof(lw_plan_cost)`.
    pub struct_size: usize,
    /// How many stops.
    pub stops: usize,
    /// Walks from one side of the engine to the other.
    pub walks: usize,
    /// Valves that no stop reaches, because their cams leave no arc to read them.
    pub unreachable: usize,
    /// Crank degrees from the first stop to the last, all forward.
    pub total_turn_deg: f64,
}

/// One stop.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_stop {
    /// Size of this structure, `sizeof(lw_stop)`.
    pub struct_size: usize,
    /// Crank degrees after firing top dead centre of the first cylinder in the firing order.
    pub position_deg: f64,
    /// Crank degrees to turn forward from the stop before; 0 at the first.
    pub turn_deg: f64,
    /// The valves to check here.
    pub checks: usize,
    /// The cylinder whose firing top dead centre this is, from 1; 0 if it is none.
    pub firing_tdc_of: u32,
    /// Zero.
    pub reserved: u32,
}

/// One valve, and how far the crank is from the end of the arc in which it may be read.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_valve_check {
    /// Size of this structure, `sizeof(lw_valve_check)`.
    pub struct_size: usize,
    /// Cylinder, from 1.
    pub cylinder: u32,
    /// Kind.
    pub kind: lw_valve_kind,
    /// Which of its kind at that cylinder, from 1.
    pub number: u32,
    /// Zero.
    pub reserved: u32,
    /// Crank degrees to the nearer end of its arc; 0 for a valve that no stop reaches.
    pub margin_deg: f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_valve_train {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_plan_cost {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_stop {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front; never read from a caller, so the enumeration is one of ours.
unsafe impl Record for lw_valve_check {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_valve_train {
    fn typed<'e>(&self, engine: &'e lw_engine) -> Outcome<ValveTrain<'e>> {
        let angle = CrankAngle::from_degrees;
        let events = CamEvents::new(
            angle(self.intake_opens_btdc_deg)?,
            angle(self.intake_closes_abdc_deg)?,
            angle(self.exhaust_opens_bbdc_deg)?,
            angle(self.exhaust_closes_atdc_deg)?,
        )?;
        // More than a byte holds is refused by the kernel like any other count.
        let count = |n: u32| u8::try_from(n).unwrap_or(u8::MAX);
        Ok(ValveTrain::new(
            &engine.0,
            &events,
            angle(self.guard_deg)?,
            count(self.intake_per_cylinder),
            count(self.exhaust_per_cylinder),
        )?)
    }
}

impl lw_valve_check {
    fn of(valve: ValveId, margin: CrankAngle) -> Self {
        Self {
            struct_size: 0,
            cylinder: number(Some(valve.cylinder)),
            kind: match valve.kind {
                ValveKind::Intake => lw_valve_kind::Intake,
                ValveKind::Exhaust => lw_valve_kind::Exhaust,
            },
            number: u32::from(valve.number),
            reserved: 0,
            margin_deg: margin.degrees(),
        }
    }
}

fn nth<'a, T>(name: &'static str, list: &'a [T], index: usize) -> Outcome<&'a T> {
    list.get(index).ok_or_else(|| {
        lw_error::of(lw_status::OutOfBounds, name, || {
            format!("{name} {index} is none of {}", list.len())
        })
    })
}

/// Plans where to stop.
///
/// `method` is of `lw_method`. `start` is a cylinder, from 1, at whose firing top dead centre to begin; 0
/// leaves it to the plan, and two positions then begin at the first of the firing order. On
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
        let methods = [
            (
                lw_method::CylinderByCylinder as u32,
                lw_method::CylinderByCylinder,
            ),
            (lw_method::TwoPosition as u32, lw_method::TwoPosition),
        ];
        let found = match choose("method", method, &methods)? {
            lw_method::CylinderByCylinder => Some(train.cylinder_by_cylinder(start)),
            lw_method::TwoPosition => {
                let first = start.or(engine.0.order().first().copied());
                first.and_then(|first| train.two_position(first))
            }
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
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (plan, cost) = unsafe { (shared("plan", plan)?, record_place("cost", cost)?) };
        cost.write(&lw_plan_cost {
            struct_size: 0,
            stops: plan.0.stops.len(),
            walks: plan.0.walks,
            unreachable: plan.0.unreachable.len(),
            total_turn_deg: plan.0.total_turn.degrees(),
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// One stop of a plan; `index` counts from 0, in the order in which they are made.
///
/// `LW_STATUS_OUT_OF_BOUNDS` behind the last. `error` may be NULL. Any thread.
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
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (plan, stop) = unsafe { (shared("plan", plan)?, record_place("stop", stop)?) };
        let found = nth("stop", &plan.0.stops, index)?;
        stop.write(&lw_stop {
            struct_size: 0,
            position_deg: found.position.degrees(),
            turn_deg: found.turn.degrees(),
            checks: found.checks.len(),
            firing_tdc_of: number(found.firing_tdc),
            reserved: 0,
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// One valve to check at a stop; both indices count from 0.
///
/// `LW_STATUS_OUT_OF_BOUNDS` behind the last. `error` may be NULL. Any thread.
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
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (plan, check) = unsafe { (shared("plan", plan)?, record_place("check", check)?) };
        let stop = nth("stop", &plan.0.stops, stop)?;
        let ValveCheck { valve, margin } = *nth("check", &stop.checks, index)?;
        check.write(&lw_valve_check::of(valve, margin));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// One valve that no stop reaches; `index` counts from 0.
///
/// `LW_STATUS_OUT_OF_BOUNDS` behind the last. `error` may be NULL. Any thread.
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
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (plan, check) = unsafe { (shared("plan", plan)?, record_place("check", check)?) };
        let valve = nth("unreachable", &plan.0.unreachable, index)?.valve;
        check.write(&lw_valve_check::of(valve, CrankAngle::ZERO));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
