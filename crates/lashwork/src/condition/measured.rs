//! The quantities of condition that are estimated and have printed limits.

use crate::quantity::{Area, Force, GaugePressure, Torque};
use crate::tolerance::{DecisionRule, limited, measurand};

measurand! {
    GaugePressure, "kPa", 1e3, kilopascals, from_kilopascals;
    Area, "mm2", 1e4, square_millimetres, from_square_millimetres;
    Force, "kN", 1e4, kilonewtons, from_kilonewtons;
    Torque, "Nm", 1e5, newton_metres, from_newton_metres;
}

limited! {
    GaugePressure, DecisionRule::simple();
    Area, DecisionRule::simple();
    Torque, DecisionRule::simple();
}
