//! Quantities in a document: text with a unit, or an object whose one key is the unit.

use crate::problems::{Problems, pointer};
use deserr::{Deserr, IntoValue, Map, Value, ValuePointerRef};
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

impl<T: FromText> Deserr<Problems> for Q<T> {
    fn deserialize_from_value<V: IntoValue>(
        value: Value<V>,
        location: ValuePointerRef,
    ) -> Result<Self, Problems> {
        let text = text_of(value, T::EXAMPLE, location)?;
        T::from_text(&text).map(Q).map_err(|e| {
            let (code, message, hint) = (e.code(), e.to_string(), e.hint());
            Problems::one(Problem::new(pointer(location), code, message, hint))
        })
    }
}

/// A quantity as text. Not generic over the quantity: there are many, and each copy takes room in the
/// WebAssembly file.
fn text_of<V: IntoValue>(
    value: Value<V>,
    example: &str,
    location: ValuePointerRef,
) -> Result<String, Problems> {
    let number = match value {
        Value::String(text) => return Ok(text),
        Value::Map(map) if map.len() == 1 => {
            let only = map.into_iter().next();
            let text = only.and_then(|(unit, number)| {
                let number = number_of(&number.into_value())?;
                Some(format!("{number} {unit}"))
            });
            return text.ok_or_else(|| {
                let message = "the unit's value is no number";
                bad("document.wrong-type", message.into(), example, location)
            });
        }
        other => number_of(&other),
    };
    let (code, message) = match number {
        Some(number) => ("quantity.no-unit", bare(&number)),
        None => ("document.wrong-type", "no quantity stands here".to_owned()),
    };
    Err(bad(code, message, example, location))
}

fn number_of<V: IntoValue>(value: &Value<V>) -> Option<String> {
    match value {
        Value::Integer(n) => Some(n.to_string()),
        Value::NegativeInteger(n) => Some(n.to_string()),
        Value::Float(n) => Some(n.to_string()),
        _ => None,
    }
}

fn bad(code: &str, message: String, example: &str, location: ValuePointerRef) -> Problems {
    let hint = format!("write it with its unit, as in {example:?}");
    Problems::one(Problem::new(pointer(location), code, message, hint))
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
