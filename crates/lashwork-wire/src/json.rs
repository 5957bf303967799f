//! JSON bytes to a value, refusing what a lenient parser would lose: duplicate keys and oversize.

use crate::MAX_BYTES;
use crate::place::Place;
use crate::problem::{Problem, too_many};
use lashwork::job::clearance::MAX_JUDGEMENTS;
use serde::de::{DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// Most items of a list and fields of an object, whatever they are: as many as the readings of a job may be. Without it
/// a document within the byte limit could keep the kernel busy for seconds.
const MAX_HELD: usize = MAX_JUDGEMENTS;

/// A JSON value. A type of its own: the tree maps of the parser's take room in the WebAssembly file.
#[derive(Debug)]
pub(crate) enum Json {
    Null,
    Bool(bool),
    /// A whole number from zero up.
    Whole(u64),
    /// A whole number below zero.
    Negative(i64),
    Float(f64),
    Text(String),
    List(Vec<Json>),
    Object(Object),
}

impl Json {
    /// A number as the nearest `f64`; none for anything else.
    #[expect(
        clippy::cast_precision_loss,
        reason = "a whole number stands for the nearest f64"
    )]
    pub(crate) const fn number(&self) -> Option<f64> {
        match self {
            Self::Float(number) => Some(*number),
            Self::Whole(number) => Some(*number as f64),
            Self::Negative(number) => Some(*number as f64),
            _ => None,
        }
    }
}

/// The fields of an object by name, each once.
#[derive(Debug)]
pub(crate) struct Object(Vec<(String, Json)>);

impl Object {
    pub(crate) fn get(&self, key: &str) -> Option<&Json> {
        let at = self
            .0
            .binary_search_by(|(known, _)| known.as_str().cmp(key));
        at.ok()
            .and_then(|at| self.0.get(at))
            .map(|(_, value)| value)
    }

    pub(crate) fn fields(&self) -> &[(String, Json)] {
        &self.0
    }
}

/// What a text comes to, or all that is wrong with it, sorted by place and each told once.
pub(crate) fn read<T>(
    bytes: &[u8],
    take: impl FnOnce(&Json, &mut Vec<Problem>) -> Option<T>,
) -> Result<T, Vec<Problem>> {
    let mut problems = Vec::new();
    let made = parse(bytes, &mut problems).and_then(|json| take(&json, &mut problems));
    problems.sort();
    problems.dedup();
    made.filter(|_| problems.is_empty()).ok_or(problems)
}

/// Parses a document. Duplicate keys become problems; the first value is kept. Of what has too many of something
/// that alone is told.
fn parse(bytes: &[u8], problems: &mut Vec<Problem>) -> Option<Json> {
    if bytes.len() > MAX_BYTES {
        problems.push(Problem::new(
            "",
            "document.too-large",
            format!(
                "the document has {} bytes, more than {MAX_BYTES}",
                bytes.len()
            ),
            "split the job into smaller documents",
        ));
        return None;
    }
    // Some editors write a mark in front that says how the text is coded; it is no part of it.
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let mut reader = serde_json::Deserializer::from_slice(text);
    let mut has_too_many = false;
    let parsed = Tree {
        place: Place::Document,
        problems,
        has_too_many: &mut has_too_many,
    }
    .deserialize(&mut reader)
    .and_then(|value| reader.end().map(|()| value));
    match parsed {
        Ok(value) => (!has_too_many).then_some(value),
        Err(e) => {
            problems.push(Problem::new(
                "",
                "document.not-json",
                format!("the document is not JSON: {e}"),
                "check quotes, commas and brackets near that line",
            ));
            None
        }
    }
}

struct Tree<'t> {
    place: Place<'t>,
    problems: &'t mut Vec<Problem>,
    /// Whether a list or an object holds more than is read.
    has_too_many: &'t mut bool,
}

impl Tree<'_> {
    /// Tells of more in one place than is read.
    fn count(&mut self, held: usize, what: &str, of: &str) {
        if held > MAX_HELD {
            *self.has_too_many = true;
            let place = self.place.pointer();
            self.problems
                .push(too_many(&place, what, of, held, MAX_HELD));
        }
    }
}

impl<'de> DeserializeSeed<'de> for Tree<'_> {
    type Value = Json;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Json, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Tree<'_> {
    type Value = Json;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("any JSON value")
    }
    fn visit_unit<E>(self) -> Result<Json, E> {
        Ok(Json::Null)
    }
    fn visit_bool<E>(self, b: bool) -> Result<Json, E> {
        Ok(Json::Bool(b))
    }
    fn visit_u64<E>(self, n: u64) -> Result<Json, E> {
        Ok(Json::Whole(n))
    }
    fn visit_i64<E>(self, n: i64) -> Result<Json, E> {
        Ok(u64::try_from(n).map_or(Json::Negative(n), Json::Whole))
    }
    fn visit_f64<E>(self, n: f64) -> Result<Json, E> {
        // Always finite: the parser refuses what no `f64` holds.
        Ok(Json::Float(n))
    }
    fn visit_str<E>(self, text: &str) -> Result<Json, E> {
        Ok(Json::Text(text.to_owned()))
    }
    fn visit_seq<A: SeqAccess<'de>>(mut self, mut seq: A) -> Result<Json, A::Error> {
        let mut items = Vec::new();
        loop {
            let tree = Tree {
                place: Place::Item(&self.place, items.len()),
                problems: self.problems,
                has_too_many: self.has_too_many,
            };
            match seq.next_element_seed(tree)? {
                Some(item) => items.push(item),
                None => break,
            }
        }
        self.count(items.len(), "list", "items");
        Ok(Json::List(items))
    }
    fn visit_map<A: MapAccess<'de>>(mut self, mut access: A) -> Result<Json, A::Error> {
        let mut fields: Vec<(String, Json)> = Vec::new();
        while let Some(key) = access.next_key::<String>()? {
            let value = access.next_value_seed(Tree {
                place: Place::Field(&self.place, &key),
                problems: self.problems,
                has_too_many: self.has_too_many,
            })?;
            fields.push((key, value));
        }
        self.count(fields.len(), "object", "fields");
        // A stable sort, so that the first value of a doubled key stays the first.
        fields.sort_by(|a, b| a.0.cmp(&b.0));
        fields.dedup_by(|later, first| {
            let doubled = later.0 == first.0;
            if doubled {
                self.problems.push(Problem::new(
                    Place::Field(&self.place, &later.0).pointer(),
                    "document.key-twice",
                    "this key appears twice in its object, so one value would be lost",
                    "keep one of the two",
                ));
            }
            doubled
        });
        Ok(Json::Object(Object(fields)))
    }
}
