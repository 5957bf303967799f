//! Crank, rod and piston; top dead centre from a piston stop.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::pointers::{Record, place, seen, spare};
use crate::status::lw_status;
use lashwork::engine::{PistonStops, SliderCrank};
use lashwork::quantity::{CrankAngle, Length, PinOffset};

/// Crank, rod and piston pin of one cylinder.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_slider_crank {
    /// Size of this structure, `sizeof(lw_slider_crank)`.
    pub struct_size: usize,
    /// Half the stroke without an offset, in millimetres, above 0 to 2500.
    pub crank_radius_mm: f64,
    /// Rod between centres in millimetres, longer than radius and offset together, to 10000.
    pub rod_mm: f64,
    /// Offset of the pin or the bore in millimetres, positive toward the side the crankpin moves to from
    /// 0 to 180 degrees.
    pub offset_mm: f64,
}

// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_slider_crank {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_slider_crank {
    #[expect(
        clippy::inline_always,
        reason = "what it gives back is else copied twice"
    )]
    #[inline(always)]
    pub(crate) fn typed(&self) -> Outcome<SliderCrank> {
        let (radius, rod) = (
            Length::from_mm(self.crank_radius_mm)?,
            Length::from_mm(self.rod_mm)?,
        );
        Ok(SliderCrank::new(
            radius,
            rod,
            PinOffset::from_mm(self.offset_mm)?,
        )?)
    }
}

/// How far the piston is below its top dead centre, in millimetres.
///
/// `crank_deg` counts from the line through the crank's centre parallel to the bore, in the running
/// direction, -720000 to 720000. No memory is allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// `slider` states its size, or is NULL; `drop_mm` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_piston_drop(
    slider: *const lw_slider_crank,
    crank_deg: f64,
    drop_mm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (slider, drop) = unsafe {
            (
                seen("slider", slider, &mut spare())?.typed()?,
                place("drop_mm", drop_mm)?,
            )
        };
        drop.write(
            slider
                .piston_drop(CrankAngle::from_degrees(crank_deg)?)
                .mm(),
        );
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The crank angles, before and after top dead centre, at which the piston is that far down; degrees as in
/// `lw_piston_drop`.
///
/// `drop_mm` 0 to the stroke. No memory is allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// `slider` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_angles_at_drop(
    slider: *const lw_slider_crank,
    drop_mm: f64,
    before_deg: *mut f64,
    after_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (slider, before, after) = unsafe {
            (
                seen("slider", slider, &mut spare())?.typed()?,
                place("before_deg", before_deg)?,
                place("after_deg", after_deg)?,
            )
        };
        let (found_before, found_after) = slider.angles_at_drop(Length::from_mm(drop_mm)?)?;
        before.write(found_before.degrees());
        after.write(found_after.degrees());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Crank angles of top and bottom dead centre, degrees as in `lw_piston_drop`, and the stroke in
/// millimetres. With an offset they are not 0, 180 and twice the radius.
///
/// No memory is allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// `slider` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_dead_centres(
    slider: *const lw_slider_crank,
    tdc_deg: *mut f64,
    bdc_deg: *mut f64,
    stroke_mm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (slider, tdc, bdc, stroke) = unsafe {
            (
                seen("slider", slider, &mut spare())?.typed()?,
                place("tdc_deg", tdc_deg)?,
                place("bdc_deg", bdc_deg)?,
                place("stroke_mm", stroke_mm)?,
            )
        };
        tdc.write(slider.tdc_angle().degrees());
        bdc.write(slider.bdc_angle().degrees());
        stroke.write(slider.stroke().mm());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Where on a degree wheel top dead centre is, from the two readings at which the piston meets a stop,
/// or is at one height on a dial gauge.
///
/// `rising_deg` is read before top dead centre, `falling_deg` after it, less than half a turn later, the
/// wheel counting up in the running direction, -720000 to 720000; both with the standard uncertainty
/// `reading_uncertainty_deg`, 0 or more. `slider` may be NULL: then the pin has no offset. No memory is
/// allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// `slider` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_tdc_from_stops(
    rising_deg: f64,
    falling_deg: f64,
    reading_uncertainty_deg: f64,
    slider: *const lw_slider_crank,
    tdc_deg: *mut f64,
    tdc_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (tdc, u) = unsafe {
            (
                place("tdc_deg", tdc_deg)?,
                place("tdc_uncertainty_deg", tdc_uncertainty_deg)?,
            )
        };
        let angle = CrankAngle::from_degrees;
        let stops = PistonStops::new(
            angle(rising_deg)?,
            angle(falling_deg)?,
            angle(reading_uncertainty_deg)?,
        )?;
        let found = if slider.is_null() {
            stops.tdc()
        } else {
            // SAFETY: as above.
            stops.tdc_with(&unsafe { seen("slider", slider, &mut spare())?.typed() }?)
        };
        tdc.write(found.wheel.degrees());
        u.write(found.standard_uncertainty.degrees());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
