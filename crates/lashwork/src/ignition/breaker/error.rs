//! Why something about a contact breaker was refused.

use super::scale::scales_that_show;
use super::{Dwell, Lobes, MeterScale, SecondPair};
use crate::Refusal;
use crate::quantity::{ContactGap, QuantityError};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;
use alloc::format;

/// Why something about a contact breaker was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::breaker::{Dwell, Lobes};
/// let refused = Lobes::new(8)?.check(Dwell::from_degrees(60.0)?).unwrap_err();
/// assert_eq!(refused.code(), "ignition.dwell-beyond-pitch");
/// assert!(refused.hint().contains("scale for 4 cylinders would be 30 deg"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BreakerError {
    /// A cam without lobes, or with more than any has.
    #[error("a breaker cam of {got} lobes does not exist, 1 to {} do", Lobes::MAX)]
    Lobes {
        /// The refused number.
        got: u8,
    },
    /// The contacts would never open.
    #[error("a dwell of {dwell} is not below the {} deg from lobe to lobe of {lobes} lobes", .lobes.pitch_degrees())]
    DwellBeyondPitch {
        /// The dwell.
        dwell: Dwell,
        /// The lobes.
        lobes: Lobes,
    },
    /// Contacts closed for nothing or for all of the time.
    #[error("a dwell of {got} % is not above 0 and below 100 %")]
    Percent {
        /// The refused number.
        got: f64,
    },
    /// What a meter cannot show on its scale.
    #[error("a reading of {got} is not above 0 and below {} on {scale}", .scale.full())]
    Reading {
        /// The refused number.
        got: f64,
        /// The scale.
        scale: MeterScale,
    },
    /// The engine stands, so nothing has a time.
    #[error("at a speed of 0 rpm no contact opens")]
    Standing,
    /// A gap that no contact breaker has.
    #[error(
        "a contact gap of {} mm is outside {} to {} mm", .gap.mm(),
        super::GapSizes::LEAST_MM, super::GapSizes::MOST_MM
    )]
    GapUnusual {
        /// The gap.
        gap: ContactGap,
    },
    /// A reading with one end where a value is needed.
    #[error("{what} is known on one side only")]
    OneSided {
        /// What.
        what: &'static str,
    },
    /// Contacts that would never close.
    #[error("a gap of {} mm is as much as the cam lifts, {lift:.3} mm at the contacts", .gap.mm())]
    GapBeyondLift {
        /// The gap.
        gap: ContactGap,
        /// What the cam lifts at the contacts, in millimetres.
        lift: f64,
    },
    /// Two published pairs do not belong to one lobe of the model's shape.
    #[error(
        "the second pair prints {:.1} deg where the first one leads to {:.1} deg, uncertain by {:.1} deg",
        .test.printed.degrees(), .test.predicted.degrees(), .test.uncertainty
    )]
    PairsContradict {
        /// The comparison.
        test: SecondPair,
    },
    /// The share of a dwell's change that falls on the flank that opens is none.
    #[error("a share of {got} for the opening flank is not from 0 to 1")]
    FlankShare {
        /// The refused number.
        got: f64,
    },
    /// A lever that does not exist.
    #[error("a lever ratio of {got} from rubbing block to contact is not from 0.2 to 5")]
    LeverRatio {
        /// The refused number.
        got: f64,
    },
    /// No place to aim without both ends of the band.
    #[error("the band for dwell or gap has one end only")]
    BandWithOneEnd,
    /// The block does not wear backwards.
    #[error("a wear-in from {from} to {to} does not grow from zero or more")]
    WearIn {
        /// Least.
        from: super::DwellChange,
        /// Most.
        to: super::DwellChange,
    },
    /// A number that a quantity cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for BreakerError {
    fn code(&self) -> &'static str {
        match self {
            Self::Lobes { .. } => "ignition.lobes",
            Self::DwellBeyondPitch { .. } => "ignition.dwell-beyond-pitch",
            Self::Percent { .. } => "ignition.dwell-percent",
            Self::Reading { .. } => "ignition.meter-reading",
            Self::Standing => "ignition.engine-stands",
            Self::GapUnusual { .. } => "ignition.gap-unusual",
            Self::OneSided { .. } => "ignition.one-sided",
            Self::GapBeyondLift { .. } => "ignition.gap-beyond-lift",
            Self::PairsContradict { .. } => "ignition.pairs-contradict",
            Self::FlankShare { .. } => "ignition.flank-share",
            Self::LeverRatio { .. } => "ignition.lever-ratio",
            Self::BandWithOneEnd => "ignition.band-with-one-end",
            Self::WearIn { .. } => "ignition.wear-in",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Lobes { .. } => "count the lobes that open this pair of contacts in one turn",
            Self::DwellBeyondPitch { dwell, lobes } => {
                return match scales_that_show(*dwell, *lobes) {
                    Some(scales) => Cow::Owned(format!(
                        "read again on the scale for {lobes} cylinders; what {scales}"
                    )),
                    None => Cow::Borrowed("read again, and count the lobes"),
                };
            }
            Self::Percent { .. } => "read again; contacts that always touch or never make no spark",
            Self::Reading { .. } => {
                "read again, and look which scale the meter is switched to; 0 or the end of the scale means that the contacts do not open and close"
            }
            Self::Standing => "give the speed at which the engine runs",
            Self::GapUnusual { .. } => {
                "check the unit; if the book does print such a gap, state that it is unusual"
            }
            Self::OneSided { .. } => "measure it from both sides: which leaf goes, which does not",
            Self::GapBeyondLift { .. } => "check gap and unit, and the published pair",
            Self::PairsContradict { .. } => {
                "check both pairs for units and for the engine they belong to; if they stand, set by the dwell meter alone"
            }
            Self::FlankShare { .. } => "give 0.5 for a lobe with two equal flanks",
            Self::LeverRatio { .. } => {
                "give pivot to contact over pivot to rubbing block, often 1 to 1.5"
            }
            Self::BandWithOneEnd => "give the lower and the upper limit",
            Self::WearIn { .. } => "give the smaller growth of dwell first, from 0 deg",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
