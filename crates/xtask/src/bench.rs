//! `cargo xtask bench`: times of the kernel beside numpy, scipy and statsmodels, and of the npm package.

use crate::python;
use crate::step::{Outcome, cargo, output, step};
use crate::tools::program;
use crate::tools::table::NODE;
use crate::wasm;
use std::collections::BTreeMap;
use std::process::Command;

/// Runs both and prints one table.
pub(crate) fn table() -> Outcome {
    step("Python packages", python::install)?;
    let mut ours = BTreeMap::new();
    step("kernel", || {
        let text = output(cargo().args(["bench", "--package", "lashwork-benches"]))?;
        println!("{text}");
        ours = medians(&text);
        if ours.is_empty() {
            return Err("no times in the output of the benchmark".to_owned());
        }
        Ok(())
    })?;
    let mut theirs = BTreeMap::new();
    step("numpy and scipy", || {
        let python = python::environment()?;
        let text = output(Command::new(python).arg("crates/xtask/python/beside.py"))?;
        theirs = lines(&text);
        Ok(())
    })?;
    let mut packed = BTreeMap::new();
    step("npm package", wasm::package)?;
    step("node", || {
        let text = output(program(NODE.program).arg("bindings/wasm/tools/times.mjs"))?;
        packed = lines(&text);
        Ok(())
    })?;
    println!(
        "\n{:<24} {:>14} {:>14} {:>10}",
        "work", "lashwork", "numpy+scipy", "times"
    );
    for (name, time) in &ours {
        let (beside, ratio) = match theirs.get(name) {
            Some(other) => (show(*other), format!("{:.1}", other / time)),
            None => ("-".to_owned(), "-".to_owned()),
        };
        println!("{name:<24} {:>14} {beside:>14} {ratio:>10}", show(*time));
    }
    println!("times: how often the kernel does the work while numpy and scipy do it once");
    by_row(&ours, &theirs)?;
    doors(&ours)?;
    columns(&ours, &theirs, &packed)?;
    let (job, native) = (time(&packed, "whole_job")?, time(&ours, "whole_job")?);
    println!(
        "\na whole job in node {}, {:.2} of the kernel without WebAssembly",
        show(job),
        job / native
    );
    Ok(())
}

/// Lines of a name, a tab and nanoseconds.
fn lines(text: &str) -> BTreeMap<String, f64> {
    let pairs = text.lines().filter_map(|line| line.split_once('\t'));
    pairs
        .filter_map(|(name, time)| Some((name.to_owned(), time.parse().ok()?)))
        .collect()
}

fn time(all: &BTreeMap<String, f64>, name: &str) -> Result<f64, String> {
    let found = all.get(name).copied();
    found.ok_or_else(|| format!("no time of {name}"))
}

/// The column of drifts beside a package for regression, which takes a row at a time.
fn by_row(ours: &BTreeMap<String, f64>, theirs: &BTreeMap<String, f64>) -> Outcome {
    let column = time(ours, "ten_thousand_drifts")?;
    let rows = time(theirs, "ten_thousand_drifts_by_row")?;
    println!(
        "{:<24} {:>14} for 10,000, by the time of 100: {:.1} times the column",
        "statsmodels, row by row",
        show(rows),
        rows / column
    );
    Ok(())
}

/// What the C interface adds to a call.
fn doors(ours: &BTreeMap<String, f64>) -> Outcome {
    println!("\nthrough the C interface, beside the same from Rust");
    for call in ["convert", "piston_drop", "judge"] {
        let rust = time(ours, &format!("{call}_from_rust"))?;
        let c = time(ours, &format!("{call}_from_c"))?;
        println!(
            "{call:<24} {c:>9.1} ns, from Rust {rust:.1} ns: {:+.1} ns a call",
            c - rust
        );
    }
    Ok(())
}

/// Readings of a fleet with limits, temperature and coefficient of their own, judged by one call: beside the loop
/// a Rust program would write, by two threads, and beside arrays of numpy that do the same work on one thread.
fn columns(
    ours: &BTreeMap<String, f64>,
    theirs: &BTreeMap<String, f64>,
    packed: &BTreeMap<String, f64>,
) -> Outcome {
    for rows in [10_000_u32, 1_000_000] {
        println!("\na column of {rows} readings, each with limits, temperature and coefficient");
        let took = |times, name| time(times, &format!("{name} {rows}"));
        let c = took(ours, "fleet_from_c")?;
        let row = |name: &str, took: f64| {
            println!(
                "{name:<24} {:>9.1} ns a row, {:.2} of the call through C",
                took / f64::from(rows),
                took / c
            );
        };
        row("through C", c);
        row("the core, any processor", took(ours, "fleet_portable")?);
        row("a loop in Rust", took(ours, "fleet_from_rust")?);
        row("C, by two threads", took(ours, "fleet_by_two_threads")?);
        row("the npm package in node", took(packed, "fleet")?);
        row("numpy+scipy, same work", took(theirs, "fleet_same_work")?);
    }
    Ok(())
}

/// Medians in nanoseconds, from the table that the benchmark prints:
/// `├─ name  fastest │ slowest │ median │ mean │ samples │ iters`; what is measured for several sizes has a line
/// for each below its name, and is called `name size`.
fn medians(text: &str) -> BTreeMap<String, f64> {
    let mut above = String::new();
    let row = |line: &str| {
        let is_size = line.starts_with(['│', ' ']);
        let cells = line.trim_start_matches(['│', ' ']).split('│');
        let cells: Vec<&str> = cells.map(str::trim).collect();
        let (first, median) = (cells.first()?, cells.get(2)?);
        let name = first
            .trim_start_matches(['├', '╰', '─', ' '])
            .split_whitespace()
            .next()?;
        let name = if is_size {
            format!("{above} {name}")
        } else {
            name.clone_into(&mut above);
            above.clone()
        };
        let (number, unit) = median.split_once(' ')?;
        let scale = match unit {
            "ns" => 1.0,
            "µs" => 1e3,
            "ms" => 1e6,
            "s" => 1e9,
            _ => return None,
        };
        Some((name, number.parse::<f64>().ok()? * scale))
    };
    text.lines().filter_map(row).collect()
}

fn show(nanoseconds: f64) -> String {
    match nanoseconds {
        t if t < 1e3 => format!("{t:.0} ns"),
        t if t < 1e6 => format!("{:.1} us", t / 1e3),
        t => format!("{:.1} ms", t / 1e6),
    }
}

#[cfg(test)]
mod tests {
    use super::medians;

    #[test]
    fn reads_the_printed_table() {
        let text = "kernel      fastest  │ slowest  │ median   │ mean  │ samples │ iters\n\
                    ├─ sizes             │          │          │       │         │\n\
                    │  ├─ 10    2 ns     │ 4 ns     │ 3 ns     │ 3 ns  │ 20      │ 20\n\
                    │  ╰─ 200   5 µs     │ 7 µs     │ 6 µs     │ 6 µs  │ 20      │ 20\n\
                    ├─ one      345.8 ns │ 10.89 µs │ 356.8 ns │ 473.3 ns │ 100 │ 100\n\
                    ╰─ thousand 138.1 ms │ 284.8 ms │ 155.1 ms │ 166.3 ms │ 100 │ 100\n";
        let found: Vec<_> = medians(text).into_iter().collect();
        assert_eq!(found.len(), 4);
        assert_eq!(
            (found[1].0.as_str(), found[2].0.as_str()),
            ("sizes 10", "sizes 200")
        );
        assert!((found[1].1 - 3.0).abs() < 1e-9 && (found[2].1 - 6e3).abs() < 1e-9);
        assert!((found[0].1 - 356.8).abs() < 1e-9 && (found[3].1 - 155.1e6).abs() < 1.0);
    }
}
