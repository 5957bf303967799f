//! Quantities in a document: text with a unit, or an object whose one key is the unit.

use crate::json::Json;
use crate::place::Place;
use crate::read::Read;
use lashwork::job::Problem;
use lashwork::quantity::{
    AxisAngle, CrankAngle, Elapsed, Length, Marked, PinOffset, QuantityError, ShimThickness,
    Temperature, TemperatureDifference,
};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use std::borrow::Cow;

/// A quantity that can be read from text.
pub(crate) trait FromText: Sized {
    /// What it is called in the schema.
    const NAME: &'static str;
    /// How it is written.
    const EXAMPLE: &'static str;
    /// Reads it.
    fn from_text(text: &str) -> Result<Self, QuantityError>;
}

macro_rules! from_text {
    ($($type:ident, $name:literal, $example:literal;)*) => {$(
        impl FromText for $type {
            const NAME: &'static str = $name;
            const EXAMPLE: &'static str = $example;
            fn from_text(text: &str) -> Result<Self, QuantityError> {
                $type::parse(text)
            }
        }
    )*};
}

from_text! {
    Marked, "ExactLength", "0.15 mm";
    Length, "Length", "120 mm";
    PinOffset, "PinOffset", "1.5 mm";
    ShimThickness, "ShimThickness", "2.80 mm";
    Temperature, "Temperature", "20 C";
    TemperatureDifference, "TemperatureDifference", "2 K";
    CrankAngle, "CrankAngle", "12 deg";
    Elapsed, "Elapsed", "10 min";
    AxisAngle, "AxisAngle", "45 deg";
}

/// A quantity as a document holds it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Q<T>(pub(crate) T);

impl<T: FromText> Read for Q<T> {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let text = text_of(value, T::EXAMPLE, place, problems)?;
        match T::from_text(&text) {
            Ok(quantity) => Some(Self(quantity)),
            Err(why) => {
                problems.push(Problem::at(place.pointer(), &why));
                None
            }
        }
    }
}

/// A quantity as text. Not generic over the quantity: there are many, and each copy takes room in the
/// WebAssembly file.
fn text_of<'j>(
    value: &'j Json,
    example: &str,
    place: &Place<'_>,
    problems: &mut Vec<Problem>,
) -> Option<Cow<'j, str>> {
    let mut bad = |code: &str, message: String| {
        let hint = format!("write it with its unit, as in {example:?}");
        problems.push(Problem::new(place.pointer(), code, message, hint));
        None
    };
    match value {
        Json::Text(text) => Some(Cow::Borrowed(text)),
        Json::Object(object) => match object.fields() {
            [(unit, number)] => match number_of(number) {
                Some(number) => Some(Cow::Owned(format!("{number} {unit}"))),
                None => bad(
                    "document.wrong-type",
                    "the unit's value is no number".into(),
                ),
            },
            _ => bad("document.wrong-type", "no quantity stands here".into()),
        },
        other => match number_of(other) {
            Some(number) => bad("quantity.no-unit", bare(&number)),
            None => bad("document.wrong-type", "no quantity stands here".into()),
        },
    }
}

fn number_of(value: &Json) -> Option<String> {
    match value {
        Json::Whole(n) => Some(n.to_string()),
        Json::Negative(n) => Some(n.to_string()),
        Json::Float(n) => Some(n.to_string()),
        _ => None,
    }
}

fn bare(number: &str) -> String {
    format!("{number} has no unit, so its size is unknown: millimetres or inches?")
}

impl<T: FromText> JsonSchema for Q<T> {
    fn schema_name() -> Cow<'static, str> {
        T::NAME.into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A number with its unit, with decimal point or comma; or an object whose one key is the unit.",
            "examples": [T::EXAMPLE],
            "anyOf": [
                { "type": "string", "pattern": "^\\s*[-+\u{2212}]?[0-9]+([.,][0-9]+)?\\s*\\S+" },
                { "type": "object", "minProperties": 1, "maxProperties": 1,
                  "additionalProperties": { "type": "number" } }
            ]
        })
    }
}
