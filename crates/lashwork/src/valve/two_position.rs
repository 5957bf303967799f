//! The plan of two positions one crank turn apart.
//!
//! # Method
//! Of two positions 360 degrees apart, each valve is taken in the one nearer the middle of its base
//! circle. This rule reproduces the two-position tables that manuals print.
//!
//! Uses `quantity` and `engine`.

use super::ValveTrain;
use super::plan::{Method, StopPlan};
use super::sequence::{Draft, Place};
use crate::engine::{CylinderIndex, SAME_PLACE};
use crate::quantity::{CrankAngle, CyclePosition};

impl ValveTrain<'_> {
    /// Two positions one turn apart, from firing TDC of `first`; `None` if some valve's window
    /// holds neither, so that no such table exists, or if all valves belong to one of the two, as on
    /// a single-cylinder engine. A valve as near to its middle in both is taken in the first.
    #[must_use]
    pub fn two_position(&self, first: CylinderIndex) -> Option<StopPlan> {
        self.two_position_from(first, None)
    }

    /// The same with the turning counted from where the crank stands, and the position first that
    /// is reached first.
    #[must_use]
    pub fn two_position_from(
        &self,
        first: CylinderIndex,
        from: Option<CyclePosition>,
    ) -> Option<StopPlan> {
        let here = self.engine().dead_centre(first);
        let there = here.turned(CrankAngle::TURN);
        let (mut near, mut far) = (Place::new(here), Place::new(there));
        for valve in self.valves() {
            let window = self.window(valve.kind)?;
            let distance =
                |crank| window.from_middle(self.engine().own_phase(valve.cylinder, crank));
            let farther = distance(here) - distance(there);
            let place = if farther.degrees() <= SAME_PLACE {
                &mut near
            } else {
                &mut far
            };
            place.checks.push(self.check(valve, place.at)?);
        }
        if near.checks.is_empty() || far.checks.is_empty() {
            return None;
        }
        let draft = Draft {
            method: Method::TwoPosition,
            from,
            places: &[near, far],
            unreachable: &[],
        };
        Some(self.in_sequence(draft, from.unwrap_or(here)))
    }
}
