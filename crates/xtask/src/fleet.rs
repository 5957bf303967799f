//! `cargo xtask fleet --test`: the functions for fleets in engines for data, over the wheel.

use crate::own::target;
use crate::step::{Outcome, run, step};
use crate::tools::{see_to, table::JAVA};
use crate::{python, wheel};
use std::path::PathBuf;
use std::process::Command;

/// The cluster, with pinned versions; the engines of one process are among what the gate installs.
const CLUSTER: &str = "examples/fleet/requirements-spark.txt";
/// The proof, a folder that Python starts.
const PROOF: &str = "crates/xtask/python/fleet";
/// How many rows a cluster works on unless told; above it, what takes longest takes minutes.
pub(crate) const ROWS: u32 = 1_000_000;

/// A count of rows from the command line.
pub(crate) fn rows(text: &str) -> Result<u32, String> {
    text.parse()
        .map_err(|_| format!("--rows {text} is no count of rows; give one such as {ROWS}"))
}

/// Installs Java and the engines, builds the wheel, and runs the proof on a cluster.
pub(crate) fn test(rows: u32) -> Outcome {
    let place = place();
    let python = place.join("python");
    step("fleet: Java", || see_to(&[&JAVA]))?;
    step("fleet: engines", || {
        python::environment_of(&python, &[python::FLEET, CLUSTER]).map(|_| ())
    })?;
    let wheel = wheel::file()?;
    step("fleet: DuckDB, Polars, Spark", || {
        run(Command::new(python.join("bin/python"))
            .args([PROOF, "cluster"])
            .args([&place, &wheel])
            .arg(rows.to_string())
            .env_remove("PYTHONPATH")
            .env_remove("LASHWORK_LIBRARY"))
    })
}

/// DuckDB and Polars alone, by a Python that has them and finds the package.
pub(crate) fn small(python: impl Fn() -> Command) -> Outcome {
    for example in ["duckdb_judge", "polars_drift"] {
        run(python().arg(format!("examples/fleet/{example}.py")))?;
    }
    run(python().args([PROOF, "small"]).arg(place()))
}

/// Where readings and what the engines leave go.
fn place() -> PathBuf {
    target().join("fleet")
}
