//! What the book prints, and a reading brought to what it is printed for.

use super::found::{Brought, TimingFound};
use super::{CentrifugalCurve, Hose, Taken, TimingError, TimingReading, VacuumCurve};
use crate::quantity::{Advance, CrankAngle};
use crate::tolerance::{BandJudge, DecisionRule, Limits};

/// Earliest static point that is accepted, in crank degrees before top dead centre. This library's choice.
pub const EARLIEST_STATIC: f64 = 45.0;
/// Latest, after top dead centre. This library's choice.
pub const LATEST_STATIC: f64 = 20.0;
/// Most that static and centrifugal advance may come to. The greatest centrifugal advance in print is 42
/// (TM 10-3930-623-12); this library's choice.
pub const MOST_TOTAL: f64 = 60.0;

/// The printed ignition point, what it holds for, and the tables.
///
/// ```
/// use lashwork::ignition::timing::{
///     AboveLast, CentrifugalCurve, CrankPoint, Hose, LampDelay, PrintedTiming, Running, Taken, TimingReading,
/// };
/// use lashwork::quantity::{Advance, CrankAngle, CrankSpeed};
/// use lashwork::tolerance::{HasLimits, Verdict};
/// let rpm = |rpm| CrankSpeed::from_rpm(rpm);
/// let deg = |deg| CrankAngle::from_degrees(deg);
/// let point = |speed, advance| -> Result<_, lashwork::quantity::QuantityError> {
///     Ok(CrankPoint { speed: rpm(speed)?, least: deg(advance)?, most: deg(advance)? })
/// };
/// let curve = CentrifugalCurve::at_crank(
///     &[point(1000.0, 0.0)?, point(2200.0, 20.0)?], AboveLast::Ends)?;
/// let limits = "8 deg BTDC to 12 deg BTDC".parse()?;
/// let book = PrintedTiming::new(limits, Taken::Standing, Some(&curve), None)?;
/// let reading = TimingReading {
///     read: Advance::parse("24 deg BTDC")?,
///     u: TimingReading::usual_u()?,
///     taken: Taken::Running(Running::at(rpm(2600.0)?, Hose::Plugged)),
///     lamp: LampDelay::NONE,
/// };
/// let found = book.found(&reading, &Advance::USUAL_RULE)?;
/// assert_eq!(found.estimate.centre(), Some(Advance::parse("4 deg BTDC")?));
/// assert_eq!(found.judgement.verdict, Verdict::Below);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct PrintedTiming<'b> {
    limits: Limits<Advance>,
    pub(super) printed_for: Taken,
    pub(super) centrifugal: Option<&'b CentrifugalCurve>,
    pub(super) vacuum: Option<&'b VacuumCurve>,
}

impl<'b> PrintedTiming<'b> {
    /// Takes the limits, what they hold for, and the tables there are.
    ///
    /// # Errors
    /// [`TimingError::StaticRange`] for a static limit beyond 45 BTDC or 20 ATDC;
    /// [`TimingError::TotalAdvance`] if static and centrifugal advance come to over 60 degrees, or a running
    /// figure does.
    pub fn new(
        limits: Limits<Advance>,
        printed_for: Taken,
        centrifugal: Option<&'b CentrifugalCurve>,
        vacuum: Option<&'b VacuumCurve>,
    ) -> Result<Self, TimingError> {
        let printed = Self {
            limits,
            printed_for,
            centrifugal,
            vacuum,
        };
        let ends = [limits.lower(), limits.upper()];
        let latest = ends.iter().flatten().next().copied();
        let earliest = ends.iter().flatten().last().copied();
        for end in [latest, earliest].into_iter().flatten() {
            printed.plausible(end, &printed_for)?;
        }
        if let (Taken::Standing, Some(curve), Some(earliest)) = (printed_for, centrifugal, earliest)
        {
            let got = earliest.degrees_before() + curve.most()?.degrees();
            if got > MOST_TOTAL {
                return Err(TimingError::TotalAdvance {
                    what: "static and centrifugal advance",
                    got,
                    most: MOST_TOTAL,
                });
            }
        }
        Ok(printed)
    }

    /// The limits.
    #[must_use]
    pub const fn limits(&self) -> &Limits<Advance> {
        &self.limits
    }

    /// What they hold for.
    #[must_use]
    pub const fn printed_for(&self) -> Taken {
        self.printed_for
    }

    pub(super) const fn centrifugal(&self) -> Option<&'b CentrifugalCurve> {
        self.centrifugal
    }

    pub(super) const fn vacuum(&self) -> Option<&'b VacuumCurve> {
        self.vacuum
    }

    /// The middle of the static limits and half their width, in crank degrees; a figure printed for a speed
    /// is taken back by the middle of the table, its width added.
    pub(super) fn static_point(&self) -> Result<(f64, f64), TimingError> {
        let aim = self.aim().map_or(0.0, Advance::degrees_before);
        let half = match (self.limits.lower(), self.limits.upper()) {
            (Some(low), Some(high)) => (high.degrees_before() - low.degrees_before()) / 2.0,
            _ => 0.0,
        };
        let off = self.by_speed(&Taken::Standing)?;
        let (vacuum, _) = self.by_vacuum(&Taken::Standing)?;
        Ok((
            aim + off.middle() + vacuum.middle(),
            half + off.half() + vacuum.half(),
        ))
    }

    /// Where to set: the middle of the limits, or the only one.
    #[must_use]
    pub fn aim(&self) -> Option<Advance> {
        match (self.limits.lower(), self.limits.upper()) {
            (Some(low), Some(high)) => {
                let middle = f64::midpoint(low.degrees_before(), high.degrees_before());
                Advance::from_degrees_before(middle).ok()
            }
            (one, other) => one.or(other),
        }
    }

    /// What a reading comes to, and the verdict.
    ///
    /// Static readings and strobe readings below the first point of the table are taken as they are.
    /// Above it the table is taken off, with its width as a rectangle: the book allows the distributor
    /// anything between its columns. Of two tables' widths the wider is the rectangle, the other counts as
    /// normal. A vacuum that was not read leaves open all that the capsule may give, with no value likelier
    /// than another: the verdict must hold for the least and for the most of it.
    ///
    /// # Errors
    /// [`TimingError::NoCurve`] for a running reading without the table; [`TimingError::BeyondCurve`];
    /// [`TimingError::VacuumNotKnown`] with the hose on and no table, or an unknown vacuum and a table that
    /// does not end; [`TimingError::StaticRange`], [`TimingError::TotalAdvance`] for a reading no engine
    /// gives.
    ///
    /// # Source
    /// Total = static + centrifugal + vacuum advance. JCGM 100:2008, 5.1.2 and 4.3.7.
    pub fn found(
        &self,
        reading: &TimingReading,
        rule: &DecisionRule,
    ) -> Result<TimingFound, TimingError> {
        let brought = self.brought(reading)?;
        let estimate = brought.estimate()?;
        let mut band = BandJudge::new(&self.limits, rule);
        Ok(TimingFound {
            sparks: Advance::from_degrees_before(brought.sparks)?,
            judgement: brought.judge(&mut band)?,
            estimate,
            by_curve: brought.by_curve,
            by_vacuum: brought.by_vacuum,
            terms: brought.terms(),
        })
    }

    /// What must be read under given conditions when the point is right: from the lower limit with the
    /// least of the tables to the upper with the most. An end that is not printed stays open.
    ///
    /// # Errors
    /// As [`Self::found`].
    ///
    /// ```
    /// use lashwork::ignition::timing::{
    ///     AboveLast, Hose, PrintedTiming, Running, Taken, VacuumCurve, VacuumPoint,
    /// };
    /// use lashwork::quantity::{Advance, CrankAngle, CrankSpeed, Vacuum};
    /// let deg = |deg| CrankAngle::from_degrees(deg);
    /// let idle = CrankSpeed::from_rpm(900.0)?;
    /// let at = Vacuum::parse("200 mmHg")?;
    /// let point = VacuumPoint { vacuum: at, least: deg(9.0)?, most: deg(14.0)? };
    /// let capsule = VacuumCurve::new(&[point], AboveLast::Ends)?;
    /// // Printed for that speed with the hose plugged.
    /// let limits = "10 deg BTDC to 10 deg BTDC".parse()?;
    /// let printed_for = Taken::Running(Running::at(idle, Hose::Plugged));
    /// let book = PrintedTiming::new(limits, printed_for, None, Some(&capsule))?;
    /// let connected = Taken::Running(Running::at(idle, Hose::Connected(Some(at))));
    /// assert_eq!(book.must_read(&connected)?.to_string(), "19 deg BTDC to 24 deg BTDC");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn must_read(&self, taken: &Taken) -> Result<Limits<Advance>, TimingError> {
        let by_speed = self.by_speed(taken)?;
        let (by_vacuum, unread) = self.by_vacuum(taken)?;
        if unread > 0.0 {
            return Err(TimingError::VacuumNotKnown);
        }
        let plus = |end: Advance, degrees: f64| -> Result<Advance, TimingError> {
            Ok(Advance::from_degrees_before(
                end.degrees_before() + degrees,
            )?)
        };
        let low = self.limits.lower();
        let low = low.map(|end| plus(end, by_speed.least + by_vacuum.least));
        let high = self.limits.upper();
        let high = high.map(|end| plus(end, by_speed.most + by_vacuum.most));
        Ok(match (low.transpose()?, high.transpose()?) {
            (Some(low), Some(high)) => Limits::between(low, high)?,
            (Some(low), None) => Limits::at_least(low),
            (None, Some(high)) => Limits::at_most(high),
            (None, None) => self.limits,
        })
    }

    pub(super) fn brought(&self, reading: &TimingReading) -> Result<Brought, TimingError> {
        self.plausible(reading.read, &reading.taken)?;
        let by_speed = self.by_speed(&reading.taken)?;
        let (by_vacuum, unread) = self.by_vacuum(&reading.taken)?;
        let (late, speed_u) = match reading.taken {
            Taken::Standing => (CrankAngle::ZERO, 0.0),
            Taken::Running(running) => (reading.lamp.at(running.speed)?, running.speed_u()),
        };
        let sparks = reading.read.degrees_before() + late.degrees();
        let speed_u = by_speed.slope * speed_u;
        let (curve_half, vacuum_half) = (by_speed.half(), by_vacuum.half());
        let narrow = curve_half.min(vacuum_half) / libm::sqrt(3.0);
        let wide = curve_half.max(vacuum_half);
        let read_u = reading.u.number();
        let middle = sparks - by_speed.middle() - by_vacuum.middle();
        Ok(Brought {
            sparks,
            low: middle - wide,
            high: middle + wide,
            u: libm::hypot(libm::hypot(read_u, speed_u), narrow),
            read_u,
            speed_u,
            curve_half,
            vacuum_half,
            by_curve: by_speed.acts(),
            by_vacuum: by_vacuum.acts() || unread > 0.0,
            unread,
        })
    }

    /// Whether an engine can show such a point.
    fn plausible(&self, point: Advance, taken: &Taken) -> Result<(), TimingError> {
        let got = point.degrees_before();
        match taken {
            Taken::Standing => {
                if (-LATEST_STATIC..=EARLIEST_STATIC).contains(&got) {
                    Ok(())
                } else {
                    Err(TimingError::StaticRange { got: point })
                }
            }
            Taken::Running(running) => {
                let connected = matches!(running.hose, Hose::Connected(_));
                let capsule = match self.vacuum {
                    Some(vacuum) if connected => vacuum.most()?.degrees(),
                    _ => 0.0,
                };
                let most = MOST_TOTAL + capsule;
                if got <= most {
                    Ok(())
                } else {
                    Err(TimingError::TotalAdvance {
                        what: "a running ignition point",
                        got,
                        most,
                    })
                }
            }
        }
    }
}
