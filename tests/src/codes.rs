//! The page of codes, read from the source: what is refused or assumed, and in which words.

use crate::root;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

/// Where the page is kept.
pub const PAGE: &str = "docs/errors.md";

/// Crates that give out codes.
const CRATES: [&str; 3] = [
    "crates/lashwork/src",
    "crates/lashwork-wire/src",
    "crates/lashwork-cli/src",
];

const HEAD: &str = "\
# Codes

Whatever is refused, and whatever has to be assumed, has a code that never changes its meaning; messages may be
reworded. A program asks for the code, a person reads the message. Codes of `document` are about the form of a
document, those of `csv` and `program` come from the program `lashwork`; the others are named after their area.

This page is written by `cargo xtask codes` from the source, and a test holds it against it. Braces stand for
values that the message states.
";

/// So many bytes before a code its text may end.
const NEAR: usize = 220;

/// What is put together of parts, in other words.
const PUT_TOGETHER: [(&str, &str); 9] = [
    (
        "csv.no-known-column",
        "no column is known in the first line",
    ),
    (
        "mixture.gas-not-read",
        "a reading of the exhaust gas that another one must go with is missing",
    ),
    (
        "program.arguments",
        "the program was called in a way that there is not",
    ),
    ("program.cannot-read", "a file cannot be read"),
    ("program.cannot-write", "an answer cannot be written"),
    (
        "tolerance.set-band",
        "the book prints one figure, or no set band: what is taken as the band",
    ),
    (
        "tolerance.set-to",
        "the book prints a range and no value to set: its middle taken",
    ),
    (
        "valve.places",
        "places where the crank can be stopped not stated: what is taken",
    ),
    (
        "valve.start",
        "where the crank stands at the start not stated: what is taken",
    ),
];

/// A text in quotes: where it begins and ends in the source, and its words.
struct Quoted {
    from: usize,
    to: usize,
    text: String,
}

/// The page as the source has it.
#[must_use]
pub fn page() -> String {
    let mut codes: BTreeMap<String, String> = BTreeMap::new();
    for folder in CRATES {
        let mut files = Vec::new();
        sources(&root().join(folder), &mut files);
        for file in files {
            let source =
                fs::read_to_string(&file).unwrap_or_else(|why| panic!("{}: {why}", file.display()));
            for (code, words) in codes_of(&source) {
                let known = codes.entry(code).or_default();
                // The first that says something; a code that is only compared says nothing.
                if known.is_empty() {
                    *known = words;
                }
            }
        }
    }
    for (code, words) in PUT_TOGETHER {
        let met = codes.insert(code.to_owned(), words.to_owned());
        assert!(met.is_some(), "{code} is not met in the source");
    }
    let mut page = HEAD.to_owned();
    let mut area = "";
    for (code, words) in &codes {
        let (of, _) = code.split_once('.').unwrap_or_default();
        if of != area {
            let _ = write!(page, "\n## {of}\n\n| code | what it says |\n|---|---|\n");
            area = of;
        }
        let _ = writeln!(page, "| `{code}` | {} |", words.replace('|', "\\|"));
    }
    page
}

/// Writes the page.
///
/// # Errors
/// The reason in words if it cannot be written.
pub fn write() -> Result<(), String> {
    fs::write(root().join(PAGE), page()).map_err(|why| format!("{PAGE}: {why}"))
}

fn sources(folder: &Path, files: &mut Vec<PathBuf>) {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut paths: Vec<_> = entries.map(|entry| entry.path()).collect();
    paths.sort();
    for path in paths {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if path.is_dir() {
            sources(&path, files);
        } else if name.ends_with(".rs") && !name.ends_with("_tests.rs") {
            files.push(path);
        }
    }
}

/// The codes in a source, each with its words.
fn codes_of(source: &str) -> Vec<(String, String)> {
    let is_remark = |line: &&str| line.trim_start().starts_with("//");
    let lines = source
        .lines()
        .map(|line| if is_remark(&line) { "" } else { line });
    let code = lines.collect::<Vec<_>>().join("\n");
    let quoted = in_quotes(&code);
    let mut found = Vec::new();
    for (at, one) in quoted.iter().enumerate() {
        if !is_code(&one.text) {
            continue;
        }
        let before = code.get(..one.from).unwrap_or_default();
        let words = match variant(before) {
            Some(variant) => documented(source, variant),
            None => said_after(&code, one, quoted.get(at + 1))
                .or_else(|| said_before(one, quoted.get(..at).unwrap_or_default())),
        };
        found.push((one.text.clone(), words.unwrap_or_default()));
    }
    found
}

/// Whether a text is a code: an area, a point, and words with hyphens.
fn is_code(text: &str) -> bool {
    let Some((area, words)) = text.split_once('.') else {
        return false;
    };
    let lower = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
    area.chars().all(|c| c.is_ascii_lowercase() || c == '_')
        && !area.is_empty()
        && words.chars().all(|c| lower(c) || c == '-')
        && words.starts_with(lower)
        && !["json", "rs", "md", "csv"].contains(&words)
}

/// The variant of whose arm the text behind is: `Self::NotHere { .. } => `.
fn variant(before: &str) -> Option<&str> {
    let arm = before.trim_end().trim_end_matches('{').trim_end();
    let arm = arm.strip_suffix("=>")?;
    let (_, name) = arm.rsplit_once("::")?;
    let end = name.find(|c: char| !c.is_alphanumeric())?;
    name.get(..end).filter(|name| !name.is_empty())
}

/// The first sentence of what is written above a variant.
fn documented(source: &str, variant: &str) -> Option<String> {
    let lines: Vec<&str> = source.lines().map(str::trim).collect();
    let declares = |line: &str| {
        let rest = line.strip_prefix(variant);
        rest.is_some_and(|rest| rest.starts_with([',', '(', ' ']) && !rest.contains("=>"))
    };
    for (at, _) in lines.iter().enumerate().filter(|(_, line)| declares(line)) {
        let above = lines.get(..at).unwrap_or_default();
        let ends = above.iter().rposition(|line| line.starts_with("///"))?;
        // Between them stands an attribute at most.
        let between = above.get(ends + 1..).unwrap_or_default();
        if between.first().is_some_and(|line| !line.starts_with("#[")) {
            continue;
        }
        let begins = above
            .get(..=ends)?
            .iter()
            .rposition(|line| !line.starts_with("///"));
        let text = above.get(begins.map_or(0, |line| line + 1)..=ends)?;
        let text: Vec<&str> = text
            .iter()
            .map(|line| line.trim_start_matches("///").trim())
            .collect();
        let text = text.join(" ");
        let first = text.split(". ").next().unwrap_or_default();
        return Some(first.trim_end_matches('.').replace(['[', ']'], ""));
    }
    None
}

/// The text that follows a code as its message.
fn said_after(code: &str, one: &Quoted, next: Option<&Quoted>) -> Option<String> {
    let next = next.filter(|next| !is_code(&next.text))?;
    let between = code.get(one.to..next.from)?;
    // Another call or statement: what follows belongs to that.
    let is_message = between.starts_with(',') && !between.contains([';', '}']);
    is_message.then(|| one_line(&next.text))
}

/// The text that stands before a code and is given with it, in the lines just above.
fn said_before(one: &Quoted, before: &[Quoted]) -> Option<String> {
    let last = before.last()?;
    let is_near = one.from - last.to < NEAR && last.text.contains(' ');
    is_near.then(|| one_line(&last.text))
}

/// A text that goes over lines, as it is said.
fn one_line(text: &str) -> String {
    let parts: Vec<&str> = text.split("\\\n").map(str::trim_start).collect();
    parts.concat().replace("\\\"", "\"")
}

/// Every text in quotes of a source without remarks.
fn in_quotes(code: &str) -> Vec<Quoted> {
    let bytes = code.as_bytes();
    let byte = |at: usize| bytes.get(at).copied();
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(here) = byte(at) {
        let opens = at + 1;
        if here == b'\'' && byte(opens) == Some(b'"') && byte(opens + 1) == Some(b'\'') {
            at += 3;
        } else if here == b'\'' && byte(opens) == Some(b'\\') {
            at += 4;
        } else if here == b'"' {
            at = opens;
            while byte(at).is_some_and(|here| here != b'"') {
                at += if byte(at) == Some(b'\\') { 2 } else { 1 };
            }
            found.push(Quoted {
                from: opens - 1,
                to: at + 1,
                text: code.get(opens..at).unwrap_or_default().to_owned(),
            });
            at += 1;
        } else {
            at = opens;
        }
    }
    found
}
