//! Why cam events, a window or a stop plan could not be made.

use alloc::string::String;

/// Why cam events, a window or a stop plan could not be made. Angles are crank degrees.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ValveError {
    /// An event angle no cam of a running engine has.
    #[error("{event} at {got} deg is outside {min} to {max} deg")]
    EventOutOfRange {
        /// Which event.
        event: &'static str,
        /// The refused angle.
        got: f64,
        /// Least accepted.
        min: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// The guard leaves nothing of the base circle, or is negative.
    #[error("a guard of {got} deg is outside 0 to {max} deg")]
    GuardOutOfRange {
        /// The refused guard.
        got: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// Cam-timed poppet valves of this kind belong to the four-stroke cycle.
    #[error("stop plans are computed for four-stroke engines only")]
    NotFourStroke,
    /// No valves of either kind, or more than a cylinder can hold.
    #[error("{got} {kind} valves per cylinder is outside {min} to 4")]
    ValveCount {
        /// Intake or exhaust.
        kind: &'static str,
        /// The refused count.
        got: u8,
        /// Least accepted.
        min: u8,
    },
}

impl ValveError {
    /// A short name that never changes, for documents and bindings to match on.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::EventOutOfRange { .. } => "valve.event-out-of-range",
            Self::GuardOutOfRange { .. } => "valve.guard-out-of-range",
            Self::NotFourStroke => "valve.not-four-stroke",
            Self::ValveCount { .. } => "valve.count",
        }
    }

    /// What to do about it.
    #[must_use]
    pub fn hint(&self) -> String {
        String::from(match self {
            Self::EventOutOfRange { .. } => {
                "give the maker's figure; an event on the other side of dead centre is negative"
            }
            Self::GuardOutOfRange { .. } => "a guard of 10 to 30 deg covers usual ramps",
            Self::NotFourStroke => "leave the valve section out, or set the cycle to four_stroke",
            Self::ValveCount { .. } => "state how many valves of the kind each cylinder has",
        })
    }
}
