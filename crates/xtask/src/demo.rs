//! `cargo xtask demo`: what a reader wants to see first.

use crate::step::{Outcome, root};
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::PathBuf;

const EXAMPLES: &str = "examples/data";

/// Prints the answer to the questions of the ignition in a file, as JSON.
pub(crate) fn ignition(file: &str) -> Outcome {
    let check = fs::read(file).map_err(|why| format!("{file}: {why}"))?;
    let answer = lashwork_wire::ignition_check(&check);
    println!("{}", String::from_utf8_lossy(&answer));
    Ok(())
}

/// Prints the job sheet, the full sheet or the report as JSON, of the files or of all examples.
pub(crate) fn show(words: &[&str]) -> Outcome {
    let (flags, files): (Vec<&str>, Vec<&str>) =
        words.iter().partition(|word| word.starts_with("--"));
    if let Some(unknown) = flags
        .iter()
        .find(|flag| !["--json", "--full"].contains(flag))
    {
        return Err(format!("demo knows no {unknown}, only --json and --full"));
    }
    let wants_json = flags.contains(&"--json");
    let sheet = if flags.contains(&"--full") {
        lashwork_wire::full_sheet
    } else {
        lashwork_wire::job_sheet
    };
    let files = if files.is_empty() {
        examples()?
    } else {
        files.iter().map(PathBuf::from).collect()
    };
    let mut refused = 0;
    let mut out = std::io::stdout().lock();
    for file in files {
        let bytes = fs::read(&file).map_err(|why| format!("{}: {why}", file.display()))?;
        let text = if wants_json {
            refused += usize::from(lashwork_wire::report(&bytes).is_err());
            for_the_eye(&bytes).map_err(|why| format!("{}: {why}", file.display()))?
        } else {
            // A sheet and a list of problems are both for the reader.
            let (Ok(text) | Err(text)) = sheet(&bytes).inspect_err(|_| {
                refused += 1;
            });
            let name = file.strip_prefix(root()).unwrap_or(&file);
            format!("#### {}\n\n{}\n", name.display(), text.trim_end())
        };
        // Whoever reads only the first lines closes the pipe; that is no error.
        if writeln!(out, "{text}").is_err() {
            return Ok(());
        }
    }
    if refused > 0 {
        return Err(format!("{refused} document(s) refused"));
    }
    Ok(())
}

/// The answer that programs get, with a line for each value.
fn for_the_eye(document: &[u8]) -> serde_json::Result<String> {
    match lashwork_wire::report(document) {
        Ok(report) => serde_json::to_string_pretty(&BTreeMap::from([("report", report)])),
        Err(problems) => serde_json::to_string_pretty(&BTreeMap::from([("problems", problems)])),
    }
}

fn examples() -> Result<Vec<PathBuf>, String> {
    let folder = root().join(EXAMPLES);
    let entries = fs::read_dir(&folder).map_err(|why| format!("{EXAMPLES}: {why}"))?;
    let mut files: Vec<_> = entries
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    files.sort();
    if files.is_empty() {
        return Err(format!("{EXAMPLES} holds no document"));
    }
    Ok(files)
}
