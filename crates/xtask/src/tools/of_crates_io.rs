//! Programs of crates.io that cargo starts, installed for this workspace alone.

use super::{path_behind, quiet};
use crate::step::{cargo, root, run};
use std::process::Command;

/// Programs of crates.io, each in the version that was tried, and the word that cargo starts it by.
const PROGRAMS: [(&str, &str, &str); 5] = [
    ("cargo-machete", "0.9.2", "machete"),
    ("cargo-mutants", "27.1.0", "mutants"),
    ("cargo-deny", "0.20.2", "deny"),
    ("cargo-public-api", "0.52.0", "public-api"),
    ("cargo-semver-checks", "0.51.0", "semver-checks"),
];

/// Where they are installed.
pub(crate) const PLACE: &str = "target/release-tools";

/// A program of the list, started by cargo; installed if it is not there in its version.
pub(crate) fn program(word: &str) -> Result<Command, String> {
    let found = PROGRAMS.iter().find(|(_, _, of)| *of == word);
    let (name, version, word) = found.ok_or_else(|| format!("no program for {word}"))?;
    let place = root().join(PLACE);
    let path = path_behind(place.join("bin"))?;
    let started = || {
        let mut command = cargo();
        command.arg(word).env("PATH", &path);
        // Beside it cargo-machete takes its own name for a folder.
        command.env_remove("CARGO_PKG_NAME");
        command
    };
    let said = quiet(started().arg("--version"));
    if !said.is_some_and(|said| said.contains(version)) {
        run(cargo()
            .args(["install", "--locked", "--quiet", name, "--version", version])
            .arg("--root")
            .arg(&place)
            .arg("--target-dir")
            .arg(place.join("build")))?;
    }
    Ok(started())
}
