//! Reference values from Python packages with pinned versions, in an environment of their own.

use crate::step::{Outcome, root, run, step};
use crate::tools::{see_to, table::PYTHON};
use std::path::{Path, PathBuf};
use std::process::Command;

/// What the reference values are made with.
const REQUIREMENTS: &str = "tests/oracles/requirements.txt";
/// What the names of scripts begin with that are for one topic.
const TOPICS: [&str; 5] = ["causes_", "condition_", "history_", "ignition_", "mixture_"];
/// What the examples use.
const EXAMPLES: &str = "examples/python/requirements.txt";
/// Engines for data, which work in one process.
pub(crate) const FLEET: &str = "examples/fleet/requirements.txt";

/// Makes `tests/oracles/*.json` anew.
pub(crate) fn oracles() -> Outcome {
    step("Python packages", install)?;
    step("reference values", || {
        scripts()?
            .iter()
            .try_for_each(|script| run(Command::new(environment()?).arg(script)))
    })
}

/// The scripts that make reference values: the common one, and one for each topic of an area.
fn scripts() -> Result<Vec<PathBuf>, String> {
    let directory = root().join("tests/oracles");
    let entries = std::fs::read_dir(&directory);
    let mut topics: Vec<PathBuf> = entries
        .map_err(|why| format!("{}: {why}", directory.display()))?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| {
            let name = path.file_name().map(|name| name.to_string_lossy());
            let topic = |name: &str| TOPICS.iter().any(|topic| name.starts_with(topic));
            name.is_some_and(|name| topic(&name) && name.ends_with(".py"))
        })
        .collect();
    topics.sort();
    topics.insert(0, directory.join("generate.py"));
    Ok(topics)
}

/// Makes the environment and installs the pinned packages.
pub(crate) fn install() -> Outcome {
    environment().map(|_| ())
}

/// The Python of an environment that holds the pinned packages; made or made up if need be.
pub(crate) fn environment() -> Result<PathBuf, String> {
    environment_of(
        &root().join("target/python"),
        &[REQUIREMENTS, EXAMPLES, FLEET],
    )
}

/// The Python of an environment in a folder, with what lists name; made or made up if need be.
pub(crate) fn environment_of(directory: &Path, lists: &[&str]) -> Result<PathBuf, String> {
    let python = directory.join("bin/python");
    // An environment whose Python is gone or was exchanged does not run.
    if !python.exists() {
        see_to(&[&PYTHON])?;
        run(Command::new(PYTHON.program)
            .args(["-m", "venv", "--clear"])
            .arg(directory))?;
    }
    packages(&python, directory, lists)?;
    Ok(python)
}

/// Installs what the lists name, unless that was done for just these lists.
fn packages(python: &Path, directory: &Path, lists: &[&str]) -> Outcome {
    let mut wanted = String::new();
    for list in lists {
        let text = std::fs::read_to_string(root().join(list));
        wanted += &text.map_err(|why| format!("{list}: {why}"))?;
    }
    let note = directory.join("installed.txt");
    if std::fs::read_to_string(&note).is_ok_and(|installed| installed == wanted) {
        return Ok(());
    }
    run(Command::new(python)
        .args(["-m", "pip", "install", "--quiet"])
        .args(["--disable-pip-version-check"])
        .args(lists.iter().flat_map(|list| ["--requirement", list])))?;
    std::fs::write(&note, wanted).map_err(|why| format!("{}: {why}", note.display()))
}
