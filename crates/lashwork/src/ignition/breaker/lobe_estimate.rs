//! What gap, pair and the lobe's own shape leave uncertain of a dwell, of a gap and of the spark.
//!
//! # Source
//! Law of propagation, JCGM 100:2008, 5.1.2; the derivatives of the formula in `lobe_model`.

use super::lobe_model::{DWELL_ONE_SIDED, GAP_ONE_SIDED, quarter_open};
use super::spark::{Flanks, SparkShift, shift};
use super::{BreakerAssumption, BreakerError, CamSpeed, Dwell, LobeModel};
use crate::quantity::ContactGap;
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, normal, together};

/// The published pair in plain numbers.
struct Anchor {
    gap: f64,
    gap_u: f64,
    dwell: f64,
    dwell_u: f64,
}

impl LobeModel {
    /// The dwell at a gap that was measured, with what gap, pair and lobe shape leave uncertain.
    ///
    /// # Errors
    /// [`BreakerError::OneSided`], and as [`Self::dwell_of`].
    ///
    /// ```
    /// use lashwork::ignition::breaker::{Dwell, GapAndDwell, GapSizes, LobeModel, Lobes};
    /// use lashwork::quantity::ContactGap;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let gap = |mm: f64, u: f64| -> Result<Estimate<ContactGap>, Box<dyn std::error::Error>> {
    ///     let at = ContactGap::from_mm(mm)?;
    ///     Ok(Estimate::between(at, at, Uncertainty::from_number(u)?)?)
    /// };
    /// let book = GapAndDwell::exact(ContactGap::from_mm(0.40)?, Dwell::from_degrees(52.0)?)?;
    /// let lobe = LobeModel::from_pair(&book, Lobes::new(4)?, GapSizes::Usual)?;
    /// // At the pair only the leaf counts: 56 degrees a millimetre.
    /// let here = lobe.dwell_at(&gap(0.40, 0.02)?)?;
    /// assert!((here.standard_uncertainty().unwrap().number() - 1.12).abs() < 0.01);
    /// // Away from it the shape of the lobe counts more and more.
    /// let there = lobe.dwell_at(&gap(0.55, 0.02)?)?;
    /// assert!(there.standard_uncertainty().unwrap().number() > 2.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn dwell_at(&self, gap: &Estimate<ContactGap>) -> Result<Estimate<Dwell>, BreakerError> {
        let (mm, u) = known(gap).ok_or(GAP_ONE_SIDED)?;
        let at = ContactGap::from_mm(mm)?;
        let dwell = self.dwell_of(at)?.degrees();
        let slope = self.slope(at)?;
        let pair = self.anchor()?;
        let (by_gap, by_dwell) = self.follows_pair(at)?;
        let shares = [
            slope * u,
            by_gap * pair.gap_u,
            by_dwell * pair.dwell_u,
            doubt(dwell - pair.dwell),
        ];
        Ok(normal(dwell, together(shares))?)
    }

    /// The gap that goes with a dwell that was read, with its uncertainty.
    ///
    /// # Errors
    /// [`BreakerError::OneSided`], and as [`Self::gap_of`].
    ///
    /// ```
    /// use lashwork::ignition::breaker::{Dwell, GapAndDwell, GapSizes, LobeModel, Lobes};
    /// use lashwork::quantity::ContactGap;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let book = GapAndDwell::exact(ContactGap::from_mm(0.40)?, Dwell::from_degrees(52.0)?)?;
    /// let lobe = LobeModel::from_pair(&book, Lobes::new(4)?, GapSizes::Usual)?;
    /// let read = Dwell::from_degrees(56.0)?;
    /// let gap = lobe.gap_at(&Estimate::between(read, read, Uncertainty::from_number(1.0)?)?)?;
    /// assert!((gap.centre().unwrap().mm() - 0.330).abs() < 5e-4);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn gap_at(&self, dwell: &Estimate<Dwell>) -> Result<Estimate<ContactGap>, BreakerError> {
        let (degrees, u) = known(dwell).ok_or(DWELL_ONE_SIDED)?;
        let gap = self.gap_of(Dwell::from_degrees(degrees)?)?;
        let slope = self.slope(gap)?;
        let pair = self.anchor()?;
        let (by_gap, by_dwell) = self.follows_pair(gap)?;
        let shares = [
            u / slope,
            by_gap * pair.gap_u / slope,
            by_dwell * pair.dwell_u / slope,
            doubt(gap.mm() - pair.gap),
        ];
        Ok(normal(gap.mm(), together(shares))?)
    }

    /// How far the spark moves when the gap is changed from one to another.
    ///
    /// # Errors
    /// [`BreakerError::OneSided`], as [`Self::dwell_of`], and [`BreakerError::FlankShare`].
    ///
    /// ```
    /// use lashwork::ignition::breaker::{CamSpeed, Dwell, GapAndDwell, GapSizes, LobeModel, Lobes};
    /// use lashwork::quantity::ContactGap;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let at = |thou| ContactGap::from_number(thou, "thou").unwrap();
    /// let exact = |gap| Estimate::between(gap, gap, Uncertainty::ZERO);
    /// let book = GapAndDwell::exact(at(15.0), Dwell::from_degrees(60.0)?)?;
    /// let lobe = LobeModel::from_pair(&book, Lobes::new(4)?, GapSizes::Usual)?;
    /// let wider = lobe.spark_shift(&exact(at(15.0))?, &exact(at(16.0))?, CamSpeed::HalfCrank, None)?;
    /// // A thousandth of an inch more gap: 1.09 degrees less dwell, as many crank degrees earlier.
    /// assert!((wider.earlier.degrees() - 1.091).abs() < 5e-4);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn spark_shift(
        &self,
        from: &Estimate<ContactGap>,
        to: &Estimate<ContactGap>,
        cam: CamSpeed,
        flanks: Option<Flanks>,
    ) -> Result<SparkShift, BreakerError> {
        let end = |gap: &Estimate<ContactGap>| -> Result<_, BreakerError> {
            let (mm, u) = known(gap).ok_or(GAP_ONE_SIDED)?;
            let at = ContactGap::from_mm(mm)?;
            let dwell = self.dwell_of(at)?;
            Ok((dwell, self.slope(at)? * u, self.follows_pair(at)?))
        };
        let (before, before_u, before_pair) = end(from)?;
        let (after, after_u, after_pair) = end(to)?;
        let pair = self.anchor()?;
        let change = after - before;
        // What the pair does to both ends falls out as far as it does the same.
        let u = together([
            before_u,
            after_u,
            (after_pair.0 - before_pair.0) * pair.gap_u,
            (after_pair.1 - before_pair.1) * pair.dwell_u,
            doubt(change.degrees()),
        ]);
        let mut shift = shift(change, u, cam, flanks)?;
        shift.assumptions.push(BreakerAssumption::HalfCosineLobe);
        Ok(shift)
    }

    /// By how much dwell changes for a unit of the pair's gap (degrees a millimetre) and of its dwell.
    fn follows_pair(&self, at: ContactGap) -> Result<(f64, f64), BreakerError> {
        let steep = self.slope(at)?.abs();
        let (g, pair) = (at.mm(), self.anchor()?);
        let half = quarter_open(self.lobes(), pair.dwell);
        let by_dwell = steep.to_radians() * g * 0.5 * self.n() / libm::tan(half);
        Ok((steep * g / pair.gap, by_dwell))
    }

    fn anchor(&self) -> Result<Anchor, BreakerError> {
        let (gap, gap_u) = known(&self.pair.gap).ok_or(GAP_ONE_SIDED)?;
        let (dwell, dwell_u) = known(&self.pair.dwell).ok_or(DWELL_ONE_SIDED)?;
        Ok(Anchor {
            gap,
            gap_u,
            dwell,
            dwell_u,
        })
    }
}

/// Standard uncertainty that the lobe's shape leaves to a change of so much: a rectangle (JCGM 100:2008,
/// 4.3.7).
fn doubt(change: f64) -> f64 {
    change.abs() * LobeModel::SLOPE_DOUBT / libm::sqrt(3.0)
}
