//! The quantities of the mixture that are estimated and have printed limits.

use crate::quantity::{
    AirFlow, AirFlowDifference, CrankSpeed, PressureDifference, QuantityError, TurnsOut, Vacuum,
};
use crate::tolerance::{DecisionRule, HasLimits, Measurand};

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
    ($($type:ty),+) => {$(
        impl HasLimits for $type {
            type Printed = Self;
            const USUAL_RULE: DecisionRule = DecisionRule::simple();
            fn printed_number(printed: Self) -> f64 {
                printed.number()
            }
            fn read_printed(text: &str) -> Result<Self, QuantityError> {
                Self::parse(text)
            }
        }
    )+};
}

measurand! {
    Vacuum, "kPa", 110.0, kilopascals, from_kilopascals;
    PressureDifference, "kPa", 1e5, kilopascals, from_kilopascals;
    TurnsOut, "turns", 100.0, turns, from_turns;
    AirFlow, "kg/h", 1e4, kilograms_per_hour, from_kilograms_per_hour;
    AirFlowDifference, "kg/h", 1e4, kilograms_per_hour, from_kilograms_per_hour;
}

limited!(
    Vacuum,
    PressureDifference,
    AirFlow,
    AirFlowDifference,
    CrankSpeed
);
