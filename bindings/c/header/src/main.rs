//! Writes `include/lashwork.h` from the source of the C binding, or checks that it is up to date.
//!
//! A program of its own, so that nobody builds the generator who does not need the header.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let outcome = match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [] => write(),
        ["--check"] => check(),
        _ => Err("usage: lashwork-c-header [--check]".to_owned()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("lashwork-c-header: {why}");
            ExitCode::FAILURE
        }
    }
}

fn binding() -> PathBuf {
    let own = Path::new(env!("CARGO_MANIFEST_DIR"));
    own.parent().unwrap_or(own).to_path_buf()
}

fn path() -> PathBuf {
    binding().join("include/lashwork.h")
}

/// The header, with the numbers of the release in front of what the source says.
fn header() -> Result<Vec<u8>, String> {
    let mut config = cbindgen::Config::from_file(binding().join("cbindgen.toml"))?;
    let [major, minor, patch] = [
        env!("CARGO_PKG_VERSION_MAJOR"),
        env!("CARGO_PKG_VERSION_MINOR"),
        env!("CARGO_PKG_VERSION_PATCH"),
    ];
    let release = format!(
        "\n/** The release this header belongs to; the library's own: lw_version(). */\n\
         #define LW_VERSION \"{major}.{minor}.{patch}\"\n\
         #define LW_VERSION_MAJOR {major}\n\
         #define LW_VERSION_MINOR {minor}\n\
         #define LW_VERSION_PATCH {patch}\n"
    );
    let after = config.after_includes.get_or_insert_default();
    after.push_str(&release);
    let mut bytes = Vec::new();
    cbindgen::generate_with_config(binding(), config)
        .map_err(|why| why.to_string())?
        .write(&mut bytes);
    // The heading is one of Rust's documentation and says little to a C programmer.
    let text = String::from_utf8(bytes).map_err(|why| why.to_string())?;
    Ok(text
        .replace(" * # Safety\n", " * The caller sees to it:\n")
        .into_bytes())
}

fn write() -> Result<(), String> {
    fs::write(path(), header()?).map_err(|why| format!("{}: {why}", path().display()))
}

fn check() -> Result<(), String> {
    if fs::read(path()).unwrap_or_default() == header()? {
        Ok(())
    } else {
        Err("include/lashwork.h is not what the source says; run `cargo xtask header`".to_owned())
    }
}
