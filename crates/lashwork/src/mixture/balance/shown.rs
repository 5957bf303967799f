//! What a gauge at a throttle may show.

use crate::quantity::{AbsolutePressure, AirFlow, AirFlowDifference, PressureDifference, Vacuum};
use crate::tolerance::{HasLimits, Measurand};

/// A quantity by which throttles are balanced.
///
/// ```
/// use lashwork::mixture::balance::Shown;
/// use lashwork::quantity::{AirFlow, Vacuum};
/// assert!(AirFlow::OPENING_RAISES && !Vacuum::OPENING_RAISES);
/// ```
pub trait Shown: Measurand {
    /// What two readings differ by.
    type Difference: HasLimits<Printed = Self::Difference>;
    /// Whether the reading rises as the throttle opens.
    const OPENING_RAISES: bool;

    /// Whether nothing around the engine could make it show so much.
    fn is_beyond(self, ambient: AbsolutePressure) -> bool;
}

impl Shown for Vacuum {
    type Difference = PressureDifference;
    const OPENING_RAISES: bool = false;

    fn is_beyond(self, ambient: AbsolutePressure) -> bool {
        self.kilopascals() > ambient.kilopascals()
    }
}

impl Shown for AirFlow {
    type Difference = AirFlowDifference;
    const OPENING_RAISES: bool = true;

    fn is_beyond(self, _: AbsolutePressure) -> bool {
        false
    }
}
