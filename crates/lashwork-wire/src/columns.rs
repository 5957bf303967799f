//! Many readings judged in one call: columns of numbers in, columns of numbers out.

use crate::clearance::rule::{RuleDoc, rule as rule_of};
use crate::clearance::specifications::{BandDoc, lash_band};
use crate::json;
use crate::place::Place;
use crate::problem::Problem;
use crate::quantity::Q;
use crate::read::Read;
use lashwork::Refusal;
use lashwork::clearance::{
    self, MetalColumns, ROWS_AT_ONCE, ReadingColumns, ReadingRow, ReadingRows,
};
use lashwork::quantity::{Temperature, TemperatureDifference};
use lashwork::tolerance::{Column, DecisionRule};

/// Numbers of a row in the output: verdict, provable, two for each of three probabilities, both ends with
/// their uncertainty, and whether they are at the reference.
pub const OUTPUTS: usize = ReadingRow::NUMBERS;

/// Most refused rows that are told of; all are marked in the output.
const MAX_TOLD: usize = 100;

parts! {
    /// What all readings share.
    ReadingsDoc {
        /// What a lash should be; may be left out where each row has limits.
        limits: Option<BandDoc>,
        /// How certain that must be.
        rule: RuleDoc,
        /// How warm the metal was, and how the lash follows; what a column says of each row is left out.
        warmth: Option<WarmthDoc>,
    }
    /// How warm the metal of all readings was, and how the lash follows.
    WarmthDoc {
        /// Temperature of the metal.
        at: Option<Q<Temperature>>,
        /// Its standard uncertainty.
        at_uncertainty: Option<Q<TemperatureDifference>>,
        /// Temperature at which the limits hold.
        reference: Option<Q<Temperature>>,
        /// Change of lash in millimetres for a kelvin, positive if warmth opens the gap.
        mm_per_kelvin: Option<f64>,
        /// Its standard uncertainty.
        mm_per_kelvin_uncertainty: Option<f64>,
    }
}

/// Readings of lash, one a row. From `lower` on a column may be empty: then the settings say it of all rows.
#[derive(Clone, Copy, Debug, Default)]
pub struct LashReadings<'c> {
    /// Lower ends in millimetres; minus infinity where there is none.
    pub low: &'c [f64],
    /// Upper ends in millimetres; infinity where there is none.
    pub high: &'c [f64],
    /// Standard uncertainties of the ends, in millimetres.
    pub uncertainty: &'c [f64],
    /// Lower limits in millimetres; not finite where there is none.
    pub lower: &'c [f64],
    /// Upper limits in millimetres, likewise.
    pub upper: &'c [f64],
    /// Temperatures of the metal in degrees Celsius; not a number where it was not taken.
    pub at: &'c [f64],
    /// Standard uncertainties of these, in kelvin.
    pub at_uncertainty: &'c [f64],
    /// Temperatures at which the limits hold, in degrees Celsius.
    pub reference: &'c [f64],
    /// Changes of lash in millimetres for a kelvin; not a number where nothing says how it follows.
    pub mm_per_kelvin: &'c [f64],
    /// Standard uncertainties of these.
    pub mm_per_kelvin_uncertainty: &'c [f64],
}

/// A column, or what is said of all rows.
fn column<'c>(each: &'c [f64], all: Column<'c>) -> Column<'c> {
    if each.is_empty() {
        all
    } else {
        Column::Each(each)
    }
}

impl<'c> LashReadings<'c> {
    /// With what the settings say of all rows, and the rule.
    fn asked(&self, settings: &[u8]) -> Result<(ReadingColumns<'c>, DecisionRule), Vec<Problem>> {
        let doc: ReadingsDoc = json::read(settings, |json, problems| {
            Read::read(json, &Place::Document, problems)
        })?;
        Ok((self.with(&doc)?, rule_of(doc.rule)))
    }

    /// With what the settings say of all rows.
    fn with(&self, doc: &ReadingsDoc) -> Result<ReadingColumns<'c>, Vec<Problem>> {
        let [mut lower, mut upper] = [Column::NONE; 2];
        if doc.limits.is_some() || self.lower.is_empty() && self.upper.is_empty() {
            let (mut problems, unstated) = (
                Vec::new(),
                BandDoc {
                    from: None,
                    to: None,
                },
            );
            let doc = doc.limits.as_ref().unwrap_or(&unstated);
            let limits = lash_band(doc, "/limits", &mut problems).ok_or(problems)?;
            [lower, upper] = limits.as_columns();
        }
        Ok(ReadingColumns {
            rows: self.low.len(),
            low: Column::Each(self.low),
            high: Column::Each(self.high),
            uncertainty: Column::Each(self.uncertainty),
            lower: column(self.lower, lower),
            upper: column(self.upper, upper),
            metal: self.metal(doc.warmth.as_ref()),
        })
    }

    fn metal(&self, doc: Option<&WarmthDoc>) -> Option<MetalColumns<'c>> {
        let columns = [
            self.at,
            self.at_uncertainty,
            self.reference,
            self.mm_per_kelvin,
            self.mm_per_kelvin_uncertainty,
        ];
        if doc.is_none() && columns.iter().all(|column| column.is_empty()) {
            return None;
        }
        let all = |number: fn(&WarmthDoc) -> Option<f64>| {
            doc.and_then(number).map_or(Column::NONE, Column::All)
        };
        let [
            at,
            at_uncertainty,
            reference,
            mm_per_kelvin,
            mm_per_kelvin_uncertainty,
        ] = columns;
        Some(MetalColumns {
            celsius: column(at, all(|doc| Some(doc.at.as_ref()?.0.celsius()))),
            uncertainty: column(
                at_uncertainty,
                all(|doc| Some(doc.at_uncertainty.as_ref()?.0.kelvin())),
            ),
            reference: column(
                reference,
                all(|doc| Some(doc.reference.as_ref()?.0.celsius())),
            ),
            mm_per_kelvin: column(mm_per_kelvin, all(|doc| doc.mm_per_kelvin)),
            mm_per_kelvin_uncertainty: column(
                mm_per_kelvin_uncertainty,
                all(|doc| doc.mm_per_kelvin_uncertainty),
            ),
        })
    }
}

/// Judges readings, each brought to the temperature of its limits, under one rule.
///
/// `settings` is JSON, `{"limits": {"from": "0.15 mm", "to": "0.25 mm"}, "rule": "simple", "warmth": {"at": "60 C",
/// "at_uncertainty": "2 K", "reference": "20 C", "mm_per_kelvin": 0.001, "mm_per_kelvin_uncertainty": 0.0002}}`:
/// what holds for all rows. The rule is needed, and limits here or in the columns; without `warmth` and its columns
/// the readings are taken to be at the temperature at which the limits hold. `out` takes [`OUTPUTS`] columns one
/// after the other: the verdict (0 refused, 1 in band, 2 below, 3 above, 4 cannot say), 1 or 0 for provable, least
/// and most of below, in band and above, then the ends at the temperature of the limits with their standard
/// uncertainty, and 1 or 0 for whether they are at it: [`judge_columns`](lashwork::clearance::judge_columns).
///
/// The list names the first 100 rows that are refused, at places such as `/rows/17`; their verdict is
/// 0 and their other numbers are none.
///
/// # Errors
/// Every [`Problem`] of the settings, and columns of unequal lengths; `out` is then untouched.
///
/// ```
/// use lashwork_wire::{LashReadings, OUTPUTS, judge_columns};
/// let settings = br#"{ "limits": { "from": "0.15 mm" }, "rule": "simple", "warmth": { "at_uncertainty": "2 K",
///     "reference": "20 C", "mm_per_kelvin": 0.001, "mm_per_kelvin_uncertainty": 0 } }"#;
/// let readings = LashReadings {
///     low: &[0.10, 0.16, 0.3, 0.18],
///     high: &[0.12, f64::INFINITY, 0.2, 0.19],
///     uncertainty: &[0.001; 4],
///     at: &[20.0, 20.0, 20.0, 70.0],
///     ..LashReadings::default()
/// };
/// let mut out = [0.0; 4 * OUTPUTS];
/// let refused = judge_columns(settings, &readings, &mut out)
///     .map_err(|problems| format!("{problems:?}"))?;
/// assert_eq!(out[..4], [2.0, 1.0, 0.0, 2.0]);
/// assert!((out[8 * 4 + 3] - 0.13).abs() < 1e-12);
/// assert_eq!((refused[0].place.as_str(), refused[0].code.as_str()),
///     ("/rows/2", "tolerance.crossed-estimate"));
/// # Ok::<(), String>(())
/// ```
#[inline]
pub fn judge_columns(
    settings: &[u8],
    readings: &LashReadings<'_>,
    out: &mut [f64],
) -> Result<Vec<Problem>, Vec<Problem>> {
    let (columns, rule) = readings.asked(settings)?;
    let given = [readings.low, readings.high, readings.uncertainty];
    let mut filled = Filled::new(&given, OUTPUTS, out)?;
    let judged = clearance::judge_columns(&columns, &rule, |rows| filled.write_rows(rows));
    judged.map_err(|why| vec![Problem::at("", &why)])?;
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
    #[inline]
    pub(crate) fn write<const N: usize>(
        &mut self,
        row: usize,
        numbers: [f64; N],
        why: Option<&impl Refusal>,
    ) {
        let mut at = row;
        for number in numbers {
            if let Some(place) = self.out.get_mut(at) {
                *place = number;
            }
            at += self.rows;
        }
        if let Some(why) = why {
            self.refuse(row, why);
        }
    }

    /// Writes rows of readings in the order of [`ReadingRow::numbers`].
    #[inline]
    fn write_rows(&mut self, rows: &ReadingRows<'_>) {
        let [a, b, c, d, e, f] = rows.probabilities;
        let columns = [
            &rows.verdict.map(f64::from),
            &rows.provable.map(|is| f64::from(u8::from(is))),
            a,
            b,
            c,
            d,
            e,
            f,
            rows.low,
            rows.high,
            rows.u,
            &rows.at_reference.map(|is| f64::from(u8::from(is))),
        ];
        let mut at = rows.from;
        for column in columns {
            let rest = self.out.get_mut(at..).unwrap_or_default();
            match rest.first_chunk_mut() {
                Some(whole) if rows.count == ROWS_AT_ONCE => *whole = *column,
                _ => {
                    for (place, number) in rest.iter_mut().zip(column).take(rows.count) {
                        *place = *number;
                    }
                }
            }
            at += self.rows;
        }
        for (row, why) in rows.refused {
            self.refuse(*row, why);
        }
    }

    #[cold]
    fn refuse(&mut self, row: usize, why: &impl Refusal) {
        if self.refused.len() < MAX_TOLD {
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
