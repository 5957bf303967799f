//! Advance by speed and by vacuum, as books print it.
//!
//! Each column is read in straight lines between its points, and never beyond the last one unless the book
//! says that the advance ends there. Advance does not fall with speed or vacuum: weights and capsules only
//! pull one way.

use super::TimingError;
use super::piecewise::{At, Piecewise, Row};
use crate::ignition::point::Drive;
use crate::quantity::{CrankAngle, CrankSpeed, DistributorAngle, DistributorSpeed, Vacuum};
use alloc::vec::Vec;

/// What the book says of the advance above its last point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AboveLast {
    /// It goes no further: the last point is the stop.
    Ends,
    /// Nothing; a reading above it cannot be taken back.
    NotSaid,
}

/// A point of the centrifugal advance, all at the crank. Equal `least` and `most` are one printed figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrankPoint {
    /// Speed of the crank.
    pub speed: CrankSpeed,
    /// The least advance there.
    pub least: CrankAngle,
    /// The most.
    pub most: CrankAngle,
}

/// The same, all at the distributor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DistributorPoint {
    /// Speed of the distributor.
    pub speed: DistributorSpeed,
    /// The least advance there.
    pub least: DistributorAngle,
    /// The most.
    pub most: DistributorAngle,
}

/// A point of the vacuum advance, at the crank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VacuumPoint {
    /// Vacuum at the capsule.
    pub vacuum: Vacuum,
    /// The least advance there.
    pub least: CrankAngle,
    /// The most.
    pub most: CrankAngle,
}

/// How far an advance reaches: from the least to the most the book allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AdvanceSpan {
    /// The least.
    pub least: CrankAngle,
    /// The most.
    pub most: CrankAngle,
}

fn span(at: At) -> Result<AdvanceSpan, TimingError> {
    Ok(AdvanceSpan {
        least: CrankAngle::from_degrees(at.least)?,
        most: CrankAngle::from_degrees(at.most)?,
    })
}

/// The centrifugal advance by speed.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::point::Drive;
/// use lashwork::ignition::timing::{AboveLast, CentrifugalCurve, DistributorPoint};
/// use lashwork::quantity::{CrankSpeed, Cycle, DistributorAngle, DistributorSpeed};
/// let point = |rpm, least, most| -> Result<_, lashwork::quantity::QuantityError> {
///     Ok(DistributorPoint {
///         speed: DistributorSpeed::from_rpm(rpm)?,
///         least: DistributorAngle::from_degrees(least)?,
///         most: DistributorAngle::from_degrees(most)?,
///     })
/// };
/// let drive = Drive::once_a_cycle(Cycle::FourStroke);
/// let points = [point(500.0, 0.0, 0.0)?, point(1100.0, 9.0, 11.0)?];
/// let curve = CentrifugalCurve::at_distributor(&points, drive, AboveLast::NotSaid)?;
/// let half_way = curve.at(CrankSpeed::from_rpm(1600.0)?)?;
/// assert_eq!((half_way.least.degrees(), half_way.most.degrees()), (9.0, 11.0));
/// let beyond = curve.at(CrankSpeed::from_rpm(2300.0)?).unwrap_err();
/// assert_eq!(beyond.code(), "ignition.beyond-curve");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct CentrifugalCurve(Piecewise);

const BY_SPEED: &str = "advance by speed";
const BY_VACUUM: &str = "advance by vacuum";

impl CentrifugalCurve {
    /// Takes points at the crank, from the lowest speed up.
    ///
    /// # Errors
    /// [`TimingError::CurveRows`] for none or over a hundred; [`TimingError::CurveColumns`] for a least
    /// below nought or above the most; [`TimingError::CurveNotRising`] for speeds that do not rise;
    /// [`TimingError::CurveFalls`] for an advance that falls.
    pub fn at_crank(points: &[CrankPoint], above: AboveLast) -> Result<Self, TimingError> {
        let rows = points.iter().map(|p| Row {
            x: p.speed.rpm(),
            least: p.least.degrees(),
            most: p.most.degrees(),
        });
        Self::of(rows.collect(), above)
    }

    /// Takes points at the distributor; speeds and degrees are multiplied by the drive, exactly.
    ///
    /// # Errors
    /// As [`Self::at_crank`].
    pub fn at_distributor(
        points: &[DistributorPoint],
        drive: Drive,
        above: AboveLast,
    ) -> Result<Self, TimingError> {
        let turns = drive.crank_turns();
        let rows = points.iter().map(|p| Row {
            x: p.speed.rpm() * turns,
            least: p.least.degrees() * turns,
            most: p.most.degrees() * turns,
        });
        Self::of(rows.collect(), above)
    }

    /// Takes points that the book prints both ways.
    ///
    /// # Errors
    /// [`TimingError::NotDouble`] where the crank's figure is not exactly that of the distributor times
    /// the drive; [`TimingError::ColumnLengths`]; as [`Self::at_crank`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::ignition::point::Drive;
    /// use lashwork::ignition::timing::{AboveLast, CentrifugalCurve, CrankPoint, DistributorPoint};
    /// use lashwork::quantity::{CrankAngle, CrankSpeed, Cycle, DistributorAngle, DistributorSpeed};
    /// let crank = CrankPoint {
    ///     speed: CrankSpeed::from_rpm(2200.0)?,
    ///     least: CrankAngle::from_degrees(18.0)?,
    ///     most: CrankAngle::from_degrees(22.0)?,
    /// };
    /// let distributor = DistributorPoint {
    ///     speed: DistributorSpeed::from_rpm(1100.0)?,
    ///     least: DistributorAngle::from_degrees(9.0)?,
    ///     most: DistributorAngle::from_degrees(10.0)?,
    /// };
    /// let drive = Drive::once_a_cycle(Cycle::FourStroke);
    /// let refused = CentrifugalCurve::both(&[crank], &[distributor], drive, AboveLast::Ends);
    /// assert_eq!(refused.unwrap_err().to_string(),
    ///     "advance by speed, point 1: the most is 22 at the crank and 10 at the distributor, not 2 times as much");
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    pub fn both(
        crank: &[CrankPoint],
        distributor: &[DistributorPoint],
        drive: Drive,
        above: AboveLast,
    ) -> Result<Self, TimingError> {
        if crank.len() != distributor.len() {
            return Err(TimingError::ColumnLengths {
                first: crank.len(),
                other: distributor.len(),
            });
        }
        let turns = drive.crank_turns();
        for (point, (c, d)) in (1..).zip(crank.iter().zip(distributor)) {
            for (column, crank, distributor) in [
                ("speed", c.speed.rpm(), d.speed.rpm()),
                ("least", c.least.degrees(), d.least.degrees()),
                ("most", c.most.degrees(), d.most.degrees()),
            ] {
                // A ratio such as 2/3 is not exact in binary.
                let off = (crank - distributor * turns).abs();
                if off > 1e-12 * crank.abs().max(1.0) {
                    return Err(TimingError::NotDouble {
                        point,
                        column,
                        crank,
                        distributor,
                        turns,
                    });
                }
            }
        }
        Self::at_crank(crank, above)
    }

    fn of(rows: Vec<Row>, above: AboveLast) -> Result<Self, TimingError> {
        Piecewise::new(rows, above == AboveLast::Ends, BY_SPEED, "rpm").map(Self)
    }

    /// The advance at a speed.
    ///
    /// Below the first point there is none if that point has none; else it may be anything from nothing up
    /// to that point.
    ///
    /// # Errors
    /// [`TimingError::BeyondCurve`] above the last point, unless the advance ends there.
    pub fn at(&self, speed: CrankSpeed) -> Result<AdvanceSpan, TimingError> {
        span(self.0.at(speed.rpm())?)
    }

    /// Whether it is certain that nothing has moved yet at a speed.
    #[must_use]
    pub fn is_at_rest(&self, speed: CrankSpeed) -> bool {
        self.0.at(speed.rpm()).is_ok_and(|at| at.most <= 0.0)
    }

    /// The most it ever adds, as far as the book prints.
    ///
    /// # Errors
    /// None for a curve that was accepted.
    pub fn most(&self) -> Result<CrankAngle, TimingError> {
        Ok(CrankAngle::from_degrees(self.0.last().most)?)
    }

    /// Speed of the first point, from which on it may act.
    ///
    /// # Errors
    /// None for a curve that was accepted.
    pub fn first_speed(&self) -> Result<CrankSpeed, TimingError> {
        Ok(CrankSpeed::from_rpm(self.0.first().x)?)
    }

    pub(super) const fn table(&self) -> &Piecewise {
        &self.0
    }
}

/// The vacuum advance by vacuum at the capsule, counted at the crank.
///
/// ```
/// use lashwork::ignition::timing::{AboveLast, VacuumCurve, VacuumPoint};
/// use lashwork::quantity::{CrankAngle, Vacuum};
/// let point = |mmhg: &str, least, most| -> Result<_, lashwork::quantity::QuantityError> {
///     Ok(VacuumPoint {
///         vacuum: Vacuum::parse(mmhg)?,
///         least: CrankAngle::from_degrees(least)?,
///         most: CrankAngle::from_degrees(most)?,
///     })
/// };
/// let capsule = VacuumCurve::new(
///     &[point("80 mmHg", 0.0, 0.0)?, point("200 mmHg", 9.0, 14.0)?], AboveLast::Ends)?;
/// let idle = capsule.at(Vacuum::parse("17 inHg")?)?;
/// assert_eq!((idle.least.degrees(), idle.most.degrees()), (9.0, 14.0));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct VacuumCurve(Piecewise);

impl VacuumCurve {
    /// Takes points at the crank, from the lowest vacuum up.
    ///
    /// # Errors
    /// As [`CentrifugalCurve::at_crank`].
    pub fn new(points: &[VacuumPoint], above: AboveLast) -> Result<Self, TimingError> {
        let rows = points.iter().map(|p| Row {
            x: p.vacuum.kilopascals(),
            least: p.least.degrees(),
            most: p.most.degrees(),
        });
        Piecewise::new(rows.collect(), above == AboveLast::Ends, BY_VACUUM, "kPa").map(Self)
    }

    /// The advance at a vacuum.
    ///
    /// # Errors
    /// [`TimingError::BeyondCurve`] above the last point, unless the advance ends there.
    pub fn at(&self, vacuum: Vacuum) -> Result<AdvanceSpan, TimingError> {
        span(self.0.at(vacuum.kilopascals())?)
    }

    /// The most it ever adds, as far as the book prints.
    ///
    /// # Errors
    /// None for a curve that was accepted.
    pub fn most(&self) -> Result<CrankAngle, TimingError> {
        Ok(CrankAngle::from_degrees(self.0.last().most)?)
    }

    pub(super) const fn table(&self) -> &Piecewise {
        &self.0
    }
}
