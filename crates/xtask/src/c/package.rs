//! The installed tree, as someone else's build finds it.

use super::doors::place;
use super::{PRIVATE_LIBS, abi, staged};
use crate::counted::run_tests;
use crate::output::say;
use crate::step::{Outcome, output, run};
use std::fs;
use std::path::Path;
use std::process::Command;

const CONSUMER: &str = "bindings/c/tests/consumer";

/// Checks what the libraries export and contain, and builds consumers of them.
pub(crate) fn all() -> Outcome {
    let lib = staged().join("lib");
    let shared = lib.join("liblashwork.so");
    symbols(&shared)?;
    soname(&shared)?;
    no_paths(&shared)?;
    no_paths(&lib.join("liblashwork.a"))?;
    side_by_side(&shared)?;
    pkg_config(&lib)?;
    elsewhere()?;
    cmake()
}

/// Only `lw_`, and exactly what the header declares.
fn symbols(shared: &Path) -> Outcome {
    let listed = output(
        Command::new("nm")
            .args(["--dynamic", "--defined-only", "--format=just-symbols"])
            .arg(shared),
    )?;
    let header = super::read(&staged().join("include/lashwork.h"))?;
    let mut exported: Vec<&str> = listed.lines().map(str::trim).collect();
    exported.sort_unstable();
    let stray: Vec<&str> = exported
        .iter()
        .copied()
        .filter(|name| !name.starts_with("lw_") || !header.contains(&format!("{name}(")))
        .collect();
    if !stray.is_empty() || exported.is_empty() {
        return Err(format!(
            "exported but not in the header: {}",
            stray.join(" ")
        ));
    }
    let declared = header
        .split(|c: char| !(c.is_ascii_alphanumeric() || c == '_' || c == '('))
        .filter_map(|word| word.split_once('(').map(|(name, _)| name))
        .filter(|name| name.starts_with("lw_") && *name != "lw_init_structure");
    for name in declared {
        if !exported.contains(&name) {
            return Err(format!("{name} is in the header, not in the library"));
        }
    }
    say!(
        "{} symbols, all of them lw_ and in the header",
        exported.len()
    );
    Ok(())
}

fn soname(shared: &Path) -> Outcome {
    let found = output(Command::new("readelf").arg("--dynamic").arg(shared))?;
    let wanted = format!("[liblashwork.so.{}]", abi()?);
    if found.contains(&wanted) {
        Ok(())
    } else {
        Err(format!("the shared library is not called {wanted}"))
    }
}

/// No folder of the machine that built it.
pub(crate) fn no_paths(library: &Path) -> Outcome {
    let bytes = fs::read(library).map_err(|why| format!("{}: {why}", library.display()))?;
    let root = crate::step::root();
    let root = root.canonicalize().unwrap_or(root);
    let home = std::env::var("HOME").unwrap_or_default();
    for folder in [root.display().to_string(), format!("{home}/.cargo")] {
        let found = bytes
            .windows(folder.len())
            .any(|part| part == folder.as_bytes());
        if found && folder.len() > 1 {
            return Err(format!("{} tells of {folder}", library.display()));
        }
    }
    Ok(())
}

/// The library and a copy of it with another name for the loader, both in one program.
fn side_by_side(shared: &Path) -> Outcome {
    let name = format!("liblashwork.so.{}", abi()?);
    let other_name = format!("{}9", &name[..name.len() - 1]);
    let bytes = fs::read(shared).map_err(|why| format!("{}: {why}", shared.display()))?;
    let place_of_name = |bytes: &[u8], name: &str| {
        let wanted = [name.as_bytes(), &[0]].concat();
        bytes.windows(wanted.len()).position(|part| part == wanted)
    };
    let at = place_of_name(&bytes, &name).ok_or("the shared library does not hold its name")?;
    let mut renamed = bytes;
    renamed.splice(at..at + name.len(), other_name.bytes());
    let copy = place("side-by-side").with_extension("so");
    fs::write(&copy, renamed).map_err(|why| format!("{}: {why}", copy.display()))?;
    let made = place("side_by_side");
    let mut command = Command::new("gcc");
    command.args(["-std=c11", "-Wall", "-Wextra", "-Werror", "-pedantic"]);
    command.arg(format!("-I{}", staged().join("include").display()));
    command.arg("bindings/c/tests/side_by_side.c");
    run(command.arg("-ldl").arg("-o").arg(&made))?;
    run(Command::new(&made).arg(shared).arg(&copy))
}

fn pkg_config(lib: &Path) -> Outcome {
    let ask = |flags: &[&str]| -> Result<Vec<String>, String> {
        let mut command = Command::new("pkg-config");
        command.env("PKG_CONFIG_PATH", lib.join("pkgconfig"));
        let found = output(command.args(flags).arg("lashwork"))?;
        Ok(found.split_whitespace().map(str::to_owned).collect())
    };
    let made = place("consumer-pkg-config");
    let rpath = format!("-Wl,-rpath,{}", lib.display());
    let mut command = Command::new("gcc");
    command
        .arg(format!("{CONSUMER}/main.c"))
        .args(ask(&["--cflags", "--libs"])?);
    run(command.arg(rpath).arg("-o").arg(&made))?;
    run(&mut Command::new(&made))?;
    let private = ask(&["--static", "--libs"])?;
    let missing: Vec<&str> = PRIVATE_LIBS
        .split(' ')
        .filter(|library| !private.iter().any(|stated| stated == library))
        .collect();
    if missing.is_empty() {
        Ok(())
    } else {
        Err(format!(
            "pkg-config --static does not ask for {}",
            missing.join(" ")
        ))
    }
}

/// The same with the libraries in a folder of a processor's own, as Debian has them.
fn elsewhere() -> Outcome {
    let (into, libdir) = (place("stage-elsewhere"), "lib/any-processor");
    super::stage(&into, libdir)?;
    pkg_config(&into.join(libdir))
}

fn cmake() -> Outcome {
    let build = place("consumer-cmake");
    let _ = fs::remove_dir_all(&build);
    let mut configure = Command::new("cmake");
    configure.args(["-S", CONSUMER, "-B"]).arg(&build);
    configure.arg(format!("-DCMAKE_PREFIX_PATH={}", staged().display()));
    run(&mut configure)?;
    run(Command::new("cmake").arg("--build").arg(&build))?;
    run_tests(
        Command::new("ctest")
            .arg("--test-dir")
            .arg(&build)
            .arg("--output-on-failure"),
    )
}
