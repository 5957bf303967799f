//! Which dwell goes with which gap: a lobe of half a cosine through one published pair.
//!
//! # Method
//! The lift at the contacts is `H/2 (1 + cos n t)` over one pitch. The contacts stand open where it is
//! over `H - g`, `g` being the gap: for `4/n asin(sqrt(g / H))` of the cam's turn; the rest of the pitch is
//! dwell. `H` follows from the pair. The ratio of the lever falls out: it only tells what the cam lifts at
//! the block.
//!
//! A real lobe has flats and other flanks. At the same pair a lobe with a parabola for a tip has about 0.9
//! times this slope, one with straight flanks up to 1.8 times; so the change from the pair is taken as
//! right within half of itself, and at the pair itself nothing is lost: this is for interpolation near it.
//!
//! Angles are plain degrees here, as books print them; the formula has no other dimension to mix with.
//!
//! # Source
//! Geometry; the doubt of the slope is this library's choice, no source.

use super::{Agreement, BreakerError, Dwell, GapAndDwell, GapSizes, Lobes, SecondPair};
use crate::quantity::{ContactGap, Length};
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, together};
use serde::Serialize;

/// The lobe of a cam, as far as gap and dwell tell it.
///
/// ```
/// use lashwork::ignition::breaker::{Dwell, GapAndDwell, GapSizes, LobeModel, Lobes};
/// use lashwork::quantity::ContactGap;
/// let book = GapAndDwell::exact(ContactGap::parse("0.015 in")?, Dwell::parse("60 deg")?)?;
/// let lobe = LobeModel::from_pair(&book, Lobes::new(4)?, GapSizes::Usual)?;
/// let wider = lobe.dwell_of(ContactGap::parse("0.016 in")?)?;
/// assert!((wider.degrees() - 58.909).abs() < 5e-4);
/// assert!((lobe.gap_of(wider)?.thou() - 16.0).abs() < 1e-9);
/// assert!((lobe.slope(ContactGap::parse("0.015 in")?)? * 0.0254 + 1.103).abs() < 5e-4);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LobeModel {
    lobes: Lobes,
    sizes: GapSizes,
    pub(super) pair: GapAndDwell,
    lift_mm: f64,
}

impl LobeModel {
    /// Half the width of the doubt of any change of dwell or gap away from the pair, as a share of it.
    pub const SLOPE_DOUBT: f64 = 0.5;

    /// The lobe through a published pair.
    ///
    /// # Errors
    /// [`BreakerError::OneSided`], [`BreakerError::GapUnusual`], [`BreakerError::DwellBeyondPitch`].
    pub fn from_pair(
        pair: &GapAndDwell,
        lobes: Lobes,
        sizes: GapSizes,
    ) -> Result<Self, BreakerError> {
        let gap = centre(&pair.gap)?;
        sizes.check(gap)?;
        let dwell = pair.dwell.centre().ok_or(DWELL_ONE_SIDED)?;
        lobes.check(dwell)?;
        let half = quarter_open(lobes, dwell.degrees());
        let sine = libm::sin(half);
        Ok(Self {
            lobes,
            sizes,
            pair: *pair,
            lift_mm: gap.mm() / (sine * sine),
        })
    }

    /// The lobe through one pair that a second one does not contradict, and how they agree.
    ///
    /// # Errors
    /// As [`Self::from_pair`] and [`Self::test`]; [`BreakerError::PairsContradict`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::ignition::breaker::{Dwell, GapAndDwell, GapSizes, LobeModel, Lobes};
    /// use lashwork::quantity::ContactGap;
    /// let pair = |mm, deg| {
    ///     GapAndDwell::exact(ContactGap::from_mm(mm).unwrap(), Dwell::from_degrees(deg).unwrap())
    /// };
    /// let (four, usual) = (Lobes::new(4)?, GapSizes::Usual);
    /// assert!(LobeModel::from_pairs(&pair(0.40, 52.0)?, &pair(0.45, 49.5)?, four, usual).is_ok());
    /// let refused = LobeModel::from_pairs(&pair(0.40, 52.0)?, &pair(0.40, 74.0)?, four, usual);
    /// assert_eq!(refused.unwrap_err().code(), "ignition.pairs-contradict");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn from_pairs(
        first: &GapAndDwell,
        second: &GapAndDwell,
        lobes: Lobes,
        sizes: GapSizes,
    ) -> Result<(Self, SecondPair), BreakerError> {
        let lobe = Self::from_pair(first, lobes, sizes)?;
        let test = lobe.test(second)?;
        if test.agreement == Agreement::Contradicts {
            return Err(BreakerError::PairsContradict { test });
        }
        Ok((lobe, test))
    }

    /// Holds another published pair against this lobe.
    ///
    /// # Errors
    /// As [`Self::from_pair`]; [`BreakerError::GapBeyondLift`] where this lobe's contacts would not close.
    pub fn test(&self, second: &GapAndDwell) -> Result<SecondPair, BreakerError> {
        let predicted = self.dwell_at(&second.gap)?;
        let (value, u) = known(&predicted).ok_or(DWELL_ONE_SIDED)?;
        let (printed, printed_u) = known(&second.dwell).ok_or(DWELL_ONE_SIDED)?;
        let printed = self.lobes.check(Dwell::from_degrees(printed)?)?;
        let u = together([u, printed_u]);
        Ok(SecondPair::new(Dwell::from_degrees(value)?, printed, u))
    }

    /// The lobes.
    #[must_use]
    pub const fn lobes(&self) -> Lobes {
        self.lobes
    }

    /// What the cam lifts, at the contacts: the gap if the contacts never closed.
    #[must_use]
    pub fn lift_at_contacts(&self) -> Length {
        Length::computed(self.lift_mm)
    }

    /// What the cam lifts at the rubbing block, for a lever of so many times the travel at the contact; to
    /// be compared with a dial gauge on the cam.
    ///
    /// # Errors
    /// [`BreakerError::LeverRatio`] if not from 0.2 to 5.
    ///
    /// ```
    /// use lashwork::ignition::breaker::{Dwell, GapAndDwell, GapSizes, LobeModel, Lobes};
    /// use lashwork::quantity::ContactGap;
    /// let book = GapAndDwell::exact(ContactGap::from_mm(0.4)?, Dwell::from_degrees(60.0)?)?;
    /// let lobe = LobeModel::from_pair(&book, Lobes::new(4)?, GapSizes::Usual)?;
    /// assert!((lobe.lift_at_contacts().mm() - 1.6).abs() < 1e-12);
    /// assert!((lobe.lift_at_block(1.25)?.mm() - 1.28).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn lift_at_block(&self, lever_ratio: f64) -> Result<Length, BreakerError> {
        if (0.2..=5.0).contains(&lever_ratio) {
            Ok(Length::from_mm(self.lift_mm / lever_ratio)?)
        } else {
            Err(BreakerError::LeverRatio { got: lever_ratio })
        }
    }

    /// The dwell at a gap, without its uncertainty.
    ///
    /// # Errors
    /// [`BreakerError::GapUnusual`], [`BreakerError::GapBeyondLift`].
    pub fn dwell_of(&self, gap: ContactGap) -> Result<Dwell, BreakerError> {
        self.sizes.check(gap)?;
        let share = self.share(gap)?;
        let open = 4.0 / self.n() * libm::asin(libm::sqrt(share)).to_degrees();
        Ok(Dwell::from_degrees(self.lobes.pitch_degrees() - open)?)
    }

    /// The gap at a dwell, without its uncertainty.
    ///
    /// # Errors
    /// [`BreakerError::DwellBeyondPitch`], [`BreakerError::GapUnusual`].
    pub fn gap_of(&self, dwell: Dwell) -> Result<ContactGap, BreakerError> {
        self.lobes.check(dwell)?;
        let sine = libm::sin(quarter_open(self.lobes, dwell.degrees()));
        self.sizes
            .check(ContactGap::from_mm(self.lift_mm * sine * sine)?)
    }

    /// How the dwell follows the gap there, in degrees a millimetre: always negative.
    ///
    /// # Errors
    /// As [`Self::dwell_of`].
    pub fn slope(&self, gap: ContactGap) -> Result<f64, BreakerError> {
        self.sizes.check(gap)?;
        self.share(gap)?;
        let g = gap.mm();
        let radians = -2.0 / (self.n() * libm::sqrt(g * (self.lift_mm - g)));
        Ok(radians.to_degrees())
    }

    fn share(&self, gap: ContactGap) -> Result<f64, BreakerError> {
        let share = gap.mm() / self.lift_mm;
        if share < 1.0 {
            Ok(share)
        } else {
            Err(BreakerError::GapBeyondLift {
                gap,
                lift: self.lift_mm,
            })
        }
    }

    pub(super) fn n(&self) -> f64 {
        f64::from(self.lobes.number())
    }
}

pub(super) const GAP_ONE_SIDED: BreakerError = BreakerError::OneSided { what: "the gap" };
pub(super) const DWELL_ONE_SIDED: BreakerError = BreakerError::OneSided { what: "the dwell" };

/// A quarter of the cam's turn with open contacts, times the lobes: the angle of the formula, in radians.
pub(super) fn quarter_open(lobes: Lobes, dwell: f64) -> f64 {
    0.25 * f64::from(lobes.number()) * (lobes.pitch_degrees() - dwell).to_radians()
}

fn centre(gap: &Estimate<ContactGap>) -> Result<ContactGap, BreakerError> {
    gap.centre().ok_or(GAP_ONE_SIDED)
}
