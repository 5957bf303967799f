//! Why events at a lash cannot be worked out.

use crate::Refusal;
use crate::engine::CompressionRatioError;
use crate::quantity::{Lash, QuantityError};
use crate::tolerance::ToleranceError;
use crate::valve::{CamEvent, ValveError};
use alloc::borrow::Cow;

/// Why events at a lash cannot be worked out.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::events::Flank;
/// use lashwork::quantity::Length;
/// let refused = Flank::ramp(Length::from_mm(0.5)?, Length::from_mm(0.5)?).unwrap_err();
/// assert_eq!(refused.code(), "events.slope");
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EventsError {
    /// A ramp of no cam.
    #[error("a ramp {got} mm high is outside {min} to {max} mm")]
    RampHeight {
        /// The refused height in millimetres.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A slope of no cam.
    #[error("a slope of {got} mm a cam degree is outside {min} to {max} mm")]
    Slope {
        /// The refused slope in millimetres a cam degree.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A flank that rises less than its ramp.
    #[error(
        "beyond a ramp of {ramp} mm a cam degree the flank rises {flank} mm, which is not more"
    )]
    FlankUnderRamp {
        /// Of the ramp.
        ramp: f64,
        /// Of the flank.
        flank: f64,
    },
    /// Two leaves that give no slope.
    #[error("leaves of {thin} and {thick} mm gripped {apart} deg apart give no slope")]
    Leaves {
        /// The thinner leaf in millimetres.
        thin: f64,
        /// The thicker.
        thick: f64,
        /// Crank degrees between them.
        apart: f64,
    },
    /// A lift or a duration of no cam.
    #[error("a lift of {lift} mm over {duration} deg is no cam's")]
    Lobe {
        /// Greatest lift in millimetres.
        lift: f64,
        /// Crank degrees.
        duration: f64,
    },
    /// A lash that no valve runs with on such a flank.
    #[error("a lash of {} mm is outside 0 to {max} mm on this flank", .lash.mm())]
    Lash {
        /// The refused lash.
        lash: Lash,
        /// Greatest in millimetres.
        max: f64,
    },
    /// A rocker of no engine.
    #[error("a rocker ratio of {got} is outside 0.3 to 3")]
    Rocker {
        /// The refused ratio.
        got: f64,
    },
    /// Printed and running lash both lie beyond the ramp.
    #[error(
        "{event}: printed and running lash both lie beyond the ramp, where its slope says nothing"
    )]
    BothBeyondRamp {
        /// The event.
        event: CamEvent,
    },
    /// A valve that does not open.
    #[error("with this lash the {valve} valve is open for {got:.0} deg, under {min} deg")]
    NeverOpens {
        /// Which.
        valve: &'static str,
        /// Crank degrees that are left.
        got: f64,
        /// Least.
        min: f64,
    },
    /// A value with one end where both are needed.
    #[error("{what} is known on one side only")]
    OneSided {
        /// What.
        what: &'static str,
    },
    /// Printed events that cannot be.
    #[error(transparent)]
    Valve(#[from] ValveError),
    /// A compression ratio that cannot be.
    #[error(transparent)]
    Ratio(#[from] CompressionRatioError),
    /// A number that a quantity cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for EventsError {
    fn code(&self) -> &'static str {
        match self {
            Self::RampHeight { .. } => "events.ramp-height",
            Self::Slope { .. } => "events.slope",
            Self::FlankUnderRamp { .. } => "events.flank-under-ramp",
            Self::Leaves { .. } => "events.leaves",
            Self::Lobe { .. } => "events.lobe",
            Self::Lash { .. } => "events.lash",
            Self::Rocker { .. } => "events.rocker",
            Self::BothBeyondRamp { .. } => "events.both-beyond-ramp",
            Self::NeverOpens { .. } => "events.never-opens",
            Self::OneSided { .. } => "events.one-sided",
            Self::Valve(inner) => inner.code(),
            Self::Ratio(inner) => inner.code(),
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::RampHeight { .. } => {
                "give the height of the ramp at the follower, such as 0.3 mm"
            }
            Self::Slope { .. } => {
                "give the rise in millimetres for one degree of the cam, such as 0.01 mm; the crank turns two"
            }
            Self::FlankUnderRamp { .. } => {
                "give the slope of the flank beyond the ramp, which is the steeper one"
            }
            Self::Leaves { .. } => {
                "turn forward until each leaf is just gripped: the thicker one is gripped first on opening"
            }
            Self::Lobe { .. } => {
                "give the greatest lift at the valve and the crank degrees from base circle to base circle"
            }
            Self::Lash { .. } => "check the unit of the lash",
            Self::Rocker { .. } => "give valve movement over cam movement, such as 1.4",
            Self::BothBeyondRamp { .. } => {
                "give the slope of the flank beyond the ramp, or measure it"
            }
            Self::NeverOpens { .. } => "check the lash and the slope",
            Self::OneSided { .. } => "give a value with its uncertainty",
            Self::Valve(inner) => return inner.hint(),
            Self::Ratio(inner) => return inner.hint(),
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
