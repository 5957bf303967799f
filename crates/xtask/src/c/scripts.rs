//! The shared vectors through the scripting languages that call C without a compiler, and the examples
//! in them.

use super::doors::{answers, compare, requests};
use super::staged;
use crate::python;
use crate::step::{Outcome, run};
use std::process::Command;

/// Every door, then every example.
pub(crate) fn all() -> Outcome {
    let requests = requests()?;
    let library = staged().join("lib/liblashwork.so");
    let header = staged().join("include/lashwork.h");
    let python = python::environment()?;

    let out = answers("Python")?;
    run(Command::new(&python)
        .arg("bindings/c/tests/doors.py")
        .args([&requests, &out])
        .env("LASHWORK_LIBRARY", &library))?;
    compare("Python", &out)?;

    let out = answers("LuaJIT")?;
    run(Command::new("luajit")
        .arg("bindings/c/tests/doors.lua")
        .args([&requests, &out])
        .env("LASHWORK_LIBRARY", &library)
        .env("LASHWORK_HEADER", &header))?;
    compare("LuaJIT", &out)
}
