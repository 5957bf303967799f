//! `cargo xtask careful`: what looks for undefined behaviour and needs a compiler of the day with the source of its
//! library (`rustup toolchain install nightly -c miri -c rust-src`). No other check needs it.

use crate::c::doors::place;
use crate::output::say;
use crate::step::{Outcome, output, run, step};
use std::process::Command;

const TRIPLE: &str = "x86_64-unknown-linux-gnu";
/// Without the assembly that libm has for x86, which miri cannot follow; and its bytes are the other way round.
const FOR_MIRI: &str = "s390x-unknown-linux-gnu";
/// What makes every call of the header.
const CALLS: [&str; 4] = ["--package", "lashwork-c-calls", "--test", "replay"];

/// Runs all of it.
pub(crate) fn all() -> Outcome {
    step("nightly with miri and rust-src", is_there)?;
    step("calls under miri", miri)?;
    step("calls under ASan, std as well", || {
        let mut command = with_std("test", "address");
        run(command.args(CALLS))
    })?;
    step("threads under TSan, std as well", threads)
}

/// Whether the parts are there.
fn is_there() -> Outcome {
    let listed = ["component", "list", "--toolchain", "nightly", "--installed"];
    let listed = output(Command::new("rustup").args(listed))?;
    let is_there = |part: &str| listed.lines().any(|line| line.starts_with(part));
    if ["miri", "rust-src"].into_iter().all(is_there) {
        return Ok(());
    }
    Err("rustup toolchain install nightly -c miri -c rust-src".to_owned())
}

/// The cargo of that compiler: the one that started this program puts itself and its compiler first.
fn nightly() -> Command {
    let mut command = Command::new("rustup");
    command.args(["run", "nightly", "cargo"]);
    for name in ["CARGO", "RUSTC", "RUSTUP_TOOLCHAIN"] {
        command.env_remove(name);
    }
    command
}

fn miri() -> Outcome {
    run(nightly()
        .args(["miri", "test", "--target", FOR_MIRI, "--target-dir"])
        .arg(place("miri"))
        .args(CALLS)
        // The corpora are files.
        .env("MIRIFLAGS", "-Zmiri-disable-isolation"))
}

/// Cargo for a build with a sanitizer in all of it, the library of Rust too.
fn with_std(what: &str, sanitizer: &str) -> Command {
    let mut command = nightly();
    command
        .args([what, "-Zbuild-std", "--target", TRIPLE, "--target-dir"])
        .arg(place(sanitizer))
        // What it sees does not hang on speed, and half of the build is optimising.
        .args(["--config", "profile.dev.package.lashwork.opt-level=0"])
        .env("RUSTFLAGS", format!("-Zsanitizer={sanitizer}"));
    command
}

/// Handles shared by threads: the C test, with a library in which every access is seen.
fn threads() -> Outcome {
    run(with_std("rustc", "thread").args([
        "--package",
        "lashwork-c",
        "--crate-type",
        "staticlib",
    ]))?;
    let library = place("thread").join(TRIPLE).join("debug/liblashwork_c.a");
    // The run time is that of the compiler of Rust: what gcc brings is older and lacks a part of it.
    let sysroot =
        output(Command::new("rustup").args(["run", "nightly", "rustc", "--print", "sysroot"]))?;
    let run_time = format!("{sysroot}/lib/rustlib/{TRIPLE}/lib/librustc-nightly_rt.tsan.a");
    for (name, flag) in [
        ("threads", None),
        ("threads_racing", Some("-DLASHWORK_RACE")),
    ] {
        let [object, program] =
            ["object", "program"].map(|kind| place("thread").join(format!("{name}.{kind}")));
        run(Command::new("gcc")
            .args([
                "-std=c11",
                "-g",
                "-fsanitize=thread",
                "-Ibindings/c/include",
            ])
            .args(flag)
            .args(["-c", "bindings/c/tests/threads.c", "-o"])
            .arg(&object))?;
        run(Command::new("gcc")
            .args([&object, &library])
            .args(["-Wl,--whole-archive", &run_time, "-Wl,--no-whole-archive"])
            .args(crate::c::PRIVATE_LIBS.split(' '))
            .arg("-o")
            .arg(&program))?;
        let ended = run(&mut Command::new(&program));
        match (flag, ended) {
            (None, ended) => ended?,
            (Some(_), Ok(())) => return Err("nobody saw the planted race".to_owned()),
            (Some(_), Err(_)) => say!("the planted race was seen"),
        }
    }
    Ok(())
}
