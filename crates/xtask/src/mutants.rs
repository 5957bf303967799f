//! `cargo xtask mutants`: how many small changes of the code the tests see.

use crate::own::target;
use crate::python;
use crate::step::{Outcome, output, run, step};
use crate::tools::of_crates_io::program;
use std::fs;
use std::path::Path;
use std::process::Command;

/// The crates that are changed.
const CRATES: [&str; 3] = ["lashwork", "lashwork-tails", "lashwork-wire"];
/// Weaves the changes into a copy and tries them, a folder that Python starts.
const TRIER: &str = "crates/xtask/python/mutants";
/// How many changes of an area are tried unless told.
const EACH: &str = "150";
/// What the sample is drawn by unless told.
const SEED: &str = "1";

/// What the words after `mutants` ask for.
pub(crate) fn asked(words: &[&str]) -> Outcome {
    match words {
        ["--each", each, "--seed", seed, areas @ ..] => sample(each, seed, areas),
        ["--each", each, areas @ ..] => sample(each, SEED, areas),
        areas => sample(EACH, SEED, areas),
    }
}

/// Tries a sample of the changes of every area, or of those named.
fn sample(each: &str, seed: &str, areas: &[&str]) -> Outcome {
    let place = target().join("mutants");
    fs::create_dir_all(&place).map_err(|why| format!("{}: {why}", place.display()))?;
    let list = place.join("list.json");
    step("mutants: which there are", || {
        let packages = CRATES.iter().flat_map(|name| ["--package", name]);
        let listed = output(
            program("mutants")?
                .args(["--list", "--json"])
                .args(packages),
        )?;
        fs::write(&list, listed).map_err(|why| format!("{}: {why}", list.display()))
    })?;
    let needed = format!("{TRIER}/requirements.txt");
    let python = python::environment_of(&place.join("python"), &[&needed])?;
    step("mutants: trying them", || {
        run(Command::new(&python)
            .args([Path::new(TRIER), &place, &list])
            .args([each, seed])
            .args(areas))
    })
}
