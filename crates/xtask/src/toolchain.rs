//! The compiler for a target without an operating system: the one in use if it has the target,
//! otherwise one that has its library's source, which is then built first.

use crate::output::say;
use crate::step::{Outcome, cargo, output, root};
use crate::tools::see_to;
use crate::tools::table::{LINKER, RUSTC, Tool};
use std::path::{Path, PathBuf};
use std::process::Command;

/// A target, and what to build from source where no library comes with the compiler.
pub(crate) struct Target {
    /// Its name.
    pub(crate) name: &'static str,
    /// The crates of the library that are needed, for `-Z build-std`.
    pub(crate) library: &'static str,
    /// Features to build the library with.
    pub(crate) features: &'static str,
    /// Whether the compiler needs to be told of a linker when the library is built from source.
    pub(crate) links: bool,
    /// Where the build goes. Apart from the host's, or every change of compiler would rebuild
    /// everything.
    pub(crate) directory: &'static str,
}

impl Target {
    /// A command of cargo for this target, `build` or `check`, with the compiler chosen, and whether the
    /// library is built too.
    pub(crate) fn cargo(&self, what: &str) -> Result<(Command, bool), String> {
        let mut command = cargo();
        command
            .args([what, "--target", self.name])
            .args(["--target-dir", self.directory])
            .current_dir(root());
        if has_target(&rustc(), self.name) {
            return Ok((command, false));
        }
        say!(
            "{} is not installed; building {} from source",
            self.name,
            self.library
        );
        self.see_to()?;
        self.with_source(&mut command);
        Ok((command, true))
    }

    /// Installs what the build needs and is not there.
    fn see_to(&self) -> Outcome {
        see_to(&self.needs()).map_err(|why| {
            format!(
                "{why}\nor `rustup target add {}`, after which none of them is needed",
                self.name
            )
        })
    }

    /// The tools that must be seen to for this target: none if the compiler in use has it.
    pub(crate) fn needs(&self) -> Vec<&'static Tool> {
        let mut tools = Vec::new();
        if !has_target(&rustc(), self.name) {
            if !has_source(&rustc()) {
                tools.push(&RUSTC);
            }
            if self.links && brought_linker().is_none() {
                tools.push(&LINKER);
            }
        }
        tools
    }

    fn with_source(&self, command: &mut Command) {
        let own = rustc();
        let compiler = if has_source(&own) {
            own
        } else {
            RUSTC.program.into()
        };
        command
            .env("RUSTC", compiler)
            // The released compiler takes -Z flags only so.
            .env("RUSTC_BOOTSTRAP", "1")
            .arg(format!("-Zbuild-std={}", self.library))
            .arg(format!("-Zbuild-std-features={}", self.features));
        if self.links {
            let name = self.name.to_uppercase().replace('-', "_");
            let linker = brought_linker().unwrap_or_else(|| LINKER.program.into());
            command.env(format!("CARGO_TARGET_{name}_LINKER"), linker);
        }
    }
}

/// The compiler in use.
fn rustc() -> PathBuf {
    std::env::var_os("RUSTC").map_or_else(|| "rustc".into(), PathBuf::from)
}

/// The folder a compiler keeps its libraries in.
fn sysroot(rustc: &Path) -> Option<PathBuf> {
    let found = output(Command::new(rustc).args(["--print", "sysroot"]));
    found.ok().map(PathBuf::from)
}

/// The folders that the compiler in use and the distribution's keep their libraries in.
pub(crate) fn sysroots() -> impl Iterator<Item = PathBuf> {
    let system = Some(PathBuf::from(RUSTC.program)).filter(|path| path.exists());
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

/// Whether a compiler brings the source of its library.
fn has_source(rustc: &Path) -> bool {
    sysroot(rustc).is_some_and(|sysroot| {
        sysroot
            .join("lib/rustlib/src/rust/library/core/Cargo.toml")
            .exists()
    })
}

/// A linker that a compiler brought.
fn brought_linker() -> Option<PathBuf> {
    sysroots()
        .filter_map(|sysroot| std::fs::read_dir(sysroot.join("lib/rustlib")).ok())
        .flat_map(|hosts| hosts.flatten().map(|host| host.path().join("bin/rust-lld")))
        .find(|path| path.exists())
}
