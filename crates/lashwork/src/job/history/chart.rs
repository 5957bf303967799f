//! What a page draws of a subject, without reckoning anything.

use crate::history::{ChartReading, Drift, Forecast, HistoryError, Record};
use crate::tolerance::Measurand;
use alloc::vec::Vec;
use serde::Serialize;

use super::time::Times;

/// How far ahead a chart goes, in lengths of the record.
const AHEAD: f64 = 0.5;

/// What a chart of one subject shows: times on the count of the history, values in the quantity's unit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct HistoryChartReport {
    /// What was found and left.
    pub readings: Vec<ChartReading>,
    /// The line with its band, a list of points for each stretch between settings; the last stretch goes on
    /// ahead. Empty where there is no drift.
    pub lines: Vec<Vec<Forecast>>,
}

/// Of the subject at a place of the record.
pub(super) fn chart<Q: Measurand>(
    record: &Record<Q>,
    place: usize,
    drift: Option<&Drift<Q>>,
    times: &Times,
) -> Result<HistoryChartReport, HistoryError> {
    let lines = drift.map(|drift| drift.chart_lines(place, AHEAD * drift.length()));
    Ok(HistoryChartReport {
        readings: record.chart_readings(place, times.by),
        lines: lines.transpose()?.unwrap_or_default(),
    })
}
