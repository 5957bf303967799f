//! The contact breaker: dwell on every scale, gap and dwell, and what they do to the spark.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::pointers::{Record, place, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::ignition::breaker::{
    CamSpeed, Dwell, Flanks, GapAndDwell, GapSizes, LobeModel, Lobes, MeterScale, spark_shift,
};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};

/// A scale of a dwell meter that is not in degrees.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_meter_scale {
    /// Per cent of the time.
    Percent = 100,
}

/// What turns the breaker's cam.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_cam_speed {
    /// A distributor or camshaft of a four-stroke: once in two turns of the crank.
    HalfCrank = 1,
    /// The crank itself.
    Crank = 2,
}

/// A contact gap and the dwell that a book prints for it, over so many lobes.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_gap_and_dwell {
    /// Size of this structure, `sizeof(lw_gap_and_dwell)`.
    pub struct_size: usize,
    /// The gap in millimetres, 0.1 to 1 unless it is stated to be unusual.
    pub gap_mm: f64,
    /// Its standard uncertainty in millimetres, 0 to 1: the band, the rounding.
    pub gap_uncertainty_mm: f64,
    /// The dwell in degrees of the cam, above 0 and below 360 over the lobes.
    pub dwell_deg: f64,
    /// Its standard uncertainty in degrees, 0 to 90.
    pub dwell_uncertainty_deg: f64,
    /// Lobes of the cam, 1 to 12.
    pub lobes: u32,
    /// 1 if the book is stated to print a gap outside 0.1 to 1 mm, else 0.
    pub unusual_gap: u32,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_gap_and_dwell {
    const FIRST_SIZE: usize = size_of::<Self>();
}

pub(crate) const CAM_SPEEDS: [(u32, CamSpeed); 2] = [
    (lw_cam_speed::HalfCrank as u32, CamSpeed::HalfCrank),
    (lw_cam_speed::Crank as u32, CamSpeed::Crank),
];

/// The number of lobes; what does not fit is refused as too many.
pub(crate) fn lobes(count: u32) -> Outcome<Lobes> {
    Ok(Lobes::new(u8::try_from(count).unwrap_or(u8::MAX))?)
}

fn scale(number: u32) -> Outcome<MeterScale> {
    const PERCENT: u32 = lw_meter_scale::Percent as u32;
    match number {
        PERCENT => Ok(MeterScale::Percent),
        cylinders => Ok(MeterScale::Cylinders(lobes(cylinders)?)),
    }
}

/// A value with its normal standard uncertainty, both in the base unit.
pub(crate) fn about<Q: Measurand>(value: f64, uncertainty: f64) -> Outcome<Estimate<Q>> {
    Ok(Estimate::from_numbers(value, value, uncertainty)?)
}

/// Centre and standard uncertainty, in the base unit.
pub(crate) fn centred<Q: Measurand>(found: &Estimate<Q>) -> (f64, f64) {
    (
        found.centre().map_or(f64::NAN, Q::number),
        found
            .standard_uncertainty()
            .map_or(f64::NAN, Uncertainty::number),
    )
}

impl lw_gap_and_dwell {
    fn lobe(&self) -> Outcome<LobeModel> {
        let sizes = choose(
            "pair.unusual_gap",
            self.unusual_gap,
            &[(0, GapSizes::Usual), (1, GapSizes::StatedUnusual)],
        )?;
        let pair = GapAndDwell {
            gap: about(self.gap_mm, self.gap_uncertainty_mm)?,
            dwell: about(self.dwell_deg, self.dwell_uncertainty_deg)?,
        };
        Ok(LobeModel::from_pair(&pair, lobes(self.lobes)?, sizes)?)
    }
}

/// The dwell over so many lobes, in degrees of the cam, of what a meter shows on one of its scales.
///
/// `scale` is the number of cylinders that the scale is made for, 1 to 12, or `LW_METER_SCALE_PERCENT`;
/// `lobes` those of the cam, 1 to 12. `shown` above 0 and below the end of the scale. `error` may be NULL.
/// Any thread.
///
/// # Safety
/// `dwell_deg` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_dwell_of_reading(
    shown: f64,
    scale: u32,
    lobes: u32,
    dwell_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let dwell = unsafe { place("dwell_deg", dwell_deg) }?;
        let found = self::scale(scale)?.dwell(shown, self::lobes(lobes)?)?;
        dwell.write(found.degrees());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// What a meter shows on one of its scales for a dwell over so many lobes: degrees, or per cent.
///
/// `scale` and `lobes` as in `lw_dwell_of_reading`; `dwell_deg` above 0 and below 360 over the lobes.
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `shown` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_reading_of_dwell(
    dwell_deg: f64,
    scale: u32,
    lobes: u32,
    shown: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let shown = unsafe { place("shown", shown) }?;
        let dwell = Dwell::from_degrees(dwell_deg)?;
        shown.write(self::scale(scale)?.shows(dwell, self::lobes(lobes)?)?);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The dwell that goes with a gap, by the lobe through a printed pair, and its standard uncertainty; both
/// in degrees of the cam.
///
/// `gap_mm` from 0 up to what the cam lifts at the contacts, its standard uncertainty 0 to 1. Away from the
/// pair the change of dwell is taken as right within half of itself, for real lobes are not all of one shape.
/// `error` may be NULL. Any thread.
///
/// # Safety
/// `pair` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_dwell_at_gap(
    pair: *const lw_gap_and_dwell,
    gap_mm: f64,
    gap_uncertainty_mm: f64,
    dwell_deg: *mut f64,
    dwell_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (lobe, dwell, u) = unsafe {
            (
                seen("pair", pair, &mut spare())?.lobe()?,
                place("dwell_deg", dwell_deg)?,
                place("dwell_uncertainty_deg", dwell_uncertainty_deg)?,
            )
        };
        let found = centred(&lobe.dwell_at(&about(gap_mm, gap_uncertainty_mm)?)?);
        dwell.write(found.0);
        u.write(found.1);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The gap that goes with a dwell, by the lobe through a printed pair, and its standard uncertainty; both
/// in millimetres.
///
/// `dwell_deg` above 0 and below 360 over the lobes, its standard uncertainty 0 to 90. `error` may be NULL.
/// Any thread.
///
/// # Safety
/// `pair` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_gap_at_dwell(
    pair: *const lw_gap_and_dwell,
    dwell_deg: f64,
    dwell_uncertainty_deg: f64,
    gap_mm: *mut f64,
    gap_uncertainty_mm: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (lobe, gap, u) = unsafe {
            (
                seen("pair", pair, &mut spare())?.lobe()?,
                place("gap_mm", gap_mm)?,
                place("gap_uncertainty_mm", gap_uncertainty_mm)?,
            )
        };
        let found = centred(&lobe.gap_at(&about(dwell_deg, dwell_uncertainty_deg)?)?);
        gap.write(found.0);
        u.write(found.1);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// How much earlier the spark comes when the dwell changes, in crank degrees, and its standard uncertainty;
/// negative is later.
///
/// `change_deg` in degrees of the cam, positive for more dwell, -360 to 360; its standard uncertainty 0 to
/// 180. `cam` is a value of `lw_cam_speed`. `opening_share` is the share of the change that falls on the
/// flank which opens the contacts, 0 to 1: 0.5 for a lobe with two equal flanks. `error` may be NULL. Any
/// thread.
///
/// # Safety
/// The outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_spark_shift(
    change_deg: f64,
    change_uncertainty_deg: f64,
    cam: u32,
    opening_share: f64,
    earlier_deg: *mut f64,
    earlier_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (earlier, u) = unsafe {
            (
                place("earlier_deg", earlier_deg)?,
                place("earlier_uncertainty_deg", earlier_uncertainty_deg)?,
            )
        };
        let found = spark_shift(
            &about(change_deg, change_uncertainty_deg)?,
            choose("cam", cam, &CAM_SPEEDS)?,
            Some(Flanks::OpeningShare(opening_share)),
        )?;
        earlier.write(found.earlier.degrees());
        u.write(found.uncertainty.number());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
