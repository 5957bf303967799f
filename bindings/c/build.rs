//! Gives the shared library its name for the loader, which cargo does not set by itself.
//!
//! The number is that of the ABI and not of the release: it changes when a program built against an
//! older header could no longer work.

use std::env::var;
use std::fs;

fn main() -> Result<(), String> {
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-changed=src/version.rs");
    // Set by the tests alone, to build a library with a call that panics.
    println!("cargo::rustc-check-cfg=cfg(lashwork_injected_panic)");
    let source = fs::read_to_string("src/version.rs").map_err(|why| why.to_string())?;
    let abi = source
        .lines()
        .find_map(|line| line.strip_prefix("pub const LW_ABI_VERSION: u32 = "))
        .and_then(|rest| rest.strip_suffix(';'))
        .ok_or("src/version.rs states no LW_ABI_VERSION")?;
    match var("CARGO_CFG_TARGET_OS").unwrap_or_default().as_str() {
        "linux" | "freebsd" => {
            println!("cargo::rustc-cdylib-link-arg=-Wl,-soname,liblashwork.so.{abi}");
        }
        "macos" => {
            println!(
                "cargo::rustc-cdylib-link-arg=-Wl,-install_name,@rpath/liblashwork.{abi}.dylib"
            );
        }
        _ => {}
    }
    Ok(())
}
