//! `cargo xtask test`: every check of the workspace, in the order that fails soonest.

use crate::counted::{print_sum, run_tests};
use crate::output::{aside, say, show};
use crate::step::{Outcome, cargo, print_costs, run, step};
use crate::{bare_metal, bits, c, own, page, prepare, wasm};
use std::sync::mpsc::channel;
use std::thread::ScopedJoinHandle;

/// Runs all checks; stops at the first that fails, and says what each cost and how many tests ran.
pub(crate) fn all() -> Outcome {
    let outcome = steps();
    print_costs();
    print_sum();
    outcome
}

/// Half of the time one processor waits for the other: a linker, a browser, a program under valgrind; and
/// while the tools come over the network both do. So there are strands, and the longest begins first: the
/// WebAssembly files, which one processor links for minutes, and the page over them.
fn steps() -> Outcome {
    step("parts of the toolchain", prepare::components)?;
    let [first, second] = ["beside.txt", "beside-c.txt"].map(|name| own::target().join(name));
    for file in [&first, &second] {
        say!("beside the next steps, into {}", file.display());
    }
    let (for_the_page, wait_for_tools) = gate("the tools are not there");
    let (for_the_rest, wait_too) = gate("the tools are not there");
    let (it_is_built, wait_for_build) = gate("the build failed");
    let (it_is_packed, wait_for_package) = gate("the npm package is not there");
    let tools_are_there = || {
        for_the_page();
        for_the_rest();
    };
    let [here, page, rest] = std::thread::scope(|scope| {
        let page = || for_a_page(wait_for_tools, wait_for_build, it_is_packed);
        let page = scope.spawn(|| aside(&first, page));
        let rest = || by_themselves(wait_too, wait_for_package);
        let rest = scope.spawn(|| aside(&second, rest));
        let here = this_machine(tools_are_there, it_is_built);
        let ended = |strand: ScopedJoinHandle<'_, Outcome>| {
            let stopped = |_| Err("beside: the thread stopped".to_owned());
            strand.join().unwrap_or_else(stopped)
        };
        [here, ended(page), ended(rest)]
    });
    show(&first)?;
    show(&second)?;
    // The one that failed first made the others stop.
    let failed: Vec<String> = [rest, page, here]
        .into_iter()
        .filter_map(Result::err)
        .collect();
    if failed.is_empty() {
        // What every strand has asked the kernel, side by side.
        step("the same bits", bits::of_the_gate)
    } else {
        Err(failed.join("\n"))
    }
}

/// What one strand does to let the other go on, and what the other waits by; an error in the words given
/// if the first strand stops before.
fn gate(closed: &str) -> (impl FnOnce() + Send, impl FnOnce() -> Outcome + Send) {
    let (sender, receiver) = channel();
    // Gone without a word if it is not reached.
    let open = move || sender.send(()).unwrap_or_default();
    let wait = move || receiver.recv().map_err(|_| closed.to_owned());
    (open, wait)
}

/// The tools, and what cargo builds for this machine.
fn this_machine(tools_are_there: impl FnOnce(), it_is_built: impl FnOnce()) -> Outcome {
    // What is missing on this machine shows before anything else takes its time.
    step("tools", prepare::for_all_checks)?;
    tools_are_there();
    step("format", || run(cargo().args(["fmt", "--all", "--check"])))?;
    step("build", own::build)?;
    it_is_built();
    step("schema", || run(own::native().args(["schemas", "--check"])))?;
    step("tests", || {
        // The same cases each time: what fails here is by what was changed. Without it laws draw new ones.
        run_tests(
            cargo()
                .args(["test", "--workspace", "--", "--quiet"])
                .env("PROPTEST_RNG_SEED", "1"),
        )
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

/// The lints, which need the compiler alone; then what is built for WebAssembly, and the page over it.
fn for_a_page(
    wait_for_tools: impl FnOnce() -> Outcome,
    wait_for_build: impl FnOnce() -> Outcome,
    it_is_packed: impl FnOnce(),
) -> Outcome {
    step("lints", || {
        run(cargo()
            .args(["clippy", "--workspace", "--all-targets"])
            .args(["--", "-D", "warnings"]))
    })?;
    wait_for_tools()?;
    step("WebAssembly files", wasm::files)?;
    // The glue is put round them by a program that is built for this machine.
    wait_for_build()?;
    step("npm package", wasm::package)?;
    it_is_packed();
    step("page", page::test)
}

/// What nothing else waits for long: the C libraries, the core for processors without an operating system,
/// and the tests of the npm package.
fn by_themselves(
    wait_for_tools: impl FnOnce() -> Outcome,
    wait_for_package: impl FnOnce() -> Outcome,
) -> Outcome {
    step("C: libraries", c::libraries)?;
    wait_for_tools()?;
    step("bare metal, no std", bare_metal::check)?;
    wait_for_package()?;
    step("npm package: tests", wasm::test)
}
