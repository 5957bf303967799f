//! Parts of a document that may be faulty alone.

use crate::json::Json;
use crate::place::Place;
use crate::problem::{Problem, missing};
use crate::read::Read;

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
    /// The value, its faults handed over; a missing part is a fault if `needed` names the object and its
    /// field.
    pub(crate) fn take(
        self,
        needed: Option<(&Place<'_>, &str)>,
        problems: &mut Vec<Problem>,
    ) -> Option<T> {
        match self {
            Self::Good(value) => return Some(value),
            Self::Bad(mut faults) => problems.append(&mut faults),
            Self::Missing => {
                if let Some((place, field)) = needed {
                    problems.push(missing(place, field));
                }
            }
        }
        None
    }
}

#[cfg(feature = "schema")]
schema_of_what_is_in!(Part);

impl<T: Read> Read for Part<T> {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let mut faults = Vec::new();
        Some(match T::read(value, place, &mut faults) {
            Some(value) => {
                problems.append(&mut faults);
                Self::Good(value)
            }
            None => Self::Bad(faults),
        })
    }
    fn left_out() -> Option<Self> {
        Some(Self::Missing)
    }
}
