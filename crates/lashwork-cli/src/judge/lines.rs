//! A table line by line. A row is one line: a quote that does not end spoils its own row and no other, and
//! no file needs more room than its longest line may have.

use csv_core::{ReadRecordResult, ReaderBuilder, WriterBuilder};
use lashwork_wire::Problem;
use std::io::{self, BufRead, BufReader, Read};

/// Most bytes of a line.
const LONGEST: usize = 64 * 1024;

/// Lines of a table with their numbers.
pub(crate) struct Lines<R> {
    input: BufReader<R>,
    separator: u8,
    row: u64,
    bytes: u64,
}

/// A line that holds something.
pub(crate) struct Line {
    /// Its number in the file, from 1.
    pub(crate) row: u64,
    /// How many bytes the file had up to its end.
    pub(crate) read: u64,
    /// Whether the file ends before the line does.
    pub(crate) is_torn: bool,
    pub(crate) fields: Result<Vec<String>, Problem>,
}

impl<R: Read> Lines<R> {
    pub(crate) fn new(input: R, separator: u8) -> Self {
        Self {
            input: BufReader::with_capacity(LONGEST, input),
            separator,
            row: 0,
            bytes: 0,
        }
    }

    /// The next line that is neither blank nor a remark.
    pub(crate) fn next(&mut self) -> io::Result<Option<Line>> {
        let mut text = Vec::new();
        loop {
            text.clear();
            let ends = self.take(&mut text)?;
            if text.is_empty() {
                return Ok(None);
            }
            self.row += 1;
            // Some programs write a mark in front that says how the text is coded; it is no part of it.
            if self.row == 1 && text.starts_with(b"\xef\xbb\xbf") {
                text.drain(..3);
            }
            let is_long = !ends && text.len() > LONGEST;
            if is_long {
                self.skip()?;
            } else if text.trim_ascii().is_empty() || text.starts_with(b"#") {
                continue;
            }
            return Ok(Some(Line {
                row: self.row,
                read: self.bytes,
                is_torn: !ends && !is_long,
                fields: if is_long {
                    Err(too_long())
                } else {
                    fields(&text, self.separator, self.row == 1)
                },
            }));
        }
    }

    /// Reads up to the end of the line, or one byte more than a line may have.
    fn take(&mut self, text: &mut Vec<u8>) -> io::Result<bool> {
        let most = LONGEST as u64 + 1;
        let read = (&mut self.input).take(most).read_until(b'\n', text)?;
        self.bytes += read as u64;
        Ok(text.ends_with(b"\n"))
    }

    /// Leaves out the rest of a line.
    fn skip(&mut self) -> io::Result<()> {
        let mut rest = Vec::new();
        loop {
            rest.clear();
            if self.take(&mut rest)? || rest.is_empty() {
                return Ok(());
            }
        }
    }
}

/// The fields of a line.
fn fields(line: &[u8], separator: u8, is_first: bool) -> Result<Vec<String>, Problem> {
    if is_first && (line.starts_with(b"\xff\xfe") || line.starts_with(b"\xfe\xff")) {
        return Err(two_bytes());
    }
    let line = line.strip_suffix(b"\n").unwrap_or(line);
    let line = line.strip_suffix(b"\r").unwrap_or(line);
    let Ok(text) = std::str::from_utf8(line) else {
        return Err(Problem::new(
            "",
            "csv.not-utf8",
            "the line is not text in UTF-8",
            "save the table as UTF-8",
        ));
    };
    if text.contains('\r') {
        return Err(Problem::new(
            "",
            "csv.line-end",
            "a carriage return stands within the line",
            "end lines with a line feed, with or without a carriage return before it",
        ));
    }
    split(text, separator).ok_or_else(|| {
        Problem::new(
            "",
            "csv.open-quote",
            "a quote does not end on its line",
            "end it; a row is one line",
        )
    })
}

/// The fields of a line; none if a quote goes on behind its end.
fn split(line: &str, separator: u8) -> Option<Vec<String>> {
    let line = [line.as_bytes(), b"\n"].concat();
    let separators = line.iter().filter(|byte| **byte == separator);
    let (mut text, mut ends) = (vec![0; line.len()], vec![0; separators.count() + 1]);
    let mut reader = ReaderBuilder::new().delimiter(separator).build();
    let (ended, _, _, count) = reader.read_record(&line, &mut text, &mut ends);
    if !matches!(ended, ReadRecordResult::Record) {
        return None;
    }
    let begins = std::iter::once(&0).chain(&ends);
    let spans = begins.zip(&ends).take(count);
    let field = |(from, to): (&usize, &usize)| text.get(*from..*to);
    let fields = spans.filter_map(field);
    Some(
        fields
            .map(|field| String::from_utf8_lossy(field).into_owned())
            .collect(),
    )
}

/// A row as a line.
pub(crate) fn joined(fields: &[String], separator: u8) -> Vec<u8> {
    let mut writer = WriterBuilder::new().delimiter(separator).build();
    let mut line = Vec::new();
    // A field in quotes, each quote in it doubled, takes no more.
    let mut room = vec![
        0;
        fields
            .iter()
            .map(|field| 2 * field.len() + 4)
            .sum::<usize>()
            + 4
    ];
    for (at, field) in fields.iter().enumerate() {
        if at > 0 {
            let (_, written) = writer.delimiter(&mut room);
            line.extend(room.iter().take(written));
        }
        let (_, _, written) = writer.field(field.as_bytes(), &mut room);
        line.extend(room.iter().take(written));
    }
    let (_, written) = writer.terminator(&mut room);
    line.extend(room.iter().take(written));
    line
}

fn too_long() -> Problem {
    Problem::new(
        "",
        "csv.line-too-long",
        format!("the line has more than {LONGEST} bytes"),
        "see whether a line end is missing",
    )
}

fn two_bytes() -> Problem {
    Problem::new(
        "",
        "csv.not-utf8",
        "the table is coded with two bytes a sign (UTF-16)",
        "save it as UTF-8",
    )
}

/// A row that has not as many fields as there are columns.
pub(crate) fn count(found: usize, columns: usize, is_torn: bool) -> Problem {
    if is_torn && found < columns {
        return Problem::new(
            "",
            "csv.torn-line",
            format!("the file ends within the line: {found} of {columns} fields are there"),
            "get the file anew; the end is missing",
        );
    }
    Problem::new(
        "",
        "csv.field-count",
        format!("the row has {found} fields, the table {columns} columns"),
        "put a decimal comma into quotes (\"0,15 mm\"), and a separator for every empty field",
    )
}
