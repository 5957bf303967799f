//! What only the whole library reads.

use crate::json::Json;
use crate::place::Place;
use crate::problem::{Problem, value as valid};
use crate::read::Read;
use lashwork::Whole;

/// A part of a document that only the whole library reads: a build without it refuses the part, and holds
/// no code for it.
#[derive(Debug)]
pub(crate) struct InWhole<T>(pub(crate) T, Whole);

impl<T: Read> Read for InWhole<T> {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let whole = valid(problems, place.pointer(), Whole::here())?;
        T::read(value, place, problems).map(|read| Self(read, whole))
    }
}

#[cfg(feature = "schema")]
schema_of_what_is_in!(InWhole);
