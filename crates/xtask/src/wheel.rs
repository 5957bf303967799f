//! `cargo xtask wheel`: the Python package as one file, and the proofs of it where it is installed.
//!
//! The library is linked by zig against an old glibc, so that the wheel loads on systems older than this
//! one; it is loaded and not linked by Python, so one file serves every version of it.

use crate::c::{doors, no_paths, portable_library};
use crate::output::say;
use crate::own::target;
use crate::step::{Outcome, output, root, run, step};
use crate::tools::quiet;
use crate::{fleet, python};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What builds and checks the wheel, with pinned versions.
const TOOLS: &str = "bindings/python/requirements.txt";
const PACKAGE: &str = "bindings/python";
/// The oldest glibc it loads on, as pip and as zig name it.
const PLATFORM: &str = "manylinux_2_17_x86_64";
const TARGET: &str = "x86_64-unknown-linux-gnu";
const GLIBC: &str = "2.17";
/// The minor versions of Python 3 that are looked for.
const MINORS: std::ops::RangeInclusive<u32> = 9..=15;

/// Builds the wheel, looks into it, and tries it where it is installed.
pub(crate) fn build() -> Outcome {
    file()?;
    let tools = place("tools");
    step("wheel: contents", || contents(&tools))?;
    step("wheel: the source is typed", || {
        run(tool(&tools, "mypy")
            .args(["--config-file", "bindings/python/pyproject.toml"])
            .arg("bindings/python/src/lashwork"))
    })?;
    let requests = doors::requests()?;
    for (name, python) in pythons() {
        step(&format!("wheel: {name}"), || {
            installed(&name, &python, &requests)
        })?;
    }
    step("wheel: with numpy, Arrow, plots and types", || {
        with_extras(&tools)
    })
}

/// Builds the wheel alone; where it is.
pub(crate) fn file() -> Result<PathBuf, String> {
    if !cfg!(all(target_os = "linux", target_arch = "x86_64")) {
        return Err(format!("the wheel is built on {TARGET} only"));
    }
    let tools = place("tools");
    step("wheel: tools", || {
        python::environment_of(&tools, &[TOOLS]).map(|_| ())
    })?;
    step("wheel: library", || {
        portable_library(&tools.join("bin"), TARGET, GLIBC)
    })?;
    step("wheel", || package(&tools))?;
    wheel()
}

fn place(name: &str) -> PathBuf {
    target().join("python-wheel").join(name)
}

/// A program of the environment of tools.
fn tool(tools: &Path, name: &str) -> Command {
    Command::new(tools.join("bin").join(name))
}

/// A copy of the sources with the library beside them: none is ever left in the source tree, where it
/// would be taken for the one that was built last.
fn package(tools: &Path) -> Outcome {
    let (source, dist) = (place("source"), place("dist"));
    for old in [&source, &dist] {
        let _ = fs::remove_dir_all(old);
    }
    copy(&root().join(PACKAGE), &source)?;
    let library = target().join(TARGET).join("release-c/liblashwork_c.so");
    copy(&library, &source.join("src/lashwork/liblashwork.so"))?;
    for licence in ["LICENSE-MIT", "LICENSE-APACHE"] {
        copy(&root().join(licence), &source.join(licence))?;
    }
    run(tool(tools, "python")
        .args(["-m", "build", "--wheel", "--no-isolation", "--outdir"])
        .args([&dist, &source])
        .env("LASHWORK_VERSION", env!("CARGO_PKG_VERSION"))
        .env("LASHWORK_WHEEL_PLATFORM", PLATFORM))
}

/// A file, or a folder with all that is in it but what Python left there.
fn copy(from: &Path, to: &Path) -> Outcome {
    let told = |why: std::io::Error| format!("{} to {}: {why}", from.display(), to.display());
    if from.is_dir() {
        fs::create_dir_all(to).map_err(told)?;
        for entry in fs::read_dir(from).map_err(told)? {
            let entry = entry.map_err(told)?;
            if entry.file_name() != "__pycache__" {
                copy(&entry.path(), &to.join(entry.file_name()))?;
            }
        }
        return Ok(());
    }
    fs::copy(from, to).map(|_| ()).map_err(told)
}

/// The one wheel that was built.
fn wheel() -> Result<PathBuf, String> {
    let name = format!(
        "lashwork-{}-py3-none-{PLATFORM}.whl",
        env!("CARGO_PKG_VERSION")
    );
    let wheel = place("dist").join(name);
    if wheel.exists() {
        Ok(wheel)
    } else {
        Err(format!("{} was not built", wheel.display()))
    }
}

/// What those who install it rely on: the platform, the metadata, and what is and is not inside.
fn contents(tools: &Path) -> Outcome {
    let wheel = wheel()?;
    let shown = output(tool(tools, "auditwheel").arg("show").arg(&wheel))?;
    say!("{shown}");
    if !shown.contains(&format!("\"{PLATFORM}\"")) {
        return Err(format!("it does not load on every {PLATFORM}"));
    }
    run(tool(tools, "twine").args(["check", "--strict"]).arg(&wheel))?;
    run(tool(tools, "check-wheel-contents").arg(&wheel))?;
    no_paths(&place("source/src/lashwork/liblashwork.so"))
}

/// Every Python on the path that runs and can make an environment, by its name.
fn pythons() -> Vec<(String, PathBuf)> {
    let names = MINORS.map(|minor| format!("python3.{minor}"));
    let found = names.filter_map(|name| {
        let ask = "import ensurepip, sys; print(sys.executable)";
        let at = quiet(Command::new(&name).args(["-c", ask]))?;
        Some((name, PathBuf::from(at.trim())))
    });
    found.collect()
}

/// Installs the wheel alone in a fresh environment; runs what needs nothing else, and the shared vectors.
fn installed(name: &str, python: &Path, requests: &Path) -> Outcome {
    let directory = place(name);
    run(Command::new(python)
        .args(["-m", "venv", "--clear"])
        .arg(&directory))?;
    let own = directory.join("bin/python");
    run(Command::new(&own)
        .args(["-m", "pip", "install", "--quiet"])
        .args(["--disable-pip-version-check", "--no-index"])
        .arg(wheel()?))?;
    tests(&own, "calls")?;
    let door = format!("wheel-{name}");
    let answers = doors::answers(&door)?;
    run(alone(&own)
        .arg("bindings/c/tests/doors.py")
        .args([requests, &answers]))?;
    doors::compare(&door, requests, &answers)
}

/// In the environment of tools, which has the packages of the extras and the checker of types.
fn with_extras(tools: &Path) -> Outcome {
    let python = tools.join("bin/python");
    run(Command::new(&python)
        .args(["-m", "pip", "install", "--quiet", "--force-reinstall"])
        .args(["--disable-pip-version-check", "--no-index", "--no-deps"])
        .arg(wheel()?))?;
    for name in ["calls", "numpy", "arrow", "plot", "types"] {
        tests(&python, name)?;
    }
    fleet::small(|| alone(&python))
}

/// A Python that finds the installed package, and no library but the one in it.
fn alone(python: &Path) -> Command {
    let mut command = Command::new(python);
    command
        .env_remove("PYTHONPATH")
        .env_remove("LASHWORK_LIBRARY");
    command
}

fn tests(python: &Path, name: &str) -> Outcome {
    run(alone(python).arg(format!("bindings/python/tests/test_{name}.py")))
}

#[cfg(test)]
mod own_tests {
    use super::{MINORS, PACKAGE};
    use crate::step::root;

    #[test]
    fn every_python_that_the_package_states_is_looked_for() {
        let project = root().join(PACKAGE).join("pyproject.toml");
        let text = std::fs::read_to_string(project).unwrap();
        let stated = format!("requires-python = \">=3.{}\"", MINORS.start());
        assert!(text.contains(&stated), "{stated}");
    }
}
