//! Lengths as a job shows them: in millimetres, and in inches besides where the tools are marked so.

use super::{Adjuster, ValveReading};
use crate::feeler::Reading;
use crate::quantity::LengthUnit;
use alloc::format;
use alloc::string::String;

/// A length in millimetres, and in inches too if asked. `show` writes it in a unit with so many
/// decimals.
pub(super) fn length(inches: bool, show: &dyn Fn(LengthUnit, u8) -> String) -> String {
    let mm = show(LengthUnit::Millimetre, 3);
    if inches {
        format!("{mm} = {}", show(LengthUnit::Inch, 4))
    } else {
        mm
    }
}

const fn is_inch(unit: LengthUnit) -> bool {
    matches!(unit, LengthUnit::Inch | LengthUnit::Thou)
}

impl ValveReading {
    /// Whether a leaf of the reading is marked in inches.
    pub(super) fn in_inches(&self) -> bool {
        let (Reading::Between { goes: stack, .. }
        | Reading::Goes(stack)
        | Reading::Refuses(stack)
        | Reading::Drags { stack, .. }) = &self.reading;
        stack.leaves().iter().any(|leaf| is_inch(leaf.mark.unit()))
    }
}

impl Adjuster {
    /// Whether the shims are sold, or else kept, in inch sizes.
    pub(super) fn shims_in_inches(&self) -> bool {
        let Self::Shim { series, stock, .. } = self else {
            return false;
        };
        let kept = || stock.shims().iter().any(|shim| is_inch(shim.size.unit()));
        series
            .as_ref()
            .map_or_else(kept, |series| is_inch(series.ends().0.unit()))
    }
}
