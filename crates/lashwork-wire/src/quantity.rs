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
        let bad = |code: &str, message: String| {
            let hint = format!("write it with its unit, as in {:?}", T::EXAMPLE);
            Err(Problems::one(Problem::new(
                pointer(location),
                code,
                message,
                hint,
            )))
        };
        let text = match value {
            Value::String(text) => text,
            Value::Integer(n) => return bad("quantity.no-unit", bare(&n.to_string())),
            Value::NegativeInteger(n) => return bad("quantity.no-unit", bare(&n.to_string())),
            Value::Float(n) => return bad("quantity.no-unit", bare(&n.to_string())),
            Value::Map(map) if map.len() == 1 => {
                let mut text = None;
                for (unit, number) in map.into_iter() {
                    text = match number.into_value() {
                        Value::Integer(n) => Some(format!("{n} {unit}")),
                        Value::NegativeInteger(n) => Some(format!("{n} {unit}")),
                        Value::Float(n) => Some(format!("{n} {unit}")),
                        _ => None,
                    };
                }
                match text {
                    Some(text) => text,
                    None => {
                        return bad(
                            "document.wrong-type",
                            "the unit's value is no number".into(),
                        );
                    }
                }
            }
            _ => return bad("document.wrong-type", "no quantity stands here".into()),
        };
        T::from_text(&text).map(Q).map_err(|e| {
            Problems::one(Problem::new(
                pointer(location),
                e.code(),
                e.to_string(),
                e.hint(),
            ))
        })
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
