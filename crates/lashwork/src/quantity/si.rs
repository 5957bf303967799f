//! SI quantities for formulas that mix dimensions: a product of wrong units does not compile.
//!
//! On a millimetre base, so that what enters as millimetres leaves as the same bits.

mod base {
    ISQ!(
        uom::si,
        f64,
        (millimeter, kilogram, second, ampere, kelvin, mole, candela)
    );
}

pub(crate) use base::{Length, Ratio, TemperatureInterval};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin;

/// A plain number as a quantity without dimension.
pub(crate) fn plain(number: f64) -> Ratio {
    Ratio::new::<ratio>(number)
}

/// So many millimetres.
pub(crate) fn millimetres(number: f64) -> Length {
    Length::new::<millimeter>(number)
}

/// So many kelvin of difference.
pub(crate) fn kelvins(number: f64) -> TemperatureInterval {
    TemperatureInterval::new::<kelvin>(number)
}
