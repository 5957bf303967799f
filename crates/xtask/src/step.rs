//! Starting programs, with a heading and the time each took.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// What every command gives back: nothing, or the reason in words.
pub(crate) type Outcome = Result<(), String>;

/// What a step took: time, and time of processors, which other work on the machine does not lengthen.
struct Cost {
    name: String,
    passed: Duration,
    worked: Option<Duration>,
}

/// What the steps of this run cost so far, in the order they ended.
static COSTS: Mutex<Vec<Cost>> = Mutex::new(Vec::new());

/// Runs one named step and prints how long it took.
pub(crate) fn step(heading: &str, work: impl FnOnce() -> Outcome) -> Outcome {
    println!("\n== {heading}");
    let (start, worked) = (Instant::now(), processors());
    let done = work();
    let passed = start.elapsed();
    let name = match done {
        Ok(()) => heading.to_owned(),
        Err(_) => format!("{heading} (failed)"),
    };
    println!("== {name}: {:.1} s", passed.as_secs_f64());
    if let Ok(mut costs) = COSTS.lock() {
        costs.push(Cost {
            name,
            passed,
            worked: processors()
                .zip(worked)
                .map(|(now, then)| now.saturating_sub(then)),
        });
    }
    done.map_err(|why| format!("{heading}: {why}"))
}

/// Prints what each step cost.
pub(crate) fn print_costs() {
    let Ok(costs) = COSTS.lock() else { return };
    let line = |name: &str, passed: Duration, worked: Option<Duration>| {
        let worked =
            worked.map_or_else(|| "-".to_owned(), |it| format!("{:.1} s", it.as_secs_f64()));
        println!("{name:<32} {:>8.1} s {worked:>11}", passed.as_secs_f64());
    };
    println!("\n{:<32} {:>10} {:>11}", "step", "time", "processors");
    for cost in costs.iter() {
        line(&cost.name, cost.passed, cost.worked);
    }
    let passed = costs.iter().map(|cost| cost.passed).sum();
    line("all", passed, costs.iter().map(|cost| cost.worked).sum());
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
