//! The static point, the strength of the springs and the end of the advance, fitted to readings.
//!
//! # Method
//! `spark = static + min(scale x table, end)`, least squares with each reading's uncertainty. The table is
//! its middle. Which readings lie at the end is not known beforehand; for each split it is a straight line
//! through the readings on the rise and a mean of those at the end, both in closed form, or, on the border
//! between two splits, one line through the table cut off there. Of all that agree with their own split the
//! least sum of squares is the solution. Where the book says that the table ends, readings from there on
//! lie at the end whatever the springs do.
//!
//! # Source
//! Weighted least squares; covariance by JCGM 100:2008, H.3, widened by the scatter of the readings where
//! that is more than was stated.

use super::TimingError;
use super::readings::{CurveReadings, CurveRow};
use crate::quantity::{Advance, CrankAngle};
use crate::statistics::{Line, straight_line};
use alloc::vec::Vec;

/// A number of the fit with its standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitted<Q> {
    /// The value.
    pub value: Q,
    /// Standard uncertainty, in degrees, or a plain number for a scale.
    pub u: f64,
}

/// The curve as this distributor follows it.
///
/// ```
/// use lashwork::ignition::timing::{
///     AboveLast, CentrifugalCurve, CrankPoint, CurveFit, CurveReadings, Hose, LampDelay, PrintedTiming, Running,
///     Taken, TimingReading,
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
/// // Three degrees late all along, with springs that let it go half as far again.
/// let readings = [
///     read(800.0, 7.0)?, read(1300.0, 14.5)?, read(1600.0, 22.0)?, read(2600.0, 27.0)?,
/// ];
/// let fit = CurveFit::new(&CurveReadings::new(&book, &readings)?)?;
/// assert!((fit.static_point().value.degrees_before() - 7.0).abs() < 1e-9);
/// assert!((fit.scale().ok_or("seen")?.value - 1.5).abs() < 1e-9);
/// assert!((fit.end().ok_or("seen")?.value.degrees() - 20.0).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurveFit {
    static_point: Fitted<Advance>,
    scale: Option<Fitted<f64>>,
    end: Option<Fitted<CrankAngle>>,
    covariance: [[f64; 3]; 3],
    scatter: Option<f64>,
    degrees_of_freedom: usize,
}

/// A solution of one split: the static point over the printed one, the scale, the end.
#[derive(Clone, Copy, Debug)]
struct Solution {
    start: f64,
    scale: Option<f64>,
    end: Option<f64>,
    /// Of start, scale and end, with the stated uncertainties.
    covariance: [[f64; 3]; 3],
    squares: f64,
    parameters: usize,
}

impl CurveFit {
    /// Fits the readings.
    ///
    /// # Errors
    /// [`TimingError::Readings`] if they do not tell the static point: none below the table's first point
    /// and fewer than two on its rise; [`TimingError::Quantity`] if the result is out of range.
    pub fn new(readings: &CurveReadings) -> Result<Self, TimingError> {
        let rows = &readings.rows;
        let best = solutions(rows)
            .into_iter()
            .min_by(|a, b| a.squares.total_cmp(&b.squares));
        let best = best.ok_or(TimingError::Readings {
            got: rows.len(),
            needed: 3,
        })?;
        let degrees_of_freedom = rows.len().saturating_sub(best.parameters);
        let scatter =
            (degrees_of_freedom > 0).then(|| libm::sqrt(best.squares / degrees_of_freedom as f64));
        let widened = scatter.unwrap_or(1.0).max(1.0);
        let covariance = best
            .covariance
            .map(|row| row.map(|c| c * widened * widened));
        let [[start, ..], [_, scale, _], [.., end]] = covariance;
        let start_u = libm::hypot(libm::sqrt(start), CurveReadings::SHARED_U);
        let static_point = Advance::from_degrees_before(readings.static_deg + best.start)?;
        let end_value = best.end.map(CrankAngle::from_degrees).transpose()?;
        Ok(Self {
            static_point: Fitted {
                value: static_point,
                u: start_u,
            },
            scale: best.scale.map(|value| Fitted {
                value,
                u: libm::sqrt(scale),
            }),
            end: end_value.map(|value| Fitted {
                value,
                u: libm::sqrt(end),
            }),
            covariance,
            scatter,
            degrees_of_freedom,
        })
    }

    /// The static point; what all readings share ([`CurveReadings::SHARED_U`]) is in its uncertainty.
    #[must_use]
    pub const fn static_point(&self) -> Fitted<Advance> {
        self.static_point
    }

    /// How many times the printed advance it has on the rise: above 1 for springs that give way too much,
    /// below for those that hold too much; none without a reading there.
    #[must_use]
    pub const fn scale(&self) -> Option<Fitted<f64>> {
        self.scale
    }

    /// The advance where it ends; none where no reading lies there.
    #[must_use]
    pub const fn end(&self) -> Option<Fitted<CrankAngle>> {
        self.end
    }

    /// Covariance of static point (deg), scale and end (deg), without what all readings share; nought where
    /// there is no such number.
    #[must_use]
    pub const fn covariance(&self) -> [[f64; 3]; 3] {
        self.covariance
    }

    /// Scatter of the readings over their uncertainties; none if none is left over.
    #[must_use]
    pub const fn scatter(&self) -> Option<f64> {
        self.scatter
    }

    /// Readings more than the fit needs.
    #[must_use]
    pub const fn degrees_of_freedom(&self) -> usize {
        self.degrees_of_freedom
    }
}

/// Slack of a split's own border, in degrees: rounding of tables.
const BORDER: f64 = 1e-9;

/// Every solution that agrees with its own split.
fn solutions(rows: &[CurveRow]) -> Vec<Solution> {
    let free = rows.iter().filter(|r| !r.at_end).count();
    let mut found = Vec::new();
    for rise in 0..=free {
        let (rising, at_end) = rows.split_at(rise.min(rows.len()));
        let (Some(last), next) = (rising.last(), at_end.first()) else {
            continue;
        };
        let next = next.filter(|r| !r.at_end);
        // Readings that the table cannot tell apart are all on one side.
        if next.is_none_or(|next| next.middle > last.middle + BORDER)
            && let Some(one) = split(rising, at_end)
            && agrees(&one, last, next)
        {
            found.push(one);
        }
        // The border: the end is where the table stands at the last of the rising ones.
        if rise < free && last.middle > 0.0 {
            found.extend(cut_off(rows, last.middle, free));
        }
    }
    found
}

/// Whether the end lies between what the last reading on the rise and the first beyond would have.
fn agrees(one: &Solution, last: &CurveRow, next: Option<&CurveRow>) -> bool {
    let (Some(scale), Some(end)) = (one.scale, one.end) else {
        return next.is_none();
    };
    let reached = scale * last.middle;
    (next.is_none() || reached <= end + BORDER)
        && next.is_none_or(|next| end <= scale * next.middle + BORDER)
}

/// A line through the readings on the rise and a mean of those at the end.
fn split(rising: &[CurveRow], at_end: &[CurveRow]) -> Option<Solution> {
    let x: Vec<f64> = rising.iter().map(|r| r.middle).collect();
    let (line, parameters) = start_and_scale(rising, &x)?;
    let mut one = Solution {
        start: line.intercept,
        scale: (parameters == 2).then_some(line.slope),
        end: None,
        covariance: of_line(&line, &x, rising),
        squares: squares(rising, |i| {
            line.intercept + line.slope * x.get(i).copied().unwrap_or(0.0)
        }),
        parameters,
    };
    if !at_end.is_empty() {
        let (mean, variance) = mean(at_end);
        one.squares += squares(at_end, |_| mean);
        one.parameters += 1;
        one.end = Some(mean - one.start);
        let [[start, mixed, _], ..] = one.covariance;
        let [first, second, third] = &mut one.covariance;
        first[2] = -start;
        second[2] = -mixed;
        *third = [-start, -mixed, start + variance];
    }
    Some(one)
}

/// One line through the table cut off at `middle`.
fn cut_off(rows: &[CurveRow], middle: f64, free: usize) -> Option<Solution> {
    let (rows, beyond) = rows.split_at(free.min(rows.len()));
    let x: Vec<f64> = rows.iter().map(|r| r.middle.min(middle)).collect();
    if !beyond.is_empty() {
        // Readings where the table ends share the end with those cut off: no line of two numbers.
        let all: Vec<CurveRow> = rows.iter().chain(beyond).copied().collect();
        let x: Vec<f64> = x.into_iter().chain(beyond.iter().map(|_| middle)).collect();
        return bordered(&all, &x, middle);
    }
    bordered(rows, &x, middle)
}

fn bordered(rows: &[CurveRow], x: &[f64], middle: f64) -> Option<Solution> {
    let (line, parameters) = start_and_scale(rows, x)?;
    if parameters < 2 {
        return None;
    }
    let mut covariance = of_line(&line, x, rows);
    let [[_, mixed, _], [_, scale, _], _] = covariance;
    let [first, second, third] = &mut covariance;
    first[2] = middle * mixed;
    second[2] = middle * scale;
    *third = [middle * mixed, middle * scale, middle * middle * scale];
    Some(Solution {
        start: line.intercept,
        scale: Some(line.slope),
        end: Some(line.slope * middle),
        covariance,
        squares: squares(rows, |i| {
            line.intercept + line.slope * x.get(i).copied().unwrap_or(0.0)
        }),
        parameters,
    })
}

/// The line, and how many numbers it has: where all readings lie below the first point, only the start.
fn start_and_scale(rows: &[CurveRow], x: &[f64]) -> Option<(Line, usize)> {
    let y: Vec<f64> = rows.iter().map(|r| r.over).collect();
    let u: Vec<f64> = rows.iter().map(|r| r.u).collect();
    if let Ok(line) = straight_line(x, &y, &u) {
        return Some((line, 2));
    }
    if rows.is_empty() || x.iter().any(|x| *x > BORDER) {
        return None;
    }
    let (intercept, variance) = mean(rows);
    let line = Line {
        slope: 0.0,
        intercept,
        slope_u: 0.0,
        intercept_u: libm::sqrt(variance),
        residual_sd: None,
        slope_sd: None,
        intercept_sd: None,
        degrees_of_freedom: 0,
    };
    Some((line, 1))
}

/// Covariance of a line's start and scale: the mixed one is minus the mean place times the scale's.
fn of_line(line: &Line, x: &[f64], rows: &[CurveRow]) -> [[f64; 3]; 3] {
    let weight = |row: &CurveRow| 1.0 / (row.u * row.u);
    let sum: f64 = rows.iter().map(weight).sum();
    let mean_x = x.iter().zip(rows).map(|(x, r)| weight(r) * x).sum::<f64>() / sum;
    let (start, scale) = (
        line.intercept_u * line.intercept_u,
        line.slope_u * line.slope_u,
    );
    let mixed = -mean_x * scale;
    [[start, mixed, 0.0], [mixed, scale, 0.0], [0.0; 3]]
}

/// Weighted mean and its variance.
fn mean(rows: &[CurveRow]) -> (f64, f64) {
    let weight = |row: &CurveRow| 1.0 / (row.u * row.u);
    let sum: f64 = rows.iter().map(weight).sum();
    let mean = rows.iter().map(|r| weight(r) * r.over).sum::<f64>() / sum;
    (mean, 1.0 / sum)
}

fn squares(rows: &[CurveRow], at: impl Fn(usize) -> f64) -> f64 {
    let off = |(i, row): (usize, &CurveRow)| libm::pow((row.over - at(i)) / row.u, 2.0);
    rows.iter().enumerate().map(off).sum()
}
