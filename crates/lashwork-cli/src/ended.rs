//! How a run ended, and what the program itself has to say of it.

use lashwork_wire::Problem;
use std::fmt::Display;
use std::process::ExitCode;

/// How a run ended; of several parts the worst counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Ended {
    /// Everything was answered.
    Well = 0,
    /// Something was refused; the reasons were told, the rest was answered.
    Refused = 1,
    /// The program could not do what was asked: its arguments, a file, its output.
    CannotRun = 2,
}

impl Ended {
    /// How an answer of the JSON interface ended.
    pub(crate) fn of(answer: &[u8]) -> Self {
        if answer.starts_with(b"{\"problems\"") {
            Self::Refused
        } else {
            Self::Well
        }
    }
}

impl From<Ended> for ExitCode {
    fn from(ended: Ended) -> Self {
        (ended as u8).into()
    }
}

/// What kept the program from running, under one of its own codes.
pub(crate) fn cannot(code: &str, why: &dyn Display) -> Problem {
    let hint = match code {
        "program.cannot-read" => "name a file that can be read, or - for standard input",
        "program.cannot-write" => "see that there is room and that it may be written",
        _ => "ask `lashwork help`",
    };
    Problem::new("", code, why.to_string(), hint)
}
