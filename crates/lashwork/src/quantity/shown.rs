//! How finely a text says a length, in millimetres or in inches.
//!
//! # Method
//! No finer than whoever reads it can use:
//! - by hand, to 0.01 mm or 0.0005 in: the steps in which leaves are sold;
//! - beside its standard uncertainty, to 0.001 mm or 0.0001 in: the uncertainty itself then has one or two
//!   digits (JCGM 100:2008, 7.2.6);
//! - a part's length, to 0.1 mm or 0.01 in; a stroke or a lift, to 0.01 mm or 0.001 in, as data sheets
//!   print them;
//! - a level of fuel, to 0.1 mm or 0.01 in, as an eye tells it; finer where its standard uncertainty is, which
//!   then keeps a digit;
//! - along a rim, to 1 mm or 1/16 in: what a rule or a tape is divided in. Half of that is less than half a
//!   degree on a pulley of 100 mm.

use super::LengthUnit;
use alloc::format;
use alloc::string::{String, ToString};

/// Steps in an inch that a hand can tell apart.
const HAND_STEPS: f64 = 2_000.0;
/// Parts of an inch on a rule.
const SIXTEENTHS: f64 = 16.0;

/// What a hand can use.
pub(crate) fn by_hand(mm: f64, inches: bool) -> String {
    if !inches {
        return written(mm, 2, inches);
    }
    let steps = libm::rint(inches_of(mm) * HAND_STEPS);
    // Whole thousandths are said as such.
    let decimals = if steps % 2.0 == 0.0 { 3 } else { 4 };
    written(steps / HAND_STEPS, decimals, inches)
}

/// What stands beside its standard uncertainty, and that uncertainty.
pub(crate) fn reckoned(mm: f64, inches: bool) -> String {
    in_unit(mm, inches, (3, 4))
}

/// A level of fuel that is known to `u`, or that uncertainty.
pub(crate) fn level(mm: f64, u: f64, inches: bool) -> String {
    let (by_eye, finest) = if inches { (2, 4) } else { (1, 3) };
    let u = if inches { inches_of(u) } else { u };
    let keeps_a_digit = |decimals: &usize| u * libm::pow(10.0, *decimals as f64) >= 0.95;
    let decimals = (by_eye..finest).find(keeps_a_digit).unwrap_or(finest);
    in_unit(mm, inches, (decimals, decimals))
}

/// A standard uncertainty of such a level; it is never said to be nothing.
pub(crate) fn level_doubt(u: f64, inches: bool) -> String {
    let least = if inches { 0.000_05 * 25.4 } else { 0.000_5 };
    if u >= least {
        level(u, u, inches)
    } else {
        String::from(if inches {
            "under 0.0001 in"
        } else {
            "under 0.001 mm"
        })
    }
}

/// Whether a level that is known to `u` is said as nothing.
pub(crate) fn is_no_level(mm: f64, u: f64, inches: bool) -> bool {
    let text = level(mm.abs(), u, inches);
    !text.contains(|c: char| ('1'..='9').contains(&c))
}

/// How long a part is.
pub(crate) fn part(mm: f64, inches: bool) -> String {
    in_unit(mm, inches, (1, 2))
}

/// A stroke or a lift, without needless zeros.
pub(crate) fn travel(mm: f64, inches: bool) -> String {
    let text = in_unit(mm, inches, (2, 3));
    let (number, unit) = text.split_once(' ').unwrap_or((&text, ""));
    let number = number.trim_end_matches('0').trim_end_matches('.');
    format!("{number} {unit}")
}

/// A distance along a rim; nothing if it is none.
pub(crate) fn along_rim(mm: f64, inches: bool) -> Option<String> {
    if !inches {
        let whole = libm::rint(mm);
        return (whole != 0.0).then(|| written(whole, 0, inches));
    }
    let mut parts = libm::rint(inches_of(mm) * SIXTEENTHS);
    if parts == 0.0 {
        return None;
    }
    let (whole, mut of) = (libm::floor(parts / SIXTEENTHS), SIXTEENTHS);
    parts -= whole * SIXTEENTHS;
    while parts > 0.0 && parts % 2.0 == 0.0 {
        (parts, of) = (parts / 2.0, of / 2.0);
    }
    let symbol = LengthUnit::Inch.symbol();
    Some(match (whole > 0.0, parts > 0.0) {
        (true, true) => format!("{whole:.0} {parts:.0}/{of:.0} {symbol}"),
        (true, false) => format!("{whole:.0} {symbol}"),
        (false, _) => format!("{parts:.0}/{of:.0} {symbol}"),
    })
}

/// With so many decimals in millimetres, or in inches.
fn in_unit(mm: f64, inches: bool, (in_mm, in_inches): (usize, usize)) -> String {
    if inches {
        written(inches_of(mm), in_inches, inches)
    } else {
        written(mm, in_mm, inches)
    }
}

fn inches_of(mm: f64) -> f64 {
    mm * 1e6 / LengthUnit::Inch.nanometres() as f64
}

fn written(value: f64, decimals: usize, inches: bool) -> String {
    let unit = if inches {
        LengthUnit::Inch
    } else {
        LengthUnit::Millimetre
    };
    let text = format!("{value:.decimals$}");
    let is_nothing = !text.contains(|c: char| ('1'..='9').contains(&c));
    // What rounds to zero is not below it.
    let text = match text.strip_prefix('-') {
        Some(rest) if is_nothing => rest.to_string(),
        _ => text,
    };
    format!("{text} {}", unit.symbol())
}
