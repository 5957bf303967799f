//! The book's band and the fitted curve in straight pieces, corner by corner, for whoever draws them.

use super::{CurveFit, CurveReadings, Hose, PrintedTiming, Running, Taken, TimingError};
use crate::quantity::{Advance, CrankSpeed};
use alloc::vec::Vec;

/// What the book asks for at a speed; between two corners both ends run straight. An end that is not printed
/// is none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BandCorner {
    /// The speed.
    pub speed: CrankSpeed,
    /// The latest that is right there.
    pub least: Option<Advance>,
    /// The earliest.
    pub most: Option<Advance>,
}

/// Where the fitted curve stands at a speed; between two corners it runs straight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineCorner {
    /// The speed.
    pub speed: CrankSpeed,
    /// When the spark comes there.
    pub sparks: Advance,
}

impl PrintedTiming<'_> {
    /// What the book asks for, without vacuum, from standstill to the last point of its table, or to a speed
    /// beyond it where the table ends.
    ///
    /// # Errors
    /// [`TimingError::NoCurve`] without the table of advance by speed; as [`Self::must_read`].
    ///
    /// ```
    /// use lashwork::ignition::timing::{AboveLast, CentrifugalCurve, CrankPoint, PrintedTiming, Taken};
    /// use lashwork::quantity::{CrankAngle, CrankSpeed};
    /// let rpm = |rpm| CrankSpeed::from_rpm(rpm);
    /// let point = |speed, advance| -> Result<_, lashwork::quantity::QuantityError> {
    ///     let advance = CrankAngle::from_degrees(advance)?;
    ///     Ok(CrankPoint { speed: rpm(speed)?, least: advance, most: advance })
    /// };
    /// let curve = CentrifugalCurve::at_crank(&[point(1000.0, 0.0)?, point(2200.0, 20.0)?], AboveLast::Ends)?;
    /// let limits = "8 deg BTDC to 12 deg BTDC".parse()?;
    /// let book = PrintedTiming::new(limits, Taken::Standing, Some(&curve), None)?;
    /// let band = book.band(rpm(3000.0)?)?;
    /// let speeds: Vec<f64> = band.iter().map(|corner| corner.speed.rpm()).collect();
    /// assert_eq!(speeds, [0.0, 1000.0, 2200.0, 3000.0]);
    /// let least = band.iter().filter_map(|corner| Some(corner.least?.degrees_before()));
    /// assert_eq!(least.collect::<Vec<f64>>(), [8.0, 8.0, 28.0, 28.0]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn band(&self, up_to: CrankSpeed) -> Result<Vec<BandCorner>, TimingError> {
        let curve = self.centrifugal();
        let curve = curve.ok_or(TimingError::NoCurve { speed: up_to })?;
        let corner = |rpm: f64| {
            let speed = CrankSpeed::from_rpm(rpm)?;
            let limits = self.must_read(&Taken::Running(Running::at(speed, Hose::Plugged)))?;
            Ok(BandCorner {
                speed,
                least: limits.lower(),
                most: limits.upper(),
            })
        };
        let corners = curve.table().corners(up_to.rpm()).into_iter();
        corners.map(corner).collect()
    }
}

impl CurveFit {
    /// The fitted curve from standstill to the last point of the readings' table, or to a speed beyond it
    /// where the table ends; no further than the readings tell it. Where the table ends, the advance is at
    /// its end from the last point on, whatever the springs do: two corners stand there if they fall short.
    ///
    /// # Errors
    /// [`TimingError::Quantity`] for a curve out of range.
    ///
    /// ```
    /// use lashwork::ignition::timing::{
    ///     AboveLast, CentrifugalCurve, CrankPoint, CurveFit, CurveReadings, Hose, LampDelay, PrintedTiming,
    ///     Running, Taken, TimingReading,
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
    /// let read = |speed, advance: f64| -> Result<_, Box<dyn std::error::Error>> {
    ///     Ok(TimingReading {
    ///         read: Advance::from_degrees_before(advance)?,
    ///         u: TimingReading::usual_u()?,
    ///         taken: Taken::Running(Running::at(rpm(speed)?, Hose::Plugged)),
    ///         lamp: LampDelay::NONE,
    ///     })
    /// };
    /// let readings = [read(800.0, 8.0)?, read(1600.0, 18.0)?, read(2600.0, 28.0)?];
    /// let readings = CurveReadings::new(&book, &readings)?;
    /// let line = CurveFit::new(&readings)?.line(&readings, rpm(2600.0)?)?;
    /// let last = line.last().ok_or("a curve")?;
    /// assert_eq!(last.speed.rpm(), 2600.0);
    /// assert!((last.sparks.degrees_before() - 28.0).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn line(
        &self,
        readings: &CurveReadings,
        up_to: CrankSpeed,
    ) -> Result<Vec<LineCorner>, TimingError> {
        let table = readings.curve.table();
        let start = self.static_point().value.degrees_before();
        let end = self.end().map(|end| end.value.degrees());
        let scale = self.scale().map(|scale| scale.value);
        // What it has over its static point where the table's middle says so much.
        let over = |middle: f64| match scale {
            _ if middle <= 0.0 => Some(0.0),
            Some(scale) => Some(end.map_or(scale * middle, |end| end.min(scale * middle))),
            None => None,
        };
        let last = table.last().x;
        let mut line = Vec::new();
        let mut add = |rpm: f64, over: f64| -> Result<(), TimingError> {
            line.push(LineCorner {
                speed: CrankSpeed::from_rpm(rpm)?,
                sparks: Advance::from_degrees_before(start + over)?,
            });
            Ok(())
        };
        let mut before: Option<(f64, f64)> = None;
        for rpm in table.corners(up_to.rpm()) {
            let middle = table.at(rpm)?.middle();
            // On the way it may reach its end, which is a corner of its own.
            if let (Some((from, low)), Some(scale), Some(end)) = (before, scale, end)
                && scale * low < end
                && end < scale * middle
            {
                let share = (end / scale - low) / (middle - low);
                add(from + share * (rpm - from), end)?;
            }
            let on_the_rise = over(middle).filter(|_| rpm <= last);
            let at_end = end.filter(|_| table.ends() && rpm >= last);
            if let Some(over) = on_the_rise {
                add(rpm, over)?;
            }
            if let Some(end) = at_end.filter(|end| on_the_rise != Some(*end)) {
                add(rpm, end)?;
            }
            before = Some((rpm, middle));
        }
        Ok(line)
    }
}
