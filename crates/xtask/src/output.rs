//! Where output goes: to the terminal, or, of work that is done beside other work, into a file that is
//! shown when both are done, so that the two do not mix.

use crate::step::Outcome;
use std::cell::RefCell;
use std::fs::File;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

thread_local! {
    /// The file that takes the output of this thread and of the programs it starts.
    static ASIDE: RefCell<Option<File>> = const { RefCell::new(None) };
}

/// Prints a line, as `println!` does.
macro_rules! say {
    ($($words:tt)*) => {
        $crate::output::line(&format!($($words)*))
    };
}
pub(crate) use say;

/// Prints a line to where this thread's output goes.
pub(crate) fn line(text: &str) {
    // Whoever reads only the first lines closes the pipe; the work goes on.
    let _ = ASIDE.with_borrow_mut(|aside| match aside {
        Some(file) => writeln!(file, "{text}"),
        None => writeln!(std::io::stdout(), "{text}"),
    });
}

/// Where a program started by this thread writes.
pub(crate) fn stream() -> Result<Stdio, String> {
    ASIDE.with_borrow(|aside| match aside {
        Some(file) => {
            let file = file.try_clone();
            file.map(Stdio::from).map_err(|why| why.to_string())
        }
        None => Ok(Stdio::inherit()),
    })
}

/// A command with both of its streams going where this thread's output goes.
pub(crate) fn directed(command: &mut Command) -> Result<&mut Command, String> {
    Ok(command.stdout(stream()?).stderr(stream()?))
}

/// Does work with the output of this thread in a file; gives how it ended.
pub(crate) fn aside(file: &Path, work: impl FnOnce() -> Outcome) -> Outcome {
    let folder = file.parent().map_or(Ok(()), std::fs::create_dir_all);
    let made = folder.and_then(|()| File::create(file));
    ASIDE.set(Some(
        made.map_err(|why| format!("{}: {why}", file.display()))?,
    ));
    let outcome = work();
    ASIDE.set(None);
    outcome
}

/// Shows what went into a file.
pub(crate) fn show(file: &Path) -> Outcome {
    let text = std::fs::read(file).map_err(|why| format!("{}: {why}", file.display()))?;
    line(String::from_utf8_lossy(&text).trim_end());
    Ok(())
}
