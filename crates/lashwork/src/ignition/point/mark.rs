//! Where on a rim the mark for an ignition point stands.

use crate::engine::{Pulley, PulleyArc};
use crate::quantity::{Advance, CrankAngle, Length, QuantityError};
use serde::Serialize;

/// Which side of the TDC mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum MarkSide {
    /// Ahead of it in the running direction: this mark passes the pointer first.
    Ahead,
    /// On it.
    On,
    /// Behind it, against the running direction: this mark passes the pointer later.
    Behind,
}

/// A mark for an ignition point on the rim of a pulley, from the TDC mark of the same cylinder.
///
/// The spark comes before top dead centre, so that its mark must reach the pointer before the TDC mark
/// does: it stands ahead, in the running direction.
///
/// ```
/// use lashwork::engine::Pulley;
/// use lashwork::ignition::point::{MarkSide, RimMark};
/// use lashwork::quantity::{Advance, Length};
/// let damper = Pulley::new(Length::from_mm(133.4)?)?;
/// let mark = RimMark::of(damper, Advance::parse("40 deg BTDC")?);
/// assert!((mark.along_rim.mm() - 46.57).abs() < 0.01);
/// assert_eq!(mark.side, MarkSide::Ahead);
/// assert!((mark.point(damper)?.degrees_before() - 40.0).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RimMark {
    /// From the TDC mark, along the rim.
    pub along_rim: Length,
    /// On which side of the TDC mark.
    pub side: MarkSide,
}

impl RimMark {
    /// The mark on a pulley.
    #[must_use]
    pub fn of(pulley: Pulley, point: Advance) -> Self {
        let arc = pulley.arc(point.from_tdc()).mm();
        let side = if arc < 0.0 {
            MarkSide::Ahead
        } else if arc > 0.0 {
            MarkSide::Behind
        } else {
            MarkSide::On
        };
        Self {
            along_rim: Length::computed(arc.abs()),
            side,
        }
    }

    /// The ignition point of a mark.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if it lies more than half a turn away, or is said to be on the TDC mark
    /// and away from it.
    pub fn point(self, pulley: Pulley) -> Result<Advance, QuantityError> {
        let turn = pulley.angle(PulleyArc::from_mm(self.along_rim.mm())?)?;
        let before = match self.side {
            MarkSide::On if self.along_rim.mm() > 0.0 => {
                return Err(QuantityError::OutOfRange {
                    what: "distance from the TDC mark of a mark that is on it",
                    got: self.along_rim.mm(),
                    unit: "mm",
                    min: 0.0,
                    max: 0.0,
                });
            }
            MarkSide::Ahead | MarkSide::On => turn,
            MarkSide::Behind => CrankAngle::ZERO - turn,
        };
        Advance::from_degrees_before(before.degrees())
    }
}
