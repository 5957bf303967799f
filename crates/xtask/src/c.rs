//! `cargo xtask c`, `header` and `install`: the C libraries and the tree that is installed.

pub(crate) mod doors;
mod package;
pub(crate) mod scripts;
pub(crate) mod tests;

pub(crate) use package::no_paths;

use crate::own::{self, target};
use crate::step::{Outcome, cargo, root, run, said, step};
use crate::tools::path_behind;
use std::ffi::OsString;
use std::fs;
use std::path::{Component, Path, PathBuf};

/// What cargo calls the libraries, and what they are installed as.
const BUILT: &str = "liblashwork_c";
const PROFILE: &str = "release-c";
/// What a static library of Rust needs besides, on Linux with glibc; a build that asks for something
/// else is an error, so that the package files stay right.
pub(crate) const PRIVATE_LIBS: &str = "-lgcc_s -lutil -lrt -lpthread -lm -ldl -lc";

/// Builds the libraries and stages the tree under `target/c/stage`.
pub(crate) fn build() -> Outcome {
    step("header", || header(&[]))?;
    step("libraries", libraries)?;
    step("staged tree", || stage(&staged(), "lib"))
}

/// Builds and installs below a prefix; `DESTDIR` goes in front of it.
pub(crate) fn install(prefix: &str, lib: &str) -> Outcome {
    // Its place is seen from the prefix, so that the tree can be moved.
    let lib = below(prefix, lib)?;
    step("libraries", libraries)?;
    let into = destination(std::env::var_os("DESTDIR"), prefix);
    stage(&into, &lib)?;
    println!("installed below {}", into.display());
    Ok(())
}

/// The folder of libraries as seen from the prefix.
fn below(prefix: &str, lib: &str) -> Result<String, String> {
    let inside = Path::new(lib)
        .strip_prefix(prefix)
        .unwrap_or(Path::new(lib));
    let is_plain = |part| matches!(part, Component::Normal(_));
    match inside.to_str() {
        Some(inside) if !inside.is_empty() && Path::new(inside).components().all(is_plain) => {
            Ok(inside.trim_end_matches('/').to_owned())
        }
        _ => Err(format!(
            "--libdir {lib} is not a folder below {prefix}; give one such as lib64"
        )),
    }
}

/// Where a tree for a prefix goes: below `DESTDIR` if that is set, as those expect who make packages.
fn destination(before: Option<OsString>, prefix: &str) -> PathBuf {
    match before {
        Some(before) => Path::new(&before).join(prefix.trim_start_matches('/')),
        None => PathBuf::from(prefix),
    }
}

/// Writes the header anew, or checks it.
pub(crate) fn header(words: &[&str]) -> Outcome {
    run(own::program("lashwork-c-header", "lashwork-c-header").args(words))
}

/// Where the tree is staged.
fn staged() -> PathBuf {
    target().join("c/stage")
}

/// Both libraries in one build; paths of this machine do not get into them.
pub(crate) fn libraries() -> Outcome {
    let found = said(
        cargo()
            .args(["rustc", "--package", "lashwork-c", "--profile", PROFILE])
            .args(["--crate-type", "cdylib,staticlib"])
            .args(["--", "--print=native-static-libs"])
            .env("RUSTFLAGS", without_paths()),
    )?;
    // Cargo repeats the compiler's notes, so this holds for a build that was up to date as well.
    if cfg!(all(target_os = "linux", target_env = "gnu")) {
        needed(&found)?;
    }
    Ok(())
}

/// The shared library for a system with an older glibc than this one, linked by zig, whose programs are in a
/// folder.
pub(crate) fn portable_library(programs: &Path, target: &str, glibc: &str) -> Outcome {
    run(cargo()
        .args(["zigbuild", "--package", "lashwork-c", "--profile", PROFILE])
        .args(["--target", &format!("{target}.{glibc}")])
        .env("RUSTFLAGS", without_paths())
        .env("PATH", path_behind(programs.to_path_buf())?))
}

/// Whether the compiler named just the libraries that the package files name.
fn needed(printed: &str) -> Outcome {
    let stated = printed.lines().map(|line| line.trim().rsplit(": ").next());
    let mut stated = stated.flatten().filter(|line| line.starts_with("-l"));
    match (stated.next(), stated.next()) {
        (Some(line), None) if line == PRIVATE_LIBS => Ok(()),
        (Some(line), _) => Err(format!(
            "the static library needs {line}, the package files say {PRIVATE_LIBS}"
        )),
        (None, _) => Err("the compiler did not say what the static library needs".to_owned()),
    }
}

/// Flags that replace the folders of sources by names that say the same on every machine.
fn without_paths() -> String {
    let home = std::env::var("CARGO_HOME")
        .or_else(|_| Ok::<_, std::env::VarError>(format!("{}/.cargo", std::env::var("HOME")?)));
    let registry = home.map(|home| format!(" --remap-path-prefix={home}=/cargo"));
    format!(
        "--remap-path-prefix={}=/lashwork{}",
        root().display(),
        registry.unwrap_or_default()
    )
}

/// The number of the binary interface, as the header has it.
fn abi() -> Result<String, String> {
    let header = read(&root().join("bindings/c/include/lashwork.h"))?;
    let found = header
        .lines()
        .find_map(|line| line.strip_prefix("#define LW_ABI_VERSION "));
    found
        .map(|number| number.trim().to_owned())
        .ok_or_else(|| "the header states no LW_ABI_VERSION".to_owned())
}

fn stage(into: &Path, libdir: &str) -> Outcome {
    let built = target().join(PROFILE);
    let abi = abi()?;
    let lib = into.join(libdir);
    let depth = Path::new(libdir).components().count();
    let binding = root().join("bindings/c");
    copy(
        &binding.join("include/lashwork.h"),
        &into.join("include/lashwork.h"),
    )?;
    copy(
        &built.join(format!("{BUILT}.a")),
        &lib.join("liblashwork.a"),
    )?;
    let shared = format!("liblashwork.so.{abi}");
    copy(&built.join(format!("{BUILT}.so")), &lib.join(&shared))?;
    link(&shared, &lib.join("liblashwork.so"))?;
    for licence in ["LICENSE-MIT", "LICENSE-APACHE"] {
        copy(
            &root().join(licence),
            &into.join("share/doc/lashwork").join(licence),
        )?;
    }
    for (name, place) in [
        ("lashwork.pc", "pkgconfig"),
        ("lashwork-config.cmake", "cmake/lashwork"),
        ("lashwork-config-version.cmake", "cmake/lashwork"),
    ] {
        let template = read(&binding.join("package").join(format!("{name}.in")))?;
        let text = template
            .replace("@VERSION@", env!("CARGO_PKG_VERSION"))
            .replace("@MAJOR@", env!("CARGO_PKG_VERSION_MAJOR"))
            .replace("@MINOR@", env!("CARGO_PKG_VERSION_MINOR"))
            .replace("@ABI@", &abi)
            .replace("@LIBDIR@", libdir)
            .replace("@UP@", &vec![".."; depth].join("/"))
            .replace("@PRIVATE_LIBS_CMAKE@", &PRIVATE_LIBS.replace(' ', ";"))
            .replace("@PRIVATE_LIBS@", PRIVATE_LIBS);
        write(&lib.join(place).join(name), &text)?;
    }
    Ok(())
}

fn read(path: &Path) -> Result<String, String> {
    fs::read_to_string(path).map_err(|why| format!("{}: {why}", path.display()))
}

fn write(path: &Path, text: &str) -> Outcome {
    folder_of(path)?;
    fs::write(path, text).map_err(|why| format!("{}: {why}", path.display()))
}

fn copy(from: &Path, to: &Path) -> Outcome {
    folder_of(to)?;
    // A library that a program has open is replaced, not overwritten.
    let _ = fs::remove_file(to);
    let done = fs::copy(from, to).map(|_| ());
    done.map_err(|why| format!("{} to {}: {why}", from.display(), to.display()))
}

fn folder_of(path: &Path) -> Outcome {
    let folder = path.parent().unwrap_or(Path::new("."));
    fs::create_dir_all(folder).map_err(|why| format!("{}: {why}", folder.display()))
}

#[cfg(unix)]
fn link(to: &str, at: &Path) -> Outcome {
    let _ = fs::remove_file(at);
    std::os::unix::fs::symlink(to, at).map_err(|why| format!("{}: {why}", at.display()))
}

#[cfg(not(unix))]
fn link(_: &str, at: &Path) -> Outcome {
    Err(format!(
        "{}: only known how to install on Unix",
        at.display()
    ))
}

#[cfg(test)]
mod own_tests {
    use super::{PRIVATE_LIBS, below, destination, needed};
    use std::path::Path;

    #[test]
    fn the_static_library_needs_what_the_package_files_say_and_nothing_else() {
        assert!(needed(&format!("{PRIVATE_LIBS}\n")).is_ok());
        assert!(needed(&format!("note: native-static-libs: {PRIVATE_LIBS}\n")).is_ok());
        assert!(needed("").is_err());
        assert!(needed("nothing is linked\n").is_err());
        assert!(needed(&format!("-lz {PRIVATE_LIBS}\n")).is_err());
        assert!(needed("-lc\n").is_err());
        assert!(needed(&format!("{PRIVATE_LIBS}\n-lz\n")).is_err());
    }

    #[test]
    fn libraries_go_below_the_prefix_and_nowhere_else() {
        for (lib, found) in [
            ("lib64", "lib64"),
            ("lib/x86_64-linux-gnu/", "lib/x86_64-linux-gnu"),
            ("/usr/lib/x86_64-linux-gnu", "lib/x86_64-linux-gnu"),
        ] {
            assert_eq!(below("/usr", lib).as_deref(), Ok(found));
        }
        for lib in ["/opt/lib", "../lib", "", "/usr", "."] {
            assert!(below("/usr", lib).is_err(), "{lib}");
        }
    }

    #[test]
    fn a_package_is_staged_below_its_own_root() {
        assert_eq!(destination(None, "/usr"), Path::new("/usr"));
        assert_eq!(
            destination(Some("/stage".into()), "/usr"),
            Path::new("/stage/usr")
        );
    }
}
