//! What a head that goes down when it is tightened again does to the lash.

use super::HeadError;
use super::error::within;
use crate::quantity::{LashChange, Length};
use serde::Serialize;

/// Most that a gasket settles, in millimetres, and rockers.
const SETTLE: (f64, f64) = (0.0, 2.0);
const ROCKER: (f64, f64) = (0.3, 3.0);

/// Where the rockers are carried.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RockerPivot {
    /// On the head, driven by pushrods from the block, with valve movement over pushrod movement.
    PushrodsFromBlock {
        /// Valve movement over pushrod movement.
        ratio: f64,
    },
    /// On the head, with the camshaft.
    CamInHead,
}

/// How the lash changes when the head comes down: with pushrods it closes by the rocker's ratio times as much; with
/// the camshaft in the head it stays.
///
/// # Errors
/// [`HeadError::Number`] for more than 2 mm, or a ratio outside 0.3 to 3.
///
/// # Source
/// Geometry: seat and pivot come down together, the pushrod does not.
///
/// ```
/// use lashwork::condition::head::{RockerPivot, lash_after_settling};
/// use lashwork::quantity::Length;
/// let down = Length::from_mm(0.05)?;
/// let closes = lash_after_settling(down, RockerPivot::PushrodsFromBlock { ratio: 1.4 })?;
/// assert!((closes.mm() + 0.07).abs() < 1e-12);
/// assert_eq!(lash_after_settling(down, RockerPivot::CamInHead)?.mm(), 0.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn lash_after_settling(down: Length, pivot: RockerPivot) -> Result<LashChange, HeadError> {
    let down = within("a settling in millimetres", down.mm(), SETTLE)?;
    let mm = match pivot {
        RockerPivot::PushrodsFromBlock { ratio } => {
            -down * within("a rocker ratio", ratio, ROCKER)?
        }
        RockerPivot::CamInHead => 0.0,
    };
    Ok(LashChange::from_mm(mm)?)
}
