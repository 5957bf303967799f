//! Starting programs, with a heading and the time each took.

use crate::output::{directed, say, stream};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, OnceLock};
use std::time::{Duration, Instant};

/// What every command gives back: nothing, or the reason in words.
pub(crate) type Outcome = Result<(), String>;

/// What a step took.
struct Cost {
    name: String,
    from: Duration,
    took: Duration,
}

/// When the first step began.
static BEGAN: OnceLock<Instant> = OnceLock::new();
/// What the steps of this run cost so far, in the order they ended.
static COSTS: Mutex<Vec<Cost>> = Mutex::new(Vec::new());
/// Set when a step failed: what is done beside it need not go on.
static FAILED: AtomicBool = AtomicBool::new(false);

/// Lets what comes after a failed step be done all the same, where each part is told by itself.
pub(crate) fn go_on() {
    FAILED.store(false, Ordering::Relaxed);
}

/// Runs one named step and prints how long it took.
pub(crate) fn step(heading: &str, work: impl FnOnce() -> Outcome) -> Outcome {
    if FAILED.load(Ordering::Relaxed) {
        return Err(format!("{heading}: left out, because another step failed"));
    }
    say!("\n== {heading}");
    let from = BEGAN.get_or_init(Instant::now).elapsed();
    let start = Instant::now();
    let done = work();
    let took = start.elapsed();
    let name = match done {
        Ok(()) => heading.to_owned(),
        Err(_) => format!("{heading} (failed)"),
    };
    FAILED.fetch_or(done.is_err(), Ordering::Relaxed);
    say!("== {name}: {:.1} s", took.as_secs_f64());
    if let Ok(mut costs) = COSTS.lock() {
        costs.push(Cost { name, from, took });
    }
    done.map_err(|why| format!("{heading}: {why}"))
}

/// Prints when each step began and what it took, and the time of all on the clock and of processors,
/// which other work on the machine does not lengthen.
pub(crate) fn print_costs() {
    let Ok(mut costs) = COSTS.lock() else { return };
    costs.sort_by_key(|cost| cost.from);
    say!("\n{:<32} {:>10} {:>10}", "step", "from", "time");
    let line = |name: &str, from: Duration, took: Duration| {
        let [from, took] = [from, took].map(|time| time.as_secs_f64());
        say!("{name:<32} {from:>8.1} s {took:>8.1} s");
    };
    for cost in costs.iter() {
        line(&cost.name, cost.from, cost.took);
    }
    let all = BEGAN.get().map_or(Duration::ZERO, Instant::elapsed);
    line("all", Duration::ZERO, all);
    if let Some(worked) = processors() {
        line("time of processors", Duration::ZERO, worked);
    }
}

/// The time that programs which this one started, and which have ended, worked on processors; known on
/// Linux only, in its hundredths of a second.
fn processors() -> Option<Duration> {
    let text = std::fs::read_to_string("/proc/self/stat").ok()?;
    // The name in parentheses may hold spaces; the times of children are fields 16 and 17 of all.
    let (_, fields) = text.rsplit_once(") ")?;
    let times = fields.split(' ').skip(13).take(2);
    let ticks: u64 = times.map(|field| field.parse::<u64>().unwrap_or(0)).sum();
    Some(Duration::from_millis(ticks * 10))
}

/// Runs a program in the workspace root, its output visible; an error if it does not succeed.
pub(crate) fn run(command: &mut Command) -> Outcome {
    let shown = show(command);
    say!("$ {shown}");
    match directed(command)?.current_dir(root()).status() {
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
        .stderr(stream()?)
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
        .stdout(stream()?)
        .output()
        .map_err(|why| format!("`{shown}` did not start: {why}"))?;
    let said = String::from_utf8_lossy(&found.stderr).into_owned();
    say!("{}", said.trim_end());
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
