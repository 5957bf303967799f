//! Lengths as a sheet shows them: in millimetres; in inches first where the tools are marked so.

use crate::quantity::LengthUnit;
use alloc::format;
use alloc::string::String;

/// A length in millimetres; where asked in inches, with the millimetres in brackets. `show` writes it in a
/// unit with so many decimals.
pub(crate) fn length(inches: bool, show: &dyn Fn(LengthUnit, u8) -> String) -> String {
    let mm = show(LengthUnit::Millimetre, 3);
    if inches {
        format!("{} ({mm})", show(LengthUnit::Inch, 4))
    } else {
        mm
    }
}
