//! The quantities of ignition that are estimated and have printed limits.

use super::breaker::{Dwell, DwellChange};
use crate::quantity::{
    AbsolutePressure, Advance, Capacitance, ContactGap, CrankSpeed, Current, Energy, Inductance,
    Marked, PlugGap, QuantityError, Resistance, Voltage,
};
use crate::tolerance::{DecisionRule, HasLimits, InMillimetres, Measurand};

/// A measurand: its unit, the greatest uncertainty that is not a slip, and how a number leaves and enters.
macro_rules! measurand {
    ($($type:ty, $unit:literal, $most:expr, $get:ident, $from:ident;)+) => {$(
        impl Measurand for $type {
            const UNIT: &'static str = $unit;
            const MAX_UNCERTAINTY: f64 = $most;
            fn number(self) -> f64 {
                self.$get()
            }
            fn from_number(number: f64) -> Result<Self, QuantityError> {
                Self::$from(number)
            }
        }
    )+};
}

/// Limits that are kept as the quantity itself.
macro_rules! limited {
    ($($type:ty, $rule:expr;)+) => {$(
        impl HasLimits for $type {
            type Printed = Self;
            const USUAL_RULE: DecisionRule = $rule;
            fn printed_number(printed: Self) -> f64 {
                printed.number()
            }
            fn read_printed(text: &str) -> Result<Self, QuantityError> {
                Self::parse(text)
            }
        }
    )+};
}

/// Limits that are kept as printed, exact in millimetres or inches.
macro_rules! limited_as_marked {
    ($($type:ty),+) => {$(
        impl InMillimetres for $type {}

        impl HasLimits for $type {
            type Printed = Marked;
            const USUAL_RULE: DecisionRule = DecisionRule::simple();
            fn printed_number(printed: Marked) -> f64 {
                printed.mm()
            }
            fn read_printed(text: &str) -> Result<Marked, QuantityError> {
                Marked::parse(text)
            }
        }
    )+};
}

measurand! {
    Advance, "deg", 90.0, degrees_before, from_degrees_before;
    ContactGap, "mm", 1.0, mm, from_mm;
    PlugGap, "mm", 2.0, mm, from_mm;
    Resistance, "ohm", 1e8, ohms, from_ohms;
    Voltage, "V", 1e5, volts, from_volts;
    Capacitance, "uF", 1e3, microfarads, from_microfarads;
    Current, "A", 1e3, amperes, from_amperes;
    Inductance, "mH", 1e5, millihenries, from_millihenries;
    Energy, "mJ", 1e8, millijoules, from_millijoules;
    CrankSpeed, "rpm", 1e4, rpm, from_rpm;
    AbsolutePressure, "kPa", 1e5, kilopascals, from_kilopascals;
    Dwell, "deg", 90.0, degrees, from_degrees;
    DwellChange, "deg", 180.0, degrees, from_degrees;
}

/// Too early a spark knocks and holes a piston, too late a one runs hot and weak: the early side is
/// guarded, the late one simple. Common practice, no source.
const GUARDED_EARLY: DecisionRule = DecisionRule::of_sides("guarded_early", 0.5, 0.95);

limited! {
    Advance, GUARDED_EARLY;
    Resistance, DecisionRule::simple();
    Voltage, DecisionRule::simple();
    Capacitance, DecisionRule::simple();
    Dwell, DecisionRule::simple();
    DwellChange, DecisionRule::simple();
}

limited_as_marked!(ContactGap, PlugGap);
