//! What is taken for granted of readings of evenness.

use core::fmt;
use serde::Serialize;
/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum EvennessAssumption {
    /// Lobes open and close alike.
    SymmetricalLobes,
    /// A play of every second spark does not show in dwell.
    EveryOtherHidden,
    /// The eccentricity is worked out from the sideways shift alone.
    FlankNotStated,
}

impl EvennessAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::ignition::evenness::EvennessAssumption;
    /// assert_eq!(EvennessAssumption::SymmetricalLobes.code(), "ignition.symmetrical-lobes");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::SymmetricalLobes => "ignition.symmetrical-lobes",
            Self::EveryOtherHidden => "ignition.every-other-hidden",
            Self::FlankNotStated => "ignition.flank-not-stated",
        }
    }
}

impl fmt::Display for EvennessAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::SymmetricalLobes => {
                "each lobe is taken to close as early as it opens late, so that dwell shows the spark"
            }
            Self::EveryOtherHidden => {
                "with an even number of lobes, sparks that are early and late in turn leave all dwells alike: \
                 only flashes show that"
            }
            Self::FlankNotStated => {
                "how far the contacts open in a degree is not stated, so the eccentricity is worked out from \
                 the sideways shift of the lobe alone and is at most that"
            }
        })
    }
}
