//! Proof that the core needs no operating system: it is built for a processor without one.

use crate::step::{Outcome, cargo, install, output, root, run};
use std::path::Path;
use std::process::Command;

const TARGET: &str = "thumbv7em-none-eabihf";
/// Apart from the host's, or every change of compiler would rebuild everything.
const TARGET_DIRECTORY: &str = "target-bare";
/// A compiler of the distribution and the source of its library.
const PACKAGES: [&str; 2] = ["rustc-web", "rust-web-src"];
const SYSTEM_RUSTC: &str = "/usr/bin/rustc";

/// Builds crate lashwork for the bare-metal target.
pub(crate) fn build() -> Outcome {
    if target_is_installed() {
        return run(&mut build_core());
    }
    println!("{TARGET} is not installed; building core and alloc from source");
    if !system_source_is_installed() {
        install(
            &PACKAGES,
            &format!("`rustup target add {TARGET}` is enough"),
        )?;
    }
    run(build_core()
        .env("RUSTC", SYSTEM_RUSTC)
        // The released compiler takes -Z flags only so.
        .env("RUSTC_BOOTSTRAP", "1")
        .args(["-Z", "build-std=core,alloc"]))
}

fn build_core() -> Command {
    let mut command = cargo();
    command
        .args(["build", "--release", "--package", "lashwork"])
        .args(["--target", TARGET, "--target-dir", TARGET_DIRECTORY])
        .current_dir(root());
    command
}

/// Whether the toolchain in use brings `core` for the target.
fn target_is_installed() -> bool {
    let mut rustc = Command::new(std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()));
    let found = output(rustc.args(["--print", "target-libdir", "--target", TARGET]));
    found.is_ok_and(|directory| {
        std::fs::read_dir(directory).is_ok_and(|entries| {
            entries
                .flatten()
                .any(|entry| entry.file_name().to_string_lossy().starts_with("libcore-"))
        })
    })
}

fn system_source_is_installed() -> bool {
    Path::new(SYSTEM_RUSTC).exists()
        && output(Command::new(SYSTEM_RUSTC).args(["--print", "sysroot"])).is_ok_and(|sysroot| {
            Path::new(&sysroot)
                .join("lib/rustlib/src/rust/library/core/Cargo.toml")
                .exists()
        })
}
