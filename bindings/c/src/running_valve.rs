//! A valve as it runs: its lash, and the sides of its lobe.

use crate::boundary::Outcome;
use crate::compression::about;
use crate::judging::zero;
use crate::pointers::{Record, seen, spare};
use crate::quantity::choose;
use crate::valve_train::{EVENTS_AT, lw_events_at};
use lashwork::events::{Flank, RunningValve};
use lashwork::quantity::{CrankAngle, Lash, Length};
use lashwork::valve::EventsAt;

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

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_flank {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_running_valve {
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
    pub(crate) unsafe fn typed(&self) -> Outcome<RunningValve> {
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
