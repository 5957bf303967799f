//! Link rods of radial engines: hung on the master rod, they shift a cylinder's dead centres.
//!
//! # Conventions
//! Angles count in the running direction from the master cylinder. The knuckle pin's direction is the
//! one it has, seen from the crankpin, with the master rod at its own top dead centre.
//!
//! # Method
//! The knuckle pin moves with the crankpin and swings with the master rod; the link rod then gives
//! the piston's height along its own cylinder. Dead centres are where its exact derivative is zero,
//! found by halving a half turn until the bits run out.
//!
//! # Source
//! Geometry.

use crate::Refusal;
use crate::quantity::{AxisAngle, CrankAngle, Length, QuantityError};
use alloc::borrow::Cow;
use serde::Serialize;

/// Why rods cannot turn.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ArticulatedRodError {
    /// The crank radius is zero.
    #[error("crank radius is 0 mm")]
    NoCrankRadius,
    /// The master rod cannot pass the crank.
    #[error(
        "master rod of {} mm is not longer than crank radius {} mm and knuckle radius {} mm together",
        .rod.mm(), .radius.mm(), .knuckle.mm()
    )]
    MasterTooShort {
        /// The master rod between centres.
        rod: Length,
        /// The crank radius.
        radius: Length,
        /// From the crankpin's centre to the knuckle pin's.
        knuckle: Length,
    },
    /// The link rod cannot follow.
    #[error(
        "link rod of {} mm is not longer than crank radius {} mm and knuckle radius {} mm together",
        .rod.mm(), .radius.mm(), .knuckle.mm()
    )]
    LinkTooShort {
        /// The link rod between centres.
        rod: Length,
        /// The crank radius.
        radius: Length,
        /// From the crankpin's centre to the knuckle pin's.
        knuckle: Length,
    },
    /// The piston has no top and bottom near its cylinder's direction.
    #[error(
        "a knuckle pin at {:.2} deg from its cylinder gives the piston no dead centre within a \
         quarter turn of the cylinder's direction",
        .apart.degrees()
    )]
    NoDeadCentre {
        /// From the cylinder's direction to the knuckle pin's.
        apart: AxisAngle,
    },
    /// A dimension is out of range.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

impl Refusal for ArticulatedRodError {
    fn code(&self) -> &'static str {
        match self {
            Self::NoCrankRadius => "engine.articulated-crank-radius",
            Self::MasterTooShort { .. } => "engine.master-rod-too-short",
            Self::LinkTooShort { .. } => "engine.link-rod-too-short",
            Self::NoDeadCentre { .. } => "engine.link-rod-no-dead-centre",
            Self::Quantity(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::NoCrankRadius => Cow::Borrowed("give half the stroke of the master cylinder"),
            Self::MasterTooShort { .. } | Self::LinkTooShort { .. } => {
                Cow::Borrowed("give the rods between centres and half the master's stroke")
            }
            Self::NoDeadCentre { .. } => {
                Cow::Borrowed("give the knuckle pin's direction with the master at its top")
            }
            Self::Quantity(inner) => inner.hint(),
        }
    }
}

/// A link rod, the master rod it hangs on, and its cylinder.
///
/// ```
/// use lashwork::engine::ArticulatedRod;
/// use lashwork::quantity::{AxisAngle, Length};
/// let mm = Length::from_mm;
/// let cylinder = AxisAngle::from_degrees(80.0)?;
/// let rod = ArticulatedRod::new(mm(75.0)?, mm(300.0)?, mm(75.0)?, mm(225.0)?, cylinder)?;
/// assert!((rod.tdc_shift().degrees() - 3.1474).abs() < 5e-5);
/// assert!(ArticulatedRod::new(mm(75.0)?, mm(300.0)?, mm(75.0)?, mm(140.0)?, cylinder).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ArticulatedRod {
    tdc_shift: CrankAngle,
    bdc_shift: CrankAngle,
    stroke: Length,
    #[serde(skip)]
    rods: Rods,
}

impl ArticulatedRod {
    /// Takes the crank radius, the master rod, the radius from the crankpin's centre to the knuckle
    /// pin's, the link rod, and how far the cylinder stands from the master cylinder. The knuckle pin
    /// stands in the cylinder's direction.
    ///
    /// # Errors
    /// [`ArticulatedRodError`]: no crank radius, or a rod not longer than crank and knuckle radius
    /// together.
    pub fn new(
        crank_radius: Length,
        master_rod: Length,
        knuckle_radius: Length,
        link_rod: Length,
        cylinder: AxisAngle,
    ) -> Result<Self, ArticulatedRodError> {
        let knuckle = (knuckle_radius, cylinder);
        Self::with_knuckle(crank_radius, master_rod, knuckle, link_rod, cylinder)
    }

    /// The same with a knuckle pin that stands elsewhere: its radius and its direction, both from the
    /// crankpin's centre, the direction counted from the master cylinder.
    ///
    /// # Errors
    /// As [`ArticulatedRod::new`]; [`ArticulatedRodError::NoDeadCentre`] if the knuckle pin is so far
    /// from its cylinder that the piston has no top and bottom there.
    ///
    /// ```
    /// use lashwork::engine::ArticulatedRod;
    /// use lashwork::quantity::{AxisAngle, Length};
    /// let mm = Length::from_mm;
    /// let at = AxisAngle::from_degrees;
    /// // Knuckle pins may be moved so that the piston tops where its crankpin points along the bore.
    /// let rod = |knuckle| {
    ///     let knuckle = (mm(75.0)?, at(knuckle)?);
    ///     let rod = ArticulatedRod::with_knuckle(mm(75.0)?, mm(300.0)?, knuckle, mm(225.0)?, at(80.0)?)?;
    ///     Ok::<_, Box<dyn std::error::Error>>(rod.tdc_shift().degrees())
    /// };
    /// assert!(rod(80.0)? > 3.0 && rod(100.0)? < 0.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn with_knuckle(
        crank_radius: Length,
        master_rod: Length,
        (knuckle_radius, knuckle): (Length, AxisAngle),
        link_rod: Length,
        cylinder: AxisAngle,
    ) -> Result<Self, ArticulatedRodError> {
        if crank_radius.mm() <= 0.0 {
            return Err(ArticulatedRodError::NoCrankRadius);
        }
        let reach = crank_radius.mm() + knuckle_radius.mm();
        if master_rod.mm() <= reach {
            return Err(ArticulatedRodError::MasterTooShort {
                rod: master_rod,
                radius: crank_radius,
                knuckle: knuckle_radius,
            });
        }
        if link_rod.mm() <= reach {
            return Err(ArticulatedRodError::LinkTooShort {
                rod: link_rod,
                radius: crank_radius,
                knuckle: knuckle_radius,
            });
        }
        let rods = Rods {
            r: crank_radius.mm(),
            master: master_rod.mm(),
            knuckle: knuckle_radius.mm(),
            link: link_rod.mm(),
            axis: cylinder.within_turn().to_radians(),
            apart: (knuckle - cylinder).within_turn().to_radians(),
        };
        let (top, bottom) = (
            rods.dead_centre(0.0, true),
            rods.dead_centre(core::f64::consts::PI, false),
        );
        let (Some(top), Some(bottom)) = (top, bottom) else {
            return Err(ArticulatedRodError::NoDeadCentre {
                apart: knuckle - cylinder,
            });
        };
        Ok(Self {
            tdc_shift: CrankAngle::computed(top.to_degrees()),
            bdc_shift: CrankAngle::computed(bottom.to_degrees() - 180.0),
            stroke: Length::from_mm(rods.height(top).0 - rods.height(bottom).0)?,
            rods,
        })
    }

    /// How far the piston is below its top when the crank stands so far past the cylinder's own
    /// direction.
    ///
    /// ```
    /// use lashwork::engine::ArticulatedRod;
    /// use lashwork::quantity::{AxisAngle, CrankAngle, Length};
    /// let mm = Length::from_mm;
    /// let cylinder = AxisAngle::from_degrees(80.0)?;
    /// let rod = ArticulatedRod::new(mm(75.0)?, mm(300.0)?, mm(75.0)?, mm(225.0)?, cylinder)?;
    /// assert!(rod.piston_drop(rod.tdc_shift()).mm() < 1e-9);
    /// let bottom = CrankAngle::from_degrees(180.0 + rod.bdc_shift().degrees())?;
    /// assert!((rod.piston_drop(bottom).mm() - rod.stroke().mm()).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn piston_drop(&self, past: CrankAngle) -> Length {
        let height = |at: f64| self.rods.height(at.to_radians()).0;
        let drop = height(self.tdc_shift.degrees()) - height(past.degrees());
        Length::computed(drop.clamp(0.0, self.stroke.mm()))
    }

    /// How far the crank turns past the cylinder's own direction until its piston is at the top;
    /// negative if it is there before. Zero for the master cylinder.
    #[must_use]
    pub const fn tdc_shift(&self) -> CrankAngle {
        self.tdc_shift
    }

    /// The same of the bottom: how far the crank turns past half a turn from the cylinder's direction.
    #[must_use]
    pub const fn bdc_shift(&self) -> CrankAngle {
        self.bdc_shift
    }

    /// The stroke in this cylinder; the master cylinder's is twice the crank radius.
    #[must_use]
    pub const fn stroke(&self) -> Length {
        self.stroke
    }
}

/// Millimetres and radians.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Rods {
    r: f64,
    master: f64,
    knuckle: f64,
    link: f64,
    axis: f64,
    /// From the cylinder's direction to the knuckle pin's.
    apart: f64,
}

impl Rods {
    /// The piston's height above the crank's centre and its change per radian, when the crankpin
    /// stands `past` the cylinder's direction.
    fn height(&self, past: f64) -> (f64, f64) {
        let pin = self.axis + past;
        // The master rod's lean, and its change per radian of crank.
        let lean = -libm::asin(self.r * libm::sin(pin) / self.master);
        let leaning = -self.r * libm::cos(pin) / (self.master * libm::cos(lean));
        // Along the cylinder and across it: crankpin, then from there the knuckle pin.
        let points = self.apart + lean;
        let along = self.r * libm::cos(past) + self.knuckle * libm::cos(points);
        let across = self.r * libm::sin(past) + self.knuckle * libm::sin(points);
        let along_rate = -self.r * libm::sin(past) - self.knuckle * libm::sin(points) * leaning;
        let across_rate = self.r * libm::cos(past) + self.knuckle * libm::cos(points) * leaning;
        let rest = libm::sqrt((self.link - across) * (self.link + across));
        (along + rest, along_rate - across * across_rate / rest)
    }

    /// The dead centre within a quarter turn of `about`: the top, before which the piston rises, or
    /// the bottom, before which it falls. None if it does not turn round there.
    fn dead_centre(&self, about: f64, rises: bool) -> Option<f64> {
        let quarter = core::f64::consts::FRAC_PI_2;
        let (mut low, mut high) = (about - quarter, about + quarter);
        if (self.height(low).1 > 0.0) != rises || (self.height(high).1 > 0.0) == rises {
            return None;
        }
        // 2^-60 of a half turn is below the last bit.
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if (self.height(middle).1 > 0.0) == rises {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(f64::midpoint(low, high))
    }
}
