//! Node, its packages, and a browser.

use crate::step::{Outcome, root, run};
use crate::tools::table::{CHROMIUM, NODE, NODE_FROM_NPM, NPM, Tool};
use crate::tools::{program, see_to};
use std::path::Path;
use std::process::Command;

/// Node with its installer of packages.
pub(crate) const TOOLS: [&Tool; 2] = [&NODE, &NPM];

/// Where node is put if the distribution's is too old.
pub(crate) const OWN: &str = "target/node";

/// Names a browser in the place of the distribution's.
const BROWSER_VARIABLE: &str = "LASHWORK_BROWSER";

/// npm in a folder of the workspace.
pub(crate) fn npm(folder: &str) -> Command {
    let mut command = program(NPM.program);
    command.args(["--prefix", folder]);
    command
}

/// Node and npm as packages of npm itself, fetched by an older npm.
pub(crate) fn from_npm() -> Outcome {
    let processor = match std::env::consts::ARCH {
        "x86_64" => "x64",
        "aarch64" => "arm64",
        other => return Err(format!("npm has no package of node for {other}")),
    };
    let [node, npm] = NODE_FROM_NPM;
    run(Command::new(NPM.program)
        .args(["install", "--no-fund", "--no-audit", "--prefix", OWN])
        .arg(format!("node-{}-{processor}@{node}", std::env::consts::OS))
        .arg(format!("npm@{npm}")))
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
