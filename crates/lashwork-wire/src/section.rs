//! A section of a document.

use crate::json::Json;
use crate::place::Place;
use crate::problem::Problem;
use crate::read::{Fielded, Fields, Read};

/// A section; unknown fields are reported and set aside, so that they do not hide what else is wrong.
#[derive(Debug)]
pub(crate) struct Section<T>(pub(crate) T);

impl<T: Fielded> Read for Section<T> {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let fields = Fields::of(value, T::FIELDS, place, problems)?;
        T::of_fields(&fields, problems).map(Self)
    }
}

#[cfg(feature = "schema")]
schema_of_what_is_in!(Section);
