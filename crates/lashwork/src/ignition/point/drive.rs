//! How fast a rotor turns beside the crank.

use super::PointError;
use crate::quantity::{Advance, CrankAngle, Cycle, DistributorAdvance, DistributorAngle};
use serde::Serialize;

/// How many times the crank turns while the rotor of a distributor or magneto turns once.
///
/// ```
/// use lashwork::ignition::point::Drive;
/// use lashwork::quantity::{Advance, Cycle, DistributorAdvance};
/// let distributor = Drive::once_a_cycle(Cycle::FourStroke);
/// let five = DistributorAdvance::parse("5 deg BTDC")?;
/// assert_eq!(distributor.at_crank(five)?, Advance::parse("10 deg BTDC")?);
/// // A magneto that turns as fast as the crank, and one of a six that turns half as fast again.
/// assert_eq!(Drive::WITH_CRANK.crank_turns(), 1.0);
/// assert!(Drive::new(2.0 / 3.0).is_ok());
/// assert!(Drive::new(0.0).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Drive {
    crank_turns: f64,
}

impl Drive {
    /// Least and greatest number of crank turns for one turn of the rotor.
    pub const RANGE: (f64, f64) = (0.25, 8.0);
    /// A rotor on the crank, or geared one to one.
    pub const WITH_CRANK: Self = Self { crank_turns: 1.0 };

    /// A rotor that turns once a cycle: at half crank speed on a four-stroke engine.
    #[must_use]
    pub const fn once_a_cycle(cycle: Cycle) -> Self {
        Self {
            crank_turns: cycle.crank_turns(),
        }
    }

    /// A rotor that turns once while the crank turns so many times.
    ///
    /// # Errors
    /// [`PointError::Drive`] outside [`Self::RANGE`].
    pub fn new(crank_turns: f64) -> Result<Self, PointError> {
        if (Self::RANGE.0..=Self::RANGE.1).contains(&crank_turns) {
            Ok(Self { crank_turns })
        } else {
            Err(PointError::Drive { got: crank_turns })
        }
    }

    /// Crank turns for one turn of the rotor: 2 for a four-stroke distributor.
    #[must_use]
    pub const fn crank_turns(self) -> f64 {
        self.crank_turns
    }

    /// The turn of the rotor that goes with a turn of the crank.
    ///
    /// # Errors
    /// [`PointError::Quantity`] over a thousand turns.
    pub fn rotor(self, crank: CrankAngle) -> Result<DistributorAngle, PointError> {
        Ok(DistributorAngle::from_degrees(
            crank.degrees() / self.crank_turns,
        )?)
    }

    /// An ignition point in degrees of the rotor.
    ///
    /// # Errors
    /// [`PointError::Quantity`] over half a turn.
    pub fn at_rotor(self, point: Advance) -> Result<DistributorAdvance, PointError> {
        let degrees = point.degrees_before() / self.crank_turns;
        Ok(DistributorAdvance::from_degrees_before(degrees)?)
    }

    /// An ignition point in degrees of the rotor, at the crank.
    ///
    /// # Errors
    /// [`PointError::Quantity`] over half a turn.
    pub fn at_crank(self, point: DistributorAdvance) -> Result<Advance, PointError> {
        let degrees = point.degrees_before() * self.crank_turns;
        Ok(Advance::from_degrees_before(degrees)?)
    }

    /// One point printed at the crank and at the distributor.
    ///
    /// # Errors
    /// [`PointError::NotTheSame`] if the two are not as far apart as the drive says; the hint tells
    /// whether the same number stands twice.
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::ignition::point::Drive;
    /// use lashwork::quantity::{Advance, Cycle, DistributorAdvance};
    /// let half = Drive::once_a_cycle(Cycle::FourStroke);
    /// let (crank, rotor) = (Advance::parse("10 deg BTDC")?, DistributorAdvance::parse("10 deg BTDC")?);
    /// let refused = half.same_point(crank, rotor).unwrap_err();
    /// assert!(refused.hint().contains("same number stands twice"));
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    pub fn same_point(
        self,
        crank: Advance,
        distributor: DistributorAdvance,
    ) -> Result<Advance, PointError> {
        let wanted = distributor.degrees_before() * self.crank_turns;
        if (crank.degrees_before() - wanted).abs() <= ROUNDING {
            Ok(crank)
        } else {
            Err(PointError::NotTheSame {
                crank,
                distributor,
                turns: self.crank_turns,
            })
        }
    }
}

/// Slack for the last bits of a product with a ratio such as 2/3, in degrees.
const ROUNDING: f64 = 1e-9;
