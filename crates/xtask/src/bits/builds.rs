//! What Rust answers in other builds and on other processors.

use crate::own::target;
use crate::step::{cargo, output};
use crate::toolchain::Target;
use crate::tools::table::{PLAIN, Tool};
use std::path::Path;
use std::process::Command;

const HOST: &str = "x86_64-unknown-linux-gnu";

/// A processor that is emulated, with the programs of the distribution for it.
pub(crate) struct Emulated {
    /// The column's name.
    pub(crate) name: &'static str,
    target: Target,
    /// Compiles C for it; links what Rust made.
    linker: Tool,
    /// Runs its programs here.
    emulator: Tool,
    /// Where its C library lies.
    libraries: &'static str,
}

/// A word of 32 bits, with doubles that pass through a stack of 80 bits where C asks for it; and the other order
/// of bytes.
pub(crate) static EMULATED: [Emulated; 2] = [
    Emulated {
        name: "i686, 32 bits",
        target: with_std("i686-unknown-linux-gnu", "target/bits/i686"),
        linker: Tool {
            program: "i686-linux-gnu-gcc",
            least: &["9"],
            packages: &["gcc-i686-linux-gnu", "libc6-dev-i386-cross"],
            purpose: "links programs for i686",
            ..PLAIN
        },
        emulator: Tool {
            program: "qemu-i386",
            purpose: "runs programs of i686",
            ..QEMU
        },
        libraries: "/usr/i686-linux-gnu",
    },
    Emulated {
        name: "s390x, big-endian",
        target: with_std("s390x-unknown-linux-gnu", "target/bits/s390x"),
        linker: Tool {
            program: "s390x-linux-gnu-gcc",
            least: &["9"],
            packages: &["gcc-s390x-linux-gnu", "libc6-dev-s390x-cross"],
            purpose: "links programs for s390x",
            ..PLAIN
        },
        emulator: Tool {
            program: "qemu-s390x",
            purpose: "runs programs of s390x",
            ..QEMU
        },
        libraries: "/usr/s390x-linux-gnu",
    },
];

const QEMU: Tool = Tool {
    least: &["7.0"],
    packages: &["qemu-user"],
    ..PLAIN
};

/// A target whose library is built from source where the compiler in use lacks it.
const fn with_std(name: &'static str, directory: &'static str) -> Target {
    Target {
        name,
        library: "std,panic_abort",
        features: "",
        links: false,
        directory,
    }
}

/// The package and program that answer.
const NATIVE: [&str; 4] = ["--package", "lashwork-tests", "--bin", "native"];

/// What the released build answers.
pub(crate) fn released() -> Result<String, String> {
    output(
        cargo()
            .args(["run", "--quiet", "--release"])
            .args(NATIVE)
            .args(["--", "bits"]),
    )
}

/// What it answers when the compiler may use every instruction of the third level of x86-64: registers of four
/// doubles, and a product and a sum in one step, which it must not make of two.
pub(crate) fn wide() -> Result<String, String> {
    output(
        cargo()
            .args(["run", "--quiet", "--release"])
            .args(["--target", HOST, "--target-dir"])
            .arg(target().join("bits/wide"))
            .args(NATIVE)
            .args(["--", "bits"])
            .env("RUSTFLAGS", "-Ctarget-cpu=x86-64-v3"),
    )
}

/// Why this machine cannot run that build.
#[cfg(all(target_os = "linux", target_arch = "x86_64"))]
pub(crate) fn not_wide() -> Option<&'static str> {
    let has_all = is_x86_feature_detected!("avx2") && is_x86_feature_detected!("fma");
    (!has_all).then_some("this processor has no AVX2")
}

#[cfg(not(all(target_os = "linux", target_arch = "x86_64")))]
pub(crate) fn not_wide() -> Option<&'static str> {
    Some("it is set up for Linux on x86-64 only")
}

impl Emulated {
    /// What must be there.
    pub(crate) fn needs(&'static self) -> Vec<&'static Tool> {
        let mut tools = self.target.needs();
        tools.extend([&self.linker, &self.emulator]);
        tools
    }

    /// What it answers there.
    pub(crate) fn lines(&self) -> Result<String, String> {
        let name = self.target.name;
        let linker = name.to_uppercase().replace('-', "_");
        let (mut build, _) = self.target.cargo("build")?;
        crate::step::run(
            build
                .args(["--quiet", "--release"])
                .args(NATIVE)
                // Only a released library unwinds; and what is linked as a whole would take twice as long.
                .args(["--config", "profile.release.panic=\"abort\""])
                .args(["--config", "profile.release.lto=\"off\""])
                .args(["--config", "profile.release.codegen-units=16"])
                .env(format!("CARGO_TARGET_{linker}_LINKER"), self.linker.program),
        )?;
        let program = Path::new(self.target.directory)
            .join(name)
            .join("release/native");
        output(
            Command::new(self.emulator.program)
                .args(["-L", self.libraries])
                .arg(program)
                .arg("bits"),
        )
    }
}
