//! Questions of the ignition that need no engine, each by itself: numbers and verdicts out.

mod advance;
mod coil;
mod dwell;
mod found;
mod point;

use crate::answer::told;
use crate::json;
use crate::place::Place;
use crate::problem::Problem;
use crate::read::Read;
use advance::{AdvanceCheckDoc, AdvanceFound};
use coil::{CoilCheckDoc, CoilFound, WindingCheckDoc, WindingFound};
use dwell::{DwellCheckDoc, DwellFound, SparkShiftCheckDoc, SparkShiftFound};
use found::Taken;
use point::{PointCheckDoc, PointFound};
use serde::Serialize;

parts! {
    /// Questions of the ignition that need no engine; each is answered by itself.
    IgnitionCheckDoc {
        /// Dwell on every scale, against the book, and the gap that goes with it.
        dwell: Option<DwellCheckDoc>,
        /// How far the spark moves with a change of dwell.
        spark_shift: Option<SparkShiftCheckDoc>,
        /// One ignition point by every tool.
        point: Option<PointCheckDoc>,
        /// A resistance at the book's temperature.
        winding: Option<WindingCheckDoc>,
        /// What a coil holds when the contacts open.
        coil: Option<CoilCheckDoc>,
        /// The advance at a speed, and a strobe reading brought to what the book prints.
        advance: Option<AdvanceCheckDoc>,
    }
}

/// The answer to each question that was asked.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct IgnitionCheckReport {
    /// Dwell and gap.
    dwell: Option<DwellFound>,
    /// How far the spark moves.
    spark_shift: Option<SparkShiftFound>,
    /// The point by every tool.
    point: Option<PointFound>,
    /// The resistance.
    winding: Option<WindingFound>,
    /// The coil.
    coil: Option<CoilFound>,
    /// The advance.
    advance: Option<AdvanceFound>,
    /// What was taken because nobody stated it.
    assumptions: Vec<Taken>,
}

/// Answers questions of the ignition that need no engine with JSON: `{"ignition": ...}` or
/// `{"problems": [...]}`.
///
/// ```
/// let check = br#"{ "dwell": { "lobes": 4, "reading": { "shows": "66 %", "uncertainty": "1 deg" },
///     "limits": { "from": "57 deg", "to": "63 deg" } } }"#;
/// let answer = String::from_utf8(lashwork_wire::ignition_check(check))?;
/// assert!(answer.starts_with(r#"{"ignition":{"dwell":{"reading":{"value":{"deg":59.4}"#));
/// assert!(answer.contains(r#""verdict":"in_band""#));
///
/// let refused = br#"{ "dwell": { "lobes": 8, "reading": { "shows": "50 deg", "uncertainty": "1 deg" } } }"#;
/// let answer = String::from_utf8(lashwork_wire::ignition_check(refused))?;
/// assert!(answer.contains("ignition.dwell-beyond-pitch") && answer.contains("/dwell/reading"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
pub fn ignition_check(check: &[u8]) -> Vec<u8> {
    told("ignition", report(check))
}

fn report(check: &[u8]) -> Result<IgnitionCheckReport, Vec<Problem>> {
    json::read(check, |json, problems| {
        let doc = IgnitionCheckDoc::read(json, &Place::Document, problems)?;
        Some(answered(doc, problems))
    })
}

fn answered(doc: IgnitionCheckDoc, problems: &mut Vec<Problem>) -> IgnitionCheckReport {
    let mut taken = Vec::new();
    let made = IgnitionCheckReport {
        dwell: doc.dwell.and_then(|doc| dwell::found(&doc, problems)),
        spark_shift: doc
            .spark_shift
            .and_then(|doc| dwell::shift(&doc, &mut taken, problems)),
        point: doc.point.and_then(|doc| point::found(&doc, problems)),
        winding: doc
            .winding
            .and_then(|doc| coil::winding(doc, &mut taken, problems)),
        coil: doc
            .coil
            .and_then(|doc| coil::found(&doc, &mut taken, problems)),
        advance: doc.advance.and_then(|doc| advance::found(doc, problems)),
        assumptions: taken,
    };
    let questions = [
        made.dwell.is_none(),
        made.spark_shift.is_none(),
        made.point.is_none(),
        made.winding.is_none(),
        made.coil.is_none(),
        made.advance.is_none(),
    ];
    if problems.is_empty() && questions.iter().all(|none| *none) {
        problems.push(Problem::new(
            "",
            "document.missing-field",
            "nothing is asked",
            "ask for \"dwell\", \"spark_shift\", \"point\", \"winding\", \"coil\" or \"advance\"",
        ));
    }
    made
}
