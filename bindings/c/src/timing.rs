//! Ignition timing: the advance that a printed curve gives, and many strobe readings judged in one call.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, Rows, enough, lw_judgement_columns};
use crate::error::lw_error;
use crate::judging::{AT_LEAST, AT_MOST, BETWEEN, lw_rule, zero};
use crate::pointers::{Record, items, optional_room, place, record, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::ignition::timing::{
    AboveLast, CentrifugalCurve, CrankPoint, Hose, LampDelay, PrintedTiming, Running,
    StrobeColumns, Taken, TimingError, TimingRow, judge_strobe_columns,
};
use lashwork::quantity::{Advance, CrankAngle, CrankSpeed};
use lashwork::tolerance::Limits;

/// What became of the vacuum hose while a lamp was read. There is no default: it is worth many degrees.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_hose {
    /// The distributor has no vacuum capsule.
    NotFitted = 1,
    /// Pulled off at the distributor and plugged.
    Plugged = 2,
    /// Left on. What the capsule then adds is not known here, so that every row is refused; a document can
    /// say it.
    Connected = 3,
}

/// Centrifugal advance by speed as a book prints it, all at the crank, from the lowest speed up; read in
/// straight lines between the points, and never beyond the last unless the advance ends there.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_advance_curve {
    /// Size of this structure, `sizeof(lw_advance_curve)`.
    pub struct_size: usize,
    /// How many points, 1 to 100.
    pub points: usize,
    /// Speeds of the crank in turns a minute, rising.
    pub speed_rpm: *const f64,
    /// The least advance there in crank degrees, from 0, not falling.
    pub least_deg: *const f64,
    /// The most, not below the least; may be the same column where one figure is printed.
    pub most_deg: *const f64,
    /// 1 if the book says that the advance ends at the last point, else 0.
    pub ends: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
}

/// The ignition point as printed, without vacuum. A point on a limit is in the band.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_printed_timing {
    /// Size of this structure, `sizeof(lw_printed_timing)`.
    pub struct_size: usize,
    /// Which limits it has: a value of `lw_span`.
    pub span: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
    /// The latest point in crank degrees before top dead centre, negative after it; ignored if there is none.
    pub lower_btdc_deg: f64,
    /// The earliest point; ignored if there is none.
    pub upper_btdc_deg: f64,
    /// The crank speed that the figure is printed for, in turns a minute; 0 for the standing engine.
    pub printed_rpm: f64,
}

/// Readings by a stroboscopic lamp, one per row; columns as in `lw_reading_columns`.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_strobe_columns {
    /// Size of this structure, `sizeof(lw_strobe_columns)`.
    pub struct_size: usize,
    /// How many readings.
    pub rows: usize,
    /// What the mark shows, in crank degrees before top dead centre, negative after it.
    pub read_btdc_deg: *const f64,
    /// Speeds of the crank in turns a minute.
    pub rpm: *const f64,
    /// Standard uncertainties of reading the mark in crank degrees, 0 to 90.
    pub uncertainty_deg: *const f64,
    /// Standard uncertainty of all speeds in turns a minute, 0 to 1000.
    pub speed_uncertainty_rpm: f64,
    /// How long after the spark the lamp flashes, in microseconds, 0 to 1000.
    pub lamp_delay_us: f64,
    /// The vacuum hose, for all rows: a value of `lw_hose`.
    pub hose: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
}

/// Where the points that were judged go, one per row: each reading brought to what the figure is printed for,
/// from the lower end to the upper; NaN for a refused row. Every column may be NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_point_columns {
    /// Size of this structure, `sizeof(lw_point_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// Lower ends in crank degrees before top dead centre.
    pub low_btdc_deg: *mut f64,
    /// Upper ends.
    pub high_btdc_deg: *mut f64,
    /// Standard uncertainties of both ends in crank degrees.
    pub uncertainty_deg: *mut f64,
}

// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_advance_curve {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_printed_timing {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_strobe_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_point_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_advance_curve {
    /// # Safety
    /// The columns have the points they say.
    pub(crate) unsafe fn typed(&self) -> Outcome<CentrifugalCurve> {
        zero("curve.reserved", self.reserved)?;
        let ends = [(0, AboveLast::NotSaid), (1, AboveLast::Ends)];
        let above = choose("curve.ends", self.ends, &ends)?;
        // SAFETY: passed on under the same contract.
        let (speeds, least, most) = unsafe {
            (
                items("curve.speed_rpm", self.speed_rpm, self.points)?,
                items("curve.least_deg", self.least_deg, self.points)?,
                items("curve.most_deg", self.most_deg, self.points)?,
            )
        };
        let rows = speeds.iter().zip(least).zip(most);
        let points: Outcome<Vec<CrankPoint>> = rows
            .map(|((speed, least), most)| {
                Ok(CrankPoint {
                    speed: CrankSpeed::from_rpm(*speed)?,
                    least: CrankAngle::from_degrees(*least)?,
                    most: CrankAngle::from_degrees(*most)?,
                })
            })
            .collect();
        Ok(CentrifugalCurve::at_crank(&points?, above)?)
    }
}

impl lw_printed_timing {
    pub(crate) fn limits(&self) -> Outcome<Limits<Advance>> {
        zero("printed.reserved", self.reserved)?;
        let lower = || Advance::from_degrees_before(self.lower_btdc_deg);
        let upper = || Advance::from_degrees_before(self.upper_btdc_deg);
        match self.span {
            BETWEEN => Ok(Limits::between(lower()?, upper()?)?),
            AT_LEAST => Ok(Limits::at_least(lower()?)),
            AT_MOST => Ok(Limits::at_most(upper()?)),
            other => choose("printed.span", other, &[]),
        }
    }

    pub(crate) fn holds_for(&self) -> Outcome<Taken> {
        let speed = CrankSpeed::from_rpm(self.printed_rpm)?;
        Ok(if speed == CrankSpeed::from_rpm(0.0)? {
            Taken::Standing
        } else {
            Taken::Running(Running::at(speed, Hose::Plugged))
        })
    }
}

impl lw_strobe_columns {
    /// # Safety
    /// The columns have the rows they say.
    pub(crate) unsafe fn typed<'c>(&self) -> Outcome<StrobeColumns<'c>> {
        zero("readings.reserved", self.reserved)?;
        let hoses = [
            (lw_hose::NotFitted as u32, Hose::NotFitted),
            (lw_hose::Plugged as u32, Hose::Plugged),
            (lw_hose::Connected as u32, Hose::Connected(None)),
        ];
        // SAFETY: passed on under the same contract.
        unsafe {
            Ok(StrobeColumns {
                read: items("readings.read_btdc_deg", self.read_btdc_deg, self.rows)?,
                rpm: items("readings.rpm", self.rpm, self.rows)?,
                u: items("readings.uncertainty_deg", self.uncertainty_deg, self.rows)?,
                speed_u: self.speed_uncertainty_rpm,
                hose: choose("readings.hose", self.hose, &hoses)?,
                lamp: LampDelay::from_microseconds(self.lamp_delay_us)?,
            })
        }
    }
}

/// The columns for points, checked; all left out where the structure is.
///
/// # Safety
/// Null, or a structure that states its size and whose columns are as it describes them.
unsafe fn point_room<'a>(
    points: *const lw_point_columns,
    rows: usize,
) -> Outcome<[Column<'a, f64>; 3]> {
    if points.is_null() {
        return Ok([(); 3].map(|()| Column(None)));
    }
    // SAFETY: passed on under the same contract.
    let points = unsafe { record("points", points) }?;
    enough("points.rows", points.rows, rows)?;
    // SAFETY: as above.
    unsafe {
        let number = |name, data| optional_room(name, data, rows).map(Column);
        Ok([
            number("points.low_btdc_deg", points.low_btdc_deg)?,
            number("points.high_btdc_deg", points.high_btdc_deg)?,
            number("points.uncertainty_deg", points.uncertainty_deg)?,
        ])
    }
}

/// The least and the most centrifugal advance that a curve allows at a speed, in crank degrees.
///
/// `rpm` of the crank, 0 or more; beyond the last point it is refused unless the curve ends there. `error`
/// may be NULL. Any thread.
///
/// # Safety
/// `curve` states its size, or is NULL, and its columns have the points they say; the outputs are writable or
/// NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_advance_at_speed(
    curve: *const lw_advance_curve,
    rpm: f64,
    least_deg: *mut f64,
    most_deg: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (curve, least, most) = unsafe {
            (
                record("curve", curve)?.typed()?,
                place("least_deg", least_deg)?,
                place("most_deg", most_deg)?,
            )
        };
        let found = curve.at(CrankSpeed::from_rpm(rpm)?)?;
        least.write(found.least.degrees());
        most.write(found.most.degrees());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Judges many strobe readings against one printed ignition point under one rule: each is brought to what
/// the figure is printed for by the curve, and judged there. `LW_VERDICT_BELOW` is too late,
/// `LW_VERDICT_ABOVE` too early.
///
/// `curve` may be NULL; a reading that would need one is then refused. `points` may be NULL. A row that
/// cannot be judged (beyond the curve, NaN, an advance that no engine has) is marked in `verdict` and `status`,
/// and the others are still judged; the call then returns `LW_STATUS_ROWS_REFUSED`, with the first such row
/// in the error (`lw_error_row`). Any other failure means that nothing was written, but after
/// `LW_STATUS_PANIC` some rows may have been written. Columns that are written must not overlap any other.
/// `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_judge_strobe_columns(
    readings: *const lw_strobe_columns,
    curve: *const lw_advance_curve,
    printed: *const lw_printed_timing,
    rule: *const lw_rule,
    judgements: *const lw_judgement_columns,
    points: *const lw_point_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (given, curve, printed, rule, judgements) = unsafe {
            let curve = if curve.is_null() {
                None
            } else {
                Some(record("curve", curve)?.typed()?)
            };
            (
                record("readings", readings)?,
                curve,
                record("printed", printed)?,
                seen("rule", rule, &mut spare())?.of_timing()?,
                record("judgements", judgements)?,
            )
        };
        let (limits, holds_for) = (printed.limits()?, printed.holds_for()?);
        let book = PrintedTiming::new(limits, holds_for, curve.as_ref(), None)?;
        // SAFETY: as above.
        let (readings, mut output, mut ends) = unsafe {
            (
                given.typed()?,
                judgements.checked(given.rows)?,
                point_room(points, given.rows)?,
            )
        };
        let mut done = Rows::default();
        let write = |row, found: &TimingRow, why: Option<TimingError>| {
            output.write(row, &found.judged, done.status(row, why));
            for (column, end) in ends.iter_mut().zip([found.low, found.high, found.u]) {
                column.set(row, end);
            }
        };
        judge_strobe_columns(&book, &readings, &rule, write)?;
        done.told()
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
