//! The angles that are estimated and are of no one area: of the crank.

use super::measurand;
use crate::quantity::CrankAngle;

measurand! {
    CrankAngle, "deg", 180.0, degrees, from_degrees;
}
