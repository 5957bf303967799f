//! How far a long table is, on a terminal.

use indicatif::{ProgressBar, ProgressStyle};
use std::io::{IsTerminal, stdout};

/// Tables of fewer bytes are done before a bar is read.
const LONG: u64 = 1_000_000;
/// In words and signs alone.
const LOOK: &str = "{wide_bar} {percent} %, {eta} to go";

/// A bar on standard error, if that is a terminal, the table is long, and the answers go elsewhere: on the
/// same terminal they show by themselves how far it is.
pub(crate) struct Progress(ProgressBar);

impl Progress {
    pub(crate) fn new(length: Option<u64>) -> Self {
        let is_long = |length: &u64| *length >= LONG && !stdout().is_terminal();
        let Some(length) = length.filter(is_long) else {
            return Self(ProgressBar::hidden());
        };
        let bar = ProgressBar::new(length);
        let look = ProgressStyle::with_template(LOOK);
        Self(match look {
            Ok(look) => bar.with_style(look.progress_chars("#.")),
            Err(_) => bar,
        })
    }

    /// So many bytes are read.
    pub(crate) fn at(&self, bytes: u64) {
        self.0.set_position(bytes);
    }

    /// Takes the bar away while something is written.
    pub(crate) fn away(&self, write: impl FnOnce()) {
        self.0.suspend(write);
    }

    pub(crate) fn end(&self) {
        self.0.finish_and_clear();
    }
}
