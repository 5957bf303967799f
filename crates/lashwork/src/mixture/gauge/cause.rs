//! What may be behind what a vacuum gauge shows.

use super::GaugeError;
use serde::Serialize;

/// What may be the matter.
///
/// ```
/// use lashwork::mixture::gauge::GaugeCause;
/// assert_eq!(GaugeCause::ALL.len(), 16);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum GaugeCause {
    /// Nothing.
    Sound,
    /// The spark is late.
    SparkLate,
    /// The camshaft is late.
    ValvesLate,
    /// All cylinders leak past their rings.
    RingsWorn,
    /// Air comes in behind the throttle.
    IntakeLeak,
    /// A cylinder misses.
    Misfire,
    /// A valve leaks at its seat.
    ValveLeaks,
    /// A valve has too little clearance.
    ValveTight,
    /// A valve sticks now and then.
    ValveSticks,
    /// The head gasket leaks between cylinders.
    HeadGasket,
    /// Valve springs are weak.
    SpringsWeak,
    /// Valve guides are worn.
    GuidesWorn,
    /// The idle mixture is wrong.
    MixtureWrong,
    /// Plug gaps are too close.
    PlugGapsClose,
    /// The exhaust is blocked.
    ExhaustBlocked,
    /// Something that is not weighed here, or more than one of these.
    SomethingElse,
}

impl GaugeCause {
    /// All of them.
    pub const ALL: [Self; 16] = [
        Self::Sound,
        Self::SparkLate,
        Self::ValvesLate,
        Self::RingsWorn,
        Self::IntakeLeak,
        Self::Misfire,
        Self::ValveLeaks,
        Self::ValveTight,
        Self::ValveSticks,
        Self::HeadGasket,
        Self::SpringsWeak,
        Self::GuidesWorn,
        Self::MixtureWrong,
        Self::PlugGapsClose,
        Self::ExhaustBlocked,
        Self::SomethingElse,
    ];
}

/// The shares of belief in each cause before anything is seen.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::gauge::{GaugeCause, GaugePriors};
/// let usual = GaugePriors::assumed();
/// assert_eq!(usual.percent(GaugeCause::Sound), 40.0);
/// // An engine that was never apart, and smokes.
/// let worn = usual.with(GaugeCause::RingsWorn, 30.0)?;
/// assert_eq!(worn.percent(GaugeCause::RingsWorn), 30.0);
/// let refused = usual.with(GaugeCause::Misfire, -1.0).unwrap_err();
/// assert_eq!(refused.code(), "mixture.gauge-prior");
/// # Ok::<(), lashwork::mixture::gauge::GaugeError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(transparent)]
pub struct GaugePriors([(GaugeCause, f64); 16]);

impl GaugePriors {
    /// This library's choice, to be listed as an assumption.
    #[must_use]
    pub const fn assumed() -> Self {
        use GaugeCause as C;
        Self([
            (C::Sound, 40.0),
            (C::SparkLate, 8.0),
            (C::ValvesLate, 2.0),
            (C::RingsWorn, 6.0),
            (C::IntakeLeak, 8.0),
            (C::Misfire, 6.0),
            (C::ValveLeaks, 5.0),
            (C::ValveTight, 5.0),
            (C::ValveSticks, 3.0),
            (C::HeadGasket, 2.0),
            (C::SpringsWeak, 2.0),
            (C::GuidesWorn, 3.0),
            (C::MixtureWrong, 5.0),
            (C::PlugGapsClose, 1.0),
            (C::ExhaustBlocked, 2.0),
            (C::SomethingElse, 2.0),
        ])
    }

    /// With another share of one cause; only the shares against each other matter.
    ///
    /// # Errors
    /// [`GaugeError::Prior`] if negative or not finite, or if none of belief is left.
    pub fn with(mut self, cause: GaugeCause, percent: f64) -> Result<Self, GaugeError> {
        for (own, share) in &mut self.0 {
            if *own == cause {
                *share = percent;
            }
        }
        let all: f64 = self.0.iter().map(|(_, share)| share).sum();
        if percent >= 0.0 && all > 0.0 && all.is_finite() {
            Ok(self)
        } else {
            Err(GaugeError::Prior { got: percent })
        }
    }

    /// The share of one cause.
    #[must_use]
    pub fn percent(&self, cause: GaugeCause) -> f64 {
        let found = self.0.iter().find(|(own, _)| *own == cause);
        found.map_or(0.0, |(_, percent)| *percent)
    }
}
