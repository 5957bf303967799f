//! How hard the air in a cylinder turns the crank.

use super::LeakError;
use crate::engine::SliderCrank;
use crate::quantity::{CrankAngle, GaugePressure, Length, Torque};
use core::f64::consts::PI;
use uom::si::energy::joule;
use uom::si::f64::Energy;

/// Farthest from the top that is accepted, in degrees.
const OFF: f64 = 30.0;
/// Step over which the work is taken, in degrees.
const STEP: f64 = 1e-3;

/// The torque with which air on a piston turns the crank, so far from top dead centre: nothing just there, and
/// soon more than a hand holds.
///
/// # Errors
/// [`LeakError::OffTop`] outside 0 to 30 degrees.
///
/// # Source
/// Virtual work: pressure on the piston times its travel, over the turn.
///
/// ```
/// use lashwork::condition::leak::turning_torque;
/// use lashwork::engine::{PinOffset, SliderCrank};
/// use lashwork::quantity::{CrankAngle, GaugePressure, Length};
/// let mm = |mm| Length::from_mm(mm);
/// let crank = SliderCrank::new(mm(45.0)?, mm(150.0)?, PinOffset::ZERO)?;
/// let off = |degrees| CrankAngle::from_degrees(degrees).unwrap();
/// let turns = |d| turning_torque(GaugePressure::parse("80 psi").unwrap(), mm(90.0).unwrap(), &crank, off(d));
/// assert!(turns(0.0)?.newton_metres() < 0.01);
/// assert!((turns(5.0)?.newton_metres() - 17.88).abs() < 0.05);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn turning_torque(
    inside: GaugePressure,
    bore: Length,
    crank: &SliderCrank,
    off_top: CrankAngle,
) -> Result<Torque, LeakError> {
    let got = off_top.degrees();
    if !(0.0..=OFF).contains(&got) {
        return Err(LeakError::OffTop { got });
    }
    let at = |degrees: f64| -> Result<uom::si::f64::Length, LeakError> {
        let angle = CrankAngle::from_degrees(crank.tdc_angle().degrees() + degrees)?;
        let drop = crank.piston_drop(angle).mm();
        Ok(uom::si::f64::Length::new::<uom::si::length::millimeter>(
            drop,
        ))
    };
    let bore = uom::si::f64::Length::new::<uom::si::length::millimeter>(bore.mm());
    let travel = at(got + STEP)? - at((got - STEP).max(0.0))?;
    let turned = (got + STEP - (got - STEP).max(0.0)).to_radians();
    let work: Energy = inside.si() * (PI / 4.0 * bore * bore) * travel;
    Ok(Torque::from_newton_metres(
        work.get::<joule>().abs() / turned,
    )?)
}
