//! `cargo xtask test`: every check of the workspace, in the order that fails soonest.

use crate::counted::{print_sum, run_tests};
use crate::step::{Outcome, cargo, print_costs, run, step};
use crate::{bare_metal, c, own, page, prepare, schema, wasm};

/// Runs all checks; stops at the first that fails, and says what each cost and how many tests ran.
pub(crate) fn all() -> Outcome {
    let outcome = steps();
    print_costs();
    print_sum();
    outcome
}

fn steps() -> Outcome {
    // What is missing on this machine shows before anything else takes its time.
    step("tools", prepare::for_all_checks)?;
    step("format", || run(cargo().args(["fmt", "--all", "--check"])))?;
    step("schema", schema::check)?;
    step("bare metal, no std", bare_metal::build)?;
    step("lints", || {
        run(cargo()
            .args(["clippy", "--workspace", "--all-targets"])
            .args(["--", "-D", "warnings"]))
    })?;
    step("lints of the small file", || {
        // By itself, or it would get the features that others ask for.
        run(cargo()
            .args(["clippy", "--package", wasm::SMALL])
            .args(["--", "-D", "warnings"]))
    })?;
    step("build", own::build)?;
    step("tests", || {
        run_tests(cargo().args(["test", "--workspace", "--", "--quiet"]))
    })?;
    step("documentation", || {
        // With the examples it asks for the same features of the libraries as the lints did.
        run(cargo()
            .args(["doc", "--workspace", "--no-deps"])
            .args(["--lib", "--bins", "--examples"])
            .env("RUSTDOCFLAGS", "-D warnings"))
    })?;
    c::tests::all()?;
    step("wasm package", wasm::test)?;
    step("page", page::test)
}
