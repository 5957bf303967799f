//! An ignition point as a book prints it at the distributor.

use super::{Drive, PointError};
use crate::quantity::{Advance, CrankSpeed, DistributorAdvance, DistributorSpeed};
use crate::tolerance::Limits;
use core::fmt;

/// The limits of an ignition point in degrees of the distributor; one end may be open.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::point::{DistributorLimits, Drive};
/// use lashwork::quantity::{Cycle, DistributorAdvance};
/// let half = Drive::once_a_cycle(Cycle::FourStroke);
/// let (from, to) = (DistributorAdvance::parse("4 deg BTDC")?, DistributorAdvance::parse("6 deg BTDC")?);
/// let printed = DistributorLimits { from: Some(from), to: Some(to) };
/// assert_eq!(printed.at_crank(half)?.map(|limits| limits.to_string()).as_deref(), Some("8 deg BTDC to 12 deg BTDC"));
/// assert_eq!(printed.to_string(), "4 deg BTDC to 6 deg BTDC");
/// let same = "4 deg BTDC to 6 deg BTDC".parse()?;
/// assert_eq!(printed.agreeing(&same, half).unwrap_err().code(), "ignition.crank-and-distributor");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DistributorLimits {
    /// The latest.
    pub from: Option<DistributorAdvance>,
    /// The earliest.
    pub to: Option<DistributorAdvance>,
}

impl DistributorLimits {
    /// The same at the crank, multiplied exactly; none without an end.
    ///
    /// # Errors
    /// [`PointError::Quantity`] over half a turn, [`PointError::Tolerance`] for ends that cross.
    pub fn at_crank(&self, drive: Drive) -> Result<Option<Limits<Advance>>, PointError> {
        let end = |end: Option<DistributorAdvance>| end.map(|end| drive.at_crank(end)).transpose();
        Ok(match (end(self.from)?, end(self.to)?) {
            (Some(from), Some(to)) => Some(Limits::between(from, to)?),
            (Some(from), None) => Some(Limits::at_least(from)),
            (None, Some(to)) => Some(Limits::at_most(to)),
            (None, None) => None,
        })
    }

    /// Limits that the book prints both ways.
    ///
    /// # Errors
    /// [`PointError::NotTheSame`] where an end is not as many times as large at the crank as the drive says,
    /// or stands on one side only.
    pub fn agreeing(
        &self,
        crank: &Limits<Advance>,
        drive: Drive,
    ) -> Result<Limits<Advance>, PointError> {
        for (crank, distributor) in [(crank.lower(), self.from), (crank.upper(), self.to)] {
            match (crank, distributor) {
                (Some(crank), Some(distributor)) => {
                    drive.same_point(crank, distributor)?;
                }
                (None, None) => {}
                _ => return Err(PointError::EndsDiffer),
            }
        }
        Ok(*crank)
    }
}

impl fmt::Display for DistributorLimits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.from, self.to) {
            (Some(from), Some(to)) => write!(f, "{from} to {to}"),
            (Some(from), None) => write!(f, "at least {from}"),
            (None, Some(to)) => write!(f, "at most {to}"),
            (None, None) => f.write_str("not printed"),
        }
    }
}

impl Drive {
    /// A speed of the rotor, at the crank.
    ///
    /// # Errors
    /// [`PointError::Quantity`] for a speed no crank has.
    ///
    /// ```
    /// use lashwork::ignition::point::Drive;
    /// use lashwork::quantity::{CrankSpeed, Cycle, DistributorSpeed};
    /// let half = Drive::once_a_cycle(Cycle::FourStroke);
    /// let printed = DistributorSpeed::from_rpm(1100.0)?;
    /// assert_eq!(half.crank_speed(printed)?.rpm(), 2200.0);
    /// assert!(half.same_speed(CrankSpeed::from_rpm(1100.0)?, printed).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn crank_speed(self, rotor: DistributorSpeed) -> Result<CrankSpeed, PointError> {
        Ok(CrankSpeed::from_rpm(rotor.rpm() * self.crank_turns())?)
    }

    /// One speed given at the crank and at the distributor.
    ///
    /// # Errors
    /// [`PointError::SpeedsDiffer`] if the two are not as far apart as the drive says.
    pub fn same_speed(
        self,
        crank: CrankSpeed,
        distributor: DistributorSpeed,
    ) -> Result<CrankSpeed, PointError> {
        let off = (crank.rpm() - distributor.rpm() * self.crank_turns()).abs();
        // A ratio such as 2/3 is not exact in binary.
        if off <= 1e-9 * crank.rpm().abs().max(1.0) {
            Ok(crank)
        } else {
            Err(PointError::SpeedsDiffer {
                crank,
                distributor,
                turns: self.crank_turns(),
            })
        }
    }
}
