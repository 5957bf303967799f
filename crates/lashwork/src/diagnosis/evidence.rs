//! What the diagnosis is told.

use crate::Refusal;
use crate::engine::CylinderIndex;
use crate::quantity::{Lash, LashChange, LengthUnit};
use crate::tolerance::{Estimate, Uncertainty};
use crate::valve::ValveLimits;
use crate::valve::{ValveId, ValveKind};
use alloc::borrow::Cow;
use alloc::vec::Vec;
use serde::Serialize;

/// Why the diagnosis could not be asked.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DiagnosisError {
    /// The prior is not a probability that leaves both answers open.
    #[error("the prior probability {got} of a systematic fault is outside {min} to {max}")]
    Prior {
        /// The refused number.
        got: f64,
        /// Least that is accepted.
        min: f64,
        /// Greatest that is accepted.
        max: f64,
    },
    /// There is no specification to hold the readings against.
    #[error("no specification to compare the readings with")]
    NoSource,
}

impl Refusal for DiagnosisError {
    fn code(&self) -> &'static str {
        match self {
            Self::Prior { .. } => "job.diagnosis-prior",
            Self::NoSource => "job.diagnosis-no-source",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Prior { .. } => {
                "give the probability, before any reading, of a systematic fault: 0.1 unless there is a reason for another"
            }
            Self::NoSource => "name the specification the engine is assumed to follow",
        })
    }
}

/// The probability, before any reading, of a systematic fault on this engine.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::diagnosis::Prior;
/// assert_eq!(Prior::usual().value(), 0.1);
/// assert!(Prior::new(0.5).is_ok());
/// assert_eq!(Prior::new(10.0).unwrap_err().code(), "job.diagnosis-prior");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Prior(f64);

impl Prior {
    /// Least value.
    pub const MIN: f64 = 0.001;
    /// Greatest value.
    pub const MAX: f64 = 0.9;

    /// Takes a probability.
    ///
    /// # Errors
    /// [`DiagnosisError::Prior`] outside [`Self::MIN`] to [`Self::MAX`].
    pub fn new(value: f64) -> Result<Self, DiagnosisError> {
        if (Self::MIN..=Self::MAX).contains(&value) {
            Ok(Self(value))
        } else {
            Err(DiagnosisError::Prior {
                got: value,
                min: Self::MIN,
                max: Self::MAX,
            })
        }
    }

    /// One engine in ten, when nothing is stated: this library's choice.
    #[must_use]
    pub const fn usual() -> Self {
        Self(0.1)
    }

    /// The probability.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.0
    }
}

/// One reading, as felt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// The valve.
    pub valve: ValveId,
    /// The gap as felt, before any thermal correction.
    pub felt: Estimate<Lash>,
    /// The unit the leaves are marked in.
    pub marked_in: LengthUnit,
}

impl Seen {
    /// Whether the leaves are marked in inches or thousandths of one.
    #[must_use]
    pub const fn in_inches(&self) -> bool {
        matches!(self.marked_in, LengthUnit::Inch | LengthUnit::Thou)
    }
}

/// A specification and what the metal's warmth adds to a reading against its reference.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Source {
    /// Limits of the intake valves.
    pub intake: ValveLimits,
    /// Limits of the exhaust valves.
    pub exhaust: ValveLimits,
    /// Lash as read minus lash at the reference temperature, as far as known.
    pub warmth: LashChange,
    /// Standard uncertainty of that; it moves all readings together.
    pub warmth_uncertainty: Uncertainty<Lash>,
}

impl Source {
    /// The limits of a kind of valve.
    #[must_use]
    pub const fn limits(&self, kind: ValveKind) -> &ValveLimits {
        match kind {
            ValveKind::Intake => &self.intake,
            ValveKind::Exhaust => &self.exhaust,
        }
    }
}

/// A way to have read valves one turn of the crank away from where they rest on the base circle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrongStroke {
    /// The cylinder whose stop was a turn out; `None` if all stops were.
    pub cylinder: Option<CylinderIndex>,
    /// Whether the stops were those of the two-position table, not each cylinder's own firing TDC.
    pub two_position: bool,
    /// The valves that were then off their base circle and showed no gap.
    pub lifted: Vec<ValveId>,
}

/// How unnoticed warmth of the metal would move every lash.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Warming {
    /// Not known: either way, with this standard uncertainty.
    Unknown(Uncertainty<Lash>),
    /// By this much if the metal is as much warmer than assumed as the model states.
    Known(LashChange),
}

/// Everything the diagnosis is told.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// The readings, at most one a valve.
    pub readings: Vec<Seen>,
    /// The assumed specification first, then every other one at hand.
    pub sources: Vec<Source>,
    /// Ways to have been one turn (360 degrees) out.
    pub one_turn_out: Vec<WrongStroke>,
    /// How unnoticed warmth would show.
    pub warming: Warming,
    /// Probability of a systematic fault.
    pub prior: Prior,
}
