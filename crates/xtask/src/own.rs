//! Programs and libraries of this workspace that the steps use.

use crate::step::{Outcome, cargo, root, run};
use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;

/// Set once all of them are built.
static BUILT: OnceLock<()> = OnceLock::new();

/// Builds everything that is tested or started, in one go: crates that are asked for one by one get other
/// features of the libraries they share, and then those are built anew for each.
pub(crate) fn build() -> Outcome {
    // Not this program: it runs.
    run(cargo()
        .args(["build", "--workspace", "--exclude", "xtask"])
        .args(["--lib", "--bins", "--tests", "--examples"]))?;
    BUILT.get_or_init(|| ());
    Ok(())
}

/// A program of a package; built now if that was not done yet.
pub(crate) fn program(package: &str, name: &str) -> Command {
    if BUILT.get().is_some() {
        return Command::new(target().join("debug").join(name));
    }
    let mut command = cargo();
    command.args(["run", "--quiet", "--package", package]);
    command.args(["--bin", name, "--"]);
    command
}

/// A library as cargo builds it for tests; built now if that was not done yet.
pub(crate) fn library(package: &str, file: &str) -> Result<PathBuf, String> {
    if BUILT.get().is_none() {
        run(cargo().args(["build", "--quiet", "--package", package]))?;
    }
    Ok(target().join("debug").join(file))
}

/// Where cargo puts what it builds.
pub(crate) fn target() -> PathBuf {
    let chosen = std::env::var_os("CARGO_TARGET_DIR");
    root().join(chosen.map_or_else(|| "target".into(), PathBuf::from))
}
