//! `cargo xtask page`: the page for a phone, built over the npm package and served on this machine.

use crate::counted::run_tests;
use crate::step::{Outcome, root, run};
use crate::tools::{program, see_to};
use crate::{node, own, wasm};

/// The page's source.
pub(crate) const FOLDER: &str = "examples/page";

/// Makes the static files in `examples/page/dist` and prints their sizes.
pub(crate) fn build() -> Outcome {
    node::install(FOLDER)?;
    wasm::package()?;
    files()
}

/// Builds the page and serves it on this machine until it is told to end.
pub(crate) fn serve() -> Outcome {
    build()?;
    run(program("node").arg(root().join(FOLDER).join("serve.mjs")))
}

/// Drives the page in a browser; the npm package must be there.
pub(crate) fn test() -> Outcome {
    see_to(node::browser().as_slice())?;
    files()?;
    run(node::npm(FOLDER).args(["run", "--silent", "format:check"]))?;
    let program = own::built("lashwork-cli", "lashwork")?;
    run_tests(
        node::npm(FOLDER)
            .args(["run", "--silent", "test"])
            .env("LASHWORK_PROGRAM", program),
    )
}

fn files() -> Outcome {
    node::install(FOLDER)?;
    run(node::npm(FOLDER).args(["run", "--silent", "build"]))
}
