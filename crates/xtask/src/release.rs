//! `cargo xtask release-check`: what is looked at before a release and takes too long for every day.

use crate::output::say;
use crate::step::{Outcome, cargo, go_on, output, print_costs, root, run, said, step};
use crate::tools::{of_crates_io, of_crates_io::program, see_to, table::DOXYGEN};
use crate::{bits, fleet, wasm, wheel};
use std::path::{Path, PathBuf};
use std::process::Command;

/// The crates whose interface must not change unnoticed.
const LIBRARIES: [&str; 3] = ["lashwork-tails", "lashwork", "lashwork-wire"];

/// Runs every check; one that fails does not keep the others from being told.
pub(crate) fn check() -> Outcome {
    let mut left_out = Vec::new();
    let mut failed = Vec::new();
    let mut each = |heading: &str, work: &mut dyn FnMut() -> Result<Option<String>, String>| {
        say!("\n== {heading}");
        match work() {
            Ok(None) => say!("== {heading}: done"),
            Ok(Some(why)) => left_out.push(format!("{heading}: {why}")),
            Err(why) => {
                failed.push(format!("{heading}: {why}"));
                go_on();
            }
        }
    };
    each("packages for crates.io", &mut || published().map(|()| None));
    each("package for npm", &mut || {
        wasm::package().and_then(|()| wasm::test()).map(|()| None)
    });
    each("the same bits everywhere", &mut || {
        bits::all().map(|()| None)
    });
    each("wheel for Python", &mut || wheel::build().map(|()| None));
    each("fleet on a cluster", &mut || {
        fleet::test(fleet::ROWS).map(|()| None)
    });
    each("libraries nobody uses", &mut || {
        program("machete")
            .and_then(|mut it| run(it.arg("--skip-target-dir")))
            .map(|()| None)
    });
    each("licences, duplicates, sources", &mut || {
        deny(&["licenses", "bans", "sources"]).map(|()| None)
    });
    each("advisories", &mut advisories);
    each("interface since the last release", &mut interface);
    each("header as pages", &mut || header_pages().map(|()| None));
    print_costs();
    for one in &left_out {
        say!("LEFT OUT: {one}");
    }
    if failed.is_empty() {
        say!(
            "release-check: nothing against it, {} left out",
            left_out.len()
        );
        Ok(())
    } else {
        Err(failed.join("\n"))
    }
}

/// Packs what is published, and builds it from the packages alone.
fn published() -> Outcome {
    run(cargo().args(["publish", "--workspace", "--dry-run", "--allow-dirty"]))
}

/// Asks cargo-deny about what those get who install the program.
fn deny(checks: &[&str]) -> Outcome {
    run(program("deny")?
        .args(["--manifest-path", "crates/lashwork-cli/Cargo.toml"])
        .args(["--config", "deny.toml"])
        .args(["check", "--hide-inclusion-graph"])
        .args(checks))
}

/// Known faults of the libraries. Their list lies on a server that not every machine reaches; then that is said.
fn advisories() -> Result<Option<String>, String> {
    let fetched = said(program("deny")?.args(["fetch", "db"]));
    if fetched.is_err() {
        let why = "the list of advisories could not be fetched, so nothing was looked up";
        return Ok(Some(why.to_owned()));
    }
    deny(&["advisories"]).map(|()| None)
}

/// What changed in the interface of the libraries since the last tag.
fn interface() -> Result<Option<String>, String> {
    let tag = output(Command::new("git").args(["tag", "--list", "v*", "--sort=-version:refname"]))?;
    let Some(last) = tag.lines().next() else {
        return Ok(Some(
            "no release is tagged, so there is nothing to compare with".to_owned(),
        ));
    };
    // A copy of it: the sources here stay as they are.
    let before = root().join(of_crates_io::PLACE).join("before");
    let _ = std::fs::remove_dir_all(&before);
    run(Command::new("git")
        .args(["clone", "--quiet", "--branch", last])
        .args([&root(), &before]))?;
    let mut broken = Vec::new();
    for library in LIBRARIES {
        if !before.join("crates").join(library).exists() {
            say!("{library}: new since {last}");
            continue;
        }
        let sides = [described(&before, library)?, described(&root(), library)?];
        run(program("public-api")?
            .args(["--simplified", "diff"])
            .args(&sides))?;
        let checked =
            run(program("semver-checks")?.args(["--package", library, "--baseline-rev", last]));
        broken.extend(checked.err());
    }
    if broken.is_empty() {
        Ok(None)
    } else {
        Err(broken.join("\n"))
    }
}

/// A library's interface as the compiler in use writes it for other programs; a released one does so only when asked
/// as a nightly is.
fn described(workspace: &Path, library: &str) -> Result<PathBuf, String> {
    let target = workspace.join("target/interface");
    run(cargo()
        .args(["rustdoc", "--quiet", "--lib", "--all-features"])
        .args(["--package", library, "--manifest-path"])
        .arg(workspace.join("Cargo.toml"))
        .arg("--target-dir")
        .arg(&target)
        .args(["--", "-Zunstable-options", "--output-format", "json"])
        .env("RUSTC_BOOTSTRAP", "1"))?;
    Ok(target.join(format!("doc/{}.json", library.replace('-', "_"))))
}

/// Writes the header's documentation as pages; a warning fails.
fn header_pages() -> Outcome {
    see_to(&[&DOXYGEN])?;
    step("Doxygen", || {
        run(Command::new(DOXYGEN.program).arg("bindings/c/Doxyfile"))
    })?;
    say!("target/c/html/index.html");
    Ok(())
}
