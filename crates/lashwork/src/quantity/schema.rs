//! What a quantity looks like in a report, for the schema of it; it must say what `Serialize` writes.

use super::{
    AbsolutePressure, Advance, Altitude, BriefTime, CamAngle, Capacitance, ContactGap, CrankAngle,
    CrankSpeed, Current, CyclePosition, Density, DistributorAdvance, DistributorAngle,
    DistributorSpeed, Elapsed, Energy, FuelLevel, GaugePressure, Inductance, Lambda, Lash,
    LashChange, Length, MagnetoAngle, Marked, Mass, Nominal, PistonTravel, PlugGap,
    RelativeHumidity, Resistance, ScrewAngle, ScrewTravel, ShimThickness, Temperature,
    TemperatureDifference, Torque, Vacuum, Voltage, VolumeShare,
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
    Millimetres { mm: f64 } of Length, Lash, LashChange, ShimThickness, ScrewTravel, Nominal,
        ContactGap, PlugGap, PistonTravel, FuelLevel;
    /// A length as it is marked or printed: its text with its unit, and the same in millimetres.
    MarkedLength { text: String, mm: f64 } of Marked;
    /// An angle, in degrees.
    Degrees { deg: f64 } of CrankAngle, CamAngle, DistributorAngle, MagnetoAngle, ScrewAngle, CyclePosition;
    /// A temperature, in degrees Celsius.
    Celsius { celsius: f64 } of Temperature;
    /// A difference of temperatures, in kelvin.
    Kelvin { kelvin: f64 } of TemperatureDifference;
    /// A time, in minutes.
    Minutes { minutes: f64 } of Elapsed;
    /// A time, in milliseconds.
    Milliseconds { milliseconds: f64 } of BriefTime;
    /// An ignition point, in degrees before top dead centre; negative after it.
    DegreesBeforeTdc { deg_btdc: f64 } of Advance, DistributorAdvance;
    /// A speed, in revolutions a minute.
    RevolutionsPerMinute { rpm: f64 } of CrankSpeed, DistributorSpeed;
    /// A pressure, in kilopascals.
    Kilopascals { kpa: f64 } of AbsolutePressure, GaugePressure, Vacuum;
    /// A torque, in newton metres.
    NewtonMetres { nm: f64 } of Torque;
    /// A density, in kilograms a cubic metre.
    KilogramsPerCubicMetre { kg_per_m3: f64 } of Density;
    /// A mass, in grams.
    Grams { grams: f64 } of Mass;
    /// A share, in per cent.
    Percent { percent: f64 } of VolumeShare, RelativeHumidity;
    /// A mixture, in air over the air that burns the fuel.
    AirRatio { lambda: f64 } of Lambda;
    /// A height, in metres.
    Metres { metres: f64 } of Altitude;
    /// A resistance, in ohms.
    Ohms { ohm: f64 } of Resistance;
    /// A voltage, in volts.
    Volts { volts: f64 } of Voltage;
    /// A current, in amperes.
    Amperes { amperes: f64 } of Current;
    /// An inductance, in millihenries.
    Millihenries { millihenries: f64 } of Inductance;
    /// A capacitance, in microfarads.
    Microfarads { microfarads: f64 } of Capacitance;
    /// An energy, in millijoules.
    Millijoules { millijoules: f64 } of Energy;
}
