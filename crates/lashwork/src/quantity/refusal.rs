//! What every error of this library says besides its message.

use alloc::borrow::Cow;
use core::error::Error;

/// Why something was refused: a stable code, the message (`to_string`), and what to do about it.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::Marked;
/// let refused = Marked::parse("0.15").unwrap_err();
/// assert_eq!(refused.code(), "quantity.no-unit");
/// assert!(refused.to_string().contains("0.15"));
/// assert!(refused.hint().contains("mm"));
/// ```
pub trait Refusal: Error {
    /// A short name that never changes, for documents and bindings to match on.
    fn code(&self) -> &'static str;

    /// What to do about it.
    fn hint(&self) -> Cow<'static, str>;
}
