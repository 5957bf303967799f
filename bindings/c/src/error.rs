//! Why a call was refused, in words and in fields.

use crate::status::lw_status;
use lashwork::Refusal;
use lashwork::adjust::AdjustError;
use lashwork::clearance::ClearanceError;
use lashwork::condition::compression::CompressionError;
use lashwork::condition::head::HeadError;
use lashwork::condition::leak::LeakError;
use lashwork::engine::{
    CompressionRatioError, EngineError, PulleyError, SliderCrankError, TdcError,
};
use lashwork::events::EventsError;
use lashwork::feeler::FeelerError;
use lashwork::history::HistoryError;
use lashwork::ignition::breaker::BreakerError;
use lashwork::ignition::electrics::ElectricsError;
use lashwork::ignition::point::PointError;
use lashwork::ignition::timing::TimingError;
use lashwork::mixture::air::AirError;
use lashwork::mixture::balance::BalanceError;
use lashwork::mixture::gas::GasError;
use lashwork::mixture::idle::IdleError;
use lashwork::quantity::QuantityError;
use lashwork::thermal::ThermalError;
use lashwork::tolerance::ToleranceError;
use lashwork::valve::ValveError;
use std::ffi::{CString, c_char};

/// Why a call was refused. Made by a call that was given a place for it, owned by the caller, who
/// gives it back with `lw_error_free`. It never changes, so threads may share it.
#[derive(Debug)]
pub struct lw_error {
    status: lw_status,
    code: CString,
    message: CString,
    hint: CString,
    place: CString,
    row: Option<usize>,
    range: Option<[f64; 3]>,
}

#[expect(
    clippy::unnecessary_box_returns,
    reason = "an error leaves as a pointer, and a result with one stays small"
)]
impl lw_error {
    /// An error of this binding itself: its code is the name of the status.
    #[cold]
    pub(crate) fn of(
        status: lw_status,
        place: &str,
        message: impl FnOnce() -> String,
    ) -> Box<Self> {
        Box::new(Self {
            status,
            code: status.name().to_owned(),
            message: c_text(message()),
            hint: CString::default(),
            place: c_text(place.to_owned()),
            row: None,
            range: None,
        })
    }

    /// A refusal of the kernel, in its own words.
    #[cold]
    pub(crate) fn of_refusal(error: &dyn Refusal) -> Box<Self> {
        Self::refused(error.code(), error.to_string(), error.hint().into_owned())
    }

    /// A refusal in words already at hand.
    #[cold]
    pub(crate) fn refused(code: &str, message: String, hint: String) -> Box<Self> {
        Box::new(Self {
            status: lw_status::Refused,
            code: c_text(code.to_owned()),
            message: c_text(message),
            hint: c_text(hint),
            place: CString::default(),
            row: None,
            range: None,
        })
    }

    #[cold]
    pub(crate) fn panic() -> Box<Self> {
        Self::of(lw_status::Panic, "", || {
            "a defect of the library was caught; please report it with what was asked".to_owned()
        })
    }

    pub(crate) fn at(mut self: Box<Self>, place: &str) -> Box<Self> {
        self.place = c_text(place.to_owned());
        self
    }

    /// The first of several refused rows.
    pub(crate) fn in_row(mut self: Box<Self>, row: usize) -> Box<Self> {
        self.status = lw_status::RowsRefused;
        self.at_row(row)
    }

    /// The row for which the whole call was refused.
    pub(crate) fn at_row(mut self: Box<Self>, row: usize) -> Box<Self> {
        self.row = Some(row);
        self
    }

    pub(crate) const fn status(&self) -> lw_status {
        self.status
    }
}

/// A C string; a NUL inside becomes the sign for a character that cannot be shown.
fn c_text(text: String) -> CString {
    CString::new(text)
        .or_else(|why| {
            let text = String::from_utf8_lossy(&why.into_vec()).replace('\0', "\u{FFFD}");
            CString::new(text)
        })
        .unwrap_or_default()
}

macro_rules! refusals {
    ($($error:ty),* $(,)?) => {$(
        impl From<$error> for Box<lw_error> {
            #[cold]
            fn from(error: $error) -> Self {
                lw_error::of_refusal(&error)
            }
        }
    )*};
}
refusals! {
    AdjustError, CompressionRatioError, FeelerError, PulleyError, SliderCrankError, TdcError, ValveError,
}

/// Errors of an area that hold one of a quantity, whose range is kept.
macro_rules! refusals_with_a_quantity {
    ($($error:ident),* $(,)?) => {$(
        impl From<$error> for Box<lw_error> {
            #[cold]
            fn from(error: $error) -> Self {
                match error {
                    $error::Quantity(inner) => inner.into(),
                    $error::Tolerance(inner) => inner.into(),
                    other => lw_error::of_refusal(&other),
                }
            }
        }
    )*};
}
refusals_with_a_quantity! {
    AirError, BreakerError, CompressionError, ElectricsError, EventsError, GasError, HeadError, IdleError, LeakError,
    PointError, ThermalError, TimingError,
}

/// What is refused of a reading or its metal keeps its range.
impl From<ClearanceError> for Box<lw_error> {
    #[cold]
    fn from(error: ClearanceError) -> Self {
        match error {
            ClearanceError::Quantity(inner) => inner.into(),
            ClearanceError::Tolerance(inner) => inner.into(),
            ClearanceError::Thermal(inner) => inner.into(),
            other => lw_error::of_refusal(&other),
        }
    }
}

/// What is refused of a reading keeps its range.
impl From<HistoryError> for Box<lw_error> {
    #[cold]
    fn from(error: HistoryError) -> Self {
        match error {
            HistoryError::Tolerance(inner) => inner.into(),
            other => lw_error::of_refusal(&other),
        }
    }
}

/// A quantity that is refused keeps its range.
impl From<ToleranceError> for Box<lw_error> {
    #[cold]
    fn from(error: ToleranceError) -> Self {
        match error {
            ToleranceError::Quantity(inner) => inner.into(),
            _ => lw_error::refused(error.code(), error.to_string(), error.hint().into_owned()),
        }
    }
}

impl From<QuantityError> for Box<lw_error> {
    #[cold]
    fn from(error: QuantityError) -> Self {
        let mut refused = lw_error::of_refusal(&error);
        if let QuantityError::OutOfRange { got, min, max, .. } = error {
            refused.range = Some([got, min, max]);
        }
        refused
    }
}

/// Several problems of one call, one per line, under the code of the first.
macro_rules! refusals_of_several {
    ($($error:ident),* $(,)?) => {$(
        impl From<Vec<$error>> for Box<lw_error> {
            #[cold]
            fn from(errors: Vec<$error>) -> Self {
                let lines = |line: fn(&$error) -> String| {
                    errors.iter().map(line).collect::<Vec<_>>().join("\n")
                };
                let code = errors.first().map_or("", Refusal::code);
                let hints = lines(|e| e.hint().into_owned());
                lw_error::refused(code, lines(ToString::to_string), hints)
            }
        }
    )*};
}
refusals_of_several! { BalanceError, EngineError }

/// The status that came with the error; `LW_STATUS_OK` for NULL. Any thread.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_status(error: *const lw_error) -> lw_status {
    // SAFETY: null or an error, by the contract above.
    unsafe { error.as_ref() }.map_or(lw_status::Ok, |e| e.status)
}

/// A borrowed text of an error; empty for a null one.
unsafe fn borrowed(error: *const lw_error, pick: fn(&lw_error) -> &CString) -> *const c_char {
    // SAFETY: null or an error, by the contract of the caller.
    unsafe { error.as_ref() }.map_or(c"".as_ptr(), |e| pick(e).as_ptr())
}

/// A code that never changes its meaning: "quantity.no-unit" from the kernel, "c.null-pointer" from the
/// call itself.
///
/// Never NULL; NUL-terminated UTF-8 that lives as long as the error; empty for NULL. Any thread.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_code(error: *const lw_error) -> *const c_char {
    // SAFETY: passed on under the same contract.
    unsafe { borrowed(error, |e| &e.code) }
}

/// What is wrong, with the values. A document or an engine may have several things wrong, one per line.
///
/// Never NULL; NUL-terminated UTF-8 that lives as long as the error; empty for NULL. Any thread.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_message(error: *const lw_error) -> *const c_char {
    // SAFETY: passed on under the same contract.
    unsafe { borrowed(error, |e| &e.message) }
}

/// What to do about it; may be empty.
///
/// Never NULL; NUL-terminated UTF-8 that lives as long as the error; empty for NULL. Any thread.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_hint(error: *const lw_error) -> *const c_char {
    // SAFETY: passed on under the same contract.
    unsafe { borrowed(error, |e| &e.hint) }
}

/// Where it is: the parameter, or the JSON pointer of the first problem of a document; may be empty.
///
/// Never NULL; NUL-terminated UTF-8 that lives as long as the error; empty for NULL. Any thread.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_place(error: *const lw_error) -> *const c_char {
    // SAFETY: passed on under the same contract.
    unsafe { borrowed(error, |e| &e.place) }
}

/// The first refused row of a column, from 0; false, and `row` untouched, if the error is not about a row.
/// Any thread.
///
/// # Safety
/// `error` is NULL or an error that was not freed; `row` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_row(error: *const lw_error, row: *mut usize) -> bool {
    // SAFETY: null or an error, by the contract above.
    let found = unsafe { error.as_ref() }.and_then(|e| e.row);
    if let (Some(found), false) = (found, row.is_null()) {
        // SAFETY: not null, so writable by the contract above.
        unsafe { row.write(found) };
    }
    found.is_some()
}

/// The number that was refused, and the least and greatest accepted, in the unit the message names;
/// false, and nothing written, if the error is not about a range. Any thread.
///
/// # Safety
/// `error` is NULL or an error that was not freed; `got_least_greatest` is NULL or writable for three.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_range(
    error: *const lw_error,
    got_least_greatest: *mut f64,
) -> bool {
    // SAFETY: null or an error, by the contract above.
    let found = unsafe { error.as_ref() }.and_then(|e| e.range);
    if let (Some(found), false) = (found, got_least_greatest.is_null()) {
        // SAFETY: not null, so writable for three by the contract above.
        unsafe { got_least_greatest.cast::<[f64; 3]>().write_unaligned(found) };
    }
    found.is_some()
}

/// Frees an error; NULL is allowed. Once for each error.
///
/// # Safety
/// `error` is NULL or an error that was not freed and that nothing uses any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_free(error: *mut lw_error) {
    if !error.is_null() {
        // SAFETY: the boundary made it from a box, and it was not freed since.
        drop(unsafe { Box::from_raw(error) });
    }
}
