//! Valve events at the lash the engine runs with.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, enough};
use crate::compression::{about, crank_of};
use crate::crank::lw_slider_crank;
use crate::error::lw_error;
use crate::judging::zero;
use crate::pointers::{Record, optional_room, record, record_place, room, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use crate::valve_train::{EVENTS_AT, lw_events_at};
use lashwork::engine::CompressionRatio;
use lashwork::events::{EffectiveRatio, Flank, RunningEvents, RunningValve};
use lashwork::quantity::{CrankAngle, Lash, Length};
use lashwork::tolerance::Estimate;
use lashwork::valve::{CamEvents, EventsAt, ValveKind};

/// How the side of a lobe is known where the lash is taken up.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_flank_kind {
    /// A ramp; how the flank goes on beyond it is not known.
    Ramp = 1,
    /// A ramp, and the slope of the flank beyond it.
    RampThenFlank = 2,
    /// A slope measured with two leaves at the valve.
    Measured = 3,
    /// No ramp: the lobe lifts harmonically.
    Harmonic = 4,
}

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

/// One side of a lobe. Fields of other kinds are ignored.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_flank {
    /// Size of this structure, `sizeof(lw_flank)`.
    pub struct_size: usize,
    /// How it is known: a value of `lw_flank_kind`.
    pub kind: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
    /// Of a ramp: its height at the follower in millimetres, 0.02 to 2.
    pub ramp_mm: f64,
    /// Of a ramp: its rise in millimetres in a degree of the cam, 0.001 to 0.3.
    pub ramp_mm_per_deg: f64,
    /// Of a ramp then flank: the rise of the flank in millimetres in a degree of the cam.
    pub flank_mm_per_deg: f64,
    /// Measured: the thinner leaf in millimetres.
    pub thin_mm: f64,
    /// Measured: the thicker leaf in millimetres.
    pub thick_mm: f64,
    /// Measured: crank degrees between where the one is just gripped and the other.
    pub apart_deg: f64,
    /// Harmonic: greatest lift at the valve in millimetres, 1 to 60.
    pub lift_mm: f64,
    /// Harmonic: crank degrees from base circle to base circle, 120 to 420.
    pub duration_deg: f64,
}

/// A valve as it runs.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_running_valve {
    /// Size of this structure, `sizeof(lw_running_valve)`.
    pub struct_size: usize,
    /// Where the lash is taken up on opening.
    pub opening: *const lw_flank,
    /// Where it comes back on closing.
    pub closing: *const lw_flank,
    /// Its lash in millimetres.
    pub lash_mm: f64,
    /// Standard uncertainty of it in millimetres.
    pub lash_uncertainty_mm: f64,
    /// The lash or the lift in millimetres at which the printed events hold.
    pub holds_at_mm: f64,
    /// Valve movement over cam movement, 0.3 to 3.
    pub rocker_ratio: f64,
    /// Which of the two that is: a value of `lw_events_at`.
    pub holds_at: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
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

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_flank {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_running_valve {
    const FIRST_SIZE: usize = size_of::<Self>();
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

const KINDS: [(u32, lw_flank_kind); 4] = [
    (lw_flank_kind::Ramp as u32, lw_flank_kind::Ramp),
    (
        lw_flank_kind::RampThenFlank as u32,
        lw_flank_kind::RampThenFlank,
    ),
    (lw_flank_kind::Measured as u32, lw_flank_kind::Measured),
    (lw_flank_kind::Harmonic as u32, lw_flank_kind::Harmonic),
];

impl lw_flank {
    fn typed(&self) -> Outcome<Flank> {
        zero("flank.reserved", self.reserved)?;
        let mm = Length::from_mm;
        let ramp =
            || -> Outcome<Flank> { Ok(Flank::ramp(mm(self.ramp_mm)?, mm(self.ramp_mm_per_deg)?)?) };
        Ok(match choose("flank.kind", self.kind, &KINDS)? {
            lw_flank_kind::Ramp => ramp()?,
            lw_flank_kind::RampThenFlank => ramp()?.then(mm(self.flank_mm_per_deg)?)?,
            lw_flank_kind::Measured => {
                let apart = CrankAngle::from_degrees(self.apart_deg)?;
                Flank::measured(
                    Lash::from_mm(self.thin_mm)?,
                    Lash::from_mm(self.thick_mm)?,
                    apart,
                )?
            }
            lw_flank_kind::Harmonic => {
                let duration = CrankAngle::from_degrees(self.duration_deg)?;
                Flank::harmonic(mm(self.lift_mm)?, duration)?
            }
        })
    }
}

impl lw_running_valve {
    /// # Safety
    /// Its flanks state their size, or are NULL.
    unsafe fn typed(&self) -> Outcome<RunningValve> {
        zero("valve.reserved", self.reserved)?;
        let holds_at = match choose("valve.holds_at", self.holds_at, &EVENTS_AT)? {
            lw_events_at::Lash => EventsAt::Lash(Lash::from_mm(self.holds_at_mm)?),
            lw_events_at::Lift => EventsAt::Lift(Length::from_mm(self.holds_at_mm)?),
        };
        // SAFETY: passed on under the same contract.
        let (opening, closing) = unsafe {
            (
                seen("valve.opening", self.opening, &mut spare())?.typed()?,
                seen("valve.closing", self.closing, &mut spare())?.typed()?,
            )
        };
        Ok(RunningValve {
            lash: about(self.lash_mm, self.lash_uncertainty_mm)?,
            holds_at,
            opening,
            closing,
            rocker: self.rocker_ratio,
        })
    }
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
