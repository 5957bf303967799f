//! What a chart of a subject shows: its readings, and the line with its band through them and ahead.

use super::answer::Forecast;
use super::course::Reading;
use super::drift::Drift;
use super::{CountedBy, HistoryError, Record};
use crate::tolerance::{Estimate, Measurand};
use alloc::vec::Vec;
use serde::Serialize;

/// Steps of a line through what was seen, and of one ahead.
const STEPS: u32 = 6;

/// How many standard uncertainties hold 97.5 % on one side (JCGM 100:2008, table G.1).
const REACH: f64 = 1.960;

/// A reading on a chart, in the quantity's number over the unit of the count.
///
/// ```
/// use lashwork::history::ChartReading;
/// let goes = ChartReading {
///     at: 412.5, service: 0, is_left: false, low: Some(0.12), high: None, from: Some(0.11), to: None,
/// };
/// assert!(goes.from < goes.low);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ChartReading {
    /// When.
    pub at: f64,
    /// In which service, from 0.
    pub service: usize,
    /// Whether it was left so; else it was found.
    pub is_left: bool,
    /// As read, the lower end; nothing where that is open.
    pub low: Option<f64>,
    /// The upper end, likewise.
    pub high: Option<f64>,
    /// No less than this, with 97.5 %.
    pub from: Option<f64>,
    /// No more than this, with 97.5 %.
    pub to: Option<f64>,
}

impl<Q: Measurand> Record<Q> {
    /// What was found and left of a subject, in the order of time; what is not counted so is left out.
    ///
    /// ```
    /// use lashwork::history::{CountedBy, Record, Service, Subject, Used, Visit};
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::Estimate;
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let mut record = Record::<Lash>::new("barn engine", vec![Subject::new("1 exhaust", "exhaust")])?;
    /// record.push(Service {
    ///     engine: "barn engine".into(),
    ///     used: Used::default().hours(50.0)?,
    ///     visits: vec![(0, Visit::found(Estimate::from_numbers(0.30, 0.32, 0.01)?))],
    /// })?;
    /// let seen = record.chart_readings(0, CountedBy::Hours);
    /// assert_eq!((seen[0].low, seen[0].high), (Some(0.30), Some(0.32)));
    /// assert!((seen[0].to.unwrap_or_default() - 0.3396).abs() < 1e-4);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    #[must_use]
    pub fn chart_readings(&self, subject: usize, by: CountedBy) -> Vec<ChartReading> {
        let mut all = Vec::new();
        for (service, told) in self.services().iter().enumerate() {
            let mut visits = told.visits.iter();
            let visit = visits.find(|(own, _)| *own == subject);
            let (Some(at), Some((_, visit))) = (told.used.count(by), visit) else {
                continue;
            };
            let left_at = visit.left_at.and_then(|used| used.count(by));
            for (estimate, at, is_left) in [
                (&visit.found, at, false),
                (&visit.left, left_at.unwrap_or(at), true),
            ] {
                if let Some(estimate) = estimate {
                    all.push(shown(estimate, at, service, is_left));
                }
            }
        }
        all
    }
}

fn shown<Q: Measurand>(
    estimate: &Estimate<Q>,
    at: f64,
    service: usize,
    is_left: bool,
) -> ChartReading {
    let (low, high) = (
        estimate.low().map(Measurand::number),
        estimate.high().map(Measurand::number),
    );
    let reach = estimate.normal_uncertainty().number() * REACH;
    ChartReading {
        at,
        service,
        is_left,
        low,
        high,
        from: low.map(|low| low - reach),
        to: high.map(|high| high + reach),
    }
}

impl<Q: Measurand> Drift<Q> {
    /// The line of a subject with its band, a list of points for each stretch between settings whose level is
    /// known; the last one goes on behind the end of the record by `ahead`, in the unit of the count.
    ///
    /// # Errors
    /// [`HistoryError::NoSubject`], [`HistoryError::At`] for an `ahead` that is negative or not finite.
    ///
    /// ```
    /// use lashwork::history::{
    ///     DriftAnswer, DriftChoice, Record, Service, Subject, Used, Visit, drift,
    /// };
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::Estimate;
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let mut record = Record::<Lash>::new("barn engine", vec![Subject::new("1 exhaust", "exhaust")])?;
    /// for (hours, mm) in [(0.0, 0.300), (50.0, 0.281), (100.0, 0.262), (150.0, 0.239)] {
    ///     record.push(Service {
    ///         engine: "barn engine".into(),
    ///         used: Used::default().hours(hours)?,
    ///         visits: vec![(0, Visit::found(Estimate::from_numbers(mm, mm, 0.0)?))],
    ///     })?;
    /// }
    /// let DriftAnswer::Fitted(drift) = drift(&record, "exhaust", &DriftChoice::default())? else {
    ///     return Err("four readings are enough".into());
    /// };
    /// let lines = drift.chart_lines(0, 50.0)?;
    /// let (first, last) = (lines[0].first().ok_or("empty")?, lines[0].last().ok_or("empty")?);
    /// assert_eq!((first.at, last.at), (0.0, 200.0));
    /// assert!(last.found.high - last.found.low > last.line.high - last.line.low);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn chart_lines(
        &self,
        subject: usize,
        ahead: f64,
    ) -> Result<Vec<Vec<Forecast>>, HistoryError> {
        let Some(member) = self.member(subject) else {
            return Err(HistoryError::NoSubject {
                service: 0,
                subject,
                count: self.members.len(),
            });
        };
        if !(ahead >= 0.0 && ahead.is_finite()) {
            return Err(HistoryError::At {
                got: self.end + ahead,
                from: self.end,
            });
        }
        let mut lines = Vec::new();
        let count = member.course.stretches.len();
        let known = member.course.stretches.iter().enumerate();
        let known = known.filter(|(_, stretch)| stretch.has_level());
        for (place, (at, stretch)) in known.enumerate() {
            let time = |reading: Option<&Reading>| reading.map_or(self.end, |reading| reading.at);
            let from = time(stretch.readings.first());
            let mut times = Vec::from([from]);
            if at + 1 == count {
                steps(&mut times, self.end);
                steps(&mut times, self.end + ahead);
            } else {
                steps(&mut times, time(stretch.readings.last()));
            }
            let points = times.into_iter().map(|at| {
                let (line, found) = self.at(member, place, at);
                Forecast::of(at, &line, &found)
            });
            lines.push(points.collect());
        }
        Ok(lines)
    }
}

/// On in equal steps to a time, if that lies ahead; to the last bit at it.
fn steps(times: &mut Vec<f64>, to: f64) {
    let Some(from) = times.last().copied().filter(|from| *from < to) else {
        return;
    };
    let step = (to - from) / f64::from(STEPS);
    times.extend((1..STEPS).map(|i| from + step * f64::from(i)));
    times.push(to);
}
