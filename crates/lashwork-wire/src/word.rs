//! Words of a document that stand for values of the core.

use crate::json::Json;
use crate::place::Place;
use crate::problem::Problem;
use crate::read::{Read, word};

/// A type of the core whose values have names in a document.
pub(crate) trait Named: Sized {
    /// What it is called in the schema.
    #[cfg(feature = "schema")]
    const SCHEMA: &'static str;
    /// What each name means, where that needs saying.
    #[cfg(feature = "schema")]
    const MEANINGS: &'static [&'static str];
    /// Each name.
    const NAMES: &'static [&'static str];
    /// The value of a name by its place in the list.
    fn at(index: usize) -> Option<Self>;
}

/// A value of the core as a document names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct W<T>(pub(crate) T);

impl<T: Named> Read for W<T> {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        word(value, T::NAMES, place, problems)
            .and_then(T::at)
            .map(W)
    }
}

#[cfg(feature = "schema")]
impl<T: Named> schemars::JsonSchema for W<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        T::SCHEMA.into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        if T::MEANINGS.iter().all(|meaning| meaning.is_empty()) {
            return schemars::json_schema!({ "type": "string", "enum": T::NAMES });
        }
        let named = T::NAMES.iter().zip(T::MEANINGS).map(|(name, meaning)| {
            schemars::json_schema!({ "type": "string", "const": name, "description": meaning.trim() })
        });
        let named: Vec<schemars::Schema> = named.collect();
        schemars::json_schema!({ "oneOf": named })
    }
}
