//! Valve opening and closing angles as a manual prints them.

use super::ValveError;
use crate::quantity::{CrankAngle, Cycle, CyclePosition};
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
}

impl CamEvents {
    /// Takes the four angles; a negative one lies on the other side of its dead centre.
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
        })
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
