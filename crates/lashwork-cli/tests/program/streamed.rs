//! Long tables: answered row by row, with no more memory for more rows, and a bar on a terminal.
#![cfg(target_os = "linux")]

use super::{begun, run};
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::mpsc::{Receiver, channel};

const NAMES: &str = "valve,lower limit,upper limit,leaf goes,leaf does not,engine\n";

/// Sends a word for each line.
fn lines(from: impl Read + Send + 'static) -> Receiver<()> {
    let (sender, receiver) = channel();
    std::thread::spawn(move || {
        for _ in BufReader::new(from).split(b'\n') {
            if sender.send(()).is_err() {
                break;
            }
        }
    });
    receiver
}

/// The most memory a program had so far, in KiB.
fn most_memory(process: u32) -> u64 {
    let status = fs::read_to_string(format!("/proc/{process}/status")).unwrap();
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))
        .unwrap();
    line.trim().trim_end_matches(" kB").parse().unwrap()
}

/// `LASHWORK_ROWS` asks for more rows than the gate has time for.
#[test]
fn wrong_rows_without_end_take_no_more_memory() {
    let asked = std::env::var("LASHWORK_ROWS").ok();
    let many: usize = asked.map_or(20_000, |rows| rows.parse().unwrap());
    let few = 1_000;
    let mut child = begun(&["judge", "-"]);
    let mut stdin = child.stdin.take().unwrap();
    let answers = lines(child.stdout.take().unwrap());
    let told = lines(child.stderr.take().unwrap());
    // A row that is too short, one without a unit in many a field, and a quote that does not end.
    let wrong = [
        "intake,1\n",
        "intake,1,2,3,4,x\n",
        "\"intake,0.15 mm,0.25 mm,0.1 mm,0.2 mm,x\n",
    ];
    let table: String = wrong.iter().copied().cycle().take(few).collect();
    stdin.write_all(NAMES.as_bytes()).unwrap();
    stdin.write_all(table.as_bytes()).unwrap();
    // The line of names and a line for each row; nothing is held back until the end.
    (0..=few).for_each(|_| answers.recv().unwrap());
    let at_first = most_memory(child.id());
    let writer = std::thread::spawn(move || {
        for row in wrong.iter().cycle().take(many) {
            stdin.write_all(row.as_bytes()).unwrap();
        }
        stdin
    });
    (0..many).for_each(|_| answers.recv().unwrap());
    let at_last = most_memory(child.id());
    drop(writer.join().unwrap());
    assert_eq!(child.wait().unwrap().code(), Some(1));
    let each = told.iter().count();
    assert!(each > few + many, "{each} lines for {} rows", few + many);
    // More than 100 bytes a row would show: what is held back of 20,000 rows takes 2,000 KiB.
    assert!(
        at_last < at_first + 1_000,
        "{at_first} KiB, then {at_last} KiB"
    );
}

#[test]
fn a_bar_is_drawn_on_a_terminal_alone_and_changes_no_answer() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let table = folder.join("long.csv");
    let filler = "x".repeat(4_000);
    let row = format!("intake,0.15 mm,0.25 mm,0.18 mm,0.20 mm,{filler}\n");
    fs::write(&table, NAMES.to_owned() + &row.repeat(400)).unwrap();
    let file = table.to_str().unwrap();
    let plain = run(&["judge", file], "");
    assert_eq!(plain.code, 0);
    assert!(
        !plain.err.contains("to go") && !plain.err.contains('\r'),
        "{}",
        plain.err
    );
    if !Path::new("/dev/pts/ptmx").exists() {
        println!("left out: this machine has no terminals");
        return;
    }
    // `script` runs a command on a terminal of its own.
    let answer = folder.join("long-judged.csv");
    let command = format!(
        "'{}' judge '{file}' > '{}'",
        env!("CARGO_BIN_EXE_lashwork"),
        answer.display()
    );
    let seen = Command::new("script")
        .args(["-qec", &command, "/dev/null"])
        .env("TERM", "xterm")
        .stdin(Stdio::null())
        .output()
        .unwrap();
    assert!(seen.status.success());
    let shown = String::from_utf8_lossy(&seen.stdout);
    assert!(shown.contains(" %, ") && shown.contains("to go"), "{shown}");
    assert_eq!(fs::read(&answer).unwrap(), plain.out);
}
