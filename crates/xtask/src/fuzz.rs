//! `cargo xtask fuzz`: the fuzz targets of the C interface, for a bounded time.
//!
//! The flags are those that cargo-fuzz gives the compiler; a released compiler takes them too.

use crate::step::{Outcome, cargo, root, run, step};
use std::fs;
use std::process::Command;

const TARGETS: [&str; 3] = ["document", "columns", "mixture_columns"];
const TRIPLE: &str = "x86_64-unknown-linux-gnu";
const FLAGS: &str = "-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters \
    -Cllvm-args=-sanitizer-coverage-pc-table -Cllvm-args=-sanitizer-coverage-trace-compares \
    --cfg=fuzzing -Cllvm-args=-simplifycfg-branch-fold-threshold=0 -Zsanitizer=address";

/// Replays the corpus and looks for new cases, `seconds` for all targets together.
pub(crate) fn all(seconds: u32) -> Outcome {
    let folder = crate::c::doors::place("fuzz");
    step("fuzz targets", || {
        run(cargo()
            .args(["build", "--release", "--target", TRIPLE, "--target-dir"])
            .arg(&folder)
            .args(["--manifest-path", "bindings/c/fuzz/Cargo.toml"])
            .env("RUSTC_BOOTSTRAP", "1")
            .env("RUSTFLAGS", FLAGS))
    })?;
    let each = (seconds as usize / TARGETS.len()).max(1);
    for target in TARGETS {
        step(&format!("fuzz {target}"), || {
            // What is found goes here; the corpus of the repository stays small.
            let found = folder.join("found").join(target);
            fs::create_dir_all(&found).map_err(|why| format!("{}: {why}", found.display()))?;
            let corpus = root().join("bindings/c/fuzz/corpus").join(target);
            let mut command = Command::new(folder.join(TRIPLE).join("release").join(target));
            command
                .args([&found, &corpus])
                .arg(format!("-max_total_time={each}"))
                .args(["-timeout=20", "-rss_limit_mb=2048", "-print_final_stats=1"])
                .arg(format!("-artifact_prefix={}/", found.display()));
            run(&mut command)
        })?;
    }
    Ok(())
}
