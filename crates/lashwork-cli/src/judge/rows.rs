//! The rows: asked, answered, counted.

use super::columns::{ADDED, Header, of_place};
use super::lines::{Line, count, joined};
use super::progress::Progress;
use crate::ended::Ended;
use crate::output::{self, Output, aside};
use lashwork_wire::Problem;
use serde_json::{Map, Value};
use std::collections::BTreeSet;
use std::fmt::Write;

/// What goes through the rows.
pub(crate) struct Rows<'t> {
    file: &'t str,
    header: &'t Header,
    same: &'t Map<String, Value>,
    separator: u8,
    progress: &'t Progress,
    judged: u64,
    refused: u64,
    mixed: u64,
    cautions: BTreeSet<&'static str>,
}

impl<'t> Rows<'t> {
    pub(crate) fn new(
        file: &'t str,
        header: &'t Header,
        same: &'t Map<String, Value>,
        separator: u8,
        progress: &'t Progress,
    ) -> Self {
        Self {
            file,
            header,
            same,
            separator,
            progress,
            judged: 0,
            refused: 0,
            mixed: 0,
            cautions: BTreeSet::new(),
        }
    }

    /// The line of names, and which columns nobody reads.
    pub(crate) fn head(&self, output: &mut Output) {
        let unread = self.header.unread();
        if !unread.is_empty() {
            let names = unread.join(", ");
            aside(&format!("{}: passed on unread: {names}", self.file));
        }
        if !output.is_json() {
            self.write(&self.header.answered(), output);
        }
    }

    /// Judges a row.
    pub(crate) fn row(&mut self, line: Line, output: &mut Output) {
        let columns = self.header.len();
        let fields = line.fields.and_then(|fields| {
            if fields.len() == columns {
                Ok(fields)
            } else {
                Err(count(fields.len(), columns, line.is_torn))
            }
        });
        let fields = match fields {
            Ok(fields) => fields,
            Err(problem) => return self.refuse(line.row, &[], "", &[problem], output),
        };
        let note = self.note(&fields, line.is_torn);
        let check = self.header.check(self.same, &fields).to_string();
        if output.is_json() {
            let answer = lashwork_wire::quick_check(check.as_bytes());
            let is_refused = Ended::of(&answer) == Ended::Refused;
            self.refused += u64::from(is_refused);
            self.judged += u64::from(!is_refused);
            let answer = String::from_utf8_lossy(&answer);
            return json(line.row, &note, &answer, output);
        }
        let report = match lashwork_wire::quick_report(check.as_bytes()) {
            Ok(report) => report,
            Err(problems) => {
                return self.refuse(line.row, &fields, &note, &problems, output);
            }
        };
        self.judged += 1;
        self.caution(&report.cautions);
        let assumed: Vec<_> = report.assumptions.iter().map(|a| &*a.code).collect();
        let report = serde_json::to_value(&report).unwrap_or_default();
        let put_together = [
            ("line", line.row.to_string()),
            ("assumed", assumed.join(" ")),
            ("note", note),
        ];
        let added = ADDED.iter().map(|(name, place)| {
            let together = put_together.iter().find(|(of, _)| of == name);
            match together {
                Some((_, text)) => text.clone(),
                None if place.is_empty() => String::new(),
                None => report.pointer(place).map(plain).unwrap_or_default(),
            }
        });
        self.write(&row(&fields, columns, added), output);
    }

    /// Tells how many there were, and ends.
    pub(crate) fn end(&self) -> Ended {
        self.progress.end();
        let mut sum = format!(
            "{}: {} judged, {} refused",
            self.file, self.judged, self.refused
        );
        if self.mixed > 0 {
            let _ = write!(sum, ", {} in mixed units (see note)", self.mixed);
        }
        aside(&sum);
        if self.refused > 0 {
            Ended::Refused
        } else {
            Ended::Well
        }
    }

    /// Says each caution once, before the first row that it belongs to.
    fn caution(&mut self, cautions: &[&'static str]) {
        for caution in cautions {
            if self.cautions.insert(caution) {
                self.progress.away(|| aside(caution));
            }
        }
    }

    /// What stands beside an answer that was taken as written.
    fn note(&mut self, fields: &[String], is_torn: bool) -> String {
        let mut notes = Vec::new();
        let units = self.header.units(fields);
        if units.len() > 1 {
            self.mixed += 1;
            notes.push(format!("mixed units ({}), as written", units.join(", ")));
        }
        if is_torn {
            notes.push("the last line has no end: see that the file is whole".to_owned());
        }
        notes.join("; ")
    }

    /// Tells of a row what is wrong with it.
    fn refuse(
        &mut self,
        number: u64,
        fields: &[String],
        note: &str,
        problems: &[Problem],
        output: &mut Output,
    ) {
        self.refused += 1;
        if output.is_json() {
            let told = serde_json::json!({ "problems": problems }).to_string();
            return json(number, note, &told, output);
        }
        let mut told = Vec::new();
        for problem in problems {
            let at = of_place(&problem.place).unwrap_or(&problem.place);
            let at = if at.is_empty() { "row" } else { at };
            told.push(format!("{} at {at}", problem.code));
            let of = format!("{}:{number}: {at}", self.file);
            let line = output::line(&of, problem);
            self.progress.away(|| aside(&line));
        }
        let added = ADDED.iter().map(|(name, _)| match *name {
            "line" => number.to_string(),
            "verdict" => "refused".to_owned(),
            "note" => note.to_owned(),
            "problems" => told.join("; "),
            _ => String::new(),
        });
        let row = row(fields, self.header.len(), added);
        self.write(&row, output);
    }

    fn write(&self, row: &[String], output: &mut Output) {
        output.bytes(&joined(row, self.separator));
    }
}

/// Writes the answer of the JSON interface with the number of its row.
fn json(number: u64, note: &str, answer: &str, output: &mut Output) {
    let note = if note.is_empty() {
        String::new()
    } else {
        format!("\"note\":{},", Value::from(note))
    };
    let rest = answer.strip_prefix('{').unwrap_or(answer);
    let line = format!("{{\"row\":{number},{note}{rest}");
    output.text(&line);
}

/// The fields of a row, as many as there are columns, and what is added.
fn row(fields: &[String], columns: usize, added: impl Iterator<Item = String>) -> Vec<String> {
    let empty = std::iter::repeat_n(String::new(), columns.saturating_sub(fields.len()));
    fields.iter().cloned().chain(empty).chain(added).collect()
}

/// A value of an answer as a field; numbers with all their digits.
fn plain(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}
