//! Quantities in a document: text with a unit, or an object whose one key is the unit.

use crate::json::Json;
use crate::place::Place;
use crate::problem::Problem;
use crate::read::Read;
use lashwork::ignition::breaker::{DwellChange, DwellShown};
use lashwork::quantity::{
    AbsolutePressure, Advance, AirFlow, AirFlowDifference, Altitude, Area, AxisAngle, Capacitance,
    ContactGap, CrankAngle, CrankSpeed, Current, Density, DistributorAdvance, DistributorAngle,
    DistributorSpeed, Elapsed, Energy, FuelLevel, GaugePressure, Inductance, Lambda, Lash,
    LashChange, Length, MagnetoAngle, Marked, Mass, PinOffset, PistonTravel, PlugGap,
    PressureDifference, QuantityError, RelativeHumidity, Resistance, ScrewAngle, ShimThickness,
    Temperature, TemperatureDifference, Torque, TurnsOut, Vacuum, Voltage, Volume, VolumeShare,
};
use std::str::FromStr;

/// A quantity that can be read from text, or from a number and its unit.
pub(crate) trait Written: FromStr<Err = QuantityError> {
    /// What it is called in the schema.
    #[cfg_attr(
        not(feature = "schema"),
        expect(dead_code, reason = "for the schema only")
    )]
    const NAME: &'static str;
    /// How it is written.
    const EXAMPLE: &'static str;
    /// The same as a program writes it.
    const NUMBER: (&'static str, f64);
    /// Takes a number and its unit.
    fn from_number(number: f64, unit: &str) -> Result<Self, QuantityError>;
}

macro_rules! written {
    ($($type:ident, $name:literal, $example:literal, $number:expr;)*) => {$(
        impl Written for $type {
            const NAME: &'static str = $name;
            const EXAMPLE: &'static str = $example;
            const NUMBER: (&'static str, f64) = $number;
            fn from_number(number: f64, unit: &str) -> Result<Self, QuantityError> {
                $type::from_number(number, unit)
            }
        }
    )*};
}

written! {
    Marked, "ExactLength", "0.15 mm", ("mm", 0.15);
    Length, "Length", "120 mm", ("mm", 120.0);
    Lash, "Lash", "0.15 mm", ("mm", 0.15);
    PinOffset, "PinOffset", "1.5 mm", ("mm", 1.5);
    ShimThickness, "ShimThickness", "2.80 mm", ("mm", 2.8);
    Temperature, "Temperature", "20 C", ("celsius", 20.0);
    TemperatureDifference, "TemperatureDifference", "2 K", ("kelvin", 2.0);
    CrankAngle, "CrankAngle", "12 deg", ("deg", 12.0);
    Elapsed, "Elapsed", "10 min", ("minutes", 10.0);
    AxisAngle, "AxisAngle", "45 deg", ("deg", 45.0);
    DistributorAngle, "DistributorAngle", "60 deg", ("deg", 60.0);
    MagnetoAngle, "MagnetoAngle", "10 deg", ("deg", 10.0);
    Advance, "IgnitionPoint", "10 deg BTDC", ("deg_btdc", 10.0);
    DistributorAdvance, "DistributorIgnitionPoint", "5 deg BTDC", ("deg_btdc", 5.0);
    CrankSpeed, "CrankSpeed", "900 rpm", ("rpm", 900.0);
    DistributorSpeed, "DistributorSpeed", "450 rpm", ("rpm", 450.0);
    ContactGap, "ContactGap", "0.40 mm", ("mm", 0.4);
    DwellShown, "Dwell", "60 deg", ("deg", 60.0);
    LashChange, "LashChange", "0.05 mm", ("mm", 0.05);
    DwellChange, "DwellChange", "1 deg", ("deg", 1.0);
    PlugGap, "PlugGap", "0.60 mm", ("mm", 0.6);
    PistonTravel, "PistonTravel", "2.5 mm", ("mm", 2.5);
    Resistance, "Resistance", "3.2 ohm", ("ohm", 3.2);
    Voltage, "Voltage", "12 V", ("volts", 12.0);
    Current, "Current", "3.5 A", ("amperes", 3.5);
    Energy, "Energy", "30 mJ", ("millijoules", 30.0);
    Inductance, "Inductance", "8 mH", ("millihenries", 8.0);
    Capacitance, "Capacitance", "0.22 uF", ("microfarads", 0.22);
    AbsolutePressure, "AbsolutePressure", "101 kPa", ("kpa", 101.0);
    RelativeHumidity, "RelativeHumidity", "60 %", ("percent", 60.0);
    VolumeShare, "VolumeShare", "3.5 %", ("percent", 3.5);
    Lambda, "Lambda", "0.98 lambda", ("lambda", 0.98);
    Altitude, "Altitude", "1500 m", ("metres", 1500.0);
    Density, "Density", "0.745 kg/l", ("kg_per_m3", 745.0);
    FuelLevel, "FuelLevel", "-0.5 mm", ("mm", -0.5);
    Mass, "Mass", "12 g", ("grams", 12.0);
    GaugePressure, "GaugePressure", "20 kPa", ("kpa", 20.0);
    Vacuum, "Vacuum", "16 inHg", ("kpa", 54.0);
    PressureDifference, "PressureDifference", "2 kPa", ("kpa", 2.0);
    Torque, "Torque", "80 Nm", ("nm", 80.0);
    Volume, "Volume", "5 ml", ("ml", 5.0);
    AirFlow, "AirFlow", "6 kg/h", ("kg_per_h", 6.0);
    AirFlowDifference, "AirFlowDifference", "0.5 kg/h", ("kg_per_h", 0.5);
    TurnsOut, "TurnsOut", "1.5 turns", ("turns", 1.5);
    Area, "Area", "0.8 mm2", ("mm2", 0.8);
    ScrewAngle, "ScrewAngle", "90 deg", ("deg", 90.0);
}

/// A quantity as a document holds it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Q<T>(pub(crate) T);

impl<T: Written> Read for Q<T> {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let read = match stated(value, T::EXAMPLE, T::NUMBER, place, problems)? {
            Stated::Text(text) => text.parse(),
            Stated::Number(number, unit) => T::from_number(number, unit),
        };
        match read {
            Ok(quantity) => Some(Self(quantity)),
            Err(why) => {
                problems.push(Problem::at(place.pointer(), &why));
                None
            }
        }
    }
}

/// A quantity as it stands in the document.
enum Stated<'j> {
    Text(&'j str),
    Number(f64, &'j str),
}

/// Takes a quantity apart. Not generic over the quantity: there are many, and each copy takes room in
/// the WebAssembly file.
fn stated<'j>(
    value: &'j Json,
    example: &str,
    (unit, number): (&str, f64),
    place: &Place<'_>,
    problems: &mut Vec<Problem>,
) -> Option<Stated<'j>> {
    let mut bad = |code: &str, message: String| {
        let hint =
            format!("write it with its unit, as in \"{example}\" or {{\"{unit}\": {number}}}");
        problems.push(Problem::new(place.pointer(), code, message, hint));
        None
    };
    match value {
        Json::Text(text) => Some(Stated::Text(text)),
        Json::Object(object) => match object.fields() {
            [(unit, number)] => match number.number() {
                Some(number) => Some(Stated::Number(number, unit)),
                None => bad(
                    "document.wrong-type",
                    "the unit's value is not a number".into(),
                ),
            },
            _ => bad("document.wrong-type", "this is not a quantity".into()),
        },
        other => match other.number() {
            Some(number) => bad(
                "quantity.no-unit",
                format!("{number} has no unit, so its size is unknown"),
            ),
            None => bad("document.wrong-type", "this is not a quantity".into()),
        },
    }
}

#[cfg(feature = "schema")]
impl<T: Written> schemars::JsonSchema for Q<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        T::NAME.into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let (unit, number) = T::NUMBER;
        schemars::json_schema!({
            "description": "A number with its unit, with decimal point or comma; or an object whose one key is the unit. A length so written is rounded to the nearest nanometre.",
            "examples": [T::EXAMPLE, { unit: number }],
            "anyOf": [
                { "type": "string", "pattern": "^\\s*[-+\u{2212}]?([0-9]+([.,][0-9]+)?|[.,][0-9]+)\\s*\\S+" },
                { "type": "object", "minProperties": 1, "maxProperties": 1,
                  "additionalProperties": { "type": "number" } }
            ]
        })
    }
}
