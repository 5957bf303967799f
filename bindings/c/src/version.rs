//! Which library this is.

use std::ffi::c_char;

/// Number of the binary interface. It changes when a program built against an older header could no
/// longer work; the shared library carries it in its name.
pub const LW_ABI_VERSION: u32 = 1;

/// The release, NUL-terminated.
const VERSION: &str = concat!(env!("CARGO_PKG_VERSION"), "\0");

/// The number of the binary interface of the library that is loaded.
///
/// Compare it with `LW_ABI_VERSION` of the header, or use `LW_ABI_MATCHES()`. Any thread.
#[must_use]
#[unsafe(no_mangle)]
pub extern "C" fn lw_abi_version() -> u32 {
    LW_ABI_VERSION
}

/// The release of the library that is loaded, such as "0.1.0".
///
/// Never NULL; NUL-terminated, static, not to be freed. Any thread.
#[must_use]
#[unsafe(no_mangle)]
pub extern "C" fn lw_version() -> *const c_char {
    VERSION.as_ptr().cast()
}
