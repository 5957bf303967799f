//! `cargo xtask test`: every check of the workspace, in the order that fails soonest.

use crate::counted::{print_sum, run_tests};
use crate::output::{aside, say, show};
use crate::step::{Outcome, cargo, print_costs, run, step};
use crate::{bare_metal, c, own, page, prepare, schema, wasm};
use std::sync::mpsc::channel;

/// Runs all checks; stops at the first that fails, and says what each cost and how many tests ran.
pub(crate) fn all() -> Outcome {
    let outcome = steps();
    print_costs();
    print_sum();
    outcome
}

/// Half of the time one processor waits for the other: a linker, a browser, a program under valgrind.
/// So what is built for other targets than this machine is built and tested beside the rest.
fn steps() -> Outcome {
    // What is missing on this machine shows before anything else takes its time.
    step("tools", prepare::for_all_checks)?;
    step("format", || run(cargo().args(["fmt", "--all", "--check"])))?;
    step("schema", schema::check)?;
    let file = own::target().join("other-targets.txt");
    say!(
        "beside the next steps, into {}: other targets",
        file.display()
    );
    let (sender, receiver) = channel();
    // Gone without a word if the build is not reached.
    let built = move || sender.send(()).unwrap_or_default();
    let wait_for_build = move || receiver.recv().map_err(|_| "the build failed".to_owned());
    let (here, there) = std::thread::scope(|scope| {
        let other = scope.spawn(|| aside(&file, || other_targets(wait_for_build)));
        let here = this_machine(built);
        let stopped = |_| Err("other targets: the thread stopped".to_owned());
        (here, other.join().unwrap_or_else(stopped))
    });
    show(&file)?;
    match (there, here) {
        // The one that failed first made the other stop.
        (Err(there), Err(here)) => Err(format!("{there}\n{here}")),
        (there, here) => there.and(here),
    }
}

/// What cargo builds for this machine; says when it is built.
fn this_machine(built: impl FnOnce()) -> Outcome {
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
    built();
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
    c::tests::all()
}

/// What is built for processors without an operating system and for WebAssembly, and the page over it.
fn other_targets(wait_for_build: impl FnOnce() -> Outcome) -> Outcome {
    step("bare metal, no std", bare_metal::check)?;
    step("WebAssembly files", wasm::files)?;
    // The glue is put round them by a program that is built for this machine.
    wait_for_build()?;
    step("npm package", wasm::test)?;
    step("page", page::test)
}
