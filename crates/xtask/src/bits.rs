//! `cargo xtask bits`: the answers to every vector, wherever the kernel runs, in one table.
//!
//! Each place gives a line for every vector with a digest of its answer, by `native bits`: what Rust answers in
//! another build or on another processor, or what came through a door and lies in files.

mod builds;
mod table;

use crate::c::doors;
use crate::c::scripts::{LUAJIT, PYTHON, ask_luajit, ask_python};
use crate::c::tests::{INSTALLED, ask_compiled};
use crate::output::say;
use crate::own::{native, target};
use crate::step::{Outcome, output, step};
use crate::tools::{FOR_C, see_to};
use crate::{c, node, python, wasm};
use builds::EMULATED;
use std::fs;
use std::path::Path;
use table::Table;

/// Every place; a difference fails.
pub(crate) fn all() -> Outcome {
    step("bits: tools", || {
        let mut tools = FOR_C.to_vec();
        tools.extend(node::browser());
        tools.extend(EMULATED.iter().flat_map(builds::Emulated::needs));
        see_to(&tools)?;
        python::install()
    })?;
    let mut table = Table::new("debug", &here()?)?;
    let mut place = |name: &str, lines: &dyn Fn() -> Result<String, String>| {
        step(&format!("bits: {name}"), || {
            let lines = lines()?;
            keep(name, &lines)?;
            table.add(name, &lines)
        })
    };
    place("release", &builds::released)?;
    match builds::not_wide() {
        Some(why) => say!("LEFT OUT: release with AVX2: {why}"),
        None => place("AVX2", &builds::wide)?,
    }
    for emulated in &EMULATED {
        place(emulated.name, &|| emulated.lines())?;
    }
    step("bits: C libraries", c::build)?;
    let requests = doors::requests()?;
    let asked = |door: &str, ask: &dyn Fn(&Path) -> Outcome| {
        ask(&requests)?;
        through(door)
    };
    for compiler in ["gcc", "clang"] {
        place(compiler, &|| {
            asked(compiler, &|requests| ask_compiled(compiler, requests))
        })?;
    }
    place(PYTHON, &|| asked(PYTHON, &ask_python))?;
    place(LUAJIT, &|| asked(LUAJIT, &ask_luajit))?;
    step("bits: npm package", wasm::package)?;
    step("bits: JavaScript", wasm::ask)?;
    for door in wasm::DOORS {
        place(door, &|| through(door))?;
    }
    judge(&table)
}

/// The places that the gate has been to: what they answered lies in files.
pub(crate) fn of_the_gate() -> Outcome {
    let mut table = Table::new("debug", &here()?)?;
    for door in [INSTALLED, PYTHON, LUAJIT].iter().chain(&wasm::DOORS) {
        table.add(door, &through(door)?)?;
    }
    judge(&table)
}

/// What the build for tests answers.
fn here() -> Result<String, String> {
    let lines = output(native().arg("bits"))?;
    keep("debug", &lines)?;
    Ok(lines)
}

/// What came through a door.
fn through(door: &str) -> Result<String, String> {
    output(native().arg("bits").arg(doors::answered(door)))
}

/// Keeps the lines of a place, for whoever looks for a difference.
fn keep(place: &str, lines: &str) -> Outcome {
    let file = target().join("bits").join(format!("{place}.txt"));
    let folder = file.parent().unwrap_or(&file);
    fs::create_dir_all(folder)
        .and_then(|()| fs::write(&file, lines))
        .map_err(|why| format!("{}: {why}", file.display()))
}

/// Shows the table; an error if anything differs.
fn judge(table: &Table) -> Outcome {
    let (text, found) = table.judge();
    let (answers, places) = table.size();
    say!("{text}");
    if found.is_empty() {
        say!("{answers} answers in {places} places: the same bits");
        Ok(())
    } else {
        Err(format!(
            "{}\n`native bits --of NAME` shows what is digested",
            found.join("\n")
        ))
    }
}
