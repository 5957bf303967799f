//! Many readings judged in one call: columns of numbers in, columns of numbers out.

use crate::clearance::rule::{RuleDoc, rule as rule_of};
use crate::clearance::specifications::{BandDoc, lash_band};
use crate::json;
use crate::place::Place;
use crate::problem::Problem;
use crate::read::Fields;
use lashwork::Refusal;
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
    let mut filled = Filled::new(&[low, high, uncertainty], OUTPUTS, out)?;
    let write = |row: usize, found: &JudgedRow, why: Option<ToleranceError>| {
        filled.write(row, found.numbers(), why.as_ref());
    };
    tolerance::judge_columns(low, high, uncertainty, &limits, &rule, write)
        .map_err(|why| vec![Problem::at("", &why)])?;
    Ok(filled.refused())
}

/// Columns that are filled row by row, one after the other in one piece, and the rows that are refused.
pub(crate) struct Filled<'o> {
    out: &'o mut [f64],
    rows: usize,
    refused: Vec<Problem>,
}

impl<'o> Filled<'o> {
    /// Room for so many numbers a row, where all columns have as many rows.
    pub(crate) fn new(
        columns: &[&[f64]],
        outputs: usize,
        out: &'o mut [f64],
    ) -> Result<Self, Vec<Problem>> {
        let rows = columns.first().map_or(0, |first| first.len());
        if columns.iter().any(|column| column.len() != rows) {
            let lengths: Vec<String> = columns.iter().map(|c| c.len().to_string()).collect();
            return Err(wrong(&lengths.join(", "), outputs, out.len()));
        }
        Self::of_rows(rows, outputs, out)
    }

    /// Room for so many numbers in each of so many rows.
    pub(crate) fn of_rows(
        rows: usize,
        outputs: usize,
        out: &'o mut [f64],
    ) -> Result<Self, Vec<Problem>> {
        if out.len() != outputs * rows {
            return Err(wrong(&rows.to_string(), outputs, out.len()));
        }
        let refused = Vec::new();
        Ok(Self { out, rows, refused })
    }

    /// Writes a row, and why it is refused if it is.
    pub(crate) fn write<const N: usize>(
        &mut self,
        row: usize,
        numbers: [f64; N],
        why: Option<&impl Refusal>,
    ) {
        let places = self.out.iter_mut().skip(row).step_by(self.rows);
        for (place, number) in places.zip(numbers) {
            *place = number;
        }
        if let Some(why) = why.filter(|_| self.refused.len() < MAX_TOLD) {
            self.refused.push(Problem::at(format!("/rows/{row}"), why));
        }
    }

    /// The first rows that were refused.
    pub(crate) fn refused(self) -> Vec<Problem> {
        self.refused
    }
}

/// Columns of such lengths do not go with that room.
fn wrong(lengths: &str, outputs: usize, room: usize) -> Vec<Problem> {
    vec![Problem::new(
        "",
        "document.wrong-length",
        format!("columns of {lengths} rows, with room for {room} numbers"),
        format!("give columns of one length, and room for {outputs} numbers a row"),
    )]
}

/// What is the same for all rows.
fn read(settings: &[u8]) -> Result<(Limits<Lash>, DecisionRule), Vec<Problem>> {
    json::read(settings, |value, problems| {
        let fields = Fields::of(value, &["limits", "rule"], &Place::Document, problems)?;
        let limits = fields.read::<BandDoc>("limits", problems);
        let rule = fields.read::<RuleDoc>("rule", problems);
        let limits = lash_band(&limits?, "/limits", problems);
        Some((limits?, rule_of(rule?)))
    })
}
