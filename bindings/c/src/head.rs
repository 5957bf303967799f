//! The head's bolts: what is set on a wrench, and the force that a torque leaves.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::pointers::{Record, place, record, record_place, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::condition::head::{
    Adapter, Friction, Preload, Scatter, Tightening, Wrench, nut_factor,
};
use lashwork::quantity::{AxisAngle, Length, Torque};
use lashwork::tolerance::Measurand;

/// How a bolt is tightened, and how far its force then scatters about the middle, in per cent either way.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_tightening {
    /// To yield, or by an angle: 5 to 12 %.
    YieldOrAngle = 1,
    /// By elongation, or hydraulically: 9 to 23 %.
    Elongation = 2,
    /// By a torque that was found on the joint itself: 17 to 23 %.
    TorqueTuned = 3,
    /// By a torque from a friction that was estimated: 23 to 28 %.
    TorqueEstimated = 4,
    /// By a power driver: 26 to 43 %.
    PowerDriver = 5,
    /// By a torque on threads as received: 35 %.
    DryTorque = 6,
    /// By a torque on oiled threads: 25 %.
    OiledTorque = 7,
    /// As the call states.
    Stated = 8,
}

/// An adapter between the drive of a torque wrench and the bolt.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_adapter {
    /// Size of this structure, `sizeof(lw_adapter)`.
    pub struct_size: usize,
    /// From the wrench's drive to the middle of its grip, in millimetres, 80 to 3000.
    pub wrench_mm: f64,
    /// From the drive to the bolt, in millimetres, 0 to 1000.
    pub adapter_mm: f64,
    /// How far the adapter is turned out of the wrench's line, in degrees: 0 straight on, 90 square, 180 folded back.
    pub turned_deg: f64,
}

/// A bolt's thread and head, and their friction.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_bolt_friction {
    /// Size of this structure, `sizeof(lw_bolt_friction)`.
    pub struct_size: usize,
    /// Nominal diameter in millimetres, 2 to 100.
    pub diameter_mm: f64,
    /// Pitch of the thread in millimetres.
    pub pitch_mm: f64,
    /// Middle diameter in millimetres of what bears under the head or the nut.
    pub bearing_mm: f64,
    /// Friction in the thread, 0.02 to 0.5.
    pub thread: f64,
    /// Friction under the head, 0.02 to 0.5.
    pub head: f64,
}

/// The force along a bolt that a torque leaves.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_preload {
    /// Size of this structure, `sizeof(lw_preload)`.
    pub struct_size: usize,
    /// The least by the scatter, in kilonewtons.
    pub least_kn: f64,
    /// By the torque and the nut factor, in kilonewtons.
    pub middle_kn: f64,
    /// The most by the scatter, in kilonewtons.
    pub most_kn: f64,
    /// How far it scatters either way, in per cent: the least that is published.
    pub scatter_from_percent: f64,
    /// The most that is published, which the ends above are for.
    pub scatter_to_percent: f64,
}

// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_adapter {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_bolt_friction {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_preload {
    const FIRST_SIZE: usize = size_of::<Self>();
}

const TIGHTENINGS: [(u32, Option<Tightening>); 8] = [
    (
        lw_tightening::YieldOrAngle as u32,
        Some(Tightening::YieldOrAngle),
    ),
    (
        lw_tightening::Elongation as u32,
        Some(Tightening::Elongation),
    ),
    (
        lw_tightening::TorqueTuned as u32,
        Some(Tightening::TorqueTuned),
    ),
    (
        lw_tightening::TorqueEstimated as u32,
        Some(Tightening::TorqueEstimated),
    ),
    (
        lw_tightening::PowerDriver as u32,
        Some(Tightening::PowerDriver),
    ),
    (lw_tightening::DryTorque as u32, Some(Tightening::DryTorque)),
    (
        lw_tightening::OiledTorque as u32,
        Some(Tightening::OiledTorque),
    ),
    (lw_tightening::Stated as u32, None),
];

impl lw_adapter {
    fn typed(&self) -> Outcome<Adapter> {
        let turned = AxisAngle::from_degrees(self.turned_deg)?;
        let mm = Length::from_mm;
        Ok(Adapter::new(
            mm(self.wrench_mm)?,
            mm(self.adapter_mm)?,
            turned,
        )?)
    }
}

/// What to set on a wrench with an adapter for a torque at the bolt; newton metres.
///
/// Where the maker prints the setting for a tool of his own, that counts. `error` may be NULL. Any thread.
///
/// # Safety
/// `adapter` states its size, or is NULL; `set_newton_m` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_wrench_setting(
    adapter: *const lw_adapter,
    at_bolt_newton_m: f64,
    set_newton_m: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (adapter, set) = unsafe {
            (
                seen("adapter", adapter, &mut spare())?.typed()?,
                place("set_newton_m", set_newton_m)?,
            )
        };
        let torque = Torque::from_newton_metres(at_bolt_newton_m)?;
        set.write(adapter.set_for(torque)?.newton_metres());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// What the bolt gets of a torque that is set on a wrench with an adapter; newton metres.
///
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `adapter` states its size, or is NULL; `at_bolt_newton_m` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_torque_at_bolt(
    adapter: *const lw_adapter,
    set_newton_m: f64,
    at_bolt_newton_m: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (adapter, at_bolt) = unsafe {
            (
                seen("adapter", adapter, &mut spare())?.typed()?,
                place("at_bolt_newton_m", at_bolt_newton_m)?,
            )
        };
        let torque = Torque::from_newton_metres(set_newton_m)?;
        at_bolt.write(adapter.at_bolt(torque)?.newton_metres());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The standard uncertainty, in newton metres, of a torque that is set on a wrench.
///
/// `most_newton_m` is the end of its scale, `percent` the deviation it is allowed, 0.5 to 20 %. A torque under a fifth of
/// the scale or over its end is refused. `error` may be NULL. Any thread.
///
/// # Safety
/// `uncertainty_newton_m` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_wrench_uncertainty(
    most_newton_m: f64,
    percent: f64,
    set_newton_m: f64,
    uncertainty_newton_m: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let uncertainty = unsafe { place("uncertainty_newton_m", uncertainty_newton_m)? };
        let wrench = Wrench::new(Torque::from_newton_metres(most_newton_m)?, percent)?;
        let left = wrench.leaves(Torque::from_newton_metres(set_newton_m)?)?;
        uncertainty.write(left.normal_uncertainty().number());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Torque over force and diameter, from the frictions of thread and head.
///
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `bolt` states its size, or is NULL; `factor` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_nut_factor(
    bolt: *const lw_bolt_friction,
    factor: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (bolt, factor) = unsafe { (record("bolt", bolt)?, place("factor", factor)?) };
        let mm = Length::from_mm;
        factor.write(nut_factor(&Friction {
            diameter: mm(bolt.diameter_mm)?,
            pitch: mm(bolt.pitch_mm)?,
            bearing: mm(bolt.bearing_mm)?,
            thread: bolt.thread,
            head: bolt.head,
        })?);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The force along a bolt that a torque leaves, with its scatter.
///
/// `factor` is the nut factor, 0.08 to 0.5: about 0.2 for plain dry steel, less for oiled. `tightening` is a value of
/// `lw_tightening`, `stated_percent` its scatter either way if that is `LW_TIGHTENING_STATED`, else ignored. The
/// maker's torque, and whether it is for dry or oiled threads, comes first. `error` may be NULL. Any thread.
///
/// # Safety
/// `preload` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_preload_of_torque(
    torque_newton_m: f64,
    diameter_mm: f64,
    factor: f64,
    tightening: u32,
    stated_percent: f64,
    preload: *mut lw_preload,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let preload = unsafe { record_place("preload", preload)? };
        let scatter = match choose("tightening", tightening, &TIGHTENINGS)? {
            Some(tightening) => Scatter::of(tightening),
            None => Scatter::stated(stated_percent)?,
        };
        let torque = Torque::from_newton_metres(torque_newton_m)?;
        let found = Preload::of(torque, Length::from_mm(diameter_mm)?, factor, scatter)?;
        let [from, to] = scatter.percent();
        preload.write(&lw_preload {
            struct_size: 0,
            least_kn: found.least.number(),
            middle_kn: found.middle.number(),
            most_kn: found.most.number(),
            scatter_from_percent: from,
            scatter_to_percent: to,
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
