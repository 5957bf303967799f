//! Why timing cannot be told, judged or fitted.

use crate::Refusal;
use crate::quantity::{Advance, CrankSpeed, QuantityError};
use crate::tolerance::{BudgetError, ToleranceError};
use alloc::borrow::Cow;

/// Why timing cannot be told, judged or fitted.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::timing::LampDelay;
/// let refused = LampDelay::from_microseconds(5000.0).unwrap_err();
/// assert_eq!(refused.code(), "ignition.lamp-delay");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TimingError {
    /// A table has no points, or too many.
    #[error("the table of {what} has {got} points, not 1 to 100")]
    CurveRows {
        /// Which table.
        what: &'static str,
        /// How many there are.
        got: usize,
    },
    /// The columns of a point are the wrong way round, or below nought.
    #[error(
        "{what}, point {point}: a least of {least} deg and a most of {most} deg are no span of advance"
    )]
    CurveColumns {
        /// Which table.
        what: &'static str,
        /// Which point, from 1.
        point: usize,
        /// The least, in crank degrees.
        least: f64,
        /// The most.
        most: f64,
    },
    /// Speeds or vacua that do not rise.
    #[error(
        "{what}, point {point}: {got} {unit} is not above {before} {unit}, that of the point before"
    )]
    CurveNotRising {
        /// Which table.
        what: &'static str,
        /// Which point, from 1.
        point: usize,
        /// Of the point before.
        before: f64,
        /// The refused number.
        got: f64,
        /// Unit of both.
        unit: &'static str,
    },
    /// The advance falls.
    #[error("{what}, point {point}: the advance is less than at the point before")]
    CurveFalls {
        /// Which table.
        what: &'static str,
        /// Which point, from 1.
        point: usize,
    },
    /// Crank and distributor columns that are not as far apart as the drive says.
    #[error(
        "advance by speed, point {point}: the {column} is {crank} at the crank and {distributor} at the distributor, not {turns} times as much"
    )]
    NotDouble {
        /// Which point, from 1.
        point: usize,
        /// `speed`, `least` or `most`.
        column: &'static str,
        /// At the crank.
        crank: f64,
        /// At the distributor.
        distributor: f64,
        /// Crank turns for one turn of the distributor.
        turns: f64,
    },
    /// Columns of unequal lengths.
    #[error("columns of {first} and {other} rows do not belong together")]
    ColumnLengths {
        /// Rows of the first.
        first: usize,
        /// Rows of the other.
        other: usize,
    },
    /// Above the last point of a table that does not say that it ends there.
    #[error(
        "the table of {what} is printed up to {last} {unit}; what it does at {got} {unit} is not known"
    )]
    BeyondCurve {
        /// Which table.
        what: &'static str,
        /// The last point.
        last: f64,
        /// What was asked for.
        got: f64,
        /// Unit of both.
        unit: &'static str,
    },
    /// A running reading without a table to take it back by.
    #[error("at {speed} the distributor may have advanced by an amount that no table is given for")]
    NoCurve {
        /// The speed of the reading, or of the printed figure.
        speed: CrankSpeed,
    },
    /// The vacuum hose was connected, and what its capsule adds is not known.
    #[error("the vacuum hose was connected, and what the capsule then adds is not known")]
    VacuumNotKnown,
    /// A static point no engine has.
    #[error("a static ignition point of {got} is outside 45 deg BTDC to 20 deg ATDC")]
    StaticRange {
        /// The refused point.
        got: Advance,
    },
    /// A total advance no engine has.
    #[error("{what} of {got:.1} deg is over {most:.1} deg")]
    TotalAdvance {
        /// What adds up to it.
        what: &'static str,
        /// Crank degrees before top dead centre.
        got: f64,
        /// Greatest that is accepted.
        most: f64,
    },
    /// A lamp's delay out of range.
    #[error("a lamp's delay of {got} us is outside 0 to 1000 us")]
    LampDelay {
        /// The refused number of microseconds.
        got: f64,
    },
    /// The doubt of a speed out of range.
    #[error("a standard uncertainty of {got} rpm is outside 0 to 1000 rpm")]
    SpeedUncertainty {
        /// The refused number.
        got: f64,
    },
    /// A circle that is no clamp's.
    #[error("a clamp circle of {got} mm is outside 10 to 500 mm")]
    ClampCircle {
        /// The refused diameter in millimetres.
        got: f64,
    },
    /// The readings of a curve were not all taken without vacuum.
    #[error("reading {reading} of the curve was taken with the vacuum hose connected")]
    VacuumInCurve {
        /// Which reading, from 1.
        reading: usize,
    },
    /// A reading of a curve without uncertainty.
    #[error("reading {reading} of the curve has an uncertainty of nought")]
    NoUncertainty {
        /// Which reading, from 1.
        reading: usize,
    },
    /// Too few or too many readings for a curve.
    #[error("{got} readings of the curve are not {needed} to 100")]
    Readings {
        /// How many there are.
        got: usize,
        /// How many are needed.
        needed: usize,
    },
    /// A probability that is none.
    #[error("a prior probability of {got} is not strictly between 0 and 1")]
    Prior {
        /// The refused number.
        got: f64,
    },
    /// A number leaves the range of its quantity.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An estimate or a limit cannot be made.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
    /// An uncertainty budget cannot be made.
    #[error(transparent)]
    Budget(#[from] BudgetError),
}

impl Refusal for TimingError {
    fn code(&self) -> &'static str {
        match self {
            Self::CurveRows { .. } => "ignition.curve-rows",
            Self::CurveColumns { .. } => "ignition.curve-columns",
            Self::CurveNotRising { .. } => "ignition.curve-not-rising",
            Self::CurveFalls { .. } => "ignition.curve-falls",
            Self::NotDouble { .. } => "ignition.not-double",
            Self::ColumnLengths { .. } => "ignition.column-lengths",
            Self::BeyondCurve { .. } => "ignition.beyond-curve",
            Self::NoCurve { .. } => "ignition.no-curve",
            Self::VacuumNotKnown => "ignition.vacuum-not-known",
            Self::StaticRange { .. } => "ignition.static-range",
            Self::TotalAdvance { .. } => "ignition.total-advance",
            Self::LampDelay { .. } => "ignition.lamp-delay",
            Self::SpeedUncertainty { .. } => "ignition.speed-uncertainty",
            Self::ClampCircle { .. } => "ignition.clamp-circle",
            Self::VacuumInCurve { .. } => "ignition.vacuum-in-curve",
            Self::NoUncertainty { .. } => "ignition.no-uncertainty",
            Self::Readings { .. } => "ignition.curve-readings",
            Self::Prior { .. } => "ignition.prior",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
            Self::Budget(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::CurveRows { .. } => "list the points of the table, the lowest first",
            Self::CurveColumns { .. } => {
                "give the least before the most, both from nought up; where one figure is printed, give it twice"
            }
            Self::CurveNotRising { .. } => {
                "list the points from the lowest to the highest, each once"
            }
            Self::CurveFalls { .. } => {
                "check the figures: weights and capsules only add advance as speed or vacuum grows"
            }
            Self::NotDouble { .. } => {
                "check which columns count at the crank and which at the distributor, or give one of the two"
            }
            Self::ColumnLengths { .. } => "give columns of equal length",
            Self::BeyondCurve { .. } => {
                "read within the printed table, or state that the advance ends at its last point if the book says so"
            }
            Self::NoCurve { .. } => {
                "give the table of advance by speed, or read with the engine standing, or at the speed the figure is printed for"
            }
            Self::VacuumNotKnown => {
                "pull the hose off, plug it and read again; or give the vacuum and the capsule's table"
            }
            Self::StaticRange { .. } => {
                "check the side, and whether the figure is a running one; static points lie near top dead centre"
            }
            Self::TotalAdvance { .. } => {
                "check whether crank degrees were doubled again, and whether the figure already holds the static advance"
            }
            Self::LampDelay { .. } => "give microseconds, from 0 to 1000",
            Self::SpeedUncertainty { .. } => "give revolutions a minute, from 0 to 1000",
            Self::ClampCircle { .. } => {
                "measure the diameter across the body where it can be marked"
            }
            Self::VacuumInCurve { .. } => {
                "pull the hose off, plug it, and take all readings of the curve so"
            }
            Self::NoUncertainty { .. } => {
                "give the standard uncertainty of reading the mark, about half a degree"
            }
            Self::Readings { .. } => {
                "read at one speed below where the advance begins, at two or more on its rise and one above its end"
            }
            Self::Prior { .. } => "give a fraction such as 0.5, not a percentage",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
            Self::Budget(inner) => return inner.hint(),
        })
    }
}
