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

/// What Rust asks the kernel itself.
pub(crate) fn native() -> Command {
    program("lashwork-tests", "native")
}

/// A file that cargo makes of a package for tests; made now if that was not done yet.
pub(crate) fn built(package: &str, file: &str) -> Result<PathBuf, String> {
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

#[cfg(test)]
mod tests {
    use super::root;
    use std::fs;
    use std::path::Path;

    /// Every file of Rust below a folder that holds a test.
    fn with_tests(folder: &Path, found: &mut Vec<String>) {
        for path in fs::read_dir(folder).unwrap().map(|it| it.unwrap().path()) {
            if path.is_dir() {
                with_tests(&path, found);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let text = fs::read_to_string(&path).unwrap();
                let marks = ["#[test]", "#[cfg(test)]"];
                if text.lines().any(|line| marks.contains(&line.trim())) {
                    found.push(path.display().to_string());
                }
            }
        }
    }

    #[test]
    fn what_is_built_without_a_harness_holds_no_tests() {
        let workspace = fs::read_to_string(root().join("Cargo.toml")).unwrap();
        let (_, members) = workspace.split_once("members = [").unwrap();
        let (members, _) = members.split_once(']').unwrap();
        let (mut without, mut found) = (0, Vec::new());
        for member in members.split('"').skip(1).step_by(2) {
            let folder = root().join(member);
            let manifest = fs::read_to_string(folder.join("Cargo.toml")).unwrap();
            if manifest.lines().any(|line| line == "test = false") {
                without += 1;
                with_tests(&folder.join("src"), &mut found);
            }
        }
        assert!(without > 5, "{without} packages without a harness");
        assert!(found.is_empty(), "these tests would not run: {found:?}");
        with_tests(&root().join("crates/xtask/src"), &mut found);
        assert!(!found.is_empty(), "a test that is there is not seen");
    }
}
