//! Reference values from Python packages with pinned versions, in an environment of their own.

use crate::step::{Outcome, install, root, run, step};
use std::path::{Path, PathBuf};
use std::process::Command;

const REQUIREMENTS: &str = "tests/oracles/requirements.txt";

/// Makes `tests/oracles/*.json` anew.
pub(crate) fn oracles() -> Outcome {
    let mut python = None;
    step("Python packages", || {
        python = Some(environment()?);
        Ok(())
    })?;
    step("reference values", || {
        let python = python.take().ok_or("no Python")?;
        run(Command::new(python).arg("tests/oracles/generate.py"))
    })
}

/// The Python of an environment that holds the pinned packages; made if missing.
pub(crate) fn environment() -> Result<PathBuf, String> {
    let directory = root().join("target/python");
    let python = directory.join("bin/python");
    if !python.exists() {
        let make = || {
            run(Command::new("python3")
                .args(["-m", "venv", "--clear"])
                .arg(&directory))
        };
        if let Err(first) = make() {
            println!("{first}");
            install(&["python3", "python3-venv"], "install Python 3 with venv")?;
            make()?;
        }
    }
    packages(&python, REQUIREMENTS)?;
    Ok(python)
}

/// The same with the packages of another list as well.
pub(crate) fn with(requirements: &str) -> Result<PathBuf, String> {
    let python = environment()?;
    packages(&python, requirements)?;
    Ok(python)
}

fn packages(python: &Path, requirements: &str) -> Outcome {
    run(Command::new(python)
        .args(["-m", "pip", "install", "--quiet", "--requirement"])
        .arg(requirements))
}
