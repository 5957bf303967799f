//! How far to turn a screw, which shim to fit.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::pointers::{Record, place, record, record_place, seen, spare};
use crate::quantity::{choose, marked};
use crate::status::lw_status;
use lashwork::adjust::{
    ScrewSeat, ShimFit, ShimRounding, ShimSeries, Thread, TurnDirection, screw_turn,
};
use lashwork::quantity::{Lash, LashChange, Length, Nominal, ShimThickness};

/// Where the adjusting screw sits.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_screw_seat {
    /// At the valve's end of the rocker.
    ValveSide = 1,
    /// At the pushrod's or cam's end of the rocker.
    CamSide = 2,
    /// The nut on the stud a rocker pivots on.
    Pivot = 3,
}

/// Which way to turn the screw, seen from the screwdriver's end.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_direction {
    /// In: clockwise with a right-hand thread.
    In = 1,
    /// Out.
    Out = 2,
    /// Not at all.
    None = 3,
}

/// Which shim of a series to take.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_shim_rounding {
    /// The nearest to the wanted one.
    Nearest = 1,
    /// The nearest that leaves no less lash than wanted.
    NeverTighter = 2,
}

/// A screw to turn.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_screw {
    /// Size of this structure, `sizeof(lw_screw)`.
    pub struct_size: usize,
    /// Pitch of the thread in millimetres, 0.1 to 5; `lw_pitch_per_inch` gives it for an inch thread.
    pub pitch_mm: f64,
    /// Rocker ratio: movement of the valve over movement of the cam side, 0.3 to 4; 1 without a rocker.
    pub rocker_ratio: f64,
    /// Where it sits: a value of `lw_screw_seat`.
    pub seat: u32,
    /// 1 if turning it in closes the gap, 0 if it opens the gap.
    pub inward_closes: u32,
}

/// How a screw is to be turned.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_screw_turn {
    /// Size of this structure, `sizeof(lw_screw_turn)`.
    pub struct_size: usize,
    /// By how many degrees; positive in, negative out.
    pub angle_deg: f64,
    /// How far the screw moves, in millimetres; positive closes the gap.
    pub travel_mm: f64,
    /// Which way.
    pub direction: lw_direction,
    /// Zero.
    pub reserved: u32,
}

/// A shim to be changed.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_shim_fit {
    /// Size of this structure, `sizeof(lw_shim_fit)`.
    pub struct_size: usize,
    /// Thickness of the fitted shim in millimetres, 0.01 to 50.
    pub old_mm: f64,
    /// The lash found with it, in millimetres, -20 to 20.
    pub measured_mm: f64,
    /// The lash wanted, in millimetres, -20 to 20.
    pub target_mm: f64,
    /// Change of lash for a change of shim, 0.1 to 5; 1 for a shim on a bucket.
    pub ratio: f64,
}

/// Shim sizes available: from the thinnest to the thickest in equal steps, in whole nanometres.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_shim_series {
    /// Size of this structure, `sizeof(lw_shim_series)`.
    pub struct_size: usize,
    /// The thinnest, 10000 (0.01 mm) or more.
    pub first_nm: i64,
    /// The thickest, up to 50000000 (50 mm); whole steps from the thinnest.
    pub last_nm: i64,
    /// Step from one size to the next, above zero; at most 10000 sizes.
    pub step_nm: i64,
}

/// A shim that was chosen and what it leads to.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_shim_choice {
    /// Size of this structure, `sizeof(lw_shim_choice)`.
    pub struct_size: usize,
    /// The size in whole nanometres.
    pub size_nm: i64,
    /// The lash it should give, in millimetres.
    pub predicted_lash_mm: f64,
    /// That minus the lash wanted, in millimetres.
    pub error_mm: f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_screw {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front; never read from a caller, so the enumeration is one of ours.
unsafe impl Record for lw_screw_turn {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_shim_fit {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers only.
unsafe impl Record for lw_shim_series {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_shim_choice {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_shim_fit {
    #[expect(
        clippy::inline_always,
        reason = "what it gives back is else copied twice"
    )]
    #[inline(always)]
    fn typed(&self) -> Outcome<ShimFit> {
        Ok(ShimFit {
            old: ShimThickness::from_mm(self.old_mm)?,
            measured: Lash::from_mm(self.measured_mm)?,
            target: Lash::from_mm(self.target_mm)?,
            ratio_from_shim_to_gap: self.ratio,
        })
    }
}

/// The pitch in millimetres of a thread with so many turns to the inch, 5.08 to 254 (5 to 0.1 mm).
///
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `pitch_mm` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_pitch_per_inch(
    threads: f64,
    pitch_mm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let pitch = unsafe { place("pitch_mm", pitch_mm) }?;
        pitch.write(Thread::per_inch(threads)?.pitch().mm());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// How far and which way a screw is turned for a change of lash.
///
/// `change_mm` is wanted minus now, -40 to 40; positive opens. No memory is allocated. `error` may be
/// NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_turn_screw(
    screw: *const lw_screw,
    change_mm: f64,
    turn: *mut lw_screw_turn,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (screw, turn) = unsafe { (record("screw", screw)?, record_place("turn", turn)?) };
        let seats = [
            (lw_screw_seat::ValveSide as u32, ScrewSeat::ValveSide),
            (lw_screw_seat::CamSide as u32, ScrewSeat::CamSide),
            (lw_screw_seat::Pivot as u32, ScrewSeat::Pivot),
        ];
        let found = screw_turn(
            LashChange::from_mm(change_mm)?,
            Thread::metric(Length::from_mm(screw.pitch_mm)?)?,
            choose("screw.seat", screw.seat, &seats)?,
            screw.rocker_ratio,
            choose(
                "screw.inward_closes",
                screw.inward_closes,
                &[(0, false), (1, true)],
            )?,
        )?;
        turn.write(&lw_screw_turn {
            struct_size: 0,
            angle_deg: found.angle.degrees(),
            travel_mm: found.travel.mm(),
            direction: match found.direction {
                TurnDirection::In => lw_direction::In,
                TurnDirection::Out => lw_direction::Out,
                TurnDirection::None => lw_direction::None,
            },
            reserved: 0,
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The shim that would give exactly the lash wanted, in whole nanometres.
///
/// No memory is allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// `fit` states its size, or is NULL; `wanted_nm` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_shim_wanted(
    fit: *const lw_shim_fit,
    wanted_nm: *mut i64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (fit, wanted) = unsafe {
            (
                seen("fit", fit, &mut spare())?.typed()?,
                place("wanted_nm", wanted_nm)?,
            )
        };
        wanted.write(fit.wanted()?.nanometres());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The lash that a shim of a size would give, in millimetres.
///
/// `size_nm` 10000 (0.01 mm) to 50000000 (50 mm). No memory is allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// `fit` states its size, or is NULL; `lash_mm` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_lash_with_shim(
    fit: *const lw_shim_fit,
    size_nm: i64,
    lash_mm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (fit, lash) = unsafe {
            (
                seen("fit", fit, &mut spare())?.typed()?,
                place("lash_mm", lash_mm)?,
            )
        };
        lash.write(fit.lash_with(Nominal::from_nanometres(size_nm)?)?.mm());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The shim of a series to fit.
///
/// `rounding` is a value of `lw_shim_rounding`. Refused if the wanted size is outside the series. No memory is
/// allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_choose_shim(
    fit: *const lw_shim_fit,
    series: *const lw_shim_series,
    rounding: u32,
    choice: *mut lw_shim_choice,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (fit, series, choice) = unsafe {
            (
                seen("fit", fit, &mut spare())?.typed()?,
                record("series", series)?,
                record_place("choice", choice)?,
            )
        };
        let (first, last) = (marked(series.first_nm)?, marked(series.last_nm)?);
        let series = ShimSeries::new(first, last, marked(series.step_nm)?)?;
        let roundings = [
            (lw_shim_rounding::Nearest as u32, ShimRounding::Nearest),
            (
                lw_shim_rounding::NeverTighter as u32,
                ShimRounding::NeverTighter,
            ),
        ];
        let found = series.nearest(&fit, choose("rounding", rounding, &roundings)?)?;
        choice.write(&lw_shim_choice {
            struct_size: 0,
            size_nm: found.size.nanometres(),
            predicted_lash_mm: found.predicted_lash.mm(),
            error_mm: found.error.mm(),
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
