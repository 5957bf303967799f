//! Starting programs, with a heading and the time each took.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// What every command gives back: nothing, or the reason in words.
pub(crate) type Outcome = Result<(), String>;

/// What the steps of this run cost so far, in the order they ended.
static COSTS: Mutex<Vec<(String, Duration)>> = Mutex::new(Vec::new());

/// Runs one named step and prints how long it took.
pub(crate) fn step(heading: &str, work: impl FnOnce() -> Outcome) -> Outcome {
    println!("\n== {heading}");
    let start = Instant::now();
    let done = work();
    let cost = start.elapsed();
    let name = match done {
        Ok(()) => heading.to_owned(),
        Err(_) => format!("{heading} (failed)"),
    };
    println!("== {name}: {:.1} s", cost.as_secs_f64());
    if let Ok(mut costs) = COSTS.lock() {
        costs.push((name, cost));
    }
    done.map_err(|why| format!("{heading}: {why}"))
}

/// Prints what each step cost.
pub(crate) fn print_costs() {
    let Ok(costs) = COSTS.lock() else { return };
    println!("\n== what the steps cost");
    for (name, cost) in costs.iter() {
        println!("{name:<36} {:>7.1} s", cost.as_secs_f64());
    }
    let all: Duration = costs.iter().map(|(_, cost)| *cost).sum();
    println!("{:<36} {:>7.1} s", "all", all.as_secs_f64());
}

/// Runs a program in the workspace root, its output visible; an error if it does not succeed.
pub(crate) fn run(command: &mut Command) -> Outcome {
    let shown = show(command);
    println!("$ {shown}");
    match command.current_dir(root()).status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("`{shown}` ended with {status}")),
        Err(why) => Err(format!("`{shown}` did not start: {why}")),
    }
}

/// Runs a program in the workspace root and gives its standard output, trimmed.
pub(crate) fn output(command: &mut Command) -> Result<String, String> {
    let shown = show(command);
    let found = command
        .current_dir(root())
        .stderr(Stdio::inherit())
        .output()
        .map_err(|why| format!("`{shown}` did not start: {why}"))?;
    if found.status.success() {
        Ok(String::from_utf8_lossy(&found.stdout).trim().to_owned())
    } else {
        Err(format!("`{shown}` ended with {}", found.status))
    }
}

/// What a command says beside its output; shown as well.
pub(crate) fn said(command: &mut Command) -> Result<String, String> {
    let shown = show(command);
    let found = command
        .current_dir(root())
        .stdout(Stdio::inherit())
        .output()
        .map_err(|why| format!("`{shown}` did not start: {why}"))?;
    let said = String::from_utf8_lossy(&found.stderr).into_owned();
    eprint!("{said}");
    if found.status.success() {
        Ok(said)
    } else {
        Err(format!("`{shown}` ended with {}", found.status))
    }
}

/// The cargo that started this program, so that all steps use one toolchain.
pub(crate) fn cargo() -> Command {
    Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// The workspace root.
pub(crate) fn root() -> PathBuf {
    let own = Path::new(env!("CARGO_MANIFEST_DIR"));
    own.ancestors().nth(2).unwrap_or(own).to_path_buf()
}

/// A command as one would type it.
pub(crate) fn show(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    let words: Vec<_> = words.map(|word| word.to_string_lossy()).collect();
    words.join(" ")
}
