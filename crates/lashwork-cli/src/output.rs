//! Where answers and problems go.

use crate::ended::{Ended, cannot};
use lashwork_wire::Problem;
use serde_json::json;
use std::io::{self, ErrorKind, Write};

/// Standard output, and standard error beside it.
pub(crate) struct Output {
    is_json: bool,
    /// The first failure to write; nothing is written after it.
    failed: Option<io::Error>,
}

impl Output {
    pub(crate) fn new(is_json: bool) -> Self {
        Self {
            is_json,
            failed: None,
        }
    }

    /// Whether answers and problems are asked for in JSON.
    pub(crate) fn is_json(&self) -> bool {
        self.is_json
    }

    /// Whether nobody reads on, or nothing can be written.
    pub(crate) fn is_closed(&self) -> bool {
        self.failed.is_some()
    }

    /// Writes an answer, and the end of its line if it has none.
    pub(crate) fn text(&mut self, text: &str) {
        self.bytes(text.as_bytes());
    }

    /// Writes an answer, and the end of its line if it has none.
    pub(crate) fn bytes(&mut self, bytes: &[u8]) {
        if self.failed.is_some() {
            return;
        }
        let mut out = io::stdout().lock();
        let end: &[u8] = if bytes.ends_with(b"\n") { b"" } else { b"\n" };
        self.failed = out.write_all(bytes).and_then(|()| out.write_all(end)).err();
    }

    /// Tells what kept the program from running.
    pub(crate) fn problem(&mut self, of: &str, problem: &Problem) -> Ended {
        self.problems(of, std::slice::from_ref(problem));
        Ended::CannotRun
    }

    /// Tells what is wrong with a file as a whole.
    pub(crate) fn problems(&mut self, of: &str, problems: &[Problem]) {
        if self.is_json {
            return self.text(&json!({ "problems": problems }).to_string());
        }
        for problem in problems {
            aside(&line(of, problem));
        }
    }

    /// How the run ended, once all is written.
    pub(crate) fn end(mut self, ended: Ended) -> Ended {
        let failed = self.failed.take().or_else(|| io::stdout().flush().err());
        match failed {
            // Whoever reads only the first lines closes the pipe; that is no error.
            Some(why) if why.kind() != ErrorKind::BrokenPipe => {
                self.is_json = false;
                self.problem("standard output", &cannot("program.cannot-write", &why))
            }
            _ => ended,
        }
    }
}

/// Says something that is no part of the answer, on standard error.
pub(crate) fn aside(text: &str) {
    // Where nobody listens there is nobody to tell.
    let _ = writeln!(io::stderr(), "{}", text.trim_end());
}

/// A problem in one line.
pub(crate) fn line(of: &str, problem: &Problem) -> String {
    let of = if of.is_empty() {
        String::new()
    } else {
        format!("{of}: ")
    };
    let Problem {
        message,
        hint,
        code,
        ..
    } = problem;
    format!("{of}{message} ({hint}) [{code}]")
}
