//! Node where the distribution's is too old: its own packages carry it.

use super::table::{NODE, NODE_FROM_NPM, NPM, Tool};
use crate::step::{Outcome, run};
use std::process::Command;

/// Node with its installer of packages.
pub(crate) const TOOLS: [&Tool; 2] = [&NODE, &NPM];

/// Where node is put if the distribution's is too old.
pub(crate) const OWN: &str = "target/node";

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
