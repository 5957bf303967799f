//! `cargo xtask page`: the page for a phone, built over the npm package and served on this machine.

use crate::step::{Outcome, root, run};
use crate::{node, wasm};
use std::process::Command;

const FOLDER: &str = "examples/page";

/// Makes the static files in `examples/page/dist` and prints their sizes.
pub(crate) fn build() -> Outcome {
    wasm::package()?;
    files()
}

/// Builds the page and serves it on this machine until it is told to end.
pub(crate) fn serve() -> Outcome {
    build()?;
    run(Command::new("node").arg(root().join(FOLDER).join("serve.mjs")))
}

/// Drives the page in a browser; the npm package must be there.
pub(crate) fn test() -> Outcome {
    files()?;
    node::browser()?;
    run(node::npm(FOLDER).args(["run", "--silent", "format:check"]))?;
    run(node::npm(FOLDER).args(["run", "--silent", "test"]))
}

fn files() -> Outcome {
    node::install(FOLDER)?;
    run(node::npm(FOLDER).args(["run", "--silent", "build"]))
}
