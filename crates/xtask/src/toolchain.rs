//! The compiler for a target without an operating system: the one in use if it has the target,
//! otherwise the distribution's, which builds the library from its source.

use crate::step::{Outcome, cargo, install, output, root};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// A compiler of the distribution and the source of its library.
const PACKAGES: [&str; 2] = ["rustc-web", "rust-web-src"];
const SYSTEM_RUSTC: &str = "/usr/bin/rustc";

/// A target, and what to build from source where no library comes with the compiler.
pub(crate) struct Target {
    /// Its name.
    pub(crate) name: &'static str,
    /// The crates of the library that are needed, for `-Z build-std`.
    pub(crate) library: &'static str,
    /// Features to build the library with.
    pub(crate) features: &'static str,
    /// Whether the compiler needs to be told of a linker when it is the distribution's.
    pub(crate) links: bool,
    /// Where the build goes. Apart from the host's, or every change of compiler would rebuild
    /// everything.
    pub(crate) directory: &'static str,
}

impl Target {
    /// `cargo build` for this target, with the compiler chosen, and whether the library is built too.
    pub(crate) fn build(&self) -> Result<(Command, bool), String> {
        let mut command = cargo();
        command
            .args(["build", "--target", self.name])
            .args(["--target-dir", self.directory])
            .current_dir(root());
        if has_target(&rustc(), self.name) {
            return Ok((command, false));
        }
        println!(
            "{} is not installed; building {} from source",
            self.name, self.library
        );
        self.with_source(&mut command)?;
        Ok((command, true))
    }

    fn with_source(&self, command: &mut Command) -> Outcome {
        if !has_source(SYSTEM_RUSTC) {
            install(
                &PACKAGES,
                &format!("`rustup target add {}` is enough", self.name),
            )?;
        }
        command
            .env("RUSTC", SYSTEM_RUSTC)
            // The released compiler takes -Z flags only so.
            .env("RUSTC_BOOTSTRAP", "1")
            .arg(format!("-Zbuild-std={}", self.library))
            .arg(format!("-Zbuild-std-features={}", self.features));
        if self.links {
            let name = self.name.to_uppercase().replace('-', "_");
            command.env(format!("CARGO_TARGET_{name}_LINKER"), linker()?);
        }
        Ok(())
    }
}

/// The compiler in use.
fn rustc() -> PathBuf {
    std::env::var_os("RUSTC").map_or_else(|| "rustc".into(), PathBuf::from)
}

/// The folder a compiler keeps its libraries in.
pub(crate) fn sysroot(rustc: &Path) -> Option<PathBuf> {
    let found = output(Command::new(rustc).args(["--print", "sysroot"]));
    found.ok().map(PathBuf::from)
}

/// The folder that the compiler in use keeps its libraries in.
pub(crate) fn sysroots() -> impl Iterator<Item = PathBuf> {
    let system = Some(PathBuf::from(SYSTEM_RUSTC)).filter(|path| path.exists());
    let known = std::iter::once(rustc()).chain(system);
    known.filter_map(|rustc| sysroot(&rustc))
}

/// Whether a compiler brings the core library for a target.
fn has_target(rustc: &Path, target: &str) -> bool {
    let asked = ["--print", "target-libdir", "--target", target];
    output(Command::new(rustc).args(asked)).is_ok_and(|directory| {
        std::fs::read_dir(directory).is_ok_and(|entries| {
            entries
                .flatten()
                .any(|entry| entry.file_name().to_string_lossy().starts_with("libcore-"))
        })
    })
}

fn has_source(rustc: &str) -> bool {
    Path::new(rustc).exists()
        && sysroot(Path::new(rustc)).is_some_and(|sysroot| {
            sysroot
                .join("lib/rustlib/src/rust/library/core/Cargo.toml")
                .exists()
        })
}

/// A linker that any compiler brings, or the distribution's.
fn linker() -> Result<PathBuf, String> {
    let brought = sysroots()
        .filter_map(|sysroot| std::fs::read_dir(sysroot.join("lib/rustlib")).ok())
        .flat_map(|hosts| hosts.flatten().map(|host| host.path().join("bin/rust-lld")))
        .find(|path| path.exists());
    if let Some(path) = brought {
        return Ok(path);
    }
    let runs = || {
        let mut command = Command::new("wasm-ld");
        let command = command.arg("--version").stdout(Stdio::null());
        command.status().is_ok_and(|status| status.success())
    };
    if !runs() {
        install(&["lld"], "a Rust toolchain of rustup brings `rust-lld`")?;
    }
    Ok("wasm-ld".into())
}
