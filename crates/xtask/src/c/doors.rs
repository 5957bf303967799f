//! What every door into the kernel is asked, and where its answers go.

use crate::own::{native, target};
use crate::step::{Outcome, run};
use std::fs;
use std::path::{Path, PathBuf};

/// Where programs and answers go.
pub(crate) fn place(name: &str) -> PathBuf {
    target().join("c").join(name)
}

/// A folder of the documents and direct calls that a door is asked: all of the shared vectors.
pub(crate) fn requests() -> Result<PathBuf, String> {
    let folder = place("requests");
    write_requests(&folder)?;
    Ok(folder)
}

/// Writes them into a folder.
pub(crate) fn write_requests(folder: &Path) -> Outcome {
    run(native().arg("requests").arg(folder))
}

/// One vector of each area, for a tool under which a program is slow.
pub(crate) fn few_requests() -> Result<PathBuf, String> {
    let folder = place("requests-one-of-each");
    run(native()
        .arg("requests")
        .arg(&folder)
        .arg("--one-of-each-area"))?;
    Ok(folder)
}

/// An empty folder for the answers of a door.
pub(crate) fn answers(door: &str) -> Result<PathBuf, String> {
    let folder = answered(door);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).map_err(|why| format!("{}: {why}", folder.display()))?;
    Ok(folder)
}

/// Where a door's answers lie.
pub(crate) fn answered(door: &str) -> PathBuf {
    place("answers").join(door)
}

/// Compares what a door answered with what Rust answers.
pub(crate) fn compare(door: &str, requests: &Path, answers: &Path) -> Outcome {
    run(native().args(["compare", door]).arg(requests).arg(answers))
}
