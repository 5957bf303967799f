//! `cargo xtask fuzz`: the fuzz targets, for a bounded time, and their corpora.
//!
//! The flags are those that cargo-fuzz gives the compiler; a released compiler takes them too.

use crate::output::say;
use crate::step::{Outcome, cargo, root, run, said, step};
use std::fs;
use std::path::PathBuf;
use std::process::Command;

const TARGETS: [&str; 5] = [
    "document",
    "drawn_document",
    "calls",
    "columns",
    "mixture_columns",
];
const TRIPLE: &str = "x86_64-unknown-linux-gnu";
const FLAGS: &str = "-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters \
    -Cllvm-args=-sanitizer-coverage-pc-table -Cllvm-args=-sanitizer-coverage-trace-compares \
    --cfg=fuzzing -Cllvm-args=-simplifycfg-branch-fold-threshold=0 -Zsanitizer=address";
/// A smaller case is tried in a fraction of the time and says the same.
const LONGEST: u32 = 4096;

/// What the words after `fuzz` ask for.
pub(crate) fn asked(words: &[&str]) -> Outcome {
    match words {
        [] => all(&TARGETS, 60),
        ["--minutes", minutes] => all(&TARGETS, seconds(minutes)?),
        [name] => all(&[target(name)?], 60),
        [name, "--minutes", minutes] => all(&[target(name)?], seconds(minutes)?),
        [name, "--minimise"] => minimise(target(name)?),
        _ => Err(format!("fuzz takes no {words:?}")),
    }
}

fn target(name: &str) -> Result<&'static str, String> {
    let known = TARGETS.into_iter().find(|known| *known == name);
    known.ok_or_else(|| format!("no fuzz target {name:?}; there are {}", TARGETS.join(", ")))
}

fn seconds(minutes: &str) -> Result<u32, String> {
    let whole = minutes.parse().ok().and_then(|n: u32| n.checked_mul(60));
    let whole = whole.filter(|n| *n > 0);
    whole.ok_or_else(|| format!("{minutes:?} are no whole minutes, 1 or more"))
}

/// Replays the corpora and looks for new cases, `seconds` for all targets together; prints a row for each as
/// docs/proof.md has it.
fn all(targets: &[&str], seconds: u32) -> Outcome {
    step("fuzz targets", build)?;
    let each = (seconds / u32::try_from(targets.len()).unwrap_or(1)).max(1);
    let mut rows = vec!["| target | executions | a second | edges | corpus |".to_owned()];
    for target in targets {
        step(&format!("fuzz {target}"), || {
            let told = said(
                program(target)?
                    .args([found(target)?, corpus(target)])
                    .arg(format!("-max_total_time={each}"))
                    .args(["-timeout=20", "-rss_limit_mb=2048", "-print_final_stats=1"]),
            )?;
            rows.push(row(target, &told));
            Ok(())
        })?;
    }
    for row in &rows {
        say!("{row}");
    }
    Ok(())
}

/// Writes into the repository's corpus what, of all that was found, reaches what nothing else does.
fn minimise(target: &str) -> Outcome {
    step("fuzz targets", build)?;
    let (smaller, corpus) = (folder().join("smaller").join(target), corpus(target));
    let told = |why: std::io::Error| format!("{}: {why}", smaller.display());
    let _ = fs::remove_dir_all(&smaller);
    fs::create_dir_all(&smaller).map_err(told)?;
    run(program(target)?
        .args(["-merge=1", "-rss_limit_mb=4096"])
        .args([&smaller, &corpus, &found(target)?]))?;
    fs::remove_dir_all(&corpus).map_err(told)?;
    fs::create_dir_all(&corpus).map_err(told)?;
    for entry in fs::read_dir(&smaller).map_err(told)?.flatten() {
        fs::copy(entry.path(), corpus.join(entry.file_name())).map_err(told)?;
    }
    Ok(())
}

fn build() -> Outcome {
    run(cargo()
        .args(["build", "--release", "--target", TRIPLE, "--target-dir"])
        .arg(folder())
        .args(["--manifest-path", "bindings/c/fuzz/Cargo.toml"])
        .env("RUSTC_BOOTSTRAP", "1")
        .env("RUSTFLAGS", FLAGS))
}

fn folder() -> PathBuf {
    crate::c::doors::place("fuzz")
}

fn corpus(target: &str) -> PathBuf {
    root().join("bindings/c/fuzz/corpus").join(target)
}

/// What is found goes here; the corpus of the repository stays small.
fn found(target: &str) -> Result<PathBuf, String> {
    let found = folder().join("found").join(target);
    fs::create_dir_all(&found).map_err(|why| format!("{}: {why}", found.display()))?;
    Ok(found)
}

fn program(target: &str) -> Result<Command, String> {
    let mut command = Command::new(folder().join(TRIPLE).join("release").join(target));
    let findings = folder().join("findings").join(target);
    fs::create_dir_all(&findings).map_err(|why| format!("{}: {why}", findings.display()))?;
    command
        .arg(format!("-artifact_prefix={}/", findings.display()))
        .arg(format!("-max_len={LONGEST}"));
    Ok(command)
}

/// A row of the table of what was run, from what the fuzzer says at the end.
fn row(target: &str, told: &str) -> String {
    let after = |word: &str| {
        let mut parts = told.rsplit(word);
        let rest = parts.next().filter(|rest| rest.len() < told.len());
        rest.and_then(|rest| rest.split_whitespace().next())
            .unwrap_or("?")
            .to_owned()
    };
    format!(
        "| {target} | {} | {} | {} | {} |",
        after("stat::number_of_executed_units:"),
        after("stat::average_exec_per_sec:"),
        after(" cov: "),
        after(" corp: "),
    )
}

#[cfg(test)]
mod own_tests {
    use super::{asked, row, seconds};

    #[test]
    fn a_row_has_the_last_figures() {
        let told = "#2\tINITED cov: 10 ft: 11 corp: 1/4b exec/s: 0\n#99\tDONE   cov: 2104 ft: 3 corp: 7/12b lim: 4\n\
                    stat::number_of_executed_units: 99\nstat::average_exec_per_sec:     33\n";
        assert_eq!(row("calls", told), "| calls | 99 | 33 | 2104 | 7/12b |");
        assert_eq!(row("calls", ""), "| calls | ? | ? | ? | ? |");
    }

    #[test]
    fn words_that_ask_for_nothing_are_refused() {
        assert_eq!(seconds("3"), Ok(180));
        for words in [
            &["nothing"][..],
            &["--minutes", "0"],
            &["--minutes"],
            &["calls", "--minutes", "x"],
        ] {
            assert!(asked(words).is_err(), "{words:?}");
        }
    }
}
