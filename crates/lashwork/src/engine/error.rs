//! Why parts do not make an engine.

use super::CylinderLabel;
use crate::Refusal;
use crate::quantity::CrankAngle;
use alloc::borrow::Cow;
use alloc::string::String;

/// Why parts do not make an engine.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::engine::EngineError;
/// let problem = EngineError::NoCylinders;
/// assert_eq!(problem.code(), "engine.no-cylinders");
/// assert_eq!(problem.to_string(), "the engine has no cylinders");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EngineError {
    /// A cylinder's name is empty.
    #[error("a cylinder's label is empty")]
    EmptyLabel,
    /// The list of cylinders is empty.
    #[error("the engine has no cylinders")]
    NoCylinders,
    /// Two cylinders have one name.
    #[error("cylinder {cylinder} is listed twice")]
    LabelTwice {
        /// The name.
        cylinder: CylinderLabel,
    },
    /// The order names a cylinder the engine does not have.
    #[error("the firing order names cylinder {cylinder}, which the engine does not have")]
    OrderUnknown {
        /// The unknown name.
        cylinder: CylinderLabel,
    },
    /// The order names a cylinder more than once.
    #[error("the firing order names cylinder {cylinder} more than once")]
    OrderTwice {
        /// The repeated name.
        cylinder: CylinderLabel,
    },
    /// The order leaves a cylinder out.
    #[error("the firing order leaves out cylinder {cylinder}")]
    OrderMissing {
        /// The name left out.
        cylinder: CylinderLabel,
    },
    /// Not one interval for each cylinder.
    #[error("{got} firing intervals are listed for {wanted} cylinders")]
    IntervalCount {
        /// How many were listed.
        got: usize,
        /// How many firings a cycle has.
        wanted: usize,
    },
    /// An interval is zero or negative.
    #[error("the interval after cylinder {after} is {} deg, not above zero", .got.degrees())]
    IntervalNotPositive {
        /// The cylinder that fires at its beginning, or the interval's number in the list.
        after: String,
        /// The refused interval.
        got: CrankAngle,
    },
    /// The intervals do not fill the cycle.
    #[error(
        "the firing intervals add up to {sum:.3} deg, a cycle has {} deg",
        .cycle.degrees()
    )]
    IntervalSum {
        /// The sum of the intervals in degrees.
        sum: f64,
        /// The length of the cycle.
        cycle: CrankAngle,
    },
    /// Intervals are asked from geometry that is not given.
    #[error("cylinder {cylinder} has no bank and crankpin angle to work out its firing from")]
    GeometryMissing {
        /// The cylinder.
        cylinder: CylinderLabel,
    },
    /// Order and intervals put a top dead centre elsewhere than the crank does.
    #[error(
        "cylinder {cylinder} comes to top dead centre {:.2} deg after cylinder {first} by order \
         and intervals, {:.2} deg by bank and crankpin angle, not counting whole turns",
        .by_order.degrees(), .by_geometry.degrees()
    )]
    GeometryDisagrees {
        /// The cylinder.
        cylinder: CylinderLabel,
        /// The first cylinder of the order.
        first: CylinderLabel,
        /// By order and intervals, from 0 up to 360.
        by_order: CrankAngle,
        /// By bank and crankpin, from 0 up to 360.
        by_geometry: CrankAngle,
    },
    /// The crank cannot make the cylinders fire in this order within one cycle.
    #[error(
        "cylinder {cylinder} cannot fire after cylinder {previous} within the cycle: top dead \
         centres by geometry are at {:.2} deg and {:.2} deg, not counting whole turns",
        .tdc.degrees(), .previous_tdc.degrees()
    )]
    OrderAgainstGeometry {
        /// The first cylinder that does not fit.
        cylinder: CylinderLabel,
        /// The cylinder before it in the order.
        previous: CylinderLabel,
        /// Its top dead centre after that of the first cylinder, from 0 up to 360.
        tdc: CrankAngle,
        /// The same of the cylinder before it.
        previous_tdc: CrankAngle,
    },
}

impl Refusal for EngineError {
    fn code(&self) -> &'static str {
        match self {
            Self::EmptyLabel => "engine.empty-label",
            Self::NoCylinders => "engine.no-cylinders",
            Self::LabelTwice { .. } => "engine.label-twice",
            Self::OrderUnknown { .. } => "engine.order-unknown",
            Self::OrderTwice { .. } => "engine.order-twice",
            Self::OrderMissing { .. } => "engine.order-missing",
            Self::IntervalCount { .. } => "engine.interval-count",
            Self::IntervalNotPositive { .. } => "engine.interval-not-positive",
            Self::IntervalSum { .. } => "engine.interval-sum",
            Self::GeometryMissing { .. } => "engine.geometry-missing",
            Self::GeometryDisagrees { .. } => "engine.geometry-disagrees",
            Self::OrderAgainstGeometry { .. } => "engine.order-against-geometry",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::EmptyLabel => Cow::Borrowed("name the cylinder, for example \"1\" or \"L3\""),
            Self::NoCylinders => Cow::Borrowed("list at least one cylinder"),
            Self::LabelTwice { cylinder } => Cow::Owned(alloc::format!(
                "give one of the cylinders {cylinder} another label"
            )),
            Self::OrderUnknown { cylinder } => Cow::Owned(alloc::format!(
                "list cylinder {cylinder}, or correct the firing order"
            )),
            Self::OrderTwice { cylinder } | Self::OrderMissing { cylinder } => Cow::Owned(
                alloc::format!("name cylinder {cylinder} exactly once in the firing order"),
            ),
            Self::IntervalCount { wanted, .. } => Cow::Owned(alloc::format!(
                "list {wanted} intervals, the last from the last cylinder back to the first"
            )),
            Self::IntervalNotPositive { .. } => {
                Cow::Borrowed("give the crank degrees from one firing to the next")
            }
            Self::IntervalSum { cycle, .. } => Cow::Owned(alloc::format!(
                "correct the intervals so that they add up to {} deg, including the one back to the first",
                cycle.degrees()
            )),
            Self::GeometryMissing { cylinder } => Cow::Owned(alloc::format!(
                "give bank and crankpin of cylinder {cylinder}, or list the intervals"
            )),
            Self::GeometryDisagrees { .. } => Cow::Borrowed(
                "check the firing order, the intervals and the two angles; angles count in the \
                 running direction",
            ),
            Self::OrderAgainstGeometry { .. } => Cow::Borrowed(
                "check the firing order and the angles; angles count in the running direction",
            ),
        }
    }
}
