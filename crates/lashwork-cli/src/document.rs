//! Documents: sheets, reports, what is wrong with them.

use crate::ended::Ended;
use crate::input;
use crate::output::{Output, aside};
use lashwork_wire::Problem;
use serde::Serialize;
use serde_json::json;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Answers each file in turn; one that cannot be read does not keep the others from it.
fn each(
    files: &[PathBuf],
    output: &mut Output,
    one: impl Fn(&Path, &[u8], &mut Output) -> Ended,
) -> Ended {
    let mut worst = Ended::Well;
    for file in files {
        let ended = match input::document(file) {
            Ok(document) => one(file, &document, output),
            Err(problem) => output.problem(&file.display().to_string(), &problem),
        };
        worst = worst.max(ended);
    }
    worst
}

/// Job sheets; of several files each under its name.
pub(crate) fn sheets(files: &[PathBuf], full: bool, output: &mut Output) -> Ended {
    let sheet = if full {
        lashwork_wire::full_sheet
    } else {
        lashwork_wire::job_sheet
    };
    each(files, output, |file, document, output| {
        if output.is_json() {
            let told = if full {
                lashwork_wire::full_sheet_told
            } else {
                lashwork_wire::job_sheet_told
            };
            return answered(&told(document), output);
        }
        if files.len() > 1 {
            output.text(&format!("#### {}\n", file.display()));
        }
        match sheet(document) {
            Ok(text) => {
                output.text(&text);
                Ended::Well
            }
            Err(problems) => {
                aside(&format!("{}: refused\n{problems}", file.display()));
                Ended::Refused
            }
        }
    })
}

/// What is wrong with documents.
pub(crate) fn checks(files: &[PathBuf], output: &mut Output) -> Ended {
    each(files, output, |file, document, output| {
        let problems = lashwork_wire::report(document).err().unwrap_or_default();
        if output.is_json() {
            output.text(
                &json!({ "file": file.display().to_string(), "problems": problems }).to_string(),
            );
        } else if problems.is_empty() {
            output.text(&format!("{}: nothing to refuse", file.display()));
        }
        for problem in &problems {
            if !output.is_json() {
                output.text(&line(file, problem));
            }
        }
        if problems.is_empty() {
            Ended::Well
        } else {
            Ended::Refused
        }
    })
}

fn line(file: &Path, problem: &Problem) -> String {
    let of = format!("{}: {}", file.display(), problem.place);
    crate::output::line(of.trim_end(), problem)
}

/// The report of a document.
pub(crate) fn report(files: &[PathBuf], pretty: bool, output: &mut Output) -> Ended {
    if !pretty {
        return told(files, lashwork_wire::run, output);
    }
    each(
        files,
        output,
        |_, document, output| match lashwork_wire::report(document) {
            Ok(report) => {
                laid_out("report", report, output);
                Ended::Well
            }
            Err(problems) => {
                laid_out("problems", problems, output);
                Ended::Refused
            }
        },
    )
}

/// An answer with a line for each value.
fn laid_out(key: &str, answer: impl Serialize, output: &mut Output) {
    match serde_json::to_string_pretty(&BTreeMap::from([(key, answer)])) {
        Ok(text) => output.text(&text),
        Err(why) => aside(&why.to_string()),
    }
}

/// The answer of the JSON interface, byte by byte.
pub(crate) fn told(files: &[PathBuf], ask: fn(&[u8]) -> Vec<u8>, output: &mut Output) -> Ended {
    each(files, output, |_, document, output| {
        answered(&ask(document), output)
    })
}

fn answered(answer: &[u8], output: &mut Output) -> Ended {
    output.bytes(answer);
    Ended::of(answer)
}
