//! Why an estimate, a limit, a rule or a specification could not be made.

use super::Limits;
use crate::quantity::Marked;
use alloc::string::String;

/// Why an estimate, a limit, a rule or a specification could not be made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ToleranceError {
    /// A standard uncertainty is negative, too large or not finite.
    #[error("standard uncertainty {got} mm is outside 0 to {max} mm")]
    Uncertainty {
        /// The refused number, in millimetres.
        got: f64,
        /// Greatest value that is accepted, in millimetres.
        max: f64,
    },
    /// The lower end of an estimate lies above its upper end.
    #[error("an estimate from {low_mm} mm to {high_mm} mm is crossed")]
    CrossedEstimate {
        /// The lower end as given, in millimetres.
        low_mm: f64,
        /// The upper end as given, in millimetres.
        high_mm: f64,
    },
    /// The lower limit lies above the upper limit.
    #[error("the lower limit {low} lies above the upper limit {high}")]
    CrossedLimits {
        /// The lower limit as written.
        low: Marked,
        /// The upper limit as written.
        high: Marked,
    },
    /// The value to set lies outside the band to set to.
    #[error("the value to set, {set_to}, lies outside the set band, {set}")]
    SetToOutsideSet {
        /// The value to set as written.
        set_to: Marked,
        /// The set band as written.
        set: Limits,
    },
    /// The set band reaches outside the band that may be left alone.
    #[error("the set band, {set}, reaches outside the leave-alone band, {leave_alone}")]
    SetOutsideLeaveAlone {
        /// The set band as written.
        set: Limits,
        /// The leave-alone band as written.
        leave_alone: Limits,
    },
    /// The first engine number of a range lies above the last.
    #[error("engine numbers {from} to {to} are crossed")]
    CrossedNumbers {
        /// The first number as given.
        from: u64,
        /// The last number as given.
        to: u64,
    },
    /// A confidence of a decision rule is below one half, or so high that nothing could reach it.
    #[error("confidence {got} on the {side} side is outside 0.5 up to, not including, 1")]
    Confidence {
        /// `tight` or `loose`.
        side: &'static str,
        /// The refused number.
        got: f64,
    },
    /// A hot specification without the temperature it holds at.
    #[error("a hot specification without the temperature it holds at")]
    HotReference,
    /// A limit below zero.
    #[error("a limit of {limit} asks for a gap below nothing")]
    NegativeLimit {
        /// The limit as written.
        limit: Marked,
    },
    /// A picture has no bins, too many, or no width.
    #[error("{bins} bins from {from_mm} mm to {to_mm} mm make no picture")]
    Bins {
        /// The refused number.
        bins: usize,
        /// Most bins there may be.
        most: usize,
        /// Where the picture starts, in millimetres.
        from_mm: f64,
        /// Where it ends, in millimetres.
        to_mm: f64,
    },
}

impl ToleranceError {
    /// A short name that never changes, for documents and bindings to match on.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Uncertainty { .. } => "tolerance.uncertainty",
            Self::CrossedEstimate { .. } => "tolerance.crossed-estimate",
            Self::CrossedLimits { .. } => "tolerance.crossed-limits",
            Self::SetToOutsideSet { .. } => "tolerance.set-to-outside-set",
            Self::SetOutsideLeaveAlone { .. } => "tolerance.set-outside-leave-alone",
            Self::CrossedNumbers { .. } => "tolerance.crossed-numbers",
            Self::Confidence { .. } => "tolerance.confidence",
            Self::HotReference => "tolerance.hot-reference",
            Self::NegativeLimit { .. } => "tolerance.negative-limit",
            Self::Bins { .. } => "tolerance.bins",
        }
    }

    /// What to write instead.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::Uncertainty { max, .. } => {
                alloc::format!("give a standard uncertainty from 0 to {max} mm")
            }
            Self::CrossedEstimate { .. } | Self::CrossedNumbers { .. } => {
                String::from("give the smaller value first")
            }
            Self::CrossedLimits { low, high } => {
                alloc::format!("check the units, or write {high} to {low}")
            }
            Self::SetToOutsideSet { set, .. } => {
                alloc::format!("give a value to set in {set}, or correct the set band")
            }
            Self::SetOutsideLeaveAlone { leave_alone, .. } => alloc::format!(
                "give a set band inside {leave_alone}, or correct the leave-alone band"
            ),
            Self::HotReference => {
                String::from("state the metal temperature of the hot engine that it holds at")
            }
            Self::NegativeLimit { .. } => {
                String::from("write limits of zero or more; leave an end out to leave it open")
            }
            Self::Bins { most, .. } => {
                alloc::format!("ask for 1 to {most} bins, with the end above the start")
            }
            Self::Confidence { .. } => {
                String::from("write 0.95 for 95 %; 0.5 means no guard on that side")
            }
        }
    }
}
