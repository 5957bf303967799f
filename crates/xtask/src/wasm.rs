//! `cargo xtask wasm`: the WebAssembly files, their glue and the npm package round them.

use crate::c::doors;
use crate::counted::run_tests;
use crate::step::{Outcome, root, run};
use crate::toolchain::{Target, sysroots};
use crate::tools::{program, see_to};
use crate::{node, own};
use std::path::Path;
use std::process::Command;

/// The bindings.
pub(crate) const FOLDER: &str = "bindings/wasm";
/// The package that is made in them.
const PACKAGE: &str = "bindings/wasm/pkg";

/// The crate of the small file, which is built without the feature `whole` of others.
const SMALL: &str = "lashwork-wasm-quick";

/// The WebAssembly files: the crate each is made from, and what the glue is told: its name, and whether what is
/// for one section of a document only goes into a file of its own.
const FILES: [(&str, &[&str]); 3] = [
    ("lashwork-wasm", &["lashwork", "--parts"]),
    (SMALL, &["quick"]),
    // The same libraries as the one before: only linked.
    ("lashwork-wasm-ignition", &["ignition"]),
];

/// What the package must answer, written by the JSON interface in Rust.
const ANSWERS: &str = "target-wasm/answers.json";

/// The target.
pub(crate) const WASM: Target = Target {
    name: "wasm32-unknown-unknown",
    library: "std,panic_abort",
    features: "optimize_for_size",
    links: true,
    directory: "target-wasm",
};

/// Compiles the WebAssembly files, without what is put round them.
pub(crate) fn files() -> Outcome {
    // One by one: asked for together, all of them would get the features of the largest.
    FILES.iter().try_for_each(|(made_from, _)| build(made_from))
}

/// Makes the package in `bindings/wasm/pkg` and prints its sizes.
pub(crate) fn package() -> Outcome {
    node::install(FOLDER)?;
    files()?;
    let package = root().join(PACKAGE);
    std::fs::remove_dir_all(&package)
        .or_else(|why| match why.kind() {
            std::io::ErrorKind::NotFound => Ok(()),
            _ => Err(why),
        })
        .and_then(|()| std::fs::create_dir_all(&package))
        .map_err(|why| format!("{PACKAGE}: {why}"))?;
    for (made_from, words) in FILES {
        let file = made_from.replace('-', "_");
        let file = format!("{}/{}/wasm/{file}.wasm", WASM.directory, WASM.name);
        let folder = format!("{PACKAGE}/glue");
        run(glue().args([file, folder]).args(words))?;
    }
    run(node::npm(FOLDER)
        .args(["run", "--silent", "package"])
        .env("LASHWORK_VERSION", env!("CARGO_PKG_VERSION")))
}

/// Builds a crate of [`FILES`].
fn build(name: &str) -> Outcome {
    let (mut build, from_source) = WASM.cargo("build")?;
    let mut flags = no_paths_of_this_machine();
    // The small file leaves out most of the core: what it still holds and never uses is told here.
    flags.push("-Dwarnings".to_owned());
    // Registers of two numbers: every browser has them since 2023, and columns take a third of the time.
    flags.push("-Ctarget-feature=+simd128".to_owned());
    if from_source {
        // A panic is a trap either way, and nobody would see its words.
        flags.extend(["-Zunstable-options", "-Cpanic=immediate-abort"].map(String::from));
    }
    run(build
        .args(["--profile", "wasm", "--package", name])
        .env("CARGO_ENCODED_RUSTFLAGS", flags.join("\u{1f}")))
}

/// The places that JavaScript is run in, as their doors are called.
pub(crate) const DOORS: [&str; 2] = ["node", "Chromium"];

/// Takes the shared vectors through the package that was made, in node and in a browser.
pub(crate) fn ask() -> Outcome {
    see_to(node::browser().as_slice())?;
    let requests = root().join(WASM.directory).join("requests");
    doors::write_requests(&requests)?;
    for door in DOORS {
        run(program("node")
            .arg("bindings/wasm/tests/doors/main.mjs")
            .arg(door)
            .args([&requests, &doors::answers(door)?]))?;
    }
    Ok(())
}

/// Runs the tests of the package that was made: in node, in a bundler, in a browser, and its types.
pub(crate) fn test() -> Outcome {
    see_to(node::browser().as_slice())?;
    run(own::native().args(["answers", ANSWERS]))?;
    run_tests(node::npm(FOLDER).args(["run", "--silent", "test"]))?;
    ask()
}

/// The program that makes the glue.
fn glue() -> Command {
    own::program("lashwork-wasm-glue", "lashwork-wasm-glue")
}

/// Flags that leave no path of the building machine in the file.
fn no_paths_of_this_machine() -> Vec<String> {
    let home = std::env::var("HOME").unwrap_or_default();
    let cargo_home = std::env::var("CARGO_HOME").unwrap_or_else(|_| format!("{home}/.cargo"));
    let hidden = sysroots()
        .map(|sysroot| (sysroot, "rust"))
        .chain([(cargo_home.into(), "cargo"), (root(), ".")]);
    hidden
        .filter(|(path, _)| path != Path::new("/"))
        .map(|(path, name)| format!("--remap-path-prefix={}={name}", path.display()))
        .collect()
}
