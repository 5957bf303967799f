//! `cargo xtask test`: every check of the workspace, in the order that fails soonest.

use crate::step::{Outcome, cargo, run, step};
use crate::{bare_metal, c, demo, page, tools, wasm};

/// Runs all checks; stops at the first that fails.
pub(crate) fn all() -> Outcome {
    step("tools", tools::for_all_checks)?;
    step("format", || run(cargo().args(["fmt", "--all", "--check"])))?;
    step("lints", || {
        run(cargo().args([
            "clippy",
            "--workspace",
            "--all-targets",
            "--",
            "-D",
            "warnings",
        ]))
    })?;
    step("tests", || run(cargo().args(["test", "--workspace"])))?;
    step("documentation", || {
        run(cargo()
            .args(["doc", "--workspace", "--no-deps"])
            .env("RUSTDOCFLAGS", "-D warnings"))
    })?;
    step("schema", demo::check_schema)?;
    step("bare metal, no std", bare_metal::build)?;
    c::tests::all()?;
    step("wasm package", wasm::test)?;
    step("page", page::test)
}
