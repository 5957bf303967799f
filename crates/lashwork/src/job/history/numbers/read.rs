//! What a service read with a meter.

use super::quantity::Number;
use crate::engine::CylinderIndex;
use crate::history::{Reset, Used, Visit};
use crate::tolerance::{Estimate, Measurand, ToleranceError, Uncertainty};

/// A number as a service wrote it down.
///
/// ```
/// use lashwork::ignition::breaker::Dwell;
/// use lashwork::job::history::NumberRead;
/// let read = NumberRead { value: Dwell::parse("48 deg")?, uncertainty: None };
/// assert_eq!(read.value.degrees(), 48.0);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NumberRead<Q: Measurand> {
    /// What the meter showed.
    pub value: Q,
    /// Its standard uncertainty; the usual one is listed as an assumption.
    pub uncertainty: Option<Uncertainty<Q>>,
}

/// What was found, done and left in one service, of one cylinder or of the engine.
///
/// ```
/// use lashwork::ignition::breaker::Dwell;
/// use lashwork::job::history::{NumberRead, NumberVisit};
/// let visit = NumberVisit {
///     found: Some(NumberRead { value: Dwell::parse("48 deg")?, uncertainty: None }),
///     ..NumberVisit::default()
/// };
/// assert!(visit.cylinder.is_none() && visit.left.is_none());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NumberVisit<Q: Measurand> {
    /// Its cylinder; the whole engine if not stated.
    pub cylinder: Option<CylinderIndex>,
    /// Before anything was done.
    pub found: Option<NumberRead<Q>>,
    /// What was done; set, if a reading after it is there.
    pub done: Option<Reset>,
    /// After it was done.
    pub left: Option<NumberRead<Q>>,
    /// When that was read, if not at the service itself.
    pub left_at: Option<Used>,
}

impl<Q: Measurand> Default for NumberVisit<Q> {
    fn default() -> Self {
        Self {
            cylinder: None,
            found: None,
            done: None,
            left: None,
            left_at: None,
        }
    }
}

/// For a record; notes whether an uncertainty was assumed.
pub(super) fn visit<Q: Number>(
    asked: &NumberVisit<Q>,
    is_assumed: &mut bool,
) -> Result<Visit<Q>, ToleranceError> {
    let mut estimate = |read: Option<NumberRead<Q>>| {
        let Some(NumberRead { value, uncertainty }) = read else {
            return Ok(None);
        };
        *is_assumed |= uncertainty.is_none();
        let u = match uncertainty {
            Some(u) => u.number(),
            None => Q::usual_uncertainty(value),
        };
        Estimate::from_numbers(value.number(), value.number(), u).map(Some)
    };
    Ok(Visit {
        found: estimate(asked.found)?,
        reset: asked.done.or(asked.left.map(|_| Reset::Set)),
        left: estimate(asked.left)?,
        left_at: asked.left_at,
    })
}
