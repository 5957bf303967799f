//! Why an estimate, a limit, a rule or a specification could not be made.

use super::Limits;
use crate::Refusal;
use crate::quantity::{Lash, Marked, QuantityError, Quoted};
use alloc::borrow::Cow;
use alloc::string::String;

/// Why an estimate, a limit, a rule or a specification could not be made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ToleranceError {
    /// A standard uncertainty is negative, too large or not finite.
    #[error("standard uncertainty {got} {unit} is outside 0 to {max} {unit}")]
    Uncertainty {
        /// The refused number.
        got: f64,
        /// Greatest value that is accepted.
        max: f64,
        /// The unit of both.
        unit: &'static str,
    },
    /// An estimate bounds the quantity on neither side.
    #[error("the estimate has neither a lower nor an upper end")]
    NoEnd,
    /// The lower end of an estimate lies above its upper end.
    #[error("an estimate from {low} {unit} to {high} {unit} has its ends the wrong way round")]
    CrossedEstimate {
        /// The lower end as given.
        low: f64,
        /// The upper end as given.
        high: f64,
        /// The unit of both.
        unit: &'static str,
    },
    /// The lower limit lies above the upper limit.
    #[error("the lower limit {low} lies above the upper limit {high}")]
    CrossedLimits {
        /// The lower limit as written.
        low: String,
        /// The upper limit as written.
        high: String,
    },
    /// A text that is not a band.
    #[error("{} does not say where a band begins or ends", Quoted(.text))]
    LimitsText {
        /// The text as it was written.
        text: String,
    },
    /// The value to set lies outside the band to set to.
    #[error("the value to set, {set_to}, lies outside the set band, {set}")]
    SetToOutsideSet {
        /// The value to set as written.
        set_to: Marked,
        /// The set band as written.
        set: Limits<Lash>,
    },
    /// A range with one end has no middle to set to.
    #[error("{set} is a range with one end, and no value to set is given")]
    NoValueToSet {
        /// The range as written.
        set: Limits<Lash>,
    },
    /// The set band reaches outside the band that may be left alone.
    #[error("the set band, {set}, reaches outside the leave-alone band, {leave_alone}")]
    SetOutsideLeaveAlone {
        /// The set band as written.
        set: Limits<Lash>,
        /// The leave-alone band as written.
        leave_alone: Limits<Lash>,
    },
    /// The first engine number of a range lies above the last.
    #[error("engine numbers {from} to {to} are the wrong way round")]
    CrossedNumbers {
        /// The first number as given.
        from: u64,
        /// The last number as given.
        to: u64,
    },
    /// A confidence of a decision rule is below one half, or so high that nothing could reach it.
    #[error("confidence {got} on the {side} side is not from 0.5 to below 1")]
    Confidence {
        /// `lower` or `upper`.
        side: &'static str,
        /// The refused number.
        got: f64,
    },
    /// A limit below zero.
    #[error("a limit of {limit} asks for a gap below zero")]
    NegativeLimit {
        /// The limit as written.
        limit: Marked,
    },
    /// A picture has no bins, too many, or no width.
    #[error("{bins} bins from {from} {unit} to {to} {unit} are not a valid histogram")]
    Bins {
        /// The refused number.
        bins: usize,
        /// Most bins there may be.
        most: usize,
        /// Where the picture starts.
        from: f64,
        /// Where it ends.
        to: f64,
        /// The unit of both.
        unit: &'static str,
    },
    /// Columns of readings do not belong together.
    #[error("the column {column} has {got} rows instead of {rows}")]
    ColumnLengths {
        /// The column that differs.
        column: &'static str,
        /// Rows it has.
        got: usize,
        /// Rows there are.
        rows: usize,
    },
    /// Neither a lower nor an upper limit.
    #[error("there is neither a lower nor an upper limit")]
    NoLimit,
    /// A number that the quantity cannot be, or a text that is none.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

impl Refusal for ToleranceError {
    fn code(&self) -> &'static str {
        match self {
            Self::Uncertainty { .. } => "tolerance.uncertainty",
            Self::NoEnd => "tolerance.no-end",
            Self::CrossedEstimate { .. } => "tolerance.crossed-estimate",
            Self::CrossedLimits { .. } => "tolerance.crossed-limits",
            Self::LimitsText { .. } => "tolerance.limits-text",
            Self::SetToOutsideSet { .. } => "tolerance.set-to-outside-set",
            Self::NoValueToSet { .. } => "tolerance.no-value-to-set",
            Self::SetOutsideLeaveAlone { .. } => "tolerance.set-outside-leave-alone",
            Self::CrossedNumbers { .. } => "tolerance.crossed-numbers",
            Self::Confidence { .. } => "tolerance.confidence",
            Self::NegativeLimit { .. } => "tolerance.negative-limit",
            Self::Bins { .. } => "tolerance.bins",
            Self::ColumnLengths { .. } => "tolerance.column-lengths",
            Self::NoLimit => "tolerance.no-limit",
            Self::Quantity(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::Uncertainty { max, unit, .. } => Cow::Owned(alloc::format!(
                "give a standard uncertainty from 0 to {max} {unit}"
            )),
            Self::NoEnd => Cow::Borrowed("give the end that is known"),
            Self::CrossedEstimate { .. } | Self::CrossedNumbers { .. } => {
                Cow::Borrowed("give the smaller value first")
            }
            Self::CrossedLimits { low, high } => {
                Cow::Owned(alloc::format!("check the units, or write {high} to {low}"))
            }
            Self::LimitsText { .. } => Cow::Borrowed(
                "write \"0.15 mm to 0.25 mm\", \"at least 0.15 mm\" or \"at most 0.25 mm\", in the units of the quantity",
            ),
            Self::SetToOutsideSet { set, .. } => Cow::Owned(alloc::format!(
                "give a value to set in {set}, or correct the set band"
            )),
            Self::NoValueToSet { .. } => {
                Cow::Borrowed("give the value to set, or the other end of the range")
            }
            Self::SetOutsideLeaveAlone { leave_alone, .. } => Cow::Owned(alloc::format!(
                "give a set band inside {leave_alone}, or correct the leave-alone band"
            )),
            Self::NegativeLimit { .. } => {
                Cow::Borrowed("write limits of zero or more; leave an end out to leave it open")
            }
            Self::Bins { most, .. } => Cow::Owned(alloc::format!(
                "ask for 1 to {most} bins, with the end above the start"
            )),
            Self::Confidence { .. } => {
                Cow::Borrowed("write 0.95 for 95 %; 0.5 means no guard on that side")
            }
            Self::ColumnLengths { .. } => Cow::Borrowed("give columns of equal length"),
            Self::NoLimit => Cow::Borrowed("give the limit that is printed"),
            Self::Quantity(inner) => inner.hint(),
        }
    }
}
