//! What a small build leaves out, without a `cfg` where the work is done.
//!
//! A type that only a whole build can make holds a [`Whole`]. Without the feature `whole` there is no value of
//! that: constructors of such a type refuse, none of it exists, and the compiler drops all code that works
//! on one.
//!
//! Uses `quantity`.

use crate::Refusal;
use alloc::borrow::Cow;

#[cfg(feature = "whole")]
type Held = ();
#[cfg(not(feature = "whole"))]
type Held = core::convert::Infallible;

#[cfg(feature = "whole")]
const HELD: Option<Held> = Some(());
#[cfg(not(feature = "whole"))]
const HELD: Option<Held> = None;

/// Shows that this is a whole build: one with the feature `whole`.
///
/// ```
/// assert!(lashwork::Whole::here().is_ok());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Whole(Held);

impl Whole {
    /// There is one, if this is a whole build.
    ///
    /// # Errors
    /// [`LeftOut`] without the feature `whole`.
    pub fn here() -> Result<Self, LeftOut> {
        HELD.map(Self).ok_or(LeftOut)
    }
}

/// Why something is refused that only a whole build can do.
///
/// ```
/// use lashwork::Refusal;
/// assert_eq!(lashwork::LeftOut.code(), "build.left-out");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("this build is for single readings and leaves this out")]
pub struct LeftOut;

impl Refusal for LeftOut {
    fn code(&self) -> &'static str {
        "build.left-out"
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(
            "ask the whole library: in JavaScript \"lashwork\" in place of \"lashwork/quick\", in Rust its \
             feature \"whole\"",
        )
    }
}
