//! How document types are declared.

/// A choice of words: each with the name it has in a document.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub(crate) enum $name {
            $($(#[$vdoc])* #[cfg_attr(feature = "schema", schemars(rename = $word))] $variant,)+
        }

        impl crate::read::Read for $name {
            fn read(
                value: &crate::json::Json,
                place: &crate::place::Place<'_>,
                problems: &mut Vec<crate::problem::Problem>,
            ) -> Option<Self> {
                let at = crate::read::word(value, &[$($word),+], place, problems)?;
                [$(Self::$variant),+].get(at).copied()
            }
        }
    };
}

/// The name of a field in a document: its own, or the one given where Rust has another use for it.
macro_rules! written {
    ($field:ident) => {
        stringify!($field)
    };
    ($field:ident $word:literal) => {
        $word
    };
}

/// Declares document structs: strict, with a schema. A field may be left out if its type is an
/// `Option` or a `Part`.
macro_rules! parts {
    ($($(#[$doc:meta])* $name:ident {
        $($(#[$fdoc:meta])* $field:ident $(as $word:literal)?: $type:ty),+ $(,)?
    })+) => {$(
        #[derive(Debug)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(deny_unknown_fields))]
        $(#[$doc])*
        pub(crate) struct $name {
            $($(#[$fdoc])* $(#[cfg_attr(feature = "schema", schemars(rename = $word))])? pub(crate) $field: $type,)+
        }

        impl crate::read::Fielded for $name {
            const FIELDS: &'static [&'static str] = &[$(written!($field $($word)?)),+];

            fn of_fields(
                fields: &crate::read::Fields<'_>,
                problems: &mut Vec<crate::problem::Problem>,
            ) -> Option<Self> {
                $(let $field = fields.read(written!($field $($word)?), problems);)+
                match ($($field,)+) {
                    ($(Some($field),)+) => Some(Self { $($field),+ }),
                    _ => None,
                }
            }
        }

        impl crate::read::Read for $name {
            fn read(
                value: &crate::json::Json,
                place: &crate::place::Place<'_>,
                problems: &mut Vec<crate::problem::Problem>,
            ) -> Option<Self> {
                use crate::read::Fielded;
                let fields = crate::read::Fields::of(value, Self::FIELDS, place, problems)?;
                let read = Self::of_fields(&fields, problems);
                if fields.all_known { read } else { None }
            }
        }
    )+};
}

/// The name of a core enum's value in a document, so that the document needs no twin of it.
macro_rules! named {
    ($type:ty as $schema:literal { $($(#[doc = $vdoc:literal])* $variant:ident = $word:literal),+ $(,)? }) => {
        impl crate::word::Named for $type {
            #[cfg(feature = "schema")]
            const SCHEMA: &'static str = $schema;
            #[cfg(feature = "schema")]
            const MEANINGS: &'static [&'static str] = &[$(concat!($($vdoc),*)),+];
            const NAMES: &'static [&'static str] = &[$($word),+];
            fn at(index: usize) -> Option<Self> {
                [$(<$type>::$variant),+].get(index).cloned()
            }
        }
    };
}

/// A wrapper that a schema does not show.
#[cfg(feature = "schema")]
macro_rules! schema_of_what_is_in {
    ($wrapper:ident) => {
        impl<T: schemars::JsonSchema> schemars::JsonSchema for $wrapper<T> {
            fn inline_schema() -> bool {
                T::inline_schema()
            }
            fn schema_name() -> std::borrow::Cow<'static, str> {
                T::schema_name()
            }
            fn schema_id() -> std::borrow::Cow<'static, str> {
                T::schema_id()
            }
            fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
                T::json_schema(generator)
            }
        }
    };
}
