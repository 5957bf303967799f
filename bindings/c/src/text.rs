//! Text that the library made and the caller frees.

use crate::boundary::Outcome;
use crate::pointers::{Place, fill};
use std::ffi::c_char;
use std::ptr;

/// Text made by the library: `len` bytes of UTF-8 at `data`, followed by a NUL that `len` does not
/// count. Owned by the caller, who gives it back with `lw_text_free`. Text of the library holds no
/// other NUL; a JSON answer escapes it.
#[repr(C)]
#[derive(Debug)]
pub struct lw_text {
    /// The first byte; NULL after `lw_text_free`.
    pub data: *mut c_char,
    /// The number of bytes before the NUL.
    pub len: usize,
}

/// Moves bytes into a caller's place.
pub(crate) fn hand_over(bytes: impl Into<Vec<u8>>, into: Place<lw_text>) {
    let mut bytes = bytes.into();
    let len = bytes.len();
    bytes.push(0);
    let boxed = bytes.into_boxed_slice();
    into.write(lw_text {
        data: Box::into_raw(boxed).cast(),
        len,
    });
}

/// Frees text and empties the structure, so that freeing it again does nothing.
///
/// `text` may be NULL, and so may its `data`. One thread at a time for one text.
///
/// # Safety
/// `text` is NULL or points to a structure that is zeroed or that a call of this library wrote.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_text_free(text: *mut lw_text) {
    // SAFETY: null or a structure of the caller, by the contract above.
    let Some(text) = (unsafe { text.as_mut() }) else {
        return;
    };
    if !text.data.is_null() {
        let bytes = ptr::slice_from_raw_parts_mut(text.data.cast::<u8>(), text.len + 1);
        // SAFETY: `hand_over` made it from a box of just this length, and nothing freed it since.
        drop(unsafe { Box::from_raw(bytes) });
    }
    text.data = ptr::null_mut();
    text.len = 0;
}

/// Writes text and a NUL into a caller's buffer, or says how many bytes that takes.
///
/// # Safety
/// `data` is writable for `capacity` bytes; `needed` is writable or null.
pub(crate) unsafe fn fill_text(
    text: &str,
    buffer: (*mut c_char, usize),
    needed: *mut usize,
) -> Outcome {
    let bytes: Vec<u8> = text.bytes().chain([0]).collect();
    let (data, capacity) = buffer;
    // SAFETY: passed on under the same contract.
    unsafe { fill("buffer", &bytes, (data.cast(), capacity), needed) }
}
