//! The breaker's cam: its lobes, what turns it, and how long the contacts are closed.

use super::{BreakerError, Dwell};
use crate::quantity::{BriefTime, CrankAngle, CrankSpeed, DistributorAngle};
use core::fmt;
use serde::Serialize;

/// How many lobes the breaker's cam has: as many as cylinders in a distributor, one or two on a crank.
///
/// ```
/// use lashwork::ignition::breaker::{Dwell, Lobes};
/// let four = Lobes::new(4)?;
/// assert_eq!(four.pitch().degrees(), 90.0);
/// assert_eq!(four.percent(Dwell::from_degrees(45.0)?)?, 50.0);
/// assert!(four.check(Dwell::from_degrees(90.0)?).is_err());
/// assert!(Lobes::new(0).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Lobes(u8);

impl Lobes {
    /// Most lobes.
    pub const MAX: u8 = 12;

    /// Takes a number of lobes.
    ///
    /// # Errors
    /// [`BreakerError::Lobes`] if none or over [`Self::MAX`].
    pub const fn new(lobes: u8) -> Result<Self, BreakerError> {
        if lobes >= 1 && lobes <= Self::MAX {
            Ok(Self(lobes))
        } else {
            Err(BreakerError::Lobes { got: lobes })
        }
    }

    /// So many lobes, where they are known to be possible.
    pub(super) const fn of<const LOBES: u8>() -> Self {
        const { assert!(LOBES >= 1 && LOBES <= Self::MAX) };
        Self(LOBES)
    }

    /// The number.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// From one lobe to the next: 360 degrees over the lobes. Dwell and opening make it up together.
    #[must_use]
    pub fn pitch(self) -> DistributorAngle {
        DistributorAngle::from_degrees(self.pitch_degrees()).unwrap_or(DistributorAngle::ZERO)
    }

    pub(super) fn pitch_degrees(self) -> f64 {
        360.0 / f64::from(self.0)
    }

    /// The dwell itself, if contacts over so many lobes can be closed so long.
    ///
    /// # Errors
    /// [`BreakerError::DwellBeyondPitch`] at or over 360 degrees over the lobes.
    pub fn check(self, dwell: Dwell) -> Result<Dwell, BreakerError> {
        if dwell.degrees() < self.pitch_degrees() {
            Ok(dwell)
        } else {
            Err(BreakerError::DwellBeyondPitch { dwell, lobes: self })
        }
    }

    /// Dwell as a share of the pitch, in per cent.
    ///
    /// # Errors
    /// As [`Self::check`].
    ///
    /// # Source
    /// `100 dwell / (360 / lobes)`: a German encyclopaedia's article on the dwell angle prints 45 and 50
    /// degrees of four cylinders as 50 and 56 %.
    pub fn percent(self, dwell: Dwell) -> Result<f64, BreakerError> {
        Ok(100.0 * self.check(dwell)?.degrees() / self.pitch_degrees())
    }

    /// Dwell of a share of the pitch in per cent.
    ///
    /// # Errors
    /// [`BreakerError::Percent`] if not above 0 and below 100.
    ///
    /// ```
    /// use lashwork::ignition::breaker::Lobes;
    /// assert_eq!(Lobes::new(4)?.dwell_of_percent(50.0)?.degrees(), 45.0);
    /// assert!(Lobes::new(4)?.dwell_of_percent(100.0).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn dwell_of_percent(self, percent: f64) -> Result<Dwell, BreakerError> {
        if percent > 0.0 && percent < 100.0 {
            Ok(Dwell::from_degrees(percent * self.pitch_degrees() / 100.0)?)
        } else {
            Err(BreakerError::Percent { got: percent })
        }
    }
}

impl fmt::Display for Lobes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// What turns the breaker's cam.
///
/// ```
/// use lashwork::ignition::breaker::{CamSpeed, Dwell};
/// let dwell = Dwell::from_degrees(30.0)?;
/// assert_eq!(CamSpeed::HalfCrank.at_crank(dwell).degrees(), 60.0);
/// assert_eq!(CamSpeed::Crank.at_crank(dwell).degrees(), 30.0);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CamSpeed {
    /// A distributor or camshaft of a four-stroke: once in two turns of the crank.
    HalfCrank,
    /// The crank itself: a two-stroke, or a four-stroke that wastes every second spark.
    Crank,
}

impl CamSpeed {
    /// Crank turns for one turn of the cam.
    #[must_use]
    pub const fn crank_turns(self) -> f64 {
        match self {
            Self::HalfCrank => 2.0,
            Self::Crank => 1.0,
        }
    }

    /// How far the crank turns while the contacts are closed.
    #[must_use]
    pub fn at_crank(self, dwell: Dwell) -> CrankAngle {
        CrankAngle::from_degrees(dwell.degrees() * self.crank_turns()).unwrap_or(CrankAngle::ZERO)
    }
}

/// A breaker's cam: its lobes and what turns it.
///
/// ```
/// use lashwork::ignition::breaker::{BreakerCam, CamSpeed, Dwell, Lobes};
/// use lashwork::quantity::CrankSpeed;
/// let cam = BreakerCam { lobes: Lobes::new(4)?, speed: CamSpeed::HalfCrank };
/// let fast = CrankSpeed::from_rpm(5000.0)?;
/// assert_eq!(cam.interval(fast)?.milliseconds(), 6.0);
/// assert_eq!(cam.closed_time(Dwell::from_degrees(60.0)?, fast)?.milliseconds(), 4.0);
/// assert!(cam.interval(CrankSpeed::from_rpm(0.0)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BreakerCam {
    /// Its lobes.
    pub lobes: Lobes,
    /// What turns it.
    pub speed: CamSpeed,
}

impl BreakerCam {
    /// How often the contacts open in a minute: as many sparks of this breaker.
    #[must_use]
    pub fn sparks_per_minute(self, speed: CrankSpeed) -> f64 {
        f64::from(self.lobes.0) * speed.rpm() / self.speed.crank_turns()
    }

    /// From one spark of this breaker to the next.
    ///
    /// # Errors
    /// [`BreakerError::Standing`] at a speed of zero; [`BreakerError::Quantity`] where it is so slow that
    /// the time is out of range.
    ///
    /// # Source
    /// 120,000 ms over lobes and rpm with a distributor, half of that on the crank: geometry.
    pub fn interval(self, speed: CrankSpeed) -> Result<BriefTime, BreakerError> {
        let sparks = self.sparks_per_minute(speed);
        if sparks <= 0.0 {
            return Err(BreakerError::Standing);
        }
        Ok(BriefTime::from_milliseconds(60_000.0 / sparks)?)
    }

    /// How long the contacts are closed before a spark.
    ///
    /// # Errors
    /// As [`Self::interval`] and [`Lobes::check`].
    ///
    /// # Source
    /// Dwell over six degrees a second for each rpm of the cam: geometry.
    pub fn closed_time(self, dwell: Dwell, speed: CrankSpeed) -> Result<BriefTime, BreakerError> {
        let share = self.lobes.check(dwell)?.degrees() / self.lobes.pitch_degrees();
        let interval = self.interval(speed)?;
        Ok(BriefTime::from_milliseconds(
            interval.milliseconds() * share,
        )?)
    }
}
