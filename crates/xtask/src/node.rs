//! Node, its packages, and a browser.

use crate::step::{Outcome, install as install_system, root, run};
use std::path::Path;
use std::process::{Command, Stdio};

/// Where the distribution puts its browser; another one can be named by this variable.
const BROWSER: &str = "/usr/bin/chromium";
const BROWSER_VARIABLE: &str = "LASHWORK_BROWSER";

/// npm in a folder of the workspace.
pub(crate) fn npm(folder: &str) -> Command {
    let mut command = Command::new("npm");
    command.args(["--prefix", folder]);
    command
}

/// Installs exactly what a folder's lock file names, if that is not there yet.
pub(crate) fn install(folder: &str) -> Outcome {
    let runs = |program: &str| {
        let mut command = Command::new(program);
        let quiet = command.arg("--version").stdout(Stdio::null());
        quiet.status().is_ok_and(|status| status.success())
    };
    if !runs("node") || !runs("npm") {
        install_system(&["nodejs", "npm"], "node 20.19 or newer is needed")?;
    }
    let folder_path = root().join(folder);
    if is_installed(&folder_path) {
        return Ok(());
    }
    run(npm(folder).arg("ci"))
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

/// Sees to it that there is a browser.
pub(crate) fn browser() -> Outcome {
    if std::env::var_os(BROWSER_VARIABLE).is_some() || Path::new(BROWSER).exists() {
        return Ok(());
    }
    install_system(
        &["chromium"],
        &format!("or name a Chromium in {BROWSER_VARIABLE}"),
    )
}
