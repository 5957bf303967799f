//! Many readings judged in one call: columns of numbers in, columns of numbers out.

use crate::clearance::rule::{RuleDoc, rule as rule_of};
use crate::clearance::specifications::{BandDoc, lash_band};
use crate::json;
use crate::place::Place;
use crate::problem::Problem;
use crate::read::Fields;
use lashwork::quantity::Lash;
use lashwork::tolerance::{self, DecisionRule, JudgedRow, Limits, ToleranceError};

/// Numbers of a row in the output: verdict, provable, and two for each of three probabilities.
pub const OUTPUTS: usize = JudgedRow::NUMBERS;

/// Most refused rows that are told of; all are marked in the output.
const MAX_TOLD: usize = 100;

/// Judges readings against one pair of limits under one rule.
///
/// `settings` is JSON, `{"limits": {"from": "0.15 mm", "to": "0.25 mm"}, "rule": "simple"}`; both
/// are needed. `low` and `high` are the ends of each lash in millimetres, infinite where the reading
/// has no such end; `uncertainty` is the standard uncertainty of the ends, in millimetres. `out`
/// takes [`OUTPUTS`] columns one after the other: the verdict (0 refused, 1 in band, 2 below,
/// 3 above, 4 cannot say), 1 or 0 for provable, then least and most of below, in band and above:
/// [`judge_columns`](lashwork::tolerance::judge_columns).
///
/// The list names the first 100 rows that are refused, at places such as `/rows/17`; their verdict is
/// 0 and their probabilities are not numbers.
///
/// # Errors
/// Every [`Problem`] of the settings, and columns of unequal lengths; `out` is then untouched.
///
/// ```
/// let settings = br#"{ "limits": { "from": "0.15 mm" }, "rule": "simple" }"#;
/// let (low, high) = ([0.10, 0.16, 0.3], [0.12, f64::INFINITY, 0.2]);
/// let mut out = [0.0; 3 * lashwork_wire::OUTPUTS];
/// let refused = lashwork_wire::judge_columns(settings, &low, &high, &[0.001; 3], &mut out)
///     .map_err(|problems| format!("{problems:?}"))?;
/// assert_eq!(out[..3], [2.0, 1.0, 0.0]);
/// assert_eq!((refused[0].place.as_str(), refused[0].code.as_str()),
///     ("/rows/2", "tolerance.crossed-estimate"));
/// # Ok::<(), String>(())
/// ```
pub fn judge_columns(
    settings: &[u8],
    low: &[f64],
    high: &[f64],
    uncertainty: &[f64],
    out: &mut [f64],
) -> Result<Vec<Problem>, Vec<Problem>> {
    let (limits, rule) = read(settings)?;
    let rows = low.len();
    if high.len() != rows || uncertainty.len() != rows || out.len() != OUTPUTS * rows {
        let (high, u, out) = (high.len(), uncertainty.len(), out.len());
        return Err(vec![Problem::new(
            "",
            "document.wrong-length",
            format!("columns of {rows}, {high} and {u} rows, with room for {out} numbers"),
            format!("give columns of one length, and room for {OUTPUTS} numbers a row"),
        )]);
    }
    let mut refused = Vec::new();
    let write = |row: usize, found: &JudgedRow, why: Option<ToleranceError>| {
        let places = out.iter_mut().skip(row).step_by(rows);
        for (place, number) in places.zip(found.numbers()) {
            *place = number;
        }
        if let Some(why) = why.filter(|_| refused.len() < MAX_TOLD) {
            refused.push(problem(&format!("/rows/{row}"), &why));
        }
    };
    tolerance::judge_columns(low, high, uncertainty, &limits, &rule, write)
        .map_err(|why| vec![problem("", &why)])?;
    Ok(refused)
}

fn problem(place: &str, why: &ToleranceError) -> Problem {
    Problem::at(place, why)
}

/// What is the same for all rows.
fn read(settings: &[u8]) -> Result<(Limits<Lash>, DecisionRule), Vec<Problem>> {
    let mut problems = Vec::new();
    let limits_and_rule = json::parse(settings, &mut problems).and_then(|value| {
        let fields = Fields::of(&value, &["limits", "rule"], &Place::Document, &mut problems)?;
        let limits = fields.read::<BandDoc>("limits", &mut problems);
        let rule = fields.read::<RuleDoc>("rule", &mut problems);
        let limits = lash_band(&limits?, "/limits", &mut problems);
        Some((limits?, rule_of(rule?)))
    });
    problems.sort();
    problems.dedup();
    limits_and_rule
        .filter(|_| problems.is_empty())
        .ok_or(problems)
}
