//! Proof of the C door: the header, the contract, and the shared vectors, under tools that see what a
//! passing test does not.

use crate::c::{self, read, staged, target, write};
use crate::step::{Outcome, cargo, install, run, step};
use lashwork_tests::vectors;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const SOURCES: &str = "bindings/c/tests";
const WARNINGS: [&str; 4] = ["-Wall", "-Wextra", "-Werror", "-pedantic"];
/// What the tests call, and the package of the distribution that has it.
const TOOLS: [(&str, &str); 4] = [
    ("gcc", "gcc"),
    ("g++", "g++"),
    ("clang", "clang"),
    ("valgrind", "valgrind"),
];
const TRIPLE: &str = "x86_64-unknown-linux-gnu";

/// Runs all of it.
pub(crate) fn all() -> Outcome {
    step("C: tools", tools)?;
    step("C: header", || c::header(&["--check"]))?;
    step("C: libraries", c::build)?;
    step("C: header in C and C++", dialects)?;
    step("C: vectors and contract under valgrind", valgrind)?;
    step("C: vectors and contract under sanitizers", sanitizers)
}

/// Installs what is missing.
fn tools() -> Outcome {
    let is_missing = |(program, _): &&(&str, &str)| {
        let quiet = Command::new(program)
            .arg("--version")
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .status();
        !quiet.is_ok_and(|status| status.success())
    };
    let missing: Vec<&str> = TOOLS
        .iter()
        .filter(is_missing)
        .map(|(_, package)| *package)
        .collect();
    if missing.is_empty() {
        return Ok(());
    }
    println!("missing: {}", missing.join(" "));
    install(&missing, "the C tests need them")
}

/// Where programs and answers go.
fn place(name: &str) -> PathBuf {
    target().join("c").join(name)
}

/// The header alone, and every C test, in the dialects that are promised.
fn dialects() -> Outcome {
    let alone = place("header.c");
    write(
        &alone,
        "#include \"lashwork.h\"\n#include \"lashwork.h\"\nint main(void) { return 0; }\n",
    )?;
    for (compiler, standards) in [
        ("gcc", ["-std=c11", "-std=c17", "-std=c2x"]),
        ("clang", ["-std=c11", "-std=c17", "-std=c2x"]),
    ] {
        for standard in standards {
            compile(compiler, standard)
                .arg("-fsyntax-only")
                .arg(&alone)
                .run_it()?;
        }
    }
    for compiler in ["g++", "clang++"] {
        for standard in ["-std=c++17", "-std=c++20"] {
            compile(compiler, standard)
                .args(["-fsyntax-only", "-x", "c++"])
                .arg(&alone)
                .run_it()?;
        }
    }
    Ok(())
}

trait RunIt {
    fn run_it(&mut self) -> Outcome;
}

impl RunIt for Command {
    fn run_it(&mut self) -> Outcome {
        run(self)
    }
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
    compile(first, "-std=c11")
        .args(flags)
        .arg("-g")
        .arg(format!("{SOURCES}/{name}.c"))
        .arg(library)
        .args(["-lpthread", "-lm", "-ldl", "-lrt", "-lutil", "-lgcc_s"])
        .arg("-o")
        .arg(&made)
        .run_it()?;
    Ok(made)
}

/// Writes the requests of the shared vectors where every door finds them.
fn requests() -> Result<PathBuf, String> {
    let folder = place("requests");
    let mut names = String::new();
    for vector in vectors::read(&vectors::folder())? {
        let path = folder.join(format!("{}.request", vector.id));
        write(&path, "")?;
        fs::write(&path, &vector.request).map_err(|why| format!("{}: {why}", path.display()))?;
        names.push_str(&vector.id);
        names.push('\n');
    }
    write(&folder.join("names.txt"), &names)?;
    Ok(folder)
}

/// Compares what a door answered with what Rust answers, byte for byte.
fn compare(door: &str, answers: &Path) -> Outcome {
    let vectors = vectors::read(&vectors::folder())?;
    for vector in &vectors {
        let answer = read(&answers.join(format!("{}.answer", vector.id)))?;
        if answer.as_bytes() != lashwork_wire::run(&vector.request) {
            return Err(format!(
                "{door}: the answer to {} differs from Rust's",
                vector.id
            ));
        }
        let sheet = read(&answers.join(format!("{}.sheet", vector.id)))?;
        let expected = match lashwork_wire::report(&vector.request) {
            Ok(report) => report.sheet(),
            Err(problems) => problems.first().map_or("", |p| &p.code).to_owned(),
        };
        if sheet != expected {
            return Err(format!(
                "{door}: the sheet of {} differs from Rust's",
                vector.id
            ));
        }
        if let Some(why) = vector.differences(answer.as_bytes()).first() {
            return Err(format!("{door}: {why}"));
        }
    }
    println!(
        "{door}: {} vectors, the same bytes as from Rust",
        vectors.len()
    );
    Ok(())
}

/// Runs both programs as `before` says, and compares the answers.
fn both(door: &str, before: &[&str], programs: [&Path; 2]) -> Outcome {
    let [contract, doors] = programs;
    let answers = place(door);
    fs::create_dir_all(&answers).map_err(|why| format!("{}: {why}", answers.display()))?;
    let requests = requests()?;
    let start = |program: &Path| {
        let mut command = match before.split_first() {
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
    };
    run(&mut start(contract))?;
    run(start(doors).arg(&requests).arg(&answers))?;
    compare(door, &answers)
}

fn valgrind() -> Outcome {
    let library = staged().join("lib/liblashwork.a");
    let into = place("plain");
    let contract = program("contract", &["gcc"], &library, &into)?;
    let doors = program("doors", &["gcc"], &library, &into)?;
    let valgrind = [
        "valgrind",
        "--quiet",
        "--leak-check=full",
        "--show-leak-kinds=all",
        "--errors-for-leak-kinds=all",
        "--error-exitcode=9",
    ];
    both("C-valgrind", &valgrind, [&contract, &doors])
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
        .args(["--", "--cfg", "lashwork_injected_panic"])
        // A released compiler takes -Z flags only so.
        .env("RUSTC_BOOTSTRAP", "1")
        .env("RUSTFLAGS", "-Zsanitizer=address"))?;
    Ok(folder.join(TRIPLE).join("debug/liblashwork_c.a"))
}

fn sanitizers() -> Outcome {
    let library = instrumented()?;
    let into = place("sanitized");
    let compiler = [
        "clang",
        "-fsanitize=address,undefined",
        "-fno-sanitize-recover=all",
        "-DLASHWORK_INJECTED_PANIC",
    ];
    let contract = program("contract", &compiler, &library, &into)?;
    let doors = program("doors", &compiler, &library, &into)?;
    both("C-sanitized", &[], [&contract, &doors])
}
