//! Crank, rod and piston: how far the piston is down at a crank angle, and the other way round.
//!
//! # Conventions
//! - The crank angle is counted from the line through the crank's centre parallel to the bore, in
//!   the running direction. With an offset, top dead centre is not at 0.
//! - The offset is positive toward the side the crankpin moves to from 0 to 180 degrees.
//! - The drop is how far the piston is below its own top dead centre.
//!
//! # Source
//! Geometry of the triangle crank centre, crankpin, piston pin:
//! `x = r cos t + sqrt(l^2 - (r sin t - e)^2)`.

use crate::Refusal;
use crate::quantity::{CrankAngle, Length, PinOffset, QuantityError};
use alloc::borrow::Cow;
use serde::Serialize;

/// Why a crank and rod cannot turn, or a piston cannot be there.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SliderCrankError {
    /// The crank radius is zero or larger than any engine's.
    #[error("crank radius {} mm is not above 0 and up to {} mm", .radius.mm(), SliderCrank::MAX_RADIUS_MM)]
    CrankRadius {
        /// The refused radius.
        radius: Length,
    },
    /// The rod cannot pass the crank.
    #[error(
        "rod of {} mm is not longer than crank radius {} mm and offset {} mm together",
        .rod.mm(), .radius.mm(), .offset.mm().abs()
    )]
    RodTooShort {
        /// The rod between centres.
        rod: Length,
        /// The crank radius.
        radius: Length,
        /// The offset.
        offset: PinOffset,
    },
    /// The piston never goes down that far.
    #[error("a drop of {} mm is more than the stroke of {} mm", .drop.mm(), .stroke.mm())]
    DropBeyondStroke {
        /// The refused drop.
        drop: Length,
        /// The stroke.
        stroke: Length,
    },
    /// A dimension is out of range.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

impl Refusal for SliderCrankError {
    fn code(&self) -> &'static str {
        match self {
            Self::CrankRadius { .. } => "engine.crank-radius",
            Self::RodTooShort { .. } => "engine.rod-too-short",
            Self::DropBeyondStroke { .. } => "engine.drop-beyond-stroke",
            Self::Quantity(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::CrankRadius { .. } => Cow::Borrowed("give half the stroke"),
            Self::RodTooShort { .. } => {
                Cow::Borrowed("give the rod's length between centres and half the stroke")
            }
            Self::DropBeyondStroke { stroke, .. } => {
                Cow::Owned(alloc::format!("give a drop from 0 to {} mm", stroke.mm()))
            }
            Self::Quantity(inner) => inner.hint(),
        }
    }
}

/// A crank, a rod and a piston pin line that may miss the crank's centre.
///
/// ```
/// use lashwork::engine::{PinOffset, SliderCrank};
/// use lashwork::quantity::{CrankAngle, Length};
/// let crank = SliderCrank::new(
///     Length::from_mm(50.0)?,
///     Length::from_mm(200.0)?,
///     PinOffset::ZERO,
/// )?;
/// let drop = crank.piston_drop(CrankAngle::from_degrees(90.0)?);
/// assert!((drop.mm() - 56.35083).abs() < 5e-6);
/// let (before, after) = crank.angles_at_drop(drop)?;
/// assert!((before.degrees() + 90.0).abs() < 1e-9 && (after.degrees() - 90.0).abs() < 1e-9);
/// assert!(crank.angles_at_drop(Length::from_mm(101.0)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SliderCrank {
    crank_radius: Length,
    rod: Length,
    offset: PinOffset,
    stroke: Length,
}

impl SliderCrank {
    /// Greatest crank radius in millimetres: more than the largest marine engine's.
    pub const MAX_RADIUS_MM: f64 = 2500.0;

    /// Takes the crank radius (half the stroke without offset), the rod between centres and the
    /// offset.
    ///
    /// # Errors
    /// [`SliderCrankError::CrankRadius`], [`SliderCrankError::RodTooShort`] unless the rod is
    /// longer than radius and offset together.
    pub fn new(
        crank_radius: Length,
        rod: Length,
        offset: PinOffset,
    ) -> Result<Self, SliderCrankError> {
        let (r, l, e) = (crank_radius.mm(), rod.mm(), offset.mm());
        if r <= 0.0 || r > Self::MAX_RADIUS_MM {
            return Err(SliderCrankError::CrankRadius {
                radius: crank_radius,
            });
        }
        if l <= r + e.abs() {
            return Err(SliderCrankError::RodTooShort {
                rod,
                radius: crank_radius,
                offset,
            });
        }
        let stroke = Length::from_mm(leg(l + r, e) - leg(l - r, e))?;
        Ok(Self {
            crank_radius,
            rod,
            offset,
            stroke,
        })
    }

    /// Rod over crank radius where crank and rod are not known. Common practice, no source.
    pub const ASSUMED_ROD_RATIO: f64 = 3.5;

    /// A crank of a stroke of 2 mm with the usual proportions, for what depends on these alone; to be listed
    /// as an assumption.
    ///
    /// ```
    /// use lashwork::engine::SliderCrank;
    /// assert_eq!(SliderCrank::assumed().stroke().mm(), 2.0);
    /// ```
    #[must_use]
    pub fn assumed() -> Self {
        Self {
            crank_radius: Length::computed(1.0),
            rod: Length::computed(Self::ASSUMED_ROD_RATIO),
            offset: PinOffset::ZERO,
            stroke: Length::computed(2.0),
        }
    }

    /// The crank radius.
    #[must_use]
    pub const fn crank_radius(&self) -> Length {
        self.crank_radius
    }

    /// The rod between centres.
    #[must_use]
    pub const fn rod(&self) -> Length {
        self.rod
    }

    /// The offset.
    #[must_use]
    pub const fn offset(&self) -> PinOffset {
        self.offset
    }

    /// How far the piston travels from top to bottom; more than twice the radius with an offset.
    #[must_use]
    pub const fn stroke(&self) -> Length {
        self.stroke
    }

    /// The crank angle of top dead centre: `asin(e / (l + r))`.
    #[must_use]
    pub fn tdc_angle(&self) -> CrankAngle {
        let (r, l, e) = self.mm();
        CrankAngle::computed(libm::asin(e / (l + r)).to_degrees())
    }

    /// The crank angle of bottom dead centre: `180 + asin(e / (l - r))`.
    #[must_use]
    pub fn bdc_angle(&self) -> CrankAngle {
        let (r, l, e) = self.mm();
        CrankAngle::computed(180.0 + libm::asin(e / (l - r)).to_degrees())
    }

    /// How far the piston is below its top dead centre at a crank angle.
    #[must_use]
    pub fn piston_drop(&self, at: CrankAngle) -> Length {
        let (r, l, e) = self.mm();
        // Whole turns first: sine and cosine of few degrees lose no digits.
        let t = libm::fmod(at.degrees(), 360.0).to_radians();
        let height = r * libm::cos(t) + leg(l, r * libm::sin(t) - e);
        let drop = (leg(l + r, e) - height).clamp(0.0, self.stroke.mm());
        Length::computed(drop)
    }

    /// The two crank angles at which the piston is so far below top dead centre: before it and
    /// after it. Solved in closed form, with full accuracy close to both dead centres.
    ///
    /// # Errors
    /// [`SliderCrankError::DropBeyondStroke`].
    pub fn angles_at_drop(
        &self,
        drop: Length,
    ) -> Result<(CrankAngle, CrankAngle), SliderCrankError> {
        if drop > self.stroke {
            return Err(SliderCrankError::DropBeyondStroke {
                drop,
                stroke: self.stroke,
            });
        }
        let (r, l, e) = self.mm();
        let (top, bottom) = (leg(l + r, e), leg(l - r, e));
        let (d, rise) = (drop.mm(), self.stroke.mm() - drop.mm());
        let height = top - d;
        let to_pin = libm::hypot(height, e);
        // Of the triangle with sides r, l and `to_pin`, half the angle at the crank's centre; the
        // small differences l + r - to_pin and to_pin - (l - r) come from drop and rise.
        let below_top = d * (2.0 * top - d) / (l + r + to_pin);
        let above_bottom = rise * (2.0 * bottom + rise) / (l - r + to_pin);
        let half = libm::atan2(
            libm::sqrt(below_top * (l + to_pin - r)),
            libm::sqrt(above_bottom * (l + to_pin + r)),
        );
        let middle = libm::atan2(e, height).to_degrees();
        let apart = (2.0 * half).to_degrees();
        Ok((
            CrankAngle::computed(middle - apart),
            CrankAngle::computed(middle + apart),
        ))
    }

    /// How far the middle between two equal drops lies after top dead centre, when they are
    /// `half_span` either side of that middle; zero without offset.
    pub(super) fn middle_after_tdc(&self, half_span: CrankAngle) -> CrankAngle {
        let (r, l, e) = self.mm();
        let a = half_span.radians();
        let to_pin = r * libm::cos(a) + leg(l, r * libm::sin(a));
        let middle = libm::asin((e / to_pin).clamp(-1.0, 1.0)).to_degrees();
        CrankAngle::computed(middle - self.tdc_angle().degrees())
    }

    fn mm(&self) -> (f64, f64, f64) {
        (self.crank_radius.mm(), self.rod.mm(), self.offset.mm())
    }
}

/// The other short side of a right triangle, without losing digits when the sides are close.
fn leg(long: f64, short: f64) -> f64 {
    libm::sqrt(((long - short) * (long + short)).max(0.0))
}
