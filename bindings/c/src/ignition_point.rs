//! One ignition point at the crank, on the distributor, on the rim and on a dial gauge.

use crate::boundary::{Outcome, boundary};
use crate::crank::lw_slider_crank;
use crate::error::lw_error;
use crate::pointers::{Place, Record, place, record, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::engine::Pulley;
use lashwork::ignition::point::{
    Dial, Drive, MarkSide, Piston, PointError, RimMark, Said, Tools, every_way,
};
use lashwork::quantity::{Advance, DistributorAdvance, Length, PistonTravel};

/// Where a mark stands beside the mark for top dead centre of the same cylinder.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_mark_side {
    /// Ahead of it in the running direction: this mark passes the pointer first.
    Ahead = 1,
    /// On it.
    On = 2,
    /// Behind it, against the running direction.
    Behind = 3,
}

/// Which of the two points at which the piston is so far down.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_tdc_side {
    /// The one before top dead centre.
    Before = 1,
    /// The one after it.
    After = 2,
}

/// A dial gauge in the plug hole, at rest on the crown and set to nought at top dead centre.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_dial {
    /// Size of this structure, `sizeof(lw_dial)`.
    pub struct_size: usize,
    /// Standard uncertainty of what it shows in millimetres, 0 to 1.
    pub uncertainty_mm: f64,
    /// How far the plug hole leans from the bore, in degrees, 0 to 60.
    pub plug_hole_deg: f64,
}

// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_dial {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_dial {
    fn typed(&self) -> Outcome<Dial> {
        Ok(Dial::new(Some(self.uncertainty_mm), self.plug_hole_deg)?)
    }
}

const SIDES: [(u32, MarkSide); 3] = [
    (lw_mark_side::Ahead as u32, MarkSide::Ahead),
    (lw_mark_side::On as u32, MarkSide::On),
    (lw_mark_side::Behind as u32, MarkSide::Behind),
];

/// What the one tool shows at a point, and the standard uncertainty in crank degrees of a point by it.
fn said(point: Advance, tool: &Tools<'_>) -> Outcome<(Said, f64)> {
    let ways = every_way(point, tool)?;
    let way = ways.first().ok_or(PointError::NoTool)?;
    Ok((way.said, way.crank_degrees_u))
}

/// Writes a point and how uncertain it is by the tool that showed it.
fn found(point: Advance, tool: &Tools<'_>, (btdc, u): (Place<f64>, Place<f64>)) -> Outcome {
    let (_, crank_degrees_u) = said(point, tool)?;
    btdc.write(point.degrees_before());
    u.write(crank_degrees_u);
    Ok(())
}

fn rotor(crank_turns: f64) -> Outcome<(Drive, Tools<'static>)> {
    let drive = Drive::new(crank_turns)?;
    let tool = Tools {
        rotor: Some(drive),
        ..Tools::default()
    };
    Ok((drive, tool))
}

fn rim(diameter_mm: f64, by_tape: u32) -> Outcome<(Pulley, Tools<'static>)> {
    let pulley = Pulley::new(Length::from_mm(diameter_mm)?)?;
    let by_tape = choose("by_tape", by_tape, &[(0, false), (1, true)])?;
    let tool = Tools {
        rim: Some((pulley, by_tape)),
        ..Tools::default()
    };
    Ok((pulley, tool))
}

/// The two places for a point.
///
/// # Safety
/// Both are writable or NULL.
unsafe fn point_places(btdc: *mut f64, u: *mut f64) -> Outcome<(Place<f64>, Place<f64>)> {
    // SAFETY: passed on under the same contract.
    unsafe { Ok((place("btdc_deg", btdc)?, place("point_uncertainty_deg", u)?)) }
}

/// An ignition point in degrees of the distributor, and the standard uncertainty in crank degrees of a
/// point that is read there.
///
/// `btdc_deg` in crank degrees before top dead centre, negative after it, -180 to 180. `crank_turns` are
/// those of the crank for one turn of the distributor, 0.25 to 8: 2 on a four-stroke engine. `error` may be
/// NULL. Any thread.
///
/// # Safety
/// The outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_distributor_at_point(
    btdc_deg: f64,
    crank_turns: f64,
    distributor_btdc_deg: *mut f64,
    point_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (distributor, u) = unsafe {
            (
                place("distributor_btdc_deg", distributor_btdc_deg)?,
                place("point_uncertainty_deg", point_uncertainty_deg)?,
            )
        };
        let point = Advance::from_degrees_before(btdc_deg)?;
        let (drive, tool) = rotor(crank_turns)?;
        let (_, crank_degrees_u) = said(point, &tool)?;
        distributor.write(drive.at_rotor(point)?.degrees_before());
        u.write(crank_degrees_u);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The ignition point of what a distributor's scale shows, in crank degrees before top dead centre, and its
/// standard uncertainty.
///
/// `distributor_btdc_deg` in degrees of the distributor, -180 to 180; `crank_turns` as in
/// `lw_distributor_at_point`. `error` may be NULL. Any thread.
///
/// # Safety
/// The outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_point_at_distributor(
    distributor_btdc_deg: f64,
    crank_turns: f64,
    btdc_deg: *mut f64,
    point_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let places = unsafe { point_places(btdc_deg, point_uncertainty_deg) }?;
        let shown = DistributorAdvance::from_degrees_before(distributor_btdc_deg)?;
        let (drive, tool) = rotor(crank_turns)?;
        found(drive.at_crank(shown)?, &tool, places)
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// What a dial gauge shows at an ignition point and how far the piston is down, in millimetres, and the
/// standard uncertainty in crank degrees of a point that is read so.
///
/// `btdc_deg` as in `lw_distributor_at_point`, from the piston's own top dead centre. `error` may be NULL. Any
/// thread.
///
/// # Safety
/// The structures state their size, or are NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_dial_at_point(
    slider: *const lw_slider_crank,
    dial: *const lw_dial,
    btdc_deg: f64,
    dial_mm: *mut f64,
    travel_mm: *mut f64,
    point_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (slider, dial, shown, travel, u) = unsafe {
            (
                seen("slider", slider, &mut spare())?.typed()?,
                record("dial", dial)?.typed()?,
                place("dial_mm", dial_mm)?,
                place("travel_mm", travel_mm)?,
                place("point_uncertainty_deg", point_uncertainty_deg)?,
            )
        };
        let (point, piston) = (
            Advance::from_degrees_before(btdc_deg)?,
            Piston::of_crank(slider),
        );
        let tool = Tools {
            dial: Some((piston, dial)),
            ..Tools::default()
        };
        let (_, crank_degrees_u) = said(point, &tool)?;
        let down = piston.travel(point)?;
        shown.write(dial.reading(down)?.mm());
        travel.write(down.mm());
        u.write(crank_degrees_u);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The ignition point of what a dial gauge shows, in crank degrees before top dead centre, and its standard
/// uncertainty.
///
/// `dial_mm` 0 up to what the dial shows at the stroke; `side` is a value of `lw_tdc_side`. `error` may be
/// NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; the outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_point_at_dial(
    slider: *const lw_slider_crank,
    dial: *const lw_dial,
    dial_mm: f64,
    side: u32,
    btdc_deg: *mut f64,
    point_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (slider, dial, places) = unsafe {
            (
                seen("slider", slider, &mut spare())?.typed()?,
                record("dial", dial)?.typed()?,
                point_places(btdc_deg, point_uncertainty_deg)?,
            )
        };
        let sides = [
            (lw_tdc_side::Before as u32, lw_tdc_side::Before),
            (lw_tdc_side::After as u32, lw_tdc_side::After),
        ];
        let side = choose("side", side, &sides)?;
        let piston = Piston::of_crank(slider);
        let travel = dial.travel(PistonTravel::from_mm(dial_mm)?)?;
        let point = match side {
            lw_tdc_side::Before => piston.before(travel)?,
            lw_tdc_side::After => piston.after(travel)?,
        };
        let tool = Tools {
            dial: Some((piston, dial)),
            ..Tools::default()
        };
        found(point, &tool, places)
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Where the mark for an ignition point stands on the rim: millimetres along it from the mark for top dead
/// centre, a value of `lw_mark_side`, and the standard uncertainty in crank degrees of a point by it.
///
/// `btdc_deg` as in `lw_distributor_at_point`; `diameter_mm` 1 to 10000; `by_tape` 1 where the mark is laid
/// off with a tape, 0 where it is the maker's. `error` may be NULL. Any thread.
///
/// # Safety
/// The outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_rim_at_point(
    btdc_deg: f64,
    diameter_mm: f64,
    by_tape: u32,
    along_rim_mm: *mut f64,
    side: *mut u32,
    point_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (along, side, u) = unsafe {
            (
                place("along_rim_mm", along_rim_mm)?,
                place("side", side)?,
                place("point_uncertainty_deg", point_uncertainty_deg)?,
            )
        };
        let point = Advance::from_degrees_before(btdc_deg)?;
        let (pulley, tool) = rim(diameter_mm, by_tape)?;
        let (_, crank_degrees_u) = said(point, &tool)?;
        let mark = RimMark::of(pulley, point);
        along.write(mark.along_rim.mm());
        let stands = SIDES.iter().find(|(_, known)| *known == mark.side);
        side.write(stands.map_or(0, |(number, _)| *number));
        u.write(crank_degrees_u);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The ignition point of a mark on the rim, in crank degrees before top dead centre, and its standard
/// uncertainty.
///
/// `along_rim_mm` from the mark for top dead centre, 0 up to half the way round; `side` is a value of
/// `lw_mark_side`; `diameter_mm` and `by_tape` as in `lw_rim_at_point`. `error` may be NULL. Any thread.
///
/// # Safety
/// The outputs are writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_point_at_rim(
    along_rim_mm: f64,
    side: u32,
    diameter_mm: f64,
    by_tape: u32,
    btdc_deg: *mut f64,
    point_uncertainty_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let places = unsafe { point_places(btdc_deg, point_uncertainty_deg) }?;
        let mark = RimMark {
            along_rim: Length::from_mm(along_rim_mm)?,
            side: choose("side", side, &SIDES)?,
        };
        let (pulley, tool) = rim(diameter_mm, by_tape)?;
        found(mark.point(pulley)?, &tool, places)
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
