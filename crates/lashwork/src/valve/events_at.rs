//! The lash or lift at which printed cam events hold, and what that leaves of the base circle.
//!
//! # Method
//! A valve with a large lash leaves its seat late and is back early: events printed for 1 mm say little of
//! where one with 0.1 mm may be read. Between the running lash and the printed one the cam is taken to
//! lift harmonically: over the span from base circle to base circle, at the valve, by
//! `greatest x sin^2(pi x turned / span)`. The printed duration at the printed lash gives the span, the
//! span how much earlier the running lash is taken up. What lies below the running lash, the quietening
//! ramp, is left to the guard. A harmonic flank is steeper than one with a ramp, so this is a lower
//! bound; the guard comes on top of it and is never shortened by it.
//!
//! # Source
//! Harmonic motion: textbook geometry. The tests hold it against a maker's events printed for 1.00 mm
//! beside running lashes of 0.10 and 0.15 mm.
//!
//! Uses `quantity`.

use super::ValveError;
use crate::quantity::{CrankAngle, Lash, Length};
use core::f64::consts::PI;
use serde::Serialize;

/// Where printed cam events hold.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EventsAt {
    /// With the valve set to this lash: they are where it leaves and reaches its seat.
    Lash(Lash),
    /// With the valve lifted so far off its seat, at the running lash.
    Lift(Length),
}

/// How much earlier than printed a valve is taken to leave its base circle, and how much later to be
/// back, where it is not known at which lash or lift its events hold. This library's choice, to be listed
/// as an assumption: what harmonic lift makes of events for 1 mm, the widest usual.
///
/// ```
/// use lashwork::valve::EVENTS_UNSTATED;
/// assert_eq!(EVENTS_UNSTATED.degrees(), 25.0);
/// ```
pub const EVENTS_UNSTATED: CrankAngle = CrankAngle::of_degrees::<25>();

/// Greatest lift of a valve that is taken, in millimetres, where it is not stated: a small engine's, as
/// a lower one makes the correction larger. This library's choice, to be listed as an assumption.
pub(crate) const ASSUMED_LIFT_MM: f64 = 8.0;

/// Greatest and least of the greatest lifts that are accepted, in millimetres.
const LIFT_MM: (f64, f64) = (1.0, 60.0);

impl EventsAt {
    /// The lash at which the valve would move just there, in millimetres.
    fn taken_up_mm(self, running: Lash) -> f64 {
        match self {
            Self::Lash(lash) => lash.mm(),
            Self::Lift(lift) => running.mm() + lift.mm(),
        }
    }

    fn mm(self) -> f64 {
        match self {
            Self::Lash(lash) => lash.mm(),
            Self::Lift(lift) => lift.mm(),
        }
    }

    /// Whether events at so large a lash or lift still tell where the base circle ends.
    pub(super) fn check(self, greatest_mm: f64) -> Result<(), ValveError> {
        let (min, max) = LIFT_MM;
        if !(min..=max).contains(&greatest_mm) {
            let got = greatest_mm;
            return Err(ValveError::GreatestLift { got, min, max });
        }
        let (got, max) = (self.mm(), greatest_mm / 4.0);
        if (0.0..=max).contains(&got) {
            Ok(())
        } else {
            Err(ValveError::EventsAtOutOfRange { got, max })
        }
    }

    /// Crank degrees from base circle to base circle.
    pub(super) fn span(self, running: Lash, greatest_mm: f64, duration: CrankAngle) -> CrankAngle {
        let printed = part(self.taken_up_mm(running), greatest_mm);
        CrankAngle::computed(duration.degrees() / (1.0 - 2.0 * printed))
    }

    /// How much earlier than its event a valve leaves the cam's lift at the running lash, and how much
    /// later it is back; nothing if the running lash is the larger.
    pub(super) fn early(self, running: Lash, greatest_mm: f64, duration: CrankAngle) -> CrankAngle {
        let part = |mm: f64| part(mm, greatest_mm);
        let (printed, wanted) = (part(self.taken_up_mm(running)), part(running.mm()));
        let span = self.span(running, greatest_mm, duration).degrees();
        CrankAngle::computed((span * (printed - wanted)).max(0.0))
    }
}

/// The part of the span that has passed when a lash is taken up.
fn part(mm: f64, greatest_mm: f64) -> f64 {
    libm::asin(libm::sqrt((mm / greatest_mm).clamp(0.0, 1.0))) / PI
}
