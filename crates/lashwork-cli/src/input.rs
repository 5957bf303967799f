//! What is read: a file, or standard input for `-`.

use crate::ended::cannot;
use lashwork_wire::{MAX_BYTES, Problem};
use std::fs::File;
use std::io::{Read, stdin};
use std::path::Path;

/// Opened for reading, and how many bytes it has if that is known.
pub(crate) fn open(file: &Path) -> Result<(Box<dyn Read>, Option<u64>), Problem> {
    if file == Path::new("-") {
        return Ok((Box::new(stdin().lock()), None));
    }
    let opened = File::open(file).and_then(|file| Ok((file.metadata()?, file)));
    let (about, opened) = opened.map_err(|why| cannot("program.cannot-read", &why))?;
    Ok((Box::new(opened), about.is_file().then_some(about.len())))
}

/// A whole document. One that is too long is read just so far that the JSON interface sees that it is.
pub(crate) fn document(file: &Path) -> Result<Vec<u8>, Problem> {
    let (input, _) = open(file)?;
    let mut bytes = Vec::new();
    let read = input.take(MAX_BYTES as u64 + 1).read_to_end(&mut bytes);
    read.map_err(|why| cannot("program.cannot-read", &why))?;
    Ok(bytes)
}
