//! Printed events carried to the lash the engine runs with.

use super::{EffectiveRatio, EventFound, EventsAssumption, EventsError, EventsFound, Flank};
use crate::engine::{CompressionRatio, SliderCrank};
use crate::quantity::{CrankAngle, Lash};
use crate::tolerance::known::known;
use crate::tolerance::{Estimate, Uncertainty};
use crate::valve::{CamEvent, CamEvents, EventsAt, ValveKind};
use alloc::vec;

/// Least that a valve is open for, in crank degrees.
const LEAST_OPEN: f64 = 60.0;
/// Step for the slope of the effective ratio, in degrees.
const STEP: f64 = 0.5;

/// A valve as it runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunningValve {
    /// Its lash.
    pub lash: Estimate<Lash>,
    /// The lash or lift at which the printed events hold.
    pub holds_at: EventsAt,
    /// Where the lash is taken up on opening.
    pub opening: Flank,
    /// Where it comes back on closing.
    pub closing: Flank,
    /// Valve movement over cam movement.
    pub rocker: f64,
}

/// Printed events, and the valves of a cylinder as they run.
///
/// ```
/// use lashwork::events::{Flank, RunningEvents, RunningValve};
/// use lashwork::quantity::{CrankAngle, Lash, Length};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// use lashwork::valve::{CamEvents, EventsAt};
/// let (d, mm) = (|x| CrankAngle::from_degrees(x).unwrap(), |x| Lash::from_mm(x).unwrap());
/// let ramp = Flank::ramp(Length::from_mm(0.4)?, Length::from_mm(0.02)?)?;
/// let valve = |lash| RunningValve {
///     lash: Estimate::between(mm(lash), mm(lash), Uncertainty::from_number(0.01).unwrap()).unwrap(),
///     holds_at: EventsAt::Lash(mm(0.15)),
///     opening: ramp,
///     closing: ramp,
///     rocker: 1.0,
/// };
/// let found = RunningEvents {
///     printed: CamEvents::new(d(15.0), d(50.0), d(50.0), d(15.0))?,
///     intake: valve(0.25),
///     exhaust: valve(0.25),
///     ratio: None,
///     crank: None,
/// }
/// .found()?;
/// // 0.10 mm more on a ramp of 0.02 mm a cam degree: 10 degrees later, 10 earlier, 20 less overlap.
/// assert!((found.events[0].running.centre().unwrap().degrees() - 5.0).abs() < 1e-9);
/// assert!((found.events[1].running.centre().unwrap().degrees() - 40.0).abs() < 1e-9);
/// assert!((found.overlap.centre().unwrap().degrees() - 10.0).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunningEvents {
    /// As printed.
    pub printed: CamEvents,
    /// The intake valve.
    pub intake: RunningValve,
    /// The exhaust valve.
    pub exhaust: RunningValve,
    /// The printed compression ratio, for the effective one.
    pub ratio: Option<CompressionRatio>,
    /// Crank and rod; the usual proportions if not stated.
    pub crank: Option<SliderCrank>,
}

/// How much less a valve is open for on one side.
#[derive(Clone, Copy)]
struct Lost {
    degrees: f64,
    u: f64,
    end: End,
}

/// What is known of it.
#[derive(Clone, Copy, PartialEq)]
enum End {
    Both,
    AtLeast,
    AtMost,
}

impl RunningValve {
    /// What the lash takes of one side.
    fn lost(&self, flank: Flank, event: CamEvent) -> Result<Lost, EventsError> {
        let what = "the lash";
        let (lash, lash_u) = known(&self.lash).ok_or(EventsError::OneSided { what })?;
        let running = flank.taken(Lash::from_mm(lash)?, self.rocker)?;
        let printed_mm = match self.holds_at {
            EventsAt::Lash(printed) => printed.mm(),
            EventsAt::Lift(lift) => lash + lift.mm(),
        };
        let printed = flank.taken(Lash::from_mm(printed_mm)?, self.rocker)?;
        let end = match (running.beyond_ramp, printed.beyond_ramp) {
            (true, true) => return Err(EventsError::BothBeyondRamp { event }),
            (true, false) => End::AtLeast,
            (false, true) => End::AtMost,
            (false, false) => End::Both,
        };
        // Events at a lift move with the lash on both counts.
        let per_mm = match self.holds_at {
            EventsAt::Lash(_) => running.per_mm,
            EventsAt::Lift(_) => running.per_mm - printed.per_mm,
        };
        Ok(Lost {
            degrees: running.turned.degrees() - printed.turned.degrees(),
            u: (per_mm * lash_u).abs(),
            end,
        })
    }
}

/// What is left of so many degrees, where more lost is less left.
fn left(of: f64, lost: Lost) -> Result<Estimate<CrankAngle>, EventsError> {
    let at = CrankAngle::from_degrees(of - lost.degrees)?;
    let u = Uncertainty::from_number(lost.u)?;
    Ok(match lost.end {
        End::Both => Estimate::between(at, at, u)?,
        End::AtLeast => Estimate::at_most(at, u),
        End::AtMost => Estimate::at_least(at, u),
    })
}

/// Two losses together; one lash makes both of one valve, so they are not independent.
fn together(one: Lost, other: Lost, same_lash: bool) -> Result<Lost, EventsError> {
    let end = match (one.end, other.end) {
        (End::AtLeast, End::AtMost) | (End::AtMost, End::AtLeast) => {
            let what = "the sum of both events";
            return Err(EventsError::OneSided { what });
        }
        (end, End::Both) | (End::Both | End::AtLeast | End::AtMost, end) => end,
    };
    let u = if same_lash {
        one.u + other.u
    } else {
        libm::hypot(one.u, other.u)
    };
    Ok(Lost {
        degrees: one.degrees + other.degrees,
        u,
        end,
    })
}

impl RunningEvents {
    /// Where the valves open and close, and what follows.
    ///
    /// # Errors
    /// [`EventsError`]: a lash out of range or with one end, printed and running lash both beyond the ramp, a valve
    /// that hardly opens, an effective ratio that cannot be.
    pub fn found(&self) -> Result<EventsFound, EventsError> {
        let events = [
            (CamEvent::IntakeOpens, &self.intake, self.intake.opening),
            (CamEvent::IntakeCloses, &self.intake, self.intake.closing),
            (CamEvent::ExhaustOpens, &self.exhaust, self.exhaust.opening),
            (CamEvent::ExhaustCloses, &self.exhaust, self.exhaust.closing),
        ];
        let one = |(event, valve, flank): (CamEvent, &RunningValve, Flank)| {
            let lost = valve.lost(flank, event)?;
            let printed = self.printed_at(event);
            let found = EventFound {
                event,
                printed: CrankAngle::from_degrees(printed)?,
                running: left(printed, lost)?,
                lost: CrankAngle::from_degrees(lost.degrees)?,
            };
            Ok::<_, EventsError>((found, lost))
        };
        let [opens, closes, lets_out, shuts] = events;
        let (intake_opens, lost_opening) = one(opens)?;
        let (intake_closes, lost_closing) = one(closes)?;
        let (exhaust_opens, lost_out) = one(lets_out)?;
        let (exhaust_closes, lost_shut) = one(shuts)?;
        let duration = |kind: ValveKind, a: Lost, b: Lost| {
            let lost = together(a, b, true)?;
            let printed = self.printed.duration(kind).degrees();
            let got = printed - lost.degrees;
            if got < LEAST_OPEN {
                let valve = kind.word();
                let min = LEAST_OPEN;
                return Err(EventsError::NeverOpens { valve, got, min });
            }
            left(printed, lost)
        };
        let intake_duration = duration(ValveKind::Intake, lost_opening, lost_closing)?;
        let exhaust_duration = duration(ValveKind::Exhaust, lost_out, lost_shut)?;
        let overlap = left(
            self.printed.overlap().degrees(),
            together(lost_opening, lost_shut, false)?,
        )?;
        let effective_ratio = self.effective(&intake_closes.running)?;
        let mut assumptions = vec![EventsAssumption::OneFlank];
        if effective_ratio.is_some() && self.crank.is_none() {
            assumptions.push(EventsAssumption::RodRatio);
        }
        Ok(EventsFound {
            events: [intake_opens, intake_closes, exhaust_opens, exhaust_closes],
            intake_duration,
            exhaust_duration,
            overlap,
            effective_ratio,
            assumptions,
        })
    }

    fn effective(
        &self,
        closes: &Estimate<CrankAngle>,
    ) -> Result<Option<EffectiveRatio>, EventsError> {
        let (Some(ratio), Some((degrees, u))) = (self.ratio, known(closes)) else {
            return Ok(None);
        };
        let crank = self.crank.unwrap_or_else(SliderCrank::assumed);
        let at = |degrees: f64| -> Result<f64, EventsError> {
            Ok(ratio.effective(&crank, CrankAngle::from_degrees(degrees)?)?)
        };
        let slope = (at(degrees + STEP)? - at(degrees - STEP)?) / (2.0 * STEP);
        Ok(Some(EffectiveRatio {
            printed: at(self.printed_at(CamEvent::IntakeCloses))?,
            running: at(degrees)?,
            running_u: (slope * u).abs(),
        }))
    }

    /// A printed angle in degrees, as a manual counts it.
    fn printed_at(&self, event: CamEvent) -> f64 {
        let (intake, exhaust) = (ValveKind::Intake, ValveKind::Exhaust);
        let counted = match event {
            CamEvent::IntakeOpens => 360.0 - self.printed.opens(intake).degrees(),
            CamEvent::IntakeCloses => self.printed.closes(intake).degrees() - 540.0,
            CamEvent::ExhaustOpens => 180.0 - self.printed.opens(exhaust).degrees(),
            CamEvent::ExhaustCloses => self.printed.closes(exhaust).degrees() - 360.0,
        };
        // Within half a cycle either way.
        if counted < -360.0 {
            counted + 720.0
        } else if counted > 360.0 {
            counted - 720.0
        } else {
            counted
        }
    }
}
