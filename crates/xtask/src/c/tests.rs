//! Proof of the C interface: the header, the contract, and the shared vectors, under tools that see what a
//! passing test does not.

use super::doors::{answers, compare, few_requests, place, requests};
use super::{package, scripts, staged, write};
use crate::output::say;
use crate::own;
use crate::python;
use crate::step::{Outcome, cargo, run, step};
use crate::tools::{FOR_C, see_to};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const SOURCES: &str = "bindings/c/tests";
const WARNINGS: [&str; 4] = ["-Wall", "-Wextra", "-Werror", "-pedantic"];
const TRIPLE: &str = "x86_64-unknown-linux-gnu";
/// The programs that must pass whatever runs them.
const PROGRAMS: [&str; 5] = ["contract", "nulls", "doors", "direct", "threads"];
const VALGRIND: [&str; 6] = [
    "valgrind",
    "--quiet",
    "--leak-check=full",
    "--show-leak-kinds=all",
    "--errors-for-leak-kinds=all",
    "--error-exitcode=9",
];
const PLAIN: [&str; 1] = ["gcc"];
/// The door that is asked of the library that is installed.
pub(crate) const INSTALLED: &str = "C-valgrind-installed";
/// gcc brings the run time of its sanitizers; clang's is a package of its own.
const SANITIZED: [&str; 4] = [
    "gcc",
    "-fsanitize=address,undefined",
    "-fno-sanitize-recover=all",
    "-DLASHWORK_INJECTED_PANIC",
];

/// Sees to the tools and runs all of it.
pub(crate) fn alone() -> Outcome {
    step("C: tools", || {
        see_to(&FOR_C)?;
        python::install()
    })?;
    all()
}

/// Runs all of it; the tools must be there.
pub(crate) fn all() -> Outcome {
    step("C: header is up to date", || super::header(&["--check"]))?;
    step("C: libraries and staged tree", || {
        super::libraries()?;
        super::stage(&staged(), "lib")
    })?;
    step("C: header in C and C++", dialects)?;
    let (requests, few) = (requests()?, few_requests()?);
    // What runs under valgrind keeps one processor busy, and so does most of the other build.
    std::thread::scope(|scope| {
        let other = scope.spawn(|| step("C: under sanitizers", || sanitizers(&few)));
        step("C: under valgrind", || valgrind(&requests, &few))?;
        other.join().map_err(|_| "the proof stopped".to_owned())?
    })?;
    step("C: installed tree", package::all)?;
    step("C: from scripts", || scripts::all(&requests))
}

/// The header alone, and every C test, in the dialects that are promised.
fn dialects() -> Outcome {
    let alone = place("header.c");
    let twice = "#include \"lashwork.h\"\n#include \"lashwork.h\"\nint main(void) { return 0; }\n";
    write(&alone, twice)?;
    for compiler in ["gcc", "clang"] {
        for standard in ["-std=c11", "-std=c17", "-std=c2x"] {
            run(compile(compiler, standard).arg("-fsyntax-only").arg(&alone))?;
        }
    }
    for compiler in ["g++", "clang++"] {
        for standard in ["-std=c++17", "-std=c++20"] {
            let mut command = compile(compiler, standard);
            run(command.args(["-fsyntax-only", "-x", "c++"]).arg(&alone))?;
        }
    }
    Ok(())
}

fn compile(compiler: &str, standard: &str) -> Command {
    let mut command = Command::new(compiler);
    command
        .arg(standard)
        .args(WARNINGS)
        .arg(format!("-I{}", staged().join("include").display()));
    command
}

/// One C test program, linked with a static library.
fn program(name: &str, compiler: &[&str], library: &Path, into: &Path) -> Result<PathBuf, String> {
    let made = into.join(name);
    fs::create_dir_all(into).map_err(|why| format!("{}: {why}", into.display()))?;
    let (first, flags) = compiler.split_first().ok_or("no compiler")?;
    let mut command = compile(first, "-std=c11");
    command
        .args(flags)
        .arg("-g")
        .arg(format!("{SOURCES}/{name}.c"))
        .arg(library)
        .args(super::PRIVATE_LIBS.split(' '))
        .arg("-o")
        .arg(&made);
    run(&mut command)?;
    Ok(made)
}

/// A program under a tool, or alone.
fn under(tool: &[&str], program: &Path) -> Command {
    let mut command = match tool.split_first() {
        Some((tool, flags)) => {
            let mut command = Command::new(tool);
            command.args(flags).arg(program);
            command
        }
        None => Command::new(program),
    };
    // With a backtrace a caught panic keeps its symbols in memory.
    command.env("RUST_BACKTRACE", "0");
    command
}

/// Takes the shared vectors through the library that is installed, from C as a compiler optimises it; the door is
/// called as the compiler is.
pub(crate) fn ask_compiled(compiler: &str, requests: &Path) -> Outcome {
    let (into, library) = (place(compiler), staged().join("lib/liblashwork.a"));
    let answers = answers(compiler)?;
    for name in ["doors", "direct"] {
        let made = program(name, &[compiler, "-O2"], &library, &into)?;
        run(Command::new(made).arg(requests).arg(&answers))?;
    }
    Ok(())
}

/// Builds all programs with a library and runs them under a tool; then plants mistakes, which the tool
/// must see.
fn prove(
    door: &str,
    requests: &Path,
    tool: &[&str],
    compiler: &[&str],
    library: &Path,
    seen: &[&str],
) -> Outcome {
    let into = place(door);
    let answers = answers(door)?;
    for name in PROGRAMS {
        let mut command = under(tool, &program(name, compiler, library, &into)?);
        if matches!(name, "doors" | "direct") {
            command.arg(requests).arg(&answers);
        }
        run(&mut command)?;
    }
    compare(door, requests, &answers)?;
    let planted = program("planted", compiler, library, &into)?;
    run(under(tool, &planted).arg("none"))?;
    for mistake in seen {
        let mut command = under(tool, &planted);
        let found = command.arg(mistake).stderr(Stdio::null()).status();
        match found {
            Ok(status) if status.success() => {
                return Err(format!("{door}: nobody saw the planted {mistake}"));
            }
            Ok(_) => say!("{door}: the planted {mistake} was seen"),
            Err(why) => return Err(format!("{door}: {why}")),
        }
    }
    Ok(())
}

/// The library as cargo builds it for tests, with every check; and the one that is installed, without
/// that for values never set: what the optimiser does to a `match` looks like one.
fn valgrind(requests: &Path, few: &Path) -> Outcome {
    let seen = ["leak", "double-free"];
    let library = own::built("lashwork-c", "liblashwork_c.a")?;
    prove("C-valgrind", few, &VALGRIND, &PLAIN, &library, &seen)?;
    let lenient = [&VALGRIND[..], &["--undef-value-errors=no"]].concat();
    let installed = staged().join("lib/liblashwork.a");
    prove(INSTALLED, requests, &lenient, &PLAIN, &installed, &seen)
}

/// Builds the Rust side with checks of every memory access as well: the C side alone would miss what
/// happens inside a call.
fn instrumented() -> Result<PathBuf, String> {
    let folder = place("instrumented");
    run(cargo()
        .args([
            "rustc",
            "--package",
            "lashwork-c",
            "--crate-type",
            "staticlib",
        ])
        .args(["--target", TRIPLE, "--target-dir"])
        .arg(&folder)
        // What it sees does not hang on speed, and half of the build is optimising.
        .args(["--config", "profile.dev.package.lashwork.opt-level=0"])
        .args(["--", "--cfg", "lashwork_injected_panic"])
        // A released compiler takes -Z flags only so.
        .env("RUSTC_BOOTSTRAP", "1")
        .env("RUSTFLAGS", "-Zsanitizer=address"))?;
    Ok(folder.join(TRIPLE).join("debug/liblashwork_c.a"))
}

fn sanitizers(few: &Path) -> Outcome {
    if !cfg!(all(target_os = "linux", target_arch = "x86_64")) {
        say!("left out: the sanitizers are set up for {TRIPLE} only");
        return Ok(());
    }
    let library = instrumented()?;
    let seen = ["leak", "double-free", "overrun"];
    prove("C-sanitized", few, &[], &SANITIZED, &library, &seen)
}
