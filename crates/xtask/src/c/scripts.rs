//! The shared vectors through the scripting languages that call C without a compiler, and the examples
//! in them.

use super::doors::{answered, answers, compare, place};
use super::{PRIVATE_LIBS, staged};
use crate::step::{Outcome, root, run};
use crate::{fleet, python};
use std::fs;
use std::path::Path;
use std::process::Command;

/// What these doors are called.
pub(crate) const PYTHON: &str = "Python";
pub(crate) const LUAJIT: &str = "LuaJIT";

/// Every door, then every example.
pub(crate) fn all(requests: &Path) -> Outcome {
    let library = staged().join("lib/liblashwork.so");
    let python = python::environment()?;

    ask_python(requests)?;
    compare(PYTHON, requests, &answered(PYTHON))?;
    let package = || {
        let mut command = from_source(&python);
        command.env("LASHWORK_LIBRARY", &library);
        command
    };
    for tests in ["calls", "numpy", "arrow"] {
        run(package().arg(format!("bindings/python/tests/test_{tests}.py")))?;
    }
    fleet::small(package)?;

    ask_luajit(requests)?;
    compare(LUAJIT, requests, &answered(LUAJIT))?;
    examples()
}

/// Takes the shared vectors through Python.
pub(crate) fn ask_python(requests: &Path) -> Outcome {
    run(Command::new(python::environment()?)
        .arg("bindings/c/tests/doors.py")
        .args([requests, &answers(PYTHON)?])
        .env("LASHWORK_LIBRARY", staged().join("lib/liblashwork.so")))
}

/// Takes the shared vectors through LuaJIT.
pub(crate) fn ask_luajit(requests: &Path) -> Outcome {
    run(Command::new("luajit")
        .arg("bindings/c/tests/doors.lua")
        .args([requests, &answers(LUAJIT)?])
        .env("LASHWORK_LIBRARY", staged().join("lib/liblashwork.so"))
        .env("LASHWORK_HEADER", staged().join("include/lashwork.h")))
}

/// A Python that finds the package in the source tree.
fn from_source(python: &Path) -> Command {
    let mut command = Command::new(python);
    command.env("PYTHONPATH", root().join("bindings/python/src"));
    command
}

/// Every example runs from the installed tree, and the C one tells all mistakes.
fn examples() -> Outcome {
    let library = staged().join("lib/liblashwork.so");
    let header = staged().join("include/lashwork.h");
    run(Command::new("luajit")
        .arg("examples/lua/stop_plan.lua")
        .env("LASHWORK_LIBRARY", &library)
        .env("LASHWORK_HEADER", &header))?;

    let python = python::environment()?;
    let picture = place("lash.png");
    run(from_source(&python)
        .args([
            "examples/python/plot_lash.py",
            "examples/data/upright-twin-warm.json",
        ])
        .arg(&picture)
        .env("LASHWORK_LIBRARY", &library))?;
    let bytes = fs::read(&picture).map_err(|why| format!("{}: {why}", picture.display()))?;
    if !bytes.starts_with(b"\x89PNG") {
        return Err(format!("{} is no picture", picture.display()));
    }

    let program = place("judge_csv");
    run(Command::new("gcc")
        .args(["-std=c11", "-Wall", "-Wextra", "-Werror", "-pedantic"])
        .arg(format!("-I{}", staged().join("include").display()))
        .arg("examples/c/judge_csv.c")
        .arg(staged().join("lib/liblashwork.a"))
        .args(PRIVATE_LIBS.split(' '))
        .arg("-o")
        .arg(&program))?;
    run(Command::new(&program).arg("examples/data/readings.csv"))?;
    let mistakes = Command::new(&program)
        .arg("examples/c/mistakes.csv")
        .current_dir(root())
        .output()
        .map_err(|why| format!("judge_csv did not start: {why}"))?;
    let told = String::from_utf8_lossy(&mistakes.stderr);
    for line in 2..=8 {
        if !told.contains(&format!("mistakes.csv:{line}: ")) {
            return Err(format!("judge_csv says nothing of line {line}:\n{told}"));
        }
    }
    if mistakes.status.success() || told.lines().count() != 7 {
        return Err(format!("judge_csv takes a file with mistakes:\n{told}"));
    }
    Ok(())
}
