//! Everything that `cargo xtask test` needs, in one go and before anything needs it.

use crate::step::{Outcome, cargo, run};
use crate::tools::npm::TOOLS;
use crate::tools::{FOR_C, quiet, see_to, table};
use crate::{bare_metal, node, page, python, wasm};
use std::process::Command;

/// Sees to every program and package.
pub(crate) fn for_all_checks() -> Outcome {
    let mut tools = FOR_C.to_vec();
    tools.extend([&table::PYTHON, &table::SCRIPT]);
    tools.extend(TOOLS);
    tools.extend(node::browser());
    for target in [&bare_metal::BARE, &wasm::WASM] {
        tools.extend(target.needs());
    }
    see_to(&tools)?;
    python::install()?;
    node::install(wasm::FOLDER)?;
    node::install(page::FOLDER)
}

/// Sees to the parts of a Rust toolchain that a small one lacks.
pub(crate) fn components() -> Outcome {
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
