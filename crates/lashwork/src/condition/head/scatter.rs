//! How far the force of a bolt scatters, by how it is tightened.

use super::HeadError;
use super::error::within;
use serde::Serialize;

/// How a bolt is tightened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Tightening {
    /// To yield, or by an angle: 5 to 12 %.
    YieldOrAngle,
    /// By elongation, or hydraulically: 9 to 23 %.
    Elongation,
    /// By a torque that was found on the joint itself: 17 to 23 %.
    TorqueTuned,
    /// By a torque from a friction that was estimated: 23 to 28 %.
    TorqueEstimated,
    /// By a power driver: 26 to 43 %.
    PowerDriver,
    /// By a torque on threads as received, after NASA's rule: 35 %.
    DryTorque,
    /// By a torque on oiled threads, after NASA's rule: 25 %.
    OiledTorque,
}

/// How far the force scatters about its middle, as a part either way.
///
/// ```
/// use lashwork::condition::head::{Scatter, Tightening};
/// let scatter = Scatter::of(Tightening::TorqueEstimated);
/// assert_eq!(scatter.percent(), [23.0, 28.0]);
/// // The greatest force over the least.
/// assert!((scatter.most_over_least() - 1.778).abs() < 5e-4);
/// # Ok::<(), lashwork::condition::head::HeadError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Scatter {
    least: f64,
    most: f64,
}

impl Scatter {
    /// By how the bolt is tightened.
    ///
    /// # Source
    /// VDI 2230 (1986) as printed in a bolt dealer's table; the last two NASA's rule as quoted in a paper.
    #[must_use]
    pub const fn of(tightening: Tightening) -> Self {
        let (least, most) = match tightening {
            Tightening::YieldOrAngle => (5.0, 12.0),
            Tightening::Elongation => (9.0, 23.0),
            Tightening::TorqueTuned => (17.0, 23.0),
            Tightening::TorqueEstimated => (23.0, 28.0),
            Tightening::PowerDriver => (26.0, 43.0),
            Tightening::DryTorque => (35.0, 35.0),
            Tightening::OiledTorque => (25.0, 25.0),
        };
        Self { least, most }
    }

    /// As stated, in percent either way.
    ///
    /// # Errors
    /// [`HeadError::Number`] outside 0 to 80 %.
    ///
    /// ```
    /// use lashwork::condition::head::Scatter;
    /// assert!((Scatter::stated(35.0)?.most_over_least() - 2.077).abs() < 5e-4);
    /// assert!(Scatter::stated(100.0).is_err());
    /// # Ok::<(), lashwork::condition::head::HeadError>(())
    /// ```
    pub fn stated(percent: f64) -> Result<Self, HeadError> {
        let percent = within("a scatter in percent", percent, (0.0, 80.0))?;
        Ok(Self {
            least: percent,
            most: percent,
        })
    }

    /// From and to, in percent either way, as published.
    #[must_use]
    pub const fn percent(self) -> [f64; 2] {
        [self.least, self.most]
    }

    /// The greatest force over the least, at the wider end of what is published.
    ///
    /// # Source
    /// `(1 + s) / (1 - s)`.
    #[must_use]
    pub fn most_over_least(self) -> f64 {
        (100.0 + self.most) / (100.0 - self.most)
    }
}
