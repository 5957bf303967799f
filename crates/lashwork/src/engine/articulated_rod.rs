//! Link rods of radial engines: hung on the master rod, they shift a cylinder's dead centres.
//!
//! # Conventions
//! Angles count in the running direction from the master cylinder. The knuckle pin of a cylinder is
//! taken to stand, with the master rod at its own top dead centre, in the direction of the cylinder.
//!
//! # Method
//! The knuckle pin moves with the crankpin and swings with the master rod; the link rod then gives
//! the piston's height along its own cylinder. Dead centres are where its exact derivative is zero,
//! found by halving a half turn until the bits run out.
//!
//! # Source
//! Geometry.

use super::check::crank;
use crate::quantity::{AxisAngle, CrankAngle, Length, QuantityError};
use alloc::string::String;
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
    /// A dimension is out of range.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

impl ArticulatedRodError {
    /// A short name that never changes, for documents and bindings to match on.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoCrankRadius => "engine.articulated-crank-radius",
            Self::MasterTooShort { .. } => "engine.master-rod-too-short",
            Self::LinkTooShort { .. } => "engine.link-rod-too-short",
            Self::Quantity(inner) => inner.code(),
        }
    }

    /// What to do about it.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::NoCrankRadius => String::from("give half the stroke of the master cylinder"),
            Self::MasterTooShort { .. } | Self::LinkTooShort { .. } => {
                String::from("give the rods between centres and half the master's stroke")
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
    stroke: Length,
}

impl ArticulatedRod {
    /// Takes the crank radius, the master rod, the radius from the crankpin's centre to the knuckle
    /// pin's, the link rod, and how far the cylinder stands from the master cylinder.
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
        };
        let top = rods.dead_centre(0.0);
        let bottom = rods.dead_centre(core::f64::consts::PI);
        Ok(Self {
            tdc_shift: crank(top.to_degrees()),
            stroke: Length::from_mm(rods.height(top).0 - rods.height(bottom).0)?,
        })
    }

    /// How far the crank turns past the cylinder's own direction until its piston is at the top;
    /// negative if it is there before. Zero for the master cylinder.
    #[must_use]
    pub const fn tdc_shift(&self) -> CrankAngle {
        self.tdc_shift
    }

    /// The stroke in this cylinder; the master cylinder's is twice the crank radius.
    #[must_use]
    pub const fn stroke(&self) -> Length {
        self.stroke
    }
}

/// Millimetres and radians.
struct Rods {
    r: f64,
    master: f64,
    knuckle: f64,
    link: f64,
    axis: f64,
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
        let along = self.r * libm::cos(past) + self.knuckle * libm::cos(lean);
        let across = self.r * libm::sin(past) + self.knuckle * libm::sin(lean);
        let along_rate = -self.r * libm::sin(past) - self.knuckle * libm::sin(lean) * leaning;
        let across_rate = self.r * libm::cos(past) + self.knuckle * libm::cos(lean) * leaning;
        let rest = libm::sqrt((self.link - across) * (self.link + across));
        (along + rest, along_rate - across * across_rate / rest)
    }

    /// The dead centre within a quarter turn of `about`.
    fn dead_centre(&self, about: f64) -> f64 {
        let quarter = core::f64::consts::FRAC_PI_2;
        let (mut low, mut high) = (about - quarter, about + quarter);
        let rises = self.height(low).1 > 0.0;
        // 2^-60 of a half turn is below the last bit.
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if (self.height(middle).1 > 0.0) == rises {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high)
    }
}
