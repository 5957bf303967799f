//! The columns of a table: which field of a quick check each is, and where in an answer each is found.

use lashwork_wire::Problem;
use serde_json::{Map, Value};

/// Shown by `lashwork judge --help`; a test reads the tables below against it.
pub(crate) const HELP: &str = "\
Columns that are read, each quantity with its unit (\"0.15 mm\", \"6 thou\", \"20 C\"):
  valve                     intake or exhaust
  lower limit, upper limit  the band it may be set in; one may be empty
  set to                    what it is set to
  leave from, leave to      the band in which it is left alone
  reference                 the temperature for which the limits hold
  leaf goes, leaf drags, leaf does not
                            leaves that were tried; \"0.10 mm + 0.05 mm\" for a stack
  metal                     the temperature of the metal
  shim                      the shim that is fitted
Any other column is passed on as it is. Blank lines and lines that begin with # are left out.

Columns that are added: line (its number in the file), verdict (in_band, below, above, cannot_say, refused), words, below_least, below_most, \
in_band_least, in_band_most, above_least, above_most, provable, low_mm, high_mm, u_mm, advice, assumed, note, \
problems. With --json a line for each row instead, with the whole answer of the JSON interface.

A row that is wrong is told with its line, and the others are judged.";

/// A column that is read, and its field in a quick check.
pub(crate) struct Column {
    pub(crate) name: &'static str,
    field: &'static [&'static str],
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Word,
    Length,
    /// Leaves, together a stack; lengths as well.
    Leaves,
}

const fn column(name: &'static str, field: &'static [&'static str], kind: Kind) -> Column {
    Column { name, field, kind }
}

pub(crate) const READ: [Column; 12] = [
    column("valve", &["valve"], Kind::Word),
    column("lower limit", &["limits", "set", "from"], Kind::Length),
    column("upper limit", &["limits", "set", "to"], Kind::Length),
    column("set to", &["limits", "set_to"], Kind::Length),
    column(
        "leave from",
        &["limits", "leave_alone", "from"],
        Kind::Length,
    ),
    column("leave to", &["limits", "leave_alone", "to"], Kind::Length),
    column("reference", &["reference"], Kind::Word),
    column("leaf goes", &["reading", "goes"], Kind::Leaves),
    column("leaf drags", &["reading", "drags"], Kind::Leaves),
    column("leaf does not", &["reading", "refuses"], Kind::Leaves),
    column("metal", &["metal", "temperature", "is"], Kind::Word),
    column("shim", &["reading", "shim"], Kind::Length),
];

/// Columns that are added, and where in a report they stand; those without a place are put together.
pub(crate) const ADDED: [(&str, &str); 17] = [
    ("line", ""),
    ("verdict", "/judged/verdict"),
    ("words", "/judged/verdict_text"),
    ("below_least", "/judged/probabilities/below/least"),
    ("below_most", "/judged/probabilities/below/most"),
    ("in_band_least", "/judged/probabilities/in_band/least"),
    ("in_band_most", "/judged/probabilities/in_band/most"),
    ("above_least", "/judged/probabilities/above/least"),
    ("above_most", "/judged/probabilities/above/most"),
    ("provable", "/judged/provable"),
    ("low_mm", "/judged/low/mm"),
    ("high_mm", "/judged/high/mm"),
    ("u_mm", "/judged/normal_uncertainty_mm"),
    ("advice", "/judged/advice/text"),
    ("assumed", ""),
    ("note", ""),
    ("problems", ""),
];

/// The names in the first line, each with its column if it is read.
pub(crate) struct Header {
    names: Vec<String>,
    read: Vec<Option<&'static Column>>,
}

impl Header {
    /// Finds the columns in the first line.
    pub(crate) fn of(names: Vec<String>, separator: u8) -> Result<Self, Vec<Problem>> {
        let find = |name: &str| READ.iter().find(|column| column.name == name.trim());
        let read: Vec<_> = names.iter().map(|name| find(name)).collect();
        let mut problems = Vec::new();
        if read.iter().all(Option::is_none) {
            problems.push(unknown(&names, separator));
        }
        for (at, name) in names.iter().map(|name| name.trim()).enumerate() {
            if names.iter().take(at).any(|before| before.trim() == name) {
                problems.push(Problem::new(
                    "",
                    "csv.column-twice",
                    format!("there are two columns {name:?}"),
                    "keep one of them, or give one another name",
                ));
            }
            if ADDED.iter().any(|(added, _)| *added == name) {
                problems.push(Problem::new(
                    "",
                    "csv.column-taken",
                    format!("the column {name:?} is one that is added"),
                    "give it another name, or leave it out",
                ));
            }
        }
        if problems.is_empty() {
            Ok(Self { names, read })
        } else {
            Err(problems)
        }
    }

    /// How many fields a row has.
    pub(crate) fn len(&self) -> usize {
        self.read.len()
    }

    /// The first line of the answer.
    pub(crate) fn answered(&self) -> Vec<String> {
        let added = ADDED.iter().map(|(name, _)| (*name).to_owned());
        self.names.iter().cloned().chain(added).collect()
    }

    /// The columns that are passed on unread.
    pub(crate) fn unread(&self) -> Vec<&str> {
        let both = self.names.iter().zip(&self.read);
        both.filter(|(_, column)| column.is_none())
            .map(|(name, _)| name.as_str())
            .collect()
    }

    /// The quick check of a row, over what is the same for all.
    pub(crate) fn check(&self, same: &Map<String, Value>, row: &[String]) -> Value {
        let mut check = same.clone();
        for (column, text) in self.stated(row) {
            let value = match column.kind {
                Kind::Leaves => text.split('+').map(str::trim).collect(),
                Kind::Word | Kind::Length => Value::from(text),
            };
            put(&mut check, column.field, value);
        }
        check.into()
    }

    /// The units of lengths in a row, each once.
    pub(crate) fn units<'r>(&self, row: &'r [String]) -> Vec<&'r str> {
        let mut units = Vec::new();
        for (column, text) in self.stated(row) {
            if column.kind == Kind::Word {
                continue;
            }
            for length in text.split('+').map(str::trim) {
                let unit = length.trim_start_matches(|c: char| !c.is_alphabetic() && c != '"');
                if !unit.is_empty() && !units.contains(&unit) {
                    units.push(unit);
                }
            }
        }
        units
    }

    /// The columns that a row has something in.
    fn stated<'r>(&self, row: &'r [String]) -> impl Iterator<Item = (&'static Column, &'r str)> {
        let both = self.read.iter().zip(row);
        both.filter_map(|(column, text)| Some(((*column)?, text.trim())))
            .filter(|(_, text)| !text.is_empty())
    }
}

/// Puts a value into a check, in the place of what was there.
fn put(check: &mut Map<String, Value>, field: &[&str], value: Value) {
    match field {
        [] => {}
        [last] => {
            check.insert((*last).to_owned(), value);
        }
        [first, rest @ ..] => {
            let inner = check.entry(*first).or_insert_with(|| Map::new().into());
            if !inner.is_object() {
                *inner = Map::new().into();
            }
            if let Some(inner) = inner.as_object_mut() {
                put(inner, rest, value);
            }
        }
    }
}

/// The column that a problem's place in a quick check belongs to.
pub(crate) fn of_place(place: &str) -> Option<&'static str> {
    let found = READ.iter().find(|column| {
        let begin = format!("/{}", column.field.join("/"));
        let rest = place.strip_prefix(begin.as_str());
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
    });
    found.map(|column| column.name)
}

/// None of the names is known: perhaps there are none, or something else stands between them.
fn unknown(names: &[String], separator: u8) -> Problem {
    let line = names.join(" ");
    let other = [';', '\t', ',', '|']
        .into_iter()
        .find(|sign| u32::from(*sign) != u32::from(separator) && line.contains(*sign));
    let hint = match other {
        Some('\t') => "if tabulators stand between the fields, say --separator tab".to_owned(),
        Some(sign) => format!("if {sign:?} stands between the fields, say --separator '{sign}'"),
        None => {
            let names: Vec<_> = READ.iter().map(|column| column.name).collect();
            format!(
                "begin with a line of column names, of which these are read: {}",
                names.join(", ")
            )
        }
    };
    let message = format!("no column is known in {line:?}");
    Problem::new("", "csv.no-known-column", message, hint)
}
