//! The drift of many valves in one call: columns of numbers in, columns of numbers out.

use crate::clearance::rule::{RuleDoc, rule};
use crate::clearance::specifications::{BandDoc, lash_band};
use crate::columns::Filled;
use crate::json;
use crate::place::Place;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::read::Read;
use crate::word::W;
use lashwork::history::{
    CountedBy, DriftChoice, DriftRow, HistoryError, PastReadings, PastState, Reset, Used,
    drift_columns as drifts,
};
use lashwork::quantity::{Lash, Length};
use lashwork::tolerance::Uncertainty;

/// Numbers of a row in the output of [`drift_columns`]: rate, its standard uncertainty, when to look, the time.
pub const DRIFT_OUTPUTS: usize = 4;

parts! {
    /// What all valves share.
    DriftsDoc {
        /// What a lash should be.
        limits: BandDoc,
        /// How certain that must be.
        rule: RuleDoc,
        /// What time is counted by.
        counted_by: W<CountedBy>,
        /// How long new parts bed in, as in 20 h or 500 km; up to the first reading after them if not stated.
        bedding_in: Option<String>,
        /// How far readings of one state scatter from service to service; seen from the readings if not stated.
        scatter: Option<Q<Length>>,
    }
}

/// What was read, a reading a row.
#[derive(Clone, Copy, Debug)]
pub struct DriftReadings<'c> {
    /// When, in the unit of the count; days since 1 January 1970.
    pub at: &'c [f64],
    /// Lower ends in millimetres; minus infinity where there is none.
    pub low: &'c [f64],
    /// Upper ends in millimetres; infinity where there is none.
    pub high: &'c [f64],
    /// Standard uncertainties of the ends.
    pub uncertainty: &'c [f64],
    /// Which valve, from 0; rows of a valve together, in the order of time.
    pub valve: &'c [f64],
    /// 1 as found, 2 as left after setting, 3 as left after new parts; empty if all were found.
    pub state: &'c [f64],
}

/// The drift of many valves, each by its own readings alone, and when to look at each next.
///
/// `settings` is JSON, `{"limits": {"from": "0.15 mm", "to": "0.30 mm"}, "rule": "guarded_tight", "counted_by":
/// "hours"}`, all needed, and `bedding_in` and `scatter` where they are known. `out` takes [`DRIFT_OUTPUTS`] columns
/// one after the other, and with their length says how many valves there are: the rate in millimetres for a unit of the
/// count, its standard uncertainty, when to look (0 refused, 1 now, 2 at the time, 3 not before it, 4 not known, 5 too
/// few readings), and that time: [`drift_columns`](lashwork::history::drift_columns).
///
/// The list names the first 100 valves that are refused, at places such as `/rows/17`; their numbers are none.
///
/// # Errors
/// Every [`Problem`] of the settings, columns of unequal lengths, rows that do not stand together; `out` is then
/// untouched.
///
/// ```
/// let settings = br#"{ "limits": { "from": "0.20 mm" }, "rule": "guarded_tight", "counted_by": "hours" }"#;
/// let mm = [0.300, 0.281, 0.262, 0.239];
/// let readings = lashwork_wire::DriftReadings {
///     at: &[0.0, 50.0, 100.0, 150.0], low: &mm, high: &mm, uncertainty: &[0.0; 4],
///     valve: &[0.0; 4], state: &[],
/// };
/// let mut out = [9.0; lashwork_wire::DRIFT_OUTPUTS];
/// let refused = lashwork_wire::drift_columns(settings, &readings, &mut out)
///     .map_err(|problems| format!("{problems:?}"))?;
/// assert!(refused.is_empty() && (out[0] + 0.000404).abs() < 1e-6);
/// assert!(out[2] == 2.0 && out[3] > 210.0 && out[3] < 240.0);
/// # Ok::<(), String>(())
/// ```
pub fn drift_columns(
    settings: &[u8],
    readings: &DriftReadings<'_>,
    out: &mut [f64],
) -> Result<Vec<Problem>, Vec<Problem>> {
    let doc: DriftsDoc = json::read(settings, |json, problems| {
        Read::read(json, &Place::Document, problems)
    })?;
    let (by, mut problems) = (doc.counted_by.0, Vec::new());
    let limits = lash_band(&doc.limits, "/limits", &mut problems);
    let bedding_in = doc.bedding_in.map(|text| {
        let shown = Used::default().shown(&text);
        let count = shown.and_then(|used| used.count(by).ok_or(HistoryError::Meter { text }));
        value(&mut problems, "/bedding_in", count)
    });
    let scatter = doc.scatter.map(|scatter| {
        let u = Uncertainty::from_mm(scatter.0.mm());
        value(&mut problems, "/scatter", u)
    });
    let valve: Option<Vec<u32>> = whole("valve", readings.valve, &mut problems);
    let state = states(readings.state, &mut problems);
    let (Some(limits), Some(valve), Some(state), true) =
        (limits, valve, state, problems.is_empty())
    else {
        return Err(problems);
    };
    let valves = out.len() / DRIFT_OUTPUTS;
    let mut filled = Filled::of_rows(valves, DRIFT_OUTPUTS, out)?;
    let past = PastReadings {
        by,
        at: readings.at,
        low: readings.low,
        high: readings.high,
        u: readings.uncertainty,
        subject: Some(&valve),
        state: (!state.is_empty()).then_some(&state),
    };
    let choice = DriftChoice::<Lash> {
        counted_by: Some(by),
        bedding_in: bedding_in.flatten(),
        scatter: scatter.flatten(),
    };
    let write = |row, found: &DriftRow, why: Option<HistoryError>| {
        let look = f64::from(found.look_number());
        filled.write(row, [found.rate, found.u, look, found.at], why.as_ref());
    };
    drifts(&past, valves, &limits, &rule(doc.rule), &choice, write)
        .map_err(|why| vec![Problem::at("", &why)])?;
    Ok(filled.refused())
}

/// Numbers that are whole and not negative.
fn whole(name: &str, column: &[f64], problems: &mut Vec<Problem>) -> Option<Vec<u32>> {
    let one = |(row, number): (usize, &f64)| {
        let is_whole = number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(number);
        if !is_whole {
            let (place, got) = (
                format!("/{name}/{row}"),
                format!("{number} is no whole number"),
            );
            problems.push(Problem::new(
                place,
                "document.unknown-value",
                got,
                "give whole numbers from 0",
            ));
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole and in range"
        )]
        Some(*number as u32)
    };
    column.iter().enumerate().map(one).collect()
}

fn states(column: &[f64], problems: &mut Vec<Problem>) -> Option<Vec<PastState>> {
    let numbers = whole("state", column, problems)?;
    let one = |(row, number): (usize, &u32)| match number {
        1 => Some(PastState::Found),
        2 => Some(PastState::Left(Reset::Set)),
        3 => Some(PastState::Left(Reset::Renewed)),
        other => {
            problems.push(Problem::new(
                format!("/state/{row}"),
                "document.unknown-value",
                format!("{other} is no state of a reading"),
                "give 1 as found, 2 as left after setting, 3 as left after new parts",
            ));
            None
        }
    };
    numbers.iter().enumerate().map(one).collect()
}
