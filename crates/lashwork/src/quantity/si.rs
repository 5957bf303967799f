//! SI quantities for formulas that mix dimensions: a product of wrong units does not compile.
//!
//! On a base of millimetres and minutes, so that what enters in them leaves as the same bits.

mod base {
    ISQ!(
        uom::si,
        f64,
        (millimeter, kilogram, minute, ampere, kelvin, mole, candela)
    );
}

pub(crate) use base::{Frequency, Length, Ratio, TemperatureInterval, Time};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin;
use uom::si::time::minute;

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

/// So many minutes.
pub(crate) fn minutes(number: f64) -> Time {
    Time::new::<minute>(number)
}

/// So much each minute.
pub(crate) fn each_minute(share: f64) -> Frequency {
    plain(share) / minutes(1.0)
}
