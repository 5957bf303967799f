//! Readings at several speeds, made ready for the curve's fit and its causes.

use super::{CentrifugalCurve, Hose, PrintedTiming, Running, Taken, TimingError, TimingReading};
use crate::ignition::point::MARK_HALF_WIDTH;
use alloc::vec::Vec;

/// One reading beside the printed curve, in crank degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct CurveRow {
    /// Speed in turns a minute.
    pub rpm: f64,
    /// When the spark came, from the printed static point.
    pub over: f64,
    /// Standard uncertainty of that one reading.
    pub u: f64,
    /// What the middle of the table says.
    pub middle: f64,
    /// Half of the table's width there.
    pub half: f64,
    /// At or above the last point, where the table ends.
    pub at_end: bool,
}

/// Readings at several speeds with one printed curve, all without vacuum.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::timing::{
///     AboveLast, CentrifugalCurve, CrankPoint, CurveReadings, Hose, LampDelay, PrintedTiming, Running, Taken,
///     TimingReading,
/// };
/// use lashwork::quantity::{Advance, CrankAngle, CrankSpeed};
/// let rpm = |rpm| CrankSpeed::from_rpm(rpm);
/// let point = |speed, advance| -> Result<_, lashwork::quantity::QuantityError> {
///     let advance = CrankAngle::from_degrees(advance)?;
///     Ok(CrankPoint { speed: rpm(speed)?, least: advance, most: advance })
/// };
/// let curve = CentrifugalCurve::at_crank(&[point(1000.0, 0.0)?, point(2200.0, 20.0)?], AboveLast::Ends)?;
/// let limits = "8 deg BTDC to 12 deg BTDC".parse()?;
/// let book = PrintedTiming::new(limits, Taken::Standing, Some(&curve), None)?;
/// let read = |speed, advance: &str, hose| -> Result<_, Box<dyn std::error::Error>> {
///     Ok(TimingReading {
///         read: Advance::parse(advance)?,
///         u: TimingReading::usual_u()?,
///         taken: Taken::Running(Running::at(rpm(speed)?, hose)),
///         lamp: LampDelay::NONE,
///     })
/// };
/// let good = [read(800.0, "10 deg BTDC", Hose::Plugged)?, read(2400.0, "30 deg BTDC", Hose::Plugged)?];
/// assert!(CurveReadings::new(&book, &good).is_ok());
/// let on = [good[0], read(2400.0, "45 deg BTDC", Hose::Connected(None))?];
/// let refused = CurveReadings::new(&book, &on).unwrap_err();
/// assert_eq!(refused.code(), "ignition.vacuum-in-curve");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct CurveReadings {
    pub(super) rows: Vec<CurveRow>,
    pub(super) static_deg: f64,
    pub(super) static_half: f64,
    pub(super) most: f64,
    pub(super) ends: bool,
    /// Whether a vacuum capsule may have been at work when the body was set.
    pub(super) may_have_capsule: bool,
    pub(super) curve: CentrifugalCurve,
}

impl CurveReadings {
    /// Standard uncertainty that all readings share, in crank degrees: where the mark stands and from
    /// where it is looked at. Common practice, no source.
    pub const SHARED_U: f64 = MARK_HALF_WIDTH / 1.732_050_807_568_877_2;
    /// Most readings that are taken.
    pub const MOST: usize = 100;

    /// Takes the readings; their uncertainties are those by which one reading differs from another.
    ///
    /// # Errors
    /// [`TimingError::Readings`] below two or over a hundred; [`TimingError::VacuumInCurve`];
    /// [`TimingError::NoUncertainty`]; [`TimingError::NoCurve`] without the table of advance by speed;
    /// [`TimingError::BeyondCurve`]; [`TimingError::StaticRange`] without a printed static point.
    pub fn new(book: &PrintedTiming<'_>, readings: &[TimingReading]) -> Result<Self, TimingError> {
        if !(2..=Self::MOST).contains(&readings.len()) {
            return Err(TimingError::Readings {
                got: readings.len(),
                needed: 2,
            });
        }
        let (aim, half) = book.static_point()?;
        let fastest = readings.iter().filter_map(|r| running(r).map(|r| r.speed));
        let speed = fastest.fold(crate::quantity::CrankSpeed::from_rpm(0.0)?, |a, b| {
            if b > a { b } else { a }
        });
        let curve = book.centrifugal().ok_or(TimingError::NoCurve { speed })?;
        let table = curve.table();
        let mut rows = Vec::new();
        for (reading, at) in (1..).zip(readings) {
            if at.u.number() <= 0.0 {
                return Err(TimingError::NoUncertainty { reading });
            }
            let (rpm, speed_u, late) = match running(at) {
                None => (0.0, 0.0, 0.0),
                Some(running) => {
                    if matches!(running.hose, Hose::Connected(_)) {
                        return Err(TimingError::VacuumInCurve { reading });
                    }
                    let late = at.lamp.at(running.speed)?.degrees();
                    (running.speed.rpm(), running.speed_u(), late)
                }
            };
            // Standing, nothing has moved, whatever the first point says.
            let said = if rpm > 0.0 {
                table.at(rpm)?
            } else {
                super::piecewise::At::default()
            };
            rows.push(CurveRow {
                rpm,
                over: at.read.degrees_before() + late - aim,
                u: libm::hypot(at.u.number(), said.slope * speed_u),
                middle: said.middle(),
                half: said.half(),
                at_end: table.ends() && rpm >= table.last().x,
            });
        }
        let no_capsule = |r: &TimingReading| running(r).is_some_and(|r| r.hose == Hose::NotFitted);
        rows.sort_by(|a, b| a.rpm.total_cmp(&b.rpm));
        let last = table.last();
        Ok(Self {
            rows,
            static_deg: aim,
            static_half: half,
            most: f64::midpoint(last.least, last.most),
            ends: table.ends(),
            may_have_capsule: !readings.iter().any(no_capsule),
            curve: curve.clone(),
        })
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Never true; for form's sake.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }
}

const fn running(reading: &TimingReading) -> Option<Running> {
    match reading.taken {
        Taken::Standing => None,
        Taken::Running(running) => Some(running),
    }
}
