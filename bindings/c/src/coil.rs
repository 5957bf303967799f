//! The coil: its resistance at a temperature, what it holds at a speed, and when its spark gets weak.

use crate::boundary::{Outcome, boundary};
use crate::breaker::{CAM_SPEEDS, about, centred, lobes};
use crate::error::lw_error;
use crate::pointers::{Record, place, record_place, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::ignition::breaker::{BreakerCam, Dwell};
use lashwork::ignition::electrics::{Conductor, PrimaryCircuit, Weak, resistance_at};
use lashwork::quantity::{CrankSpeed, Current, Energy, Temperature, TemperatureDifference};
use lashwork::tolerance::Estimate;

/// From when a spark is called weak.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_weak {
    /// Below this share of the current that flows in the end, above 0 and below 1.
    ShareOfCurrent = 1,
    /// Below this share of the energy that is stored in the end, above 0 and below 1.
    ShareOfEnergy = 2,
    /// Below so many amperes.
    Current = 3,
    /// Below so many millijoules.
    Energy = 4,
}

/// The primary circuit of a coil and the breaker that closes it.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_primary_circuit {
    /// Size of this structure, `sizeof(lw_primary_circuit)`.
    pub struct_size: usize,
    /// Voltage across coil, ballast and leads with the contacts closed, above 0.
    pub supply_v: f64,
    /// Its standard uncertainty in volts, 0 or more.
    pub supply_uncertainty_v: f64,
    /// Resistance of all of them together, as warm as they run, in ohms.
    pub resistance_ohm: f64,
    /// Its standard uncertainty in ohms, 0 or more.
    pub resistance_uncertainty_ohm: f64,
    /// Inductance of the primary winding in millihenries.
    pub inductance_mh: f64,
    /// Its standard uncertainty in millihenries, 0 or more.
    pub inductance_uncertainty_mh: f64,
    /// Dwell in degrees of the cam, above 0 and below 360 over the lobes.
    pub dwell_deg: f64,
    /// Its standard uncertainty in degrees, 0 to 90.
    pub dwell_uncertainty_deg: f64,
    /// Lobes of the cam, 1 to 12.
    pub lobes: u32,
    /// What turns the cam: a value of `lw_cam_speed`.
    pub cam: u32,
}

/// What a coil holds when the contacts open. The inductance is taken as constant.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_charge {
    /// Size of this structure, `sizeof(lw_charge)`.
    pub struct_size: usize,
    /// How long the contacts were closed, in milliseconds.
    pub closed_ms: f64,
    /// The current in amperes.
    pub current_a: f64,
    /// Its standard uncertainty in amperes.
    pub current_uncertainty_a: f64,
    /// The energy in millijoules.
    pub energy_mj: f64,
    /// Its standard uncertainty in millijoules.
    pub energy_uncertainty_mj: f64,
    /// The current over what it would be in the end, 0 to 1.
    pub share_of_current: f64,
    /// The energy over what it would be in the end, 0 to 1.
    pub share_of_energy: f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_primary_circuit {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_charge {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_primary_circuit {
    fn typed(&self) -> Outcome<(PrimaryCircuit, BreakerCam, Estimate<Dwell>)> {
        let circuit = PrimaryCircuit {
            supply: about(self.supply_v, self.supply_uncertainty_v)?,
            resistance: about(self.resistance_ohm, self.resistance_uncertainty_ohm)?,
            inductance: about(self.inductance_mh, self.inductance_uncertainty_mh)?,
        };
        let cam = BreakerCam {
            lobes: lobes(self.lobes)?,
            speed: choose("circuit.cam", self.cam, &CAM_SPEEDS)?,
        };
        let dwell = about(self.dwell_deg, self.dwell_uncertainty_deg)?;
        Ok((circuit, cam, dwell))
    }
}

/// The resistance of a copper winding at another temperature than it was read at, in ohms, and its standard
/// uncertainty.
///
/// `read_ohm` with its standard uncertainty; `read_at_celsius` -50 to 250 with the standard uncertainty
/// `read_at_uncertainty_kelvin`; `wanted_at_celsius` -50 to 250. `error` may be NULL. Any thread.
///
/// # Safety
/// The outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_copper_resistance(
    read_ohm: f64,
    read_uncertainty_ohm: f64,
    read_at_celsius: f64,
    read_at_uncertainty_kelvin: f64,
    wanted_at_celsius: f64,
    resistance_ohm: *mut f64,
    resistance_uncertainty_ohm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (resistance, u) = unsafe {
            (
                place("resistance_ohm", resistance_ohm)?,
                place("resistance_uncertainty_ohm", resistance_uncertainty_ohm)?,
            )
        };
        let found = resistance_at(
            &about(read_ohm, read_uncertainty_ohm)?,
            Temperature::from_celsius(read_at_celsius)?,
            TemperatureDifference::from_kelvin(read_at_uncertainty_kelvin)?,
            Temperature::from_celsius(wanted_at_celsius)?,
            Conductor::Copper,
        )?;
        let found = centred(&found.resistance);
        resistance.write(found.0);
        u.write(found.1);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// What a coil holds when the contacts open at a speed.
///
/// `rpm` of the crank, above 0. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_charge_at_speed(
    circuit: *const lw_primary_circuit,
    rpm: f64,
    charge: *mut lw_charge,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let ((circuit, cam, dwell), charge) = unsafe {
            (
                seen("circuit", circuit, &mut spare())?.typed()?,
                record_place("charge", charge)?,
            )
        };
        let found = circuit.at_speed(cam, &dwell, CrankSpeed::from_rpm(rpm)?)?;
        let (current, energy) = (centred(&found.current), centred(&found.energy));
        charge.write(&lw_charge {
            struct_size: 0,
            closed_ms: found.closed.milliseconds(),
            current_a: current.0,
            current_uncertainty_a: current.1,
            energy_mj: energy.0,
            energy_uncertainty_mj: energy.1,
            share_of_current: found.share_of_current,
            share_of_energy: found.share_of_energy,
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The crank speed above which a coil is weak, in turns a minute, and its standard uncertainty.
///
/// `weak` is a value of `lw_weak`, and `below` the number that goes with it. Refused where the coil never
/// holds so much. `error` may be NULL. Any thread.
///
/// # Safety
/// `circuit` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_weak_from_speed(
    circuit: *const lw_primary_circuit,
    weak: u32,
    below: f64,
    rpm: *mut f64,
    uncertainty_rpm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let ((circuit, cam, dwell), rpm, u) = unsafe {
            (
                seen("circuit", circuit, &mut spare())?.typed()?,
                place("rpm", rpm)?,
                place("uncertainty_rpm", uncertainty_rpm)?,
            )
        };
        let kinds = [
            (lw_weak::ShareOfCurrent as u32, lw_weak::ShareOfCurrent),
            (lw_weak::ShareOfEnergy as u32, lw_weak::ShareOfEnergy),
            (lw_weak::Current as u32, lw_weak::Current),
            (lw_weak::Energy as u32, lw_weak::Energy),
        ];
        let weak = match choose("weak", weak, &kinds)? {
            lw_weak::ShareOfCurrent => Weak::BelowShareOfCurrent(below),
            lw_weak::ShareOfEnergy => Weak::BelowShareOfEnergy(below),
            lw_weak::Current => Weak::BelowCurrent(Current::from_amperes(below)?),
            lw_weak::Energy => Weak::BelowEnergy(Energy::from_millijoules(below)?),
        };
        let found = centred(&circuit.speed_at(weak, cam, &dwell)?);
        rpm.write(found.0);
        u.write(found.1);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
