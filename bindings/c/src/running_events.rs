//! Valve events at the lash the engine runs with.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, enough};
use crate::compression::crank_of;
use crate::crank::lw_slider_crank;
use crate::error::lw_error;
use crate::judging::zero;
use crate::pointers::{Record, optional_room, record, record_place, room, seen, spare};
use crate::quantity::choose;
use crate::running_valve::lw_running_valve;
use crate::status::lw_status;
use lashwork::engine::CompressionRatio;
use lashwork::events::{EffectiveRatio, RunningEvents};
use lashwork::quantity::CrankAngle;
use lashwork::tolerance::Estimate;
use lashwork::valve::{CamEvents, ValveKind};

/// The rows of `lw_event_columns`, in their order.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_event_row {
    /// Where the intake opens, in degrees before top dead centre.
    IntakeOpens = 0,
    /// Where the intake closes, in degrees after bottom dead centre.
    IntakeCloses = 1,
    /// Where the exhaust opens, in degrees before bottom dead centre.
    ExhaustOpens = 2,
    /// Where the exhaust closes, in degrees after top dead centre.
    ExhaustCloses = 3,
    /// For how many degrees the intake is open.
    IntakeDuration = 4,
    /// For how many degrees the exhaust is open.
    ExhaustDuration = 5,
    /// For how many degrees both are open; negative if never.
    Overlap = 6,
}

/// Events as printed.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_printed_events {
    /// Size of this structure, `sizeof(lw_printed_events)`.
    pub struct_size: usize,
    /// Intake opens, degrees before top dead centre.
    pub intake_opens_btdc_deg: f64,
    /// Intake closes, degrees after bottom dead centre.
    pub intake_closes_abdc_deg: f64,
    /// Exhaust opens, degrees before bottom dead centre.
    pub exhaust_opens_bbdc_deg: f64,
    /// Exhaust closes, degrees after top dead centre.
    pub exhaust_closes_atdc_deg: f64,
    /// The printed compression ratio, 3 to 25; ignored if it is not known.
    pub compression_ratio: f64,
    /// Crank and rod; NULL for the usual proportion of 1 to 3.5.
    pub crank: *const lw_slider_crank,
    /// 1 if the compression ratio is known, else 0.
    pub ratio_known: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
}

/// Where the events go, seven rows in the order of `lw_event_row`. Every column except `low_deg` may be NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_event_columns {
    /// Size of this structure, `sizeof(lw_event_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column: 7.
    pub rows: usize,
    /// Lower ends in degrees; minus infinity where the ramp ends under the lash and there is none.
    pub low_deg: *mut f64,
    /// Upper ends in degrees; infinity where there is none.
    pub high_deg: *mut f64,
    /// Standard uncertainties of the ends in degrees, by the lash.
    pub uncertainty_deg: *mut f64,
    /// As printed, in degrees.
    pub printed_deg: *mut f64,
}

/// How many times the charge is compressed from where the intake closes.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_effective_ratio {
    /// Size of this structure, `sizeof(lw_effective_ratio)`.
    pub struct_size: usize,
    /// With the closing as printed; NaN if the compression ratio is not known, or the closing has one end only.
    pub printed: f64,
    /// At the running lash; NaN likewise.
    pub running: f64,
    /// Its standard uncertainty by the lash; NaN likewise.
    pub uncertainty: f64,
}

// SAFETY: repr(C), the size in front, integers, floats and a raw pointer only.
unsafe impl Record for lw_printed_events {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_event_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, floats only.
unsafe impl Record for lw_effective_ratio {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl lw_printed_events {
    fn events(&self) -> Outcome<CamEvents> {
        let angle = CrankAngle::from_degrees;
        Ok(CamEvents::new(
            angle(self.intake_opens_btdc_deg)?,
            angle(self.intake_closes_abdc_deg)?,
            angle(self.exhaust_opens_bbdc_deg)?,
            angle(self.exhaust_closes_atdc_deg)?,
        )?)
    }

    fn ratio(&self) -> Outcome<Option<CompressionRatio>> {
        zero("printed.reserved", self.reserved)?;
        let known = [(0, false), (1, true)];
        if choose("printed.ratio_known", self.ratio_known, &known)? {
            return Ok(Some(CompressionRatio::new(self.compression_ratio)?));
        }
        Ok(None)
    }
}

impl From<Option<EffectiveRatio>> for lw_effective_ratio {
    fn from(found: Option<EffectiveRatio>) -> Self {
        let of = |pick: fn(&EffectiveRatio) -> f64| found.as_ref().map_or(f64::NAN, pick);
        Self {
            struct_size: 0,
            printed: of(|it| it.printed),
            running: of(|it| it.running),
            uncertainty: of(|it| it.running_u),
        }
    }
}

/// Where the valves open and close at the lash they run with, how long they are open, and how many times the charge is
/// then compressed.
///
/// `found` needs room for seven rows, in the order of `lw_event_row`; `ratio` may be NULL. Taken for granted: that the
/// ramps are those of the maker's cam, not worn. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL, and so do the flanks and the crank they point to; the columns have
/// the rows they say; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_events_at_lash(
    printed: *const lw_printed_events,
    intake: *const lw_running_valve,
    exhaust: *const lw_running_valve,
    found: *const lw_event_columns,
    ratio: *mut lw_effective_ratio,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here where it is not allowed; the rest is the caller's part of the contract.
        let (printed, intake, exhaust, found, ratio) = unsafe {
            (
                record("printed", printed)?,
                seen("intake", intake, &mut spare())?.typed()?,
                seen("exhaust", exhaust, &mut spare())?.typed()?,
                record("found", found)?,
                if ratio.is_null() {
                    None
                } else {
                    Some(record_place("ratio", ratio)?)
                },
            )
        };
        let rows = lw_event_row::Overlap as usize + 1;
        enough("found.rows", found.rows, rows)?;
        // SAFETY: as above.
        let (crank, mut low, mut high, mut u, mut as_printed) = unsafe {
            (
                crank_of("printed.crank", printed.crank)?,
                Column(Some(room("found.low_deg", found.low_deg, rows)?)),
                Column(optional_room("found.high_deg", found.high_deg, rows)?),
                Column(optional_room(
                    "found.uncertainty_deg",
                    found.uncertainty_deg,
                    rows,
                )?),
                Column(optional_room("found.printed_deg", found.printed_deg, rows)?),
            )
        };
        let events = printed.events()?;
        let answer = RunningEvents {
            printed: events,
            intake,
            exhaust,
            ratio: printed.ratio()?,
            crank,
        }
        .found()?;
        let four = answer.events.iter().map(|one| (&one.running, one.printed));
        let durations = [
            (&answer.intake_duration, events.duration(ValveKind::Intake)),
            (
                &answer.exhaust_duration,
                events.duration(ValveKind::Exhaust),
            ),
            (&answer.overlap, events.overlap()),
        ];
        let write = |(row, (running, printed)): (usize, (&Estimate<CrankAngle>, CrankAngle))| {
            let end = |end: Option<CrankAngle>, open| end.map_or(open, CrankAngle::degrees);
            low.set(row, end(running.low(), f64::NEG_INFINITY));
            high.set(row, end(running.high(), f64::INFINITY));
            u.set(row, running.normal_uncertainty().number());
            as_printed.set(row, printed.degrees());
        };
        four.chain(durations).enumerate().for_each(write);
        if let Some(ratio) = ratio {
            ratio.write(&answer.effective_ratio.into());
        }
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
