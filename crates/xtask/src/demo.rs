//! `cargo xtask demo`: what a reader wants to see first, by the program that users have.

use crate::own;
use crate::step::{Outcome, root};
use std::fs;
use std::path::{Path, PathBuf};

const EXAMPLES: &str = "examples/data";

/// Prints the job sheets of the files, or of all examples; words such as `--full` go to the program.
pub(crate) fn show(words: &[&str]) -> Outcome {
    let mut command = own::program("lashwork-cli", "lashwork");
    command.arg("sheet").args(words);
    if words.iter().all(|word| word.starts_with("--")) {
        command.args(examples()?).current_dir(root());
    }
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        // The program has told why.
        Ok(status) => Err(format!("the program ended with {status}")),
        Err(why) => Err(format!("the program did not start: {why}")),
    }
}

/// The documents in the folder of examples, as seen from the workspace root.
fn examples() -> Result<Vec<PathBuf>, String> {
    let entries =
        fs::read_dir(root().join(EXAMPLES)).map_err(|why| format!("{EXAMPLES}: {why}"))?;
    let names = entries.flatten().map(|entry| entry.file_name());
    let mut files: Vec<_> = names
        .map(|name| Path::new(EXAMPLES).join(name))
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    files.sort();
    if files.is_empty() {
        return Err(format!("{EXAMPLES} holds no document"));
    }
    Ok(files)
}
