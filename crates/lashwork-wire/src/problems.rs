//! Gathers problems while a document is read, instead of stopping at the first.

use crate::json::step;
use deserr::{
    DeserializeError, Deserr, ErrorKind, IntoValue, MergeWithError, Value, ValueKind,
    ValuePointerRef,
};
use lashwork::job::Problem;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use std::borrow::Cow;
use std::ops::ControlFlow;

/// All problems found so far below one place.
#[derive(Debug, Default)]
pub(crate) struct Problems(pub(crate) Vec<Problem>);

impl MergeWithError<Problems> for Problems {
    fn merge(
        self_: Option<Self>,
        mut other: Problems,
        _: ValuePointerRef,
    ) -> ControlFlow<Self, Self> {
        let mut all = self_.unwrap_or_default();
        all.0.append(&mut other.0);
        ControlFlow::Continue(all)
    }
}

impl DeserializeError for Problems {
    fn error<V: IntoValue>(
        self_: Option<Self>,
        error: ErrorKind<V>,
        location: ValuePointerRef,
    ) -> ControlFlow<Self, Self> {
        let mut all = self_.unwrap_or_default();
        let here = pointer(location);
        all.0.push(match error {
            ErrorKind::IncorrectValueKind { actual, accepted } => Problem::new(
                here,
                "document.wrong-type",
                format!("{} stands here", kind_word(actual.kind())),
                format!("write {}", list(accepted.iter().map(|k| kind_word(*k)))),
            ),
            ErrorKind::MissingField { field } => Problem::new(
                here,
                "document.missing-field",
                format!("the field {field:?} is missing"),
                format!("add {field:?}"),
            ),
            ErrorKind::UnknownKey { key, accepted } => unknown(
                step(&here, key),
                "document.unknown-field",
                &format!("there is no field {key:?} here"),
                key,
                accepted,
            ),
            ErrorKind::UnknownValue { value, accepted } => unknown(
                here,
                "document.unknown-value",
                &format!("{value:?} is not one of the values of this field"),
                value,
                accepted,
            ),
            ErrorKind::BadSequenceLen { expected, .. } => Problem::new(
                here,
                "document.wrong-length",
                "the list has the wrong length",
                format!("write {expected} items"),
            ),
            ErrorKind::Unexpected { msg } => {
                Problem::new(here, "document.unexpected", msg, "see the document schema")
            }
        });
        ControlFlow::Continue(all)
    }
}

impl Problems {
    /// One problem with a code of its own.
    pub(crate) fn one(problem: Problem) -> Self {
        Self(vec![problem])
    }
}

/// A problem that names the nearest known word and lists them all.
pub(crate) fn unknown(
    place: String,
    code: &str,
    message: &str,
    word: &str,
    accepted: &[&str],
) -> Problem {
    let known = list(accepted.iter().copied());
    let hint = match nearest(word, accepted) {
        Some(near) => format!("did you mean {near:?}? Known: {known}"),
        None => format!("known: {known}"),
    };
    Problem::new(place, code, message, hint)
}

/// The known word nearest to a misspelt one, if near enough to be meant.
fn nearest<'w>(word: &str, accepted: &[&'w str]) -> Option<&'w str> {
    let scored = accepted
        .iter()
        .map(|a| (strsim::damerau_levenshtein(word, a), *a));
    let (distance, near) = scored.min()?;
    (distance <= 1 + near.len() / 3).then_some(near)
}

fn list<'a>(words: impl Iterator<Item = &'a str>) -> String {
    words.collect::<Vec<_>>().join(", ")
}

fn kind_word(kind: ValueKind) -> &'static str {
    match kind {
        ValueKind::Null => "null",
        ValueKind::Boolean => "true or false",
        ValueKind::Integer | ValueKind::NegativeInteger => "a whole number",
        ValueKind::Float => "a number",
        ValueKind::String => "text",
        ValueKind::Sequence => "a list",
        ValueKind::Map => "an object",
    }
}

/// The JSON pointer (RFC 6901) of a place.
pub(crate) fn pointer(location: ValuePointerRef) -> String {
    match location {
        ValuePointerRef::Origin => String::new(),
        ValuePointerRef::Key { key, prev } => step(&pointer(*prev), key),
        ValuePointerRef::Index { index, prev } => step(&pointer(*prev), &index.to_string()),
    }
}

/// A part of a document that may be faulty without hiding the faults of its neighbours.
#[derive(Debug, Default)]
pub(crate) enum Part<T> {
    /// Not in the document.
    #[default]
    Missing,
    /// In the document, with these faults.
    Bad(Vec<Problem>),
    /// Read.
    Good(T),
}

impl<T> Part<T> {
    /// The value, its faults handed over; a missing part is a fault if `needed` names its place.
    pub(crate) fn take(self, needed: Option<&str>, problems: &mut Vec<Problem>) -> Option<T> {
        match self {
            Self::Good(value) => return Some(value),
            Self::Bad(mut faults) => problems.append(&mut faults),
            Self::Missing => {
                if let Some(field) = needed {
                    problems.push(Problem::new(
                        "",
                        "document.missing-field",
                        format!("the field {field:?} is missing"),
                        format!("add {field:?}"),
                    ));
                }
            }
        }
        None
    }
}

impl<T: Deserr<Problems>> Deserr<Problems> for Part<T> {
    fn deserialize_from_value<V: IntoValue>(
        value: Value<V>,
        location: ValuePointerRef,
    ) -> Result<Self, Problems> {
        Ok(match T::deserialize_from_value(value, location) {
            Ok(value) => Self::Good(value),
            Err(problems) => Self::Bad(problems.0),
        })
    }
}

impl<T: JsonSchema> JsonSchema for Part<T> {
    fn inline_schema() -> bool {
        T::inline_schema()
    }
    fn schema_name() -> Cow<'static, str> {
        T::schema_name()
    }
    fn schema_id() -> Cow<'static, str> {
        T::schema_id()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        T::json_schema(generator)
    }
}
