//! Programs that run tests: their output passes through, and what they say of themselves is added up.

use crate::output::{say, stream};
use crate::step::{Outcome, root, show};
use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::sync::Mutex;

/// How many tests ended in which way.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Count {
    passed: u64,
    failed: u64,
    skipped: u64,
}

/// Of all programs of this run.
static ALL: Mutex<Count> = Mutex::new(Count {
    passed: 0,
    failed: 0,
    skipped: 0,
});

impl Count {
    /// What a line of a test program's output adds: the closing lines of cargo's tests, of node's and
    /// of ctest.
    fn of_line(line: &str) -> Self {
        let line = line.trim();
        let mut count = Self::default();
        if let Some(said) = line.strip_prefix("test result: ") {
            count.passed = before(said, " passed");
            count.failed = before(said, " failed");
            count.skipped = before(said, " ignored");
        } else if let Some(said) = line.strip_prefix('\u{2139}') {
            let of = |name: &str| {
                let number = said.trim_start().strip_prefix(name)?.trim().parse();
                number.ok()
            };
            count.passed = of("pass ").unwrap_or(0);
            count.failed = of("fail ").or_else(|| of("cancelled ")).unwrap_or(0);
            count.skipped = of("skipped ").or_else(|| of("todo ")).unwrap_or(0);
        } else if line.contains("% tests passed, ") {
            count.failed = before(line, " tests failed");
            let all: u64 = line.rsplit(' ').next().map_or(0, number);
            count.passed = all.saturating_sub(count.failed);
        }
        count
    }

    fn add(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
        self.skipped += other.skipped;
    }
}

/// The number that stands before a word.
fn before(said: &str, word: &str) -> u64 {
    let number_at_end = |text: &str| text.rsplit(' ').next().map_or(0, number);
    said.split_once(word)
        .map_or(0, |(head, _)| number_at_end(head))
}

fn number(text: &str) -> u64 {
    text.parse().unwrap_or(0)
}

/// Runs a program of tests in the workspace root, its output visible; an error if it does not succeed,
/// or if it ran no test.
pub(crate) fn run_tests(command: &mut Command) -> Outcome {
    let shown = show(command);
    say!("$ {shown}");
    let wrong = |why: std::io::Error| format!("`{shown}` did not start: {why}");
    let mut child = command
        .current_dir(root())
        .stdout(Stdio::piped())
        .stderr(stream()?)
        .spawn()
        .map_err(wrong)?;
    let mut count = Count::default();
    if let Some(output) = child.stdout.take() {
        for line in BufReader::new(output).split(b'\n').map_while(Result::ok) {
            let line = String::from_utf8_lossy(&line);
            count.add(Count::of_line(&line));
            say!("{line}");
        }
    }
    let status = child.wait().map_err(wrong)?;
    if let Ok(mut all) = ALL.lock() {
        all.add(count);
    }
    if !status.success() {
        return Err(format!("`{shown}` ended with {status}"));
    }
    if count.passed == 0 {
        return Err(format!("`{shown}` ran no test"));
    }
    Ok(())
}

/// Prints what all test programs of this run said together.
pub(crate) fn print_sum() {
    let Ok(all) = ALL.lock() else { return };
    say!(
        "\n{} passed, {} failed, {} skipped",
        all.passed,
        all.failed,
        all.skipped
    );
}

#[cfg(test)]
mod tests {
    use super::Count;

    #[test]
    fn closing_lines_are_counted_and_others_are_not() {
        for (line, passed, failed, skipped) in [
            (
                "test result: ok. 8 passed; 0 failed; 1 ignored; 0 measured; 3 filtered out; finished in 0.78s",
                8,
                0,
                1,
            ),
            (
                "test result: FAILED. 81 passed; 12 failed; 0 ignored; 0 measured; 0 filtered out",
                81,
                12,
                0,
            ),
            ("\u{2139} pass 23", 23, 0, 0),
            ("\u{2139} fail 2", 0, 2, 0),
            ("\u{2139} cancelled 1", 0, 1, 0),
            ("\u{2139} todo 4", 0, 0, 4),
            ("67% tests passed, 1 tests failed out of 3", 2, 1, 0),
            ("100% tests passed, 0 tests failed out of 3", 3, 0, 0),
            ("\u{2139} tests 25", 0, 0, 0),
            ("\u{2139} duration_ms 1200.5", 0, 0, 0),
            ("test three_passed ... ok", 0, 0, 0),
            ("running 8 tests", 0, 0, 0),
        ] {
            let expected = Count {
                passed,
                failed,
                skipped,
            };
            assert_eq!(Count::of_line(line), expected, "{line}");
        }
    }
}
