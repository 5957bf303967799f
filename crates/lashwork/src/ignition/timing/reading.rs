//! A timing reading, and what must be said of how it was taken.

use super::{LampDelay, TimingError};
use crate::ignition::point::MARK_HALF_WIDTH;
use crate::quantity::{Advance, CrankSpeed, Vacuum};
use crate::tolerance::Uncertainty;

/// What became of the vacuum hose. There is no default: it is worth up to 30 degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hose {
    /// The distributor has no vacuum capsule.
    NotFitted,
    /// Pulled off at the distributor and plugged.
    Plugged,
    /// Left on, with the vacuum at the capsule if it was read.
    Connected(Option<Vacuum>),
}

/// The engine running.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Running {
    /// Speed of the crank.
    pub speed: CrankSpeed,
    speed_u: f64,
    /// The vacuum hose.
    pub hose: Hose,
}

impl Running {
    /// Standard uncertainty of a speed, in turns a minute, where none is stated. Common practice, no
    /// source.
    pub const USUAL_SPEED_U: f64 = 50.0;

    /// At a speed with the usual uncertainty.
    #[must_use]
    pub const fn at(speed: CrankSpeed, hose: Hose) -> Self {
        Self {
            speed,
            speed_u: Self::USUAL_SPEED_U,
            hose,
        }
    }

    /// With another standard uncertainty of the speed, in turns a minute.
    ///
    /// # Errors
    /// [`TimingError::SpeedUncertainty`] outside 0 to 1000.
    ///
    /// ```
    /// use lashwork::ignition::timing::{Hose, Running};
    /// use lashwork::quantity::CrankSpeed;
    /// let idle = Running::at(CrankSpeed::from_rpm(850.0)?, Hose::Plugged);
    /// assert_eq!(idle.with_speed_u(20.0)?.speed_u(), 20.0);
    /// assert!(idle.with_speed_u(-1.0).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn with_speed_u(self, rpm: f64) -> Result<Self, TimingError> {
        if (0.0..=1000.0).contains(&rpm) {
            Ok(Self {
                speed_u: rpm,
                ..self
            })
        } else {
            Err(TimingError::SpeedUncertainty { got: rpm })
        }
    }

    /// Standard uncertainty of the speed, in turns a minute.
    #[must_use]
    pub const fn speed_u(&self) -> f64 {
        self.speed_u
    }
}

/// How a point was taken, or what a printed figure holds for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Taken {
    /// With the engine standing: a test lamp, or a slip of paper between the contacts.
    Standing,
    /// With a stroboscopic lamp.
    Running(Running),
}

/// An ignition point as it was read.
///
/// ```
/// use lashwork::ignition::timing::{Hose, LampDelay, Running, Taken, TimingReading};
/// use lashwork::quantity::{Advance, CrankSpeed};
/// let reading = TimingReading {
///     read: Advance::parse("28 deg BTDC")?,
///     u: TimingReading::usual_u()?,
///     taken: Taken::Running(Running::at(CrankSpeed::parse("2400 rpm")?, Hose::Plugged)),
///     lamp: LampDelay::NONE,
/// };
/// assert!((reading.u.number() - 0.577).abs() < 1e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimingReading {
    /// What the mark shows.
    pub read: Advance,
    /// Standard uncertainty of reading the mark.
    pub u: Uncertainty<Advance>,
    /// How it was taken.
    pub taken: Taken,
    /// How late the lamp flashes; of no matter with the engine standing.
    pub lamp: LampDelay,
}

impl TimingReading {
    /// Standard uncertainty of reading a mark where none is stated: its width and the eye.
    ///
    /// # Errors
    /// None.
    ///
    /// # Source
    /// [`MARK_HALF_WIDTH`] as a rectangle, JCGM 100:2008, 4.3.7.
    pub fn usual_u() -> Result<Uncertainty<Advance>, TimingError> {
        Ok(Uncertainty::from_number(MARK_HALF_WIDTH / libm::sqrt(3.0))?)
    }
}
