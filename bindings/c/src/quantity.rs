//! Quantities: reading what a person wrote, one unit in another, showing.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::pointers::{Record, place, record, record_place, text};
use crate::status::lw_status;
use crate::text::fill_text;
use lashwork::quantity::{CrankAngle, LengthUnit, Marked, Nominal, Temperature, TemperatureUnit};
use std::ffi::c_char;

/// A unit of length.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_length_unit {
    /// Millimetre.
    Millimetre = 1,
    /// Inch, 25.4 mm exactly.
    Inch = 2,
    /// Thousandth of an inch.
    Thou = 3,
    /// Micrometre.
    Micrometre = 4,
}

/// A unit of temperature.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_temperature_unit {
    /// Degrees Celsius.
    Celsius = 1,
    /// Degrees Fahrenheit.
    Fahrenheit = 2,
    /// Kelvin.
    Kelvin = 3,
}

/// An exact length as it was written: a mark on a leaf, a printed limit, a shim.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_mark {
    /// Size of this structure, `sizeof(lw_mark)`.
    pub struct_size: usize,
    /// The length in whole nanometres, up to ten metres either way.
    pub nanometres: i64,
    /// The unit it was written in: a value of `lw_length_unit`.
    pub unit: u32,
    /// How many decimals it was written with, 0 to 9.
    pub decimals: u32,
}

// SAFETY: repr(C), the size in front, integers only.
unsafe impl Record for lw_mark {
    const FIRST_SIZE: usize = size_of::<Self>();
}

/// The value that an integer of the caller stands for.
pub(crate) fn choose<T: Copy>(name: &'static str, given: u32, known: &[(u32, T)]) -> Outcome<T> {
    let found = known.iter().find(|(number, _)| *number == given);
    found.map(|(_, value)| *value).ok_or_else(|| {
        lw_error::of(lw_status::UnknownValue, name, || {
            format!("{given} is no value of {name}")
        })
    })
}

const LENGTH_UNITS: [(u32, LengthUnit); 4] = [
    (lw_length_unit::Millimetre as u32, LengthUnit::Millimetre),
    (lw_length_unit::Inch as u32, LengthUnit::Inch),
    (lw_length_unit::Thou as u32, LengthUnit::Thou),
    (lw_length_unit::Micrometre as u32, LengthUnit::Micrometre),
];

const TEMPERATURE_UNITS: [(u32, TemperatureUnit); 3] = [
    (
        lw_temperature_unit::Celsius as u32,
        TemperatureUnit::Celsius,
    ),
    (
        lw_temperature_unit::Fahrenheit as u32,
        TemperatureUnit::Fahrenheit,
    ),
    (lw_temperature_unit::Kelvin as u32, TemperatureUnit::Kelvin),
];

/// Exact millimetres for a length in nanometres, shown to the nanometre in an error.
pub(crate) fn marked(nanometres: i64) -> Outcome<Marked> {
    let nominal = Nominal::from_nanometres(nanometres)?;
    Ok(Marked::new(nominal, LengthUnit::Millimetre, 6))
}

/// Reads a length with its unit, such as "0.15 mm", "0,15 mm", "0.006 in" or "6 thou", exactly.
///
/// `text` is `len` bytes of UTF-8. A number without a unit is refused (`LW_STATUS_REFUSED`), so are an
/// unknown unit and anything finer than a nanometre. `error` may be NULL. Any thread.
///
/// # Safety
/// `text` is readable for `len` bytes or NULL; `mark` is a structure that states its size, or NULL;
/// `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_parse_length(
    text: *const c_char,
    len: usize,
    mark: *mut lw_mark,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (text, mark) = unsafe { (self::text("text", text, len)?, record_place("mark", mark)?) };
        let read = Marked::parse(text)?;
        let unit = LENGTH_UNITS.iter().find(|(_, unit)| *unit == read.unit());
        mark.write(&lw_mark {
            struct_size: 0,
            nanometres: read.nominal().nanometres(),
            unit: unit.map_or(0, |(number, _)| *number),
            decimals: read.decimals(),
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Writes an exact length as text in its unit with its decimals, rounded half to even where they are too
/// few.
///
/// `buffer` has room for `capacity` bytes and may be NULL if that is 0; `needed` gets the bytes it
/// takes, the NUL included. `LW_STATUS_SHORT_BUFFER` if there is less room. `error` may be NULL. Any
/// thread.
///
/// # Safety
/// `mark` is a structure that states its size, or NULL; `buffer` is writable for `capacity` bytes;
/// `needed` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_show_length(
    mark: *const lw_mark,
    buffer: *mut c_char,
    capacity: usize,
    needed: *mut usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let mark = unsafe { record("mark", mark) }?;
        let unit = choose("mark.unit", mark.unit, &LENGTH_UNITS)?;
        let shown = Nominal::from_nanometres(mark.nanometres)?.show(unit, mark.decimals);
        // SAFETY: as above.
        unsafe { fill_text(&shown, (buffer, capacity), needed) }
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// A number read from a text.
///
/// # Safety
/// The text is readable for its length or NULL; the place is writable or NULL.
unsafe fn parsed(
    (text, len): (*const c_char, usize),
    (name, to): (&'static str, *mut f64),
    of: impl FnOnce(&str) -> Outcome<f64>,
) -> Outcome {
    // SAFETY: null is refused here; the rest is the contract above.
    let (text, to) = unsafe { (self::text("text", text, len)?, place(name, to)?) };
    to.write(of(text)?);
    Ok(())
}

/// A number taken from one unit to another.
///
/// # Safety
/// `converted` is writable or NULL.
unsafe fn in_units<U: Copy>(
    units: &[(u32, U)],
    from: u32,
    to: u32,
    converted: *mut f64,
    of: impl FnOnce(U, U) -> Outcome<f64>,
) -> Outcome {
    // SAFETY: null is refused here; the rest is the contract above.
    let converted = unsafe { place("converted", converted) }?;
    converted.write(of(choose("from", from, units)?, choose("to", to, units)?)?);
    Ok(())
}

/// A length in another unit.
///
/// `from` and `to` are values of `lw_length_unit`. Off by at most one unit in the last place; use
/// `lw_mark` for what must stay exact. Infinity and NaN are kept. `error` may be NULL. Any
/// thread.
///
/// # Safety
/// `converted` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_convert_length(
    value: f64,
    from: u32,
    to: u32,
    converted: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |from: LengthUnit, to| Ok(from.convert(value, to));
    // SAFETY: the contract is passed on.
    unsafe { boundary(error, || in_units(&LENGTH_UNITS, from, to, converted, of)) }
}

/// Reads a temperature with its unit, such as "20 C", "68 F" or "293.15 K", in degrees Celsius.
///
/// `text` is `len` bytes of UTF-8. Below absolute zero or above 2000 C is refused. `error` may be NULL.
/// Any thread.
///
/// # Safety
/// `text` is readable for `len` bytes or NULL; `celsius` is writable or NULL; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_parse_temperature(
    text: *const c_char,
    len: usize,
    celsius: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |text: &str| Ok(Temperature::parse(text)?.celsius());
    // SAFETY: the contract is passed on.
    unsafe { boundary(error, || parsed((text, len), ("celsius", celsius), of)) }
}

/// A temperature in another unit.
///
/// `from` and `to` are values of `lw_temperature_unit`. Below absolute zero, above 2000 C and NaN are
/// refused. `error` may be NULL. Any thread.
///
/// # Safety
/// `converted` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_convert_temperature(
    value: f64,
    from: u32,
    to: u32,
    converted: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |from, to| Ok(Temperature::from_value(value, from)?.value(to));
    // SAFETY: the contract is passed on.
    unsafe {
        boundary(error, || {
            in_units(&TEMPERATURE_UNITS, from, to, converted, of)
        })
    }
}

/// Reads a crank angle with its unit, such as "12 deg", in degrees.
///
/// `text` is `len` bytes of UTF-8. `error` may be NULL. Any thread.
///
/// # Safety
/// `text` is readable for `len` bytes or NULL; `degrees` is writable or NULL; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_parse_crank_angle(
    text: *const c_char,
    len: usize,
    degrees: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let of = |text: &str| Ok(CrankAngle::parse(text)?.degrees());
    // SAFETY: the contract is passed on.
    unsafe { boundary(error, || parsed((text, len), ("degrees", degrees), of)) }
}
