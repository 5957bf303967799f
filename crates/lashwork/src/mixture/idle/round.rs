//! Idle speed and mixture in turn: each moves the other.
//!
//! # Source
//! Speed, mixture, and speed again: a service page, named in the tests, because the throttle stop changes the
//! depression at the idle slot and the mixture changes the speed. From what difference a turn of the mixture
//! screw is worth making is this library's choice.

use super::{Crown, Fitted, IdleError, Side};
use crate::quantity::{CrankSpeed, ScrewAngle, TurnsOut};
use crate::tolerance::{Estimate, Limits, Verdict};
use serde::Serialize;

/// Turns below which a mixture screw is left alone: the twelfth of a turn that a screwdriver shows.
const LEAST_TURN: f64 = 1.0 / 12.0;

/// Which way the speed has to go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum SpeedWay {
    /// Throttle further open.
    Faster,
    /// Throttle further shut.
    Slower,
}

/// How things stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IdleRound {
    /// The speed now.
    pub speed: Estimate<CrankSpeed>,
    /// The book's idle speed.
    pub wanted: Limits<CrankSpeed>,
    /// Where the mixture screw stands.
    pub place: TurnsOut,
    /// What the curve at this setting of the throttle showed; none if it was not read since that was moved.
    pub crown: Option<Crown>,
    /// Where the screw is to stand: the best place, or one beside it as the book says; none if not known.
    pub target: Option<Fitted<TurnsOut>>,
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "step")]
pub enum IdleStep {
    /// Set the speed by the throttle stop; the curve has to be read anew.
    Speed {
        /// Which way.
        way: SpeedWay,
        /// To the middle of the book's speed, or to its one end.
        to: CrankSpeed,
    },
    /// Read the speed at several places of the mixture screw.
    ReadCurve,
    /// Read further, to this side if it is known.
    ReadFurther {
        /// The side.
        toward: Option<Side>,
    },
    /// Turn the mixture screw, then see to the speed again.
    Mixture {
        /// How far, positive clockwise.
        turn: ScrewAngle,
        /// Standard uncertainty, in degrees.
        standard_uncertainty: f64,
    },
    /// Nothing: speed and mixture stand.
    Done,
}

impl IdleRound {
    /// What to do next.
    ///
    /// # Errors
    /// [`IdleError::Quantity`] for a turn that cannot be.
    ///
    /// ```
    /// use lashwork::mixture::idle::{IdleRound, IdleStep, SpeedWay};
    /// use lashwork::quantity::{CrankSpeed, TurnsOut};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let now = CrankSpeed::from_rpm(760.0)?;
    /// let round = IdleRound {
    ///     speed: Estimate::between(now, now, Uncertainty::from_number(5.0)?)?,
    ///     wanted: "800 rpm to 900 rpm".parse()?,
    ///     place: TurnsOut::from_turns(1.5)?,
    ///     crown: None,
    ///     target: None,
    /// };
    /// let to = CrankSpeed::from_rpm(850.0)?;
    /// assert_eq!(round.next_step()?, IdleStep::Speed { way: SpeedWay::Faster, to });
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn next_step(&self) -> Result<IdleStep, IdleError> {
        let way = match self.speed.judged_by(&self.wanted).verdict {
            Verdict::Below => Some(SpeedWay::Faster),
            Verdict::Above => Some(SpeedWay::Slower),
            _ => None,
        };
        if let Some((way, to)) = way.zip(self.aim()?) {
            return Ok(IdleStep::Speed { way, to });
        }
        let target = match (self.crown, self.target) {
            (None, None) => return Ok(IdleStep::ReadCurve),
            (Some(Crown::NotSeen(none)), None) => {
                return Ok(IdleStep::ReadFurther {
                    toward: none.rises_toward,
                });
            }
            (Some(Crown::Seen(top)), None) => top.best,
            (_, Some(target)) => target,
        };
        let out = target.value.turns() - self.place.turns();
        let u = target.standard_uncertainty.number();
        if out.abs() <= LEAST_TURN.max(u) {
            return Ok(IdleStep::Done);
        }
        Ok(IdleStep::Mixture {
            turn: ScrewAngle::from_degrees(-360.0 * out)?,
            standard_uncertainty: 360.0 * u,
        })
    }

    fn aim(&self) -> Result<Option<CrankSpeed>, IdleError> {
        let ends = (self.wanted.lower(), self.wanted.upper());
        Ok(match ends {
            (Some(low), Some(high)) => Some(CrankSpeed::from_rpm(0.5 * (low.rpm() + high.rpm()))?),
            (low, high) => low.or(high),
        })
    }
}
