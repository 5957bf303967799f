//! What an error tells, and the calls that cannot fail.

use crate::source::{some, text};
use crate::table::RECORDS;
use arbitrary::Unstructured;
use lashwork_c::error::{
    lw_error, lw_error_code, lw_error_free, lw_error_hint, lw_error_message, lw_error_place,
    lw_error_range, lw_error_row, lw_error_status,
};
use lashwork_c::status::{lw_status, lw_status_name};
use lashwork_c::version::{lw_abi_version, lw_struct_size, lw_version};
use std::ffi::{CStr, c_char};
use std::ptr::null;

/// A text of the library that ends with 0, with its words in UTF-8.
fn words(told: *const c_char) -> String {
    assert!(!told.is_null());
    // SAFETY: the library's own text, which lives as long as what it belongs to.
    let told = unsafe { CStr::from_ptr(told) };
    told.to_str()
        .map_or_else(|why| panic!("no UTF-8: {why}"), str::to_owned)
}

/// An error says what happened and is then let go.
pub(crate) fn of_error(call: &str, error: *mut lw_error, status: lw_status) -> String {
    if error.is_null() {
        assert_eq!(status, lw_status::Ok, "{call} gives a status and no error");
        return String::new();
    }
    let (mut row, mut range) = (0, [0.0; 3]);
    // SAFETY: an error of the library that nobody has let go, and places of this function.
    unsafe {
        assert_ne!(status, lw_status::Ok, "{call} was done and gives an error");
        assert_eq!(lw_error_status(error), status, "{call}");
        let (code, message) = (words(lw_error_code(error)), words(lw_error_message(error)));
        assert!(
            !code.is_empty() && !message.is_empty(),
            "{call}: {code}: {message}"
        );
        let told = [words(lw_error_hint(error)), words(lw_error_place(error))].join("|");
        let has_row = lw_error_row(error, &raw mut row);
        let has_range = lw_error_range(error, range.as_mut_ptr());
        lw_error_free(error);
        format!(
            "{code}|{message}|{told}|{has_row}|{row}|{has_range}|{:?}",
            range.map(f64::to_bits)
        )
    }
}

/// The calls that take no place to write to.
pub(crate) fn of_nothing(source: &mut Unstructured<'_>) {
    let any = text(source);
    // SAFETY: a text with its length, or none where that is allowed.
    unsafe {
        assert!(!words(lw_status_name(some(source))).is_empty());
        assert!(!words(lw_version()).is_empty() && lw_abi_version() > 0);
        let _ = lw_struct_size(any.as_ptr().cast(), any.len());
        assert_eq!(lw_struct_size(null(), 0), 0);
        lw_error_free(std::ptr::null_mut());
    }
}

/// The table has the sizes that the library has.
pub(crate) fn sizes_agree() {
    for record in RECORDS.iter().filter(|record| record.name != "lw_text") {
        // SAFETY: a text with its length.
        let own = unsafe { lw_struct_size(record.name.as_ptr().cast(), record.name.len()) };
        assert_eq!(own, record.size, "{}", record.name);
    }
}
