//! `lashwork judge`: a table of readings, row by row. Each row becomes a quick check of the JSON interface;
//! what comes back is put behind the row.

pub(crate) mod columns;
mod lines;
mod progress;
mod rows;

use crate::arguments::named;
use crate::ended::{Ended, cannot};
use crate::input;
use crate::output::Output;
use clap::ArgMatches;
use columns::Header;
use lashwork_wire::Problem;
use lines::Lines;
use progress::Progress;
use rows::Rows;
use serde_json::{Map, Value};
use std::path::{Path, PathBuf};

/// Judges the table that was named.
pub(crate) fn table(asked: &ArgMatches, output: &mut Output) -> Ended {
    let same = match asked.get_one::<PathBuf>("same") {
        Some(path) => match same(path) {
            Ok(same) => same,
            Err((ended, problems)) => {
                output.problems(&path.display().to_string(), &problems);
                return ended;
            }
        },
        None => Map::new(),
    };
    let separator = asked.get_one("separator").copied().unwrap_or(b',');
    let files = named(asked).into_iter();
    let each = files.map(|file| judged(&file, &same, separator, output));
    each.max().unwrap_or(Ended::Well)
}

fn judged(path: &Path, same: &Map<String, Value>, separator: u8, output: &mut Output) -> Ended {
    let file = path.display().to_string();
    let (input, length) = match input::open(path) {
        Ok(opened) => opened,
        Err(problem) => return output.problem(&file, &problem),
    };
    let mut lines = Lines::new(input, separator);
    let header = match lines.next() {
        Ok(Some(line)) => line
            .fields
            .map_err(|problem| vec![problem])
            .and_then(|names| Header::of(names, separator)),
        Ok(None) => Err(vec![empty()]),
        Err(why) => return output.problem(&file, &cannot("program.cannot-read", &why)),
    };
    let header = match header {
        Ok(header) => header,
        Err(problems) => {
            output.problems(&file, &problems);
            return Ended::Refused;
        }
    };
    let progress = Progress::new(length);
    let mut rows = Rows::new(&file, &header, same, separator, &progress);
    rows.head(output);
    loop {
        match lines.next() {
            Ok(Some(line)) => {
                progress.at(line.read);
                rows.row(line, output);
            }
            Ok(None) => break,
            Err(why) => {
                rows.end();
                return output.problem(&file, &cannot("program.cannot-read", &why));
            }
        }
        if output.is_closed() {
            break;
        }
    }
    rows.end()
}

/// What is the same for all rows; refused if it is not part of a quick check.
fn same(file: &Path) -> Result<Map<String, Value>, (Ended, Vec<Problem>)> {
    let bytes = input::document(file).map_err(|problem| (Ended::CannotRun, vec![problem]))?;
    let mut problems = lashwork_wire::quick_report(&bytes)
        .err()
        .unwrap_or_default();
    // What is missing may come from the rows; what is written has to be right.
    problems.retain(|problem| {
        problem.code.starts_with("document.") && problem.code != "document.missing-field"
    });
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes);
    match serde_json::from_slice(bytes) {
        Ok(Value::Object(same)) if problems.is_empty() => Ok(same),
        _ => Err((Ended::Refused, problems)),
    }
}

fn empty() -> Problem {
    Problem::new(
        "",
        "csv.empty",
        "the table holds no line",
        "begin with a line of column names",
    )
}
