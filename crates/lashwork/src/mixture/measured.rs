//! The quantities of mixture that are estimated and have printed limits.

use crate::quantity::{
    AirFlow, AirFlowDifference, CrankSpeed, Density, FuelLevel, Lambda, PressureDifference,
    RelativeHumidity, TurnsOut, Vacuum, VolumeShare,
};
use crate::tolerance::{DecisionRule, limited, limited_as_marked, measurand};

/// A lean mixture runs hot and may hole a piston, a rich one fouls and washes the bores: the lean side is
/// guarded, the rich one simple. Common practice, no source.
const GUARDED_LEAN: DecisionRule = DecisionRule::of_sides("guarded_lean", 0.5, 0.95);

measurand! {
    Lambda, "lambda", 1e3, ratio, from_ratio;
    VolumeShare, "percent", 50.0, percent, from_percent;
    RelativeHumidity, "percent", 50.0, percent, from_percent;
    FuelLevel, "mm", 20.0, mm, from_mm;
    Vacuum, "kPa", 110.0, kilopascals, from_kilopascals;
    PressureDifference, "kPa", 1e5, kilopascals, from_kilopascals;
    TurnsOut, "turns", 100.0, turns, from_turns;
    AirFlow, "kg/h", 1e4, kilograms_per_hour, from_kilograms_per_hour;
    AirFlowDifference, "kg/h", 1e4, kilograms_per_hour, from_kilograms_per_hour;
    Density, "kg_per_m3", 1e3, kilograms_per_cubic_metre, from_kilograms_per_cubic_metre;
}

limited! {
    Lambda, GUARDED_LEAN;
    VolumeShare, DecisionRule::simple();
    Vacuum, DecisionRule::simple();
    PressureDifference, DecisionRule::simple();
    AirFlow, DecisionRule::simple();
    AirFlowDifference, DecisionRule::simple();
    CrankSpeed, DecisionRule::simple();
}

limited_as_marked!(FuelLevel);
