//! What the checks need besides Rust: looked for, installed where it may be, and held against the least
//! version of the table.

mod apt;
pub(crate) mod table;
mod version;

use crate::step::{Outcome, cargo, root, run};
use crate::{bare_metal, node, page, python, wasm};
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

/// Sees to everything that `cargo xtask test` needs, in one go and before anything is compiled.
pub(crate) fn for_all_checks() -> Outcome {
    components()?;
    let mut tools = FOR_C.to_vec();
    tools.push(&table::PYTHON);
    tools.extend(node::TOOLS);
    tools.extend(node::browser());
    for target in [&bare_metal::BARE, &wasm::WASM] {
        tools.extend(target.needs());
    }
    see_to(&tools)?;
    python::install()?;
    node::install(wasm::FOLDER)?;
    node::install(page::FOLDER)
}

/// The parts of a Rust toolchain that a small one lacks.
fn components() -> Outcome {
    for (component, command) in [("rustfmt", "fmt"), ("clippy", "clippy")] {
        let is_there = || quiet(cargo().args([command, "--version"])).is_some();
        if is_there() {
            continue;
        }
        let added = run(Command::new("rustup").args(["component", "add", component]));
        if !is_there() {
            let why = added.err().unwrap_or_default();
            return Err(format!(
                "`cargo {command}` does not run ({why}); add the component {component} with rustup, \
                 or install the package of the same toolchain that has it"
            ));
        }
    }
    Ok(())
}

/// A program, looked for among those that this workspace installed for itself as well.
pub(crate) fn program(name: &str) -> Command {
    let mut command = Command::new(name);
    let before = own_programs();
    if before.exists() {
        let path = std::env::var_os("PATH").unwrap_or_default();
        let all = std::iter::once(before).chain(std::env::split_paths(&path));
        if let Ok(joined) = std::env::join_paths(all) {
            command.env("PATH", joined);
        }
    }
    command
}

/// Where npm links the programs of the packages in `target/node`.
fn own_programs() -> PathBuf {
    root().join(node::OWN).join("node_modules/.bin")
}

/// Sees to it that every tool is there and new enough: takes what is there, installs or upgrades what is
/// not, and says what to do where that does not help.
pub(crate) fn see_to(tools: &[&'static Tool]) -> Outcome {
    let mut lacking = lacking(tools);
    if !lacking.is_empty() && apt::may_install() {
        let packages = packages(&lacking);
        println!("needed: {}", packages.join(" "));
        apt::install(&packages)?;
        lacking = self::lacking(tools);
    }
    if lacking.iter().any(|tool| node::TOOLS.contains(tool)) {
        node::from_npm()?;
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
fn quiet(command: &mut Command) -> Option<String> {
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
