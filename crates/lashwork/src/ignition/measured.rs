//! The quantities of ignition that are estimated and have printed limits.

use super::breaker::{Dwell, DwellChange};
use crate::quantity::{
    AbsolutePressure, Advance, Capacitance, ContactGap, CrankSpeed, Current, Energy, Inductance,
    PlugGap, Resistance, Voltage,
};
use crate::tolerance::{DecisionRule, limited, limited_as_marked, measurand};

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
