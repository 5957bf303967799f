//! What a page draws of a subject, without reckoning anything.

use super::time::Times;
use crate::history::{ChartReading, Drift, Figure, Forecast, HistoryError, Record};
use crate::tolerance::HasLimits;
use alloc::vec::Vec;
use serde::Serialize;

/// How far ahead a chart goes, in lengths of the record.
const AHEAD: f64 = 0.5;

/// What a chart of one subject shows, in the units that the words beside it are in.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct HistoryChartReport {
    /// What the values are in: `mm`, `in`, `deg`, `mm2`, or the unit of the gauge, such as `psi`.
    pub value_unit: &'static str,
    /// What the times are in: `h`, `km`, `mi`, or `d` since 1 January 1970.
    pub time_unit: &'static str,
    /// What was found and left.
    pub readings: Vec<ChartReading>,
    /// The line with its band, a list of points for each stretch between settings; the last stretch goes on
    /// ahead. Empty where there is no drift.
    pub lines: Vec<Vec<Forecast>>,
    /// The ends of the limits that it is held against.
    pub limits: Vec<f64>,
}

/// Of the subject at a place of the record, held against the limits given; `value` is how many of the quantity's
/// unit one is in which it is said, and its symbol.
pub(super) fn chart<Q: HasLimits>(
    record: &Record<Q>,
    place: usize,
    drift: Option<&Drift<Q>>,
    value: (f64, &'static str),
    times: &Times,
    limits: Vec<f64>,
) -> Result<HistoryChartReport, HistoryError> {
    let lines = drift.map(|drift| drift.chart_lines(place, AHEAD * drift.length()));
    let (value, value_unit) = value;
    let (time, time_unit) = times.unit();
    let mut chart = HistoryChartReport {
        value_unit,
        time_unit,
        readings: record.chart_readings(place, times.by),
        lines: lines.transpose()?.unwrap_or_default(),
        limits,
    };
    chart.scale(value, time);
    Ok(chart)
}

impl HistoryChartReport {
    /// To units of which one is so many of those that the numbers are in.
    fn scale(&mut self, value: f64, time: f64) {
        let scale = |number: &mut f64| *number /= value;
        let scale_figure = |figure: &mut Figure| {
            let Figure {
                value,
                standard_uncertainty,
                low,
                high,
            } = figure;
            for number in [value, standard_uncertainty, low, high] {
                scale(number);
            }
        };
        for read in &mut self.readings {
            read.at /= time;
            let ends = [&mut read.low, &mut read.high, &mut read.from, &mut read.to];
            ends.into_iter().flatten().for_each(scale);
        }
        for point in self.lines.iter_mut().flatten() {
            point.at /= time;
            scale_figure(&mut point.line);
            scale_figure(&mut point.found);
        }
        self.limits.iter_mut().for_each(scale);
    }
}
