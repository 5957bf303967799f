//! Node, its packages, and a browser.

use crate::step::{Outcome, root, run};
use crate::tools::npm::TOOLS;
use crate::tools::table::{CHROMIUM, NPM, Tool};
use crate::tools::{program, see_to};
use std::path::Path;
use std::process::Command;

/// Names a browser in the place of the distribution's.
const BROWSER_VARIABLE: &str = "LASHWORK_BROWSER";

/// npm in a folder of the workspace.
pub(crate) fn npm(folder: &str) -> Command {
    let mut command = program(NPM.program);
    command.args(["--prefix", folder]);
    command
}

/// Installs exactly what a folder's lock file names, if that is not there yet.
pub(crate) fn install(folder: &str) -> Outcome {
    see_to(&TOOLS)?;
    if is_installed(&root().join(folder)) {
        return Ok(());
    }
    run(npm(folder).args(["ci", "--no-fund", "--no-audit"]))
}

/// Whether npm's own note of what it installed is younger than the lock file.
fn is_installed(folder: &Path) -> bool {
    let changed = |file: &str| {
        let data = std::fs::metadata(folder.join(file));
        data.and_then(|data| data.modified())
    };
    match (
        changed("package-lock.json"),
        changed("node_modules/.package-lock.json"),
    ) {
        (Ok(lock), Ok(installed)) => installed >= lock,
        _ => false,
    }
}

/// The browser to see to: none if one is named.
pub(crate) fn browser() -> Option<&'static Tool> {
    std::env::var_os(BROWSER_VARIABLE)
        .is_none()
        .then_some(&CHROMIUM)
}
