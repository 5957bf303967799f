//! Reads the document types from JSON and gathers every fault with its place, instead of stopping at
//! the first.
//!
//! The work is done by functions that know nothing of the type they read for; what is made anew for
//! each of the many types is little. That keeps the WebAssembly file small.

use crate::json::{Json, Object};
use crate::place::Place;
use crate::problem::{Problem, missing, unknown};
use lashwork::quantity::Quoted;

/// A type that stands in a document.
pub(crate) trait Read: Sized {
    /// Reads it, or reports why it cannot be read.
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self>;

    /// What stands for it where its field is left out; nothing if the field is needed.
    fn left_out() -> Option<Self> {
        None
    }
}

/// An object of named fields.
pub(crate) trait Fielded: Sized {
    /// The names of its fields.
    const FIELDS: &'static [&'static str];

    /// Reads every field, so that all faults are found.
    fn of_fields(fields: &Fields<'_>, problems: &mut Vec<Problem>) -> Option<Self>;
}

impl<T: Read> Read for Option<T> {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        match value {
            Json::Null => Some(None),
            value => T::read(value, place, problems).map(Some),
        }
    }
    fn left_out() -> Option<Self> {
        Some(None)
    }
}

impl<T: Read> Read for Vec<T> {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let Json::List(items) = value else {
            return wrong_type(value, "a list", place, problems);
        };
        let mut made = Vec::with_capacity(items.len());
        for (index, item) in items.iter().enumerate() {
            made.extend(T::read(item, &Place::Item(place, index), problems));
        }
        (made.len() == items.len()).then_some(made)
    }
}

impl Read for String {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        match value {
            Json::Text(text) => Some(text.clone()),
            other => wrong_type(other, "text", place, problems),
        }
    }
}

impl Read for bool {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        match value {
            Json::Bool(said) => Some(*said),
            other => wrong_type(other, "true or false", place, problems),
        }
    }
}

impl Read for f64 {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        match value.number() {
            Some(number) => Some(number),
            None => wrong_type(value, "a number", place, problems),
        }
    }
}

impl Read for u64 {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        whole(value, Self::MAX, place, problems)
    }
}

impl Read for u8 {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let number = whole(value, Self::MAX.into(), place, problems)?;
        Self::try_from(number).ok()
    }
}

impl Read for i64 {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        if let Json::Negative(number) = value {
            return Some(*number);
        }
        let number = whole(value, Self::MAX.cast_unsigned(), place, problems)?;
        Self::try_from(number).ok()
    }
}

fn whole(value: &Json, most: u64, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<u64> {
    match value {
        Json::Whole(number) if *number <= most => Some(*number),
        Json::Whole(number) => {
            problems.push(Problem::new(
                place.pointer(),
                "document.unexpected",
                format!("{number} is larger than {most}, the most this field can hold"),
                "see the document schema",
            ));
            None
        }
        other => wrong_type(other, "a whole number", place, problems),
    }
}

/// The position of a word among those a field may hold.
pub(crate) fn word(
    value: &Json,
    known: &[&str],
    place: &Place<'_>,
    problems: &mut Vec<Problem>,
) -> Option<usize> {
    let Json::Text(text) = value else {
        return wrong_type(value, "text", place, problems);
    };
    let found = known.iter().position(|word| word == text);
    if found.is_none() {
        let message = format!("{} is not one of the values of this field", Quoted(text));
        let code = "document.unknown-value";
        problems.push(unknown(place.pointer(), code, &message, text, known));
    }
    found
}

/// The fields of an object that is read.
pub(crate) struct Fields<'r> {
    object: &'r Object,
    place: &'r Place<'r>,
    /// Whether there were none but known ones.
    pub(crate) all_known: bool,
}

impl<'r> Fields<'r> {
    /// The fields of a value, if it is an object; those that are not known are reported.
    pub(crate) fn of(
        value: &'r Json,
        known: &[&str],
        place: &'r Place<'r>,
        problems: &mut Vec<Problem>,
    ) -> Option<Self> {
        match value {
            Json::Object(object) => Some(Self::of_object(object, known, place, problems)),
            other => wrong_type(other, &with_fields(known), place, problems),
        }
    }

    /// The fields of an object; those that are not known are reported.
    pub(crate) fn of_object(
        object: &'r Object,
        known: &[&str],
        place: &'r Place<'r>,
        problems: &mut Vec<Problem>,
    ) -> Self {
        let mut all_known = true;
        for (key, _) in object.fields() {
            if !known.contains(&key.as_str()) {
                all_known = false;
                let message = format!("there is no field {} here", Quoted(key));
                let at = Place::Field(place, key).pointer();
                problems.push(unknown(at, "document.unknown-field", &message, key, known));
            }
        }
        Self {
            object,
            place,
            all_known,
        }
    }

    /// Reads a field; that it is missing is reported if it is needed.
    pub(crate) fn read<T: Read>(&self, name: &str, problems: &mut Vec<Problem>) -> Option<T> {
        match self.object.get(name) {
            Some(value) => T::read(value, &Place::Field(self.place, name), problems),
            None => T::left_out().or_else(|| {
                problems.push(missing(self.place, name));
                None
            }),
        }
    }
}

/// Most fields that are named where an object is missing.
const NAMED_FIELDS: usize = 8;

fn with_fields(known: &[&str]) -> String {
    let named = known.get(..NAMED_FIELDS).unwrap_or(known).join(", ");
    let more = if known.len() > NAMED_FIELDS {
        ", ..."
    } else {
        ""
    };
    format!("an object, with fields of {named}{more}")
}

/// Reports that something of another kind was expected.
fn wrong_type<T>(
    value: &Json,
    expected: &str,
    place: &Place<'_>,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    problems.push(of_wrong_type(value, expected, place));
    None
}

fn of_wrong_type(value: &Json, expected: &str, place: &Place<'_>) -> Problem {
    let found = match value {
        Json::Null => "null",
        Json::Bool(_) => "true or false",
        Json::Whole(_) | Json::Negative(_) => "a whole number",
        Json::Float(_) => "a number",
        Json::Text(_) => "text",
        Json::List(_) => "a list",
        Json::Object(_) => "an object",
    };
    Problem::new(
        place.pointer(),
        "document.wrong-type",
        format!("found {found} here"),
        format!("write {expected}"),
    )
}
