//! What a call returns.

use std::ffi::{CStr, c_char};

/// The outcome of a call. Numbers are never reused.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_status {
    /// Done; every output is written.
    Ok = 0,
    /// A pointer that may not be NULL is NULL.
    NullPointer = 1,
    /// A pointer is not aligned for what it points to.
    Misaligned = 2,
    /// The `struct_size` of a structure is not one this library knows.
    StructSize = 3,
    /// An integer is not a value of the enumeration it was given for.
    UnknownValue = 4,
    /// Text is not UTF-8.
    NotUtf8 = 5,
    /// A buffer or array is too short; the size it needs was written, nothing else.
    ShortBuffer = 6,
    /// An index or a length is beyond the end.
    OutOfBounds = 7,
    /// The kernel refuses the values; the error says why, with a code.
    Refused = 8,
    /// At least one row of a column was refused and is marked; all other rows are done.
    RowsRefused = 9,
    /// A defect of the library, caught inside it; outputs must not be used.
    Panic = 10,
}

impl lw_status {
    /// Every status there is, in the order of its number.
    ///
    /// cbindgen:ignore
    pub const ALL: [Self; 11] = [
        Self::Ok,
        Self::NullPointer,
        Self::Misaligned,
        Self::StructSize,
        Self::UnknownValue,
        Self::NotUtf8,
        Self::ShortBuffer,
        Self::OutOfBounds,
        Self::Refused,
        Self::RowsRefused,
        Self::Panic,
    ];

    /// A name that never changes.
    #[must_use]
    pub const fn name(self) -> &'static CStr {
        match self {
            Self::Ok => c"c.ok",
            Self::NullPointer => c"c.null-pointer",
            Self::Misaligned => c"c.misaligned",
            Self::StructSize => c"c.struct-size",
            Self::UnknownValue => c"c.unknown-value",
            Self::NotUtf8 => c"c.not-utf8",
            Self::ShortBuffer => c"c.short-buffer",
            Self::OutOfBounds => c"c.out-of-bounds",
            Self::Refused => c"c.refused",
            Self::RowsRefused => c"c.rows-refused",
            Self::Panic => c"c.panic",
        }
    }
}

/// The name of a status, such as "c.short-buffer"; "c.unknown-status" for any other number.
///
/// Never NULL; NUL-terminated, static, not to be freed. Any thread.
#[must_use]
#[unsafe(no_mangle)]
pub extern "C" fn lw_status_name(status: u32) -> *const c_char {
    let found = lw_status::ALL.iter().find(|known| **known as u32 == status);
    found
        .map_or(c"c.unknown-status", |known| known.name())
        .as_ptr()
}
