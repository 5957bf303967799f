//! What the checks need besides Rust: looked for, installed where it may be, and held against the least
//! version of the table.

mod apt;
pub(crate) mod npm;
pub(crate) mod of_crates_io;
pub(crate) mod table;
mod version;

use crate::output::say;
use crate::step::{Outcome, root};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::Command;
use table::Tool;
use version::Version;

/// What the tests of the C interface start.
pub(crate) const FOR_C: [&Tool; 8] = [
    &table::GCC,
    &table::GXX,
    &table::CLANG,
    &table::VALGRIND,
    &table::CMAKE,
    &table::MAKE,
    &table::PKG_CONFIG,
    &table::LUAJIT,
];

/// A program, looked for among those that this workspace installed for itself as well.
pub(crate) fn program(name: &str) -> Command {
    let mut command = Command::new(name);
    let before = own_programs();
    if let Some(path) = before.exists().then(|| path_behind(before).ok()).flatten() {
        command.env("PATH", path);
    }
    command
}

/// The path of programs with a folder in front of it.
pub(crate) fn path_behind(folder: PathBuf) -> Result<OsString, String> {
    let path = std::env::var_os("PATH").unwrap_or_default();
    let all = std::iter::once(folder).chain(std::env::split_paths(&path));
    std::env::join_paths(all).map_err(|why| why.to_string())
}

/// Where npm links the programs of the packages in `target/node`.
fn own_programs() -> PathBuf {
    root().join(npm::OWN).join("node_modules/.bin")
}

/// Sees to it that every tool is there and new enough: takes what is there, installs or upgrades what is
/// not, and says what to do where that does not help.
pub(crate) fn see_to(tools: &[&'static Tool]) -> Outcome {
    let mut lacking = lacking(tools);
    if !lacking.is_empty() && apt::may_install() {
        let packages = packages(&lacking);
        say!("needed: {}", packages.join(" "));
        apt::install(&packages)?;
        lacking = self::lacking(tools);
    }
    if lacking.iter().any(|tool| npm::TOOLS.contains(tool)) {
        npm::from_npm()?;
        lacking = self::lacking(tools);
    }
    if lacking.is_empty() {
        return Ok(());
    }
    let wrong: Vec<String> = lacking.iter().map(|tool| complaint(tool)).collect();
    Err(format!(
        "{}\ninstall them, or their packages where a distribution has them new enough: {}",
        wrong.join("\n"),
        packages(&lacking).join(" ")
    ))
}

fn lacking(tools: &[&'static Tool]) -> Vec<&'static Tool> {
    let is_lacking = |tool: &&&Tool| !found(tool).is_some_and(|it| it.is_enough(tool.least));
    tools.iter().filter(is_lacking).copied().collect()
}

fn packages(tools: &[&'static Tool]) -> Vec<&'static str> {
    let mut all: Vec<_> = tools
        .iter()
        .flat_map(|tool| tool.packages)
        .copied()
        .collect();
    all.sort_unstable();
    all.dedup();
    all
}

/// The version that is there, if the tool is whole, runs and says one.
fn found(tool: &Tool) -> Option<Version> {
    if !tool.files.iter().all(|file| Path::new(file).exists()) {
        return None;
    }
    Version::find(&quiet(program(tool.program).args(tool.ask))?)
}

fn complaint(tool: &Tool) -> String {
    let found = match found(tool) {
        Some(version) => format!("found {version}"),
        None => "not found".to_owned(),
    };
    format!(
        "{}: {found}, needed {} or newer ({})",
        tool.program,
        tool.least.join(" or "),
        tool.purpose
    )
}

/// What a command prints, if it succeeds.
pub(crate) fn quiet(command: &mut Command) -> Option<String> {
    let found = command.current_dir(root()).output().ok()?;
    let printed = String::from_utf8_lossy(&found.stdout).into_owned();
    found.status.success().then_some(printed)
}

#[cfg(test)]
mod tests {
    use super::table::{PLAIN, Tool};
    use super::{complaint, lacking, see_to};

    /// A tool that every machine has, said to be needed in some version.
    const fn cargo(least: &'static [&'static str]) -> Tool {
        Tool {
            program: "cargo",
            least,
            purpose: "stands for any tool",
            ..PLAIN
        }
    }

    static OLD: Tool = cargo(&["1.88"]);
    static FUTURE: Tool = cargo(&["1.88", "4000.2"]);
    static TOO_NEW: Tool = cargo(&["4000.2"]);
    static ABSENT: Tool = Tool {
        program: "no-such-program",
        ..cargo(&["1.0"])
    };
    static BROKEN: Tool = Tool {
        ask: &["no-such-command"],
        ..cargo(&["1.0"])
    };
    static NOT_WHOLE: Tool = Tool {
        files: &["no-such-file"],
        ..cargo(&["1.0"])
    };

    #[test]
    fn what_is_there_and_new_enough_is_taken() {
        assert!(lacking(&[&OLD, &FUTURE]).is_empty());
        assert_eq!(see_to(&[&OLD]), Ok(()));
    }

    #[test]
    fn what_is_too_old_or_missing_or_broken_is_named_with_what_is_needed() {
        let found = lacking(&[&OLD, &TOO_NEW, &ABSENT, &BROKEN, &NOT_WHOLE]);
        assert_eq!(found.len(), 4);
        let said: Vec<String> = found.into_iter().map(complaint).collect();
        assert!(said[0].starts_with("cargo: found 1."), "{}", said[0]);
        assert!(said[0].contains("needed 4000.2 or newer"), "{}", said[0]);
        assert!(
            said[1].contains("no-such-program: not found"),
            "{}",
            said[1]
        );
        assert!(said[2].contains("not found, needed 1.0"), "{}", said[2]);
    }
}
