//! Where a lamp on each lead flashes, and which mark is then at the pointer.

use super::{Drive, PointError};
use crate::engine::{CylinderIndex, Engine};
use crate::quantity::{Advance, CrankAngle, Cycle, CyclePosition, DistributorAngle};
use alloc::vec::Vec;
use serde::Serialize;

/// How often a plug sparks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Sparks {
    /// Once a cycle, when its cylinder fires.
    OnceACycle,
    /// Once a crank turn: on a four-stroke engine also at overlap, where the spark does nothing (wasted
    /// spark, two plugs on one coil, or a magneto on the crank).
    OnceATurn,
}

/// One flash of a lamp on a cylinder's lead.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Flash {
    /// The cylinder on whose lead the lamp is.
    pub cylinder: CylinderIndex,
    /// Where the crank stands: after the firing top dead centre of the first cylinder of the order.
    pub crank: CyclePosition,
    /// How far behind the timing mark of the first cylinder, against the running direction, the place of
    /// the rim is that is then at the pointer: from 0 up to 360.
    pub behind_first_mark: CrankAngle,
    /// Whether the first cylinder's own timing mark is at the pointer, so that one mark serves both.
    pub at_first_mark: bool,
    /// Where the rotor points, in its running direction from where it points when the first cylinder
    /// fires: from 0 up to 360.
    pub rotor: DistributorAngle,
    /// Whether the spark falls into the overlap and fires nothing.
    pub is_wasted: bool,
}

/// Every flash of one cycle, in the order in which they come.
///
/// # Errors
/// [`PointError::Quantity`] if the rotor turns out of range.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::ignition::point::{Drive, Sparks, flashes};
/// use lashwork::quantity::{Advance, Cycle};
/// let four = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
/// let drive = Drive::once_a_cycle(Cycle::FourStroke);
/// let all = flashes(&four, Advance::parse("10 deg BTDC")?, drive, Sparks::OnceACycle)?;
/// let behind: Vec<_> = all.iter().map(|f| f.behind_first_mark.degrees()).collect();
/// assert_eq!(behind, [0.0, 180.0, 0.0, 180.0]);
/// // On a coil for two plugs the lamp flashes at every turn, once for nothing.
/// let wasted = flashes(&four, Advance::parse("10 deg BTDC")?, drive, Sparks::OnceATurn)?;
/// assert_eq!(wasted.iter().filter(|f| f.is_wasted).count(), 4);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn flashes(
    engine: &Engine,
    point: Advance,
    drive: Drive,
    sparks: Sparks,
) -> Result<Vec<Flash>, PointError> {
    let cycle = engine.cycle();
    let twice = sparks == Sparks::OnceATurn && cycle == Cycle::FourStroke;
    let mut all = Vec::new();
    for cylinder in engine.order() {
        let fires = engine.firing_position(*cylinder);
        for is_wasted in [false, true] {
            if is_wasted && !twice {
                continue;
            }
            let turn = if is_wasted {
                CrankAngle::TURN
            } else {
                CrankAngle::ZERO
            };
            let from_first = fires.turned(turn);
            let behind = within_turn(from_first.degrees());
            let rotor = drive.rotor(CrankAngle::from_degrees(from_first.degrees())?)?;
            all.push(Flash {
                cylinder: *cylinder,
                crank: from_first.turned(point.from_tdc()),
                behind_first_mark: CrankAngle::from_degrees(behind)?,
                at_first_mark: behind <= crate::engine::SAME_PLACE,
                rotor: DistributorAngle::from_degrees(within_turn(rotor.degrees()))?,
                is_wasted,
            });
        }
    }
    let start = CyclePosition::new(cycle, point.from_tdc());
    let after = |flash: &Flash| start.forward_to(flash.crank).degrees();
    all.sort_by(|a, b| after(a).total_cmp(&after(b)));
    Ok(all)
}

/// From 0 up to 360; what lies within rounding of a whole turn is nought.
fn within_turn(degrees: f64) -> f64 {
    let rest = degrees - 360.0 * libm::floor(degrees / 360.0);
    if rest >= 360.0 - 1e-9 { 0.0 } else { rest }
}
