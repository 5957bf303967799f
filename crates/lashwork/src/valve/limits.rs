//! The limits of one kind of valve.

use crate::quantity::{Lash, Marked, Nominal};
use crate::tolerance::{Limits, ToleranceError};
use serde::Serialize;

/// What a maker prints for the intake or the exhaust valves: the value to set, the band to set to,
/// and, often, a wider band in which an old setting may be left alone.
///
/// ```
/// use lashwork::quantity::Marked;
/// use lashwork::tolerance::Limits;
/// use lashwork::valve::ValveLimits;
/// let mark = |text| Marked::parse(text);
/// let set = Limits::between(mark("0.18 mm")?, mark("0.22 mm")?)?;
/// let leave = Limits::between(mark("0.15 mm")?, mark("0.25 mm")?)?;
/// let intake = ValveLimits::new(mark("0.20 mm")?, set, Some(leave))?;
/// assert_eq!(intake.judging(), &leave);
/// let slip = ValveLimits::new(mark("0.020 in")?, set, None).unwrap_err();
/// assert!(slip.to_string().contains("0.020 in") && slip.to_string().contains("0.18 mm"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct ValveLimits {
    set_to: Marked,
    set: Limits<Lash>,
    leave_alone: Option<Limits<Lash>>,
}

impl ValveLimits {
    /// Takes the value to set, the set band, and the leave-alone band if one is printed.
    ///
    /// # Errors
    /// [`ToleranceError::NegativeLimit`], [`ToleranceError::SetToOutsideSet`],
    /// [`ToleranceError::SetOutsideLeaveAlone`].
    pub fn new(
        set_to: Marked,
        set: Limits<Lash>,
        leave_alone: Option<Limits<Lash>>,
    ) -> Result<Self, ToleranceError> {
        let alone = leave_alone.as_ref();
        for mark in [
            Some(set_to),
            set.lower(),
            set.upper(),
            alone.and_then(Limits::lower),
            alone.and_then(Limits::upper),
        ]
        .into_iter()
        .flatten()
        {
            Self::check(mark)?;
        }
        if !set.holds(set_to.nominal()) {
            return Err(ToleranceError::SetToOutsideSet { set_to, set });
        }
        match leave_alone {
            Some(leave_alone) if !leave_alone.encloses(&set) => {
                Err(ToleranceError::SetOutsideLeaveAlone { set, leave_alone })
            }
            _ => Ok(Self {
                set_to,
                set,
                leave_alone,
            }),
        }
    }

    /// Whether a printed length may be a limit of a valve.
    ///
    /// # Errors
    /// [`ToleranceError::NegativeLimit`] below zero.
    pub fn check(limit: Marked) -> Result<(), ToleranceError> {
        if limit.nominal() < Nominal::ZERO {
            return Err(ToleranceError::NegativeLimit { limit });
        }
        Ok(())
    }

    /// The value to set.
    #[must_use]
    pub const fn set_to(&self) -> Marked {
        self.set_to
    }

    /// The band a new setting must lie in.
    #[must_use]
    pub const fn set(&self) -> &Limits<Lash> {
        &self.set
    }

    /// The band in which an old setting may be left alone, if printed.
    #[must_use]
    pub const fn leave_alone(&self) -> Option<&Limits<Lash>> {
        self.leave_alone.as_ref()
    }

    /// The band a found lash is judged against: the leave-alone band, else the set band.
    #[must_use]
    pub fn judging(&self) -> &Limits<Lash> {
        self.leave_alone.as_ref().unwrap_or(&self.set)
    }
}
