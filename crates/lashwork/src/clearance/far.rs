//! A gap so far off that setting it would hide a fault.
//!
//! Common practice, no source: the bounds are this library's choice.

use super::text::printed;
use crate::quantity::shown::by_hand;
use crate::quantity::{Lash, LashChange};
use crate::tolerance::Estimate;
use crate::valve::ValveLimits;
use alloc::format;
use alloc::string::String;

/// A lash wider than the value to set by more than this, in millimetres, is no wear or drift.
const LOOSE_MM: f64 = 0.3;
/// Share of the value to set that is left where more than drift closed the gap.
const LEFT: f64 = 0.5;

/// In words, that the cause is to be found before anything is set; nothing for a gap in the reach of wear
/// and drift, or one that may be, by the end of the reading nearer to the value to set and its uncertainty.
pub(super) fn far(
    limits: &ValveLimits,
    estimate: &Estimate<Lash>,
    loose: bool,
    inches: bool,
) -> Option<String> {
    let set = Lash::from_nominal(limits.set_to().nominal()).ok()?;
    let u = estimate.normal_uncertainty().mm();
    let shown = |change: LashChange| by_hand(change.mm(), inches);
    if loose {
        let more = estimate.low()? - set;
        return (more.mm() - u > LOOSE_MM).then(|| {
            format!(
                "find the cause first: the gap is at least {} over the value to set, more than wear or \
                 drift makes; set nothing here until it is found",
                shown(more)
            )
        });
    }
    // How far below the upper end it lies must be known.
    estimate.low()?;
    let lost = set - estimate.high()?;
    (lost.mm() - u > (1.0 - LEFT) * set.mm()).then(|| {
        format!(
            "find the cause first: the gap has lost at least {} of {}, more than half; set nothing here \
             until it is found",
            shown(lost),
            printed(limits.set_to(), inches)
        )
    })
}
