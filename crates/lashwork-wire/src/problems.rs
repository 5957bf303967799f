//! What is wrong with a document, and parts of it that may be faulty alone.

use crate::place::Place;
use crate::read::missing;
use lashwork::job::Problem;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use std::borrow::Cow;

/// A problem that names the nearest known word and lists them all.
pub(crate) fn unknown(
    place: String,
    code: &str,
    message: &str,
    word: &str,
    accepted: &[&str],
) -> Problem {
    let known = accepted.join(", ");
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
                    problems.push(missing(&Place::Document, field));
                }
            }
        }
        None
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
