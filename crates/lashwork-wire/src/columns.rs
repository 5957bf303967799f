//! Many readings judged in one call: columns of numbers in, columns of numbers out.

use crate::clearance::rule::{RuleDoc, rule as rule_of};
use crate::clearance::specifications::{BandDoc, band};
use crate::json;
use crate::place::Place;
use crate::problem::Problem;
use crate::read::Fields;
use lashwork::quantity::Lash;
use lashwork::tolerance::{
    BandJudge, DecisionRule, Estimate, Judgement, Limits, Uncertainty, Verdict,
};

/// Numbers of a row in the output: verdict, provable, and two for each of three probabilities.
pub const OUTPUTS: usize = 8;

/// Most refused rows that are told of; all are marked in the output.
const MAX_TOLD: usize = 100;

/// What stands in the first column.
const REFUSED: f64 = 0.0;

/// Judges readings against one pair of limits under one rule.
///
/// `settings` is JSON, `{"limits": {"from": "0.15 mm", "to": "0.25 mm"}, "rule": "simple"}`; both
/// are needed. `low` and `high` are the ends of each lash in millimetres, infinite where the reading
/// has no such end; `uncertainty` is the standard uncertainty of the ends, in millimetres. `out`
/// takes [`OUTPUTS`] columns one after the other: the verdict (0 refused, 1 in band, 2 tight,
/// 3 loose, 4 cannot say), 1 or 0 for provable, then least and most of tight, in band and loose.
/// Each row is judged as [`BandJudge`] does it.
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
    let mut band = BandJudge::new(&limits, &rule);
    let ends = low.iter().zip(high).zip(uncertainty);
    for (row, ((low, high), u)) in ends.enumerate() {
        let numbers = match estimate(*low, *high, *u) {
            Ok(estimate) => row_of(band.judge(&estimate)),
            Err(problem) => {
                if refused.len() < MAX_TOLD {
                    refused.push(Problem {
                        place: format!("/rows/{row}"),
                        ..problem
                    });
                }
                let nothing = f64::NAN;
                [
                    REFUSED, 0.0, nothing, nothing, nothing, nothing, nothing, nothing,
                ]
            }
        };
        let places = out.iter_mut().skip(row).step_by(rows);
        for (place, number) in places.zip(numbers) {
            *place = number;
        }
    }
    Ok(refused)
}

/// What is the same for all rows.
fn read(settings: &[u8]) -> Result<(Limits<Lash>, DecisionRule), Vec<Problem>> {
    let mut problems = Vec::new();
    let limits_and_rule = json::parse(settings, &mut problems).and_then(|value| {
        let fields = Fields::of(&value, &["limits", "rule"], &Place::Document, &mut problems)?;
        let limits = fields.read::<BandDoc>("limits", &mut problems);
        let rule = fields.read::<RuleDoc>("rule", &mut problems);
        let limits = band(&limits?, "/limits", &mut problems);
        Some((limits?, rule_of(rule?)))
    });
    problems.sort();
    problems.dedup();
    limits_and_rule
        .filter(|_| problems.is_empty())
        .ok_or(problems)
}

fn estimate(low: f64, high: f64, u: f64) -> Result<Estimate<Lash>, Problem> {
    let of = |mm: f64| Lash::from_mm(mm).map_err(|e| Problem::at("", &e));
    let u = Uncertainty::from_mm(u).map_err(|e| Problem::at("", &e))?;
    match (low == f64::NEG_INFINITY, high == f64::INFINITY) {
        (false, false) => {
            Estimate::between(of(low)?, of(high)?, u).map_err(|e| Problem::at("", &e))
        }
        (false, true) => Ok(Estimate::at_least(of(low)?, u)),
        (true, false) => Ok(Estimate::at_most(of(high)?, u)),
        (true, true) => Err(Problem::new(
            "",
            "job.empty-reading",
            "the reading bounds the gap on neither side",
            "name a leaf that goes or one that does not",
        )),
    }
}

fn row_of(found: Judgement) -> [f64; OUTPUTS] {
    let verdict = match found.verdict {
        Verdict::InBand => 1.0,
        Verdict::Below => 2.0,
        Verdict::Above => 3.0,
        _ => 4.0,
    };
    let [tight, tight_most, in_band, in_band_most, loose, loose_most] = found.probabilities.ends();
    [
        verdict,
        f64::from(u8::from(found.provable)),
        tight,
        tight_most,
        in_band,
        in_band_most,
        loose,
        loose_most,
    ]
}
