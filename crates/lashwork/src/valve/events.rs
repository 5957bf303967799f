//! Valve opening and closing angles as a manual prints them.

use super::events_at::ASSUMED_LIFT_MM;
use super::{EVENTS_UNSTATED, EventsAt, ValveError};
use crate::quantity::{CrankAngle, Cycle, CyclePosition, Lash, Length};
use core::fmt;
use serde::Serialize;

/// Which way the gas goes through a valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ValveKind {
    /// Lets the charge in.
    Intake,
    /// Lets the burnt gas out.
    Exhaust,
}

impl ValveKind {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Intake => "intake",
            Self::Exhaust => "exhaust",
        }
    }
}

/// One of the four events of a four-stroke cam.
///
/// ```
/// use lashwork::quantity::CrankAngle;
/// use lashwork::valve::CamEvent;
/// assert_eq!(CamEvent::IntakeOpens.to_string(), "intake opening before TDC");
/// assert!(CamEvent::IntakeOpens.check(CrankAngle::from_degrees(6.0)?).is_ok());
/// assert!(CamEvent::IntakeOpens.check(CrankAngle::from_degrees(300.0)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CamEvent {
    /// The intake valve leaves its seat; counted back from TDC.
    IntakeOpens,
    /// The intake valve is back on its seat; counted from BDC.
    IntakeCloses,
    /// The exhaust valve leaves its seat; counted back from BDC.
    ExhaustOpens,
    /// The exhaust valve is back on its seat; counted from TDC.
    ExhaustCloses,
}

impl CamEvent {
    /// Least angle accepted, in crank degrees.
    pub const MIN_DEG: f64 = -60.0;
    /// Greatest angle accepted, in crank degrees.
    pub const MAX_DEG: f64 = 120.0;

    /// Whether a running engine's cam may have the event there.
    ///
    /// # Errors
    /// [`ValveError::EventOutOfRange`] for an angle outside -60 to 120 deg.
    pub fn check(self, angle: CrankAngle) -> Result<(), ValveError> {
        let (min, max) = (Self::MIN_DEG, Self::MAX_DEG);
        let got = angle.degrees();
        if (min..=max).contains(&got) {
            return Ok(());
        }
        Err(ValveError::EventOutOfRange {
            event: self,
            got,
            min,
            max,
        })
    }
}

impl fmt::Display for CamEvent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::IntakeOpens => "intake opening before TDC",
            Self::IntakeCloses => "intake closing after BDC",
            Self::ExhaustOpens => "exhaust opening before BDC",
            Self::ExhaustCloses => "exhaust closing after TDC",
        })
    }
}

/// The four events of a four-stroke cam, in crank degrees as a manual prints them.
///
/// ```
/// use lashwork::quantity::CrankAngle;
/// use lashwork::valve::{CamEvents, ValveKind};
/// let d = |x| CrankAngle::from_degrees(x);
/// // Intake opens 6 before TDC, closes 35 after BDC; exhaust opens 38 before BDC, closes 5 after TDC.
/// let cam = CamEvents::new(d(6.0)?, d(35.0)?, d(38.0)?, d(5.0)?)?;
/// assert_eq!(cam.duration(ValveKind::Exhaust).degrees(), 223.0);
/// assert_eq!(cam.overlap().degrees(), 11.0);
/// // After firing TDC of the own cylinder.
/// assert_eq!(cam.opens(ValveKind::Intake).degrees(), 354.0);
/// assert_eq!(cam.closes(ValveKind::Exhaust).degrees(), 365.0);
/// assert!(CamEvents::new(d(300.0)?, d(35.0)?, d(38.0)?, d(5.0)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Durations are sums of the angles over the stroke between them: geometry.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CamEvents {
    intake_opens_btdc: CrankAngle,
    intake_closes_abdc: CrankAngle,
    exhaust_opens_bbdc: CrankAngle,
    exhaust_closes_atdc: CrankAngle,
    holds_at: Option<EventsAt>,
    greatest_lift: Option<Length>,
    /// How much earlier than printed the intake and the exhaust leave their base circle.
    early: [CrankAngle; 2],
}

impl CamEvents {
    /// Takes the four angles; a negative one lies on the other side of its dead centre. Until
    /// [`at_running_lash`](Self::at_running_lash) is asked for, they are taken as they hold when the
    /// engine runs.
    ///
    /// # Errors
    /// [`ValveError::EventOutOfRange`] for an angle outside -60 to 120 deg.
    pub fn new(
        intake_opens_btdc: CrankAngle,
        intake_closes_abdc: CrankAngle,
        exhaust_opens_bbdc: CrankAngle,
        exhaust_closes_atdc: CrankAngle,
    ) -> Result<Self, ValveError> {
        CamEvent::IntakeOpens.check(intake_opens_btdc)?;
        CamEvent::IntakeCloses.check(intake_closes_abdc)?;
        CamEvent::ExhaustOpens.check(exhaust_opens_bbdc)?;
        CamEvent::ExhaustCloses.check(exhaust_closes_atdc)?;
        Ok(Self {
            intake_opens_btdc,
            intake_closes_abdc,
            exhaust_opens_bbdc,
            exhaust_closes_atdc,
            ..Self::assumed()
        })
    }

    /// With the lash or lift at which they hold, as printed beside them, and the greatest lift of the
    /// valves if it is known.
    ///
    /// # Errors
    /// [`ValveError::EventsAtOutOfRange`] below zero or over a quarter of the greatest lift, where they
    /// say nothing of the base circle; [`ValveError::GreatestLift`] outside 1 to 60 mm.
    ///
    /// ```
    /// use lashwork::quantity::{CrankAngle, Lash};
    /// use lashwork::valve::{CamEvents, EventsAt, ValveKind};
    /// let d = |x| CrankAngle::from_degrees(x);
    /// let cam = CamEvents::new(d(17.0)?, d(53.0)?, d(50.0)?, d(14.0)?)?;
    /// let cam = cam.holding_at(EventsAt::Lash(Lash::from_mm(1.0)?), None)?;
    /// let running = cam.at_running_lash(Lash::from_mm(0.10)?, Lash::from_mm(0.15)?);
    /// assert_eq!(running.early(ValveKind::Intake).degrees().round(), 26.0);
    /// assert!(cam.holding_at(EventsAt::Lash(Lash::from_mm(5.0)?), None).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn holding_at(
        self,
        at: EventsAt,
        greatest_lift: Option<Length>,
    ) -> Result<Self, ValveError> {
        at.check(greatest_lift.map_or(ASSUMED_LIFT_MM, Length::mm))?;
        Ok(Self {
            holds_at: Some(at),
            greatest_lift,
            ..self
        })
    }

    /// The lash or lift at which they hold, if that was stated.
    #[must_use]
    pub const fn holds_at(&self) -> Option<EventsAt> {
        self.holds_at
    }

    /// The greatest lift of the valves, if that was stated.
    #[must_use]
    pub const fn greatest_lift(&self) -> Option<Length> {
        self.greatest_lift
    }

    /// The same events with the base circle as it is at the lash the engine runs with. Where it is not
    /// stated at which lash or lift they hold, [`EVENTS_UNSTATED`] is taken off both of its ends.
    ///
    /// ```
    /// use lashwork::quantity::{CrankAngle, Lash};
    /// use lashwork::valve::{CamEvents, ValveKind};
    /// let d = |x| CrankAngle::from_degrees(x);
    /// let cam = CamEvents::new(d(20.0)?, d(60.0)?, d(60.0)?, d(20.0)?)?;
    /// let lash = Lash::from_mm(0.20)?;
    /// let running = cam.at_running_lash(lash, lash);
    /// // The exhaust opens at 120 as printed; it may leave its base circle at 95.
    /// assert_eq!(running.opens(ValveKind::Exhaust).degrees(), 120.0);
    /// assert_eq!(running.leaves_base_circle(ValveKind::Exhaust).degrees(), 95.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn at_running_lash(self, intake: Lash, exhaust: Lash) -> Self {
        let greatest = self.greatest_lift.map_or(ASSUMED_LIFT_MM, Length::mm);
        let early = |kind, running| match self.holds_at {
            None => EVENTS_UNSTATED,
            Some(at) => at.early(running, greatest, self.duration(kind)),
        };
        Self {
            early: [
                early(ValveKind::Intake, intake),
                early(ValveKind::Exhaust, exhaust),
            ],
            ..self
        }
    }

    /// Crank degrees from base circle to base circle, by harmonic lift; nothing where it is not stated at which
    /// lash or lift the events hold. The running lash matters to events at a lift only.
    ///
    /// ```
    /// use lashwork::quantity::{CrankAngle, Lash, Length};
    /// use lashwork::valve::{CamEvents, EventsAt, ValveKind};
    /// let d = |x| CrankAngle::from_degrees(x);
    /// let cam = CamEvents::new(d(17.0)?, d(53.0)?, d(50.0)?, d(14.0)?)?;
    /// assert!(cam.span(ValveKind::Intake, Lash::ZERO).is_none());
    /// let at = EventsAt::Lash(Lash::from_mm(2.0)?);
    /// let cam = cam.holding_at(at, Some(Length::from_mm(8.0)?))?;
    /// // A quarter of the lift is taken up a sixth of the span from each end.
    /// let span = cam.span(ValveKind::Intake, Lash::ZERO).map(|span| span.degrees().round());
    /// assert_eq!(span, Some(375.0));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn span(&self, kind: ValveKind, running: Lash) -> Option<CrankAngle> {
        let greatest = self.greatest_lift.map_or(ASSUMED_LIFT_MM, Length::mm);
        let at = self.holds_at?;
        Some(at.span(running, greatest, self.duration(kind)))
    }

    /// How much earlier than its opening event a valve is taken to leave its base circle, and how much
    /// later than its closing event to be back.
    #[must_use]
    pub const fn early(&self, kind: ValveKind) -> CrankAngle {
        let [intake, exhaust] = self.early;
        match kind {
            ValveKind::Intake => intake,
            ValveKind::Exhaust => exhaust,
        }
    }

    /// Own-cylinder phase at which the follower leaves the base circle, guard apart.
    #[must_use]
    pub fn leaves_base_circle(&self, kind: ValveKind) -> CyclePosition {
        self.opens(kind).turned(-self.early(kind))
    }

    /// Own-cylinder phase at which the follower is back on the base circle, guard apart.
    #[must_use]
    pub fn back_on_base_circle(&self, kind: ValveKind) -> CyclePosition {
        self.closes(kind).turned(self.early(kind))
    }

    /// Own-cylinder phase at which the valve is fully open: midway between its events.
    ///
    /// ```
    /// use lashwork::valve::{CamEvents, ValveKind};
    /// assert_eq!(CamEvents::assumed().fully_open(ValveKind::Intake).degrees(), 470.0);
    /// ```
    #[must_use]
    pub fn fully_open(&self, kind: ValveKind) -> CyclePosition {
        let half = CrankAngle::computed(self.duration(kind).degrees() / 2.0);
        self.opens(kind).turned(half)
    }

    /// Events wider than a road engine's cam usually has, for when the maker's are not known: intake
    /// 40 BTDC to 80 ABDC, exhaust 80 BBDC to 40 ATDC. This library's choice, to be listed as an
    /// assumption; the published events in the tests all lie inside them.
    ///
    /// ```
    /// use lashwork::valve::{CamEvents, ValveKind};
    /// assert_eq!(CamEvents::assumed().duration(ValveKind::Intake).degrees(), 300.0);
    /// ```
    #[must_use]
    pub const fn assumed() -> Self {
        Self {
            intake_opens_btdc: CrankAngle::of_degrees::<40>(),
            intake_closes_abdc: CrankAngle::of_degrees::<80>(),
            exhaust_opens_bbdc: CrankAngle::of_degrees::<80>(),
            exhaust_closes_atdc: CrankAngle::of_degrees::<40>(),
            holds_at: None,
            greatest_lift: None,
            early: [CrankAngle::ZERO; 2],
        }
    }

    /// Own-cylinder phase at which the valve leaves its seat.
    #[must_use]
    pub fn opens(&self, kind: ValveKind) -> CyclePosition {
        Self::phase(match kind {
            ValveKind::Intake => 360.0 - self.intake_opens_btdc.degrees(),
            ValveKind::Exhaust => 180.0 - self.exhaust_opens_bbdc.degrees(),
        })
    }

    /// Own-cylinder phase at which the valve is back on its seat.
    #[must_use]
    pub fn closes(&self, kind: ValveKind) -> CyclePosition {
        Self::phase(match kind {
            ValveKind::Intake => 540.0 + self.intake_closes_abdc.degrees(),
            ValveKind::Exhaust => 360.0 + self.exhaust_closes_atdc.degrees(),
        })
    }

    /// Crank degrees for which the valve is off its seat.
    #[must_use]
    pub fn duration(&self, kind: ValveKind) -> CrankAngle {
        self.opens(kind).forward_to(self.closes(kind))
    }

    /// Crank degrees for which both valves are off their seats; negative if never.
    #[must_use]
    pub fn overlap(&self) -> CrankAngle {
        self.intake_opens_btdc + self.exhaust_closes_atdc
    }

    fn phase(degrees: f64) -> CyclePosition {
        CyclePosition::new(Cycle::FourStroke, CrankAngle::computed(degrees))
    }
}
