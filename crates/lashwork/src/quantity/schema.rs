//! What a quantity looks like in a report, for the schema of it; it must say what `Serialize` writes.

use super::{
    CamAngle, CrankAngle, CyclePosition, DistributorAngle, Elapsed, Lash, LashChange, Length,
    Marked, Nominal, ScrewAngle, ScrewTravel, ShimThickness, Temperature, TemperatureDifference,
};
use alloc::borrow::Cow;
use alloc::string::String;
use schemars::{JsonSchema, Schema, SchemaGenerator};

macro_rules! written_as {
    ($($(#[$doc:meta])* $shape:ident { $($field:ident: $type:ty),+ } of $($quantity:ty),+;)+) => {$(
        $(#[$doc])*
        #[derive(JsonSchema)]
        #[expect(dead_code, reason = "only its shape is asked for")]
        struct $shape { $($field: $type),+ }

        $(impl JsonSchema for $quantity {
            fn schema_name() -> Cow<'static, str> {
                $shape::schema_name()
            }
            fn schema_id() -> Cow<'static, str> {
                $shape::schema_id()
            }
            fn json_schema(generator: &mut SchemaGenerator) -> Schema {
                $shape::json_schema(generator)
            }
        })+
    )+};
}

written_as! {
    /// A length, in millimetres.
    Millimetres { mm: f64 } of Length, Lash, LashChange, ShimThickness, ScrewTravel, Nominal;
    /// A length as it is marked or printed: its text with its unit, and the same in millimetres.
    MarkedLength { text: String, mm: f64 } of Marked;
    /// An angle, in degrees.
    Degrees { deg: f64 } of CrankAngle, CamAngle, DistributorAngle, ScrewAngle, CyclePosition;
    /// A temperature, in degrees Celsius.
    Celsius { celsius: f64 } of Temperature;
    /// A difference of temperatures, in kelvin.
    Kelvin { kelvin: f64 } of TemperatureDifference;
    /// A time, in minutes.
    Minutes { minutes: f64 } of Elapsed;
}
