//! How tightening the lock nut changes the gap, learned from gaps measured before and after.
//!
//! # Method
//! The shifts of the pairs are taken as a sample of a normal distribution of unknown mean and
//! spread. The next shift then follows Student's t with one degree of freedom less than there are
//! pairs, about the mean, scaled by the sample's spread times `sqrt(1 + 1/n)`.
//!
//! The hand's own scatter is part of the spread that is seen, and a few pairs cannot tell the two
//! apart: it is not taken out. What the pairs may all share (each gap was felt with a leaf that may
//! be off) is added once for the gap set before locking and as `2/n` squares for the mean. Leaves
//! that show the same shift every time therefore never give certainty; a spread that is all hand is
//! counted twice, which makes the prediction wider than it need be, not narrower.
//!
//! # Not here
//! How far the screw is turned (`screw_turn`); which band is meant.
//!
//! # Source
//! Prediction of one further observation of a normal sample (Student 1908; NIST/SEMATECH e-Handbook
//! of Statistical Methods, prediction intervals).

use super::AdjustError;
use crate::Whole;
use crate::quantity::{Lash, LashChange};
use crate::statistics::student_t_quantile;
use crate::tolerance::{Predicted, Uncertainty};

/// The gap at one valve before and after its lock nut was tightened.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LockingPair {
    /// With the screw set and the nut still loose.
    pub before: Lash,
    /// With the nut tight.
    pub after: Lash,
}

/// What is known of the shift of the gap when a lock nut is tightened.
///
/// ```
/// use lashwork::adjust::{LockNut, LockingPair};
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::Uncertainty;
/// let pair = |before, after| -> Result<_, lashwork::quantity::QuantityError> {
///     Ok(LockingPair { before: Lash::from_mm(before)?, after: Lash::from_mm(after)? })
/// };
/// let u = Uncertainty::from_mm(0.005)?;
/// let nut = LockNut::learn(&[pair(0.15, 0.17)?, pair(0.16, 0.20)?, pair(0.15, 0.18)?], u)?;
/// assert!((nut.mean().ok_or("no pairs")?.mm() - 0.03).abs() < 1e-12);
/// assert!((nut.spread().ok_or("one pair")?.mm() - 0.01).abs() < 1e-12);
/// let set = nut.before(Lash::from_mm(0.20)?);
/// assert!((set.mm() - 0.17).abs() < 1e-12);
/// assert!((nut.after(set, Uncertainty::ZERO).ok_or("?")?.centre().mm() - 0.20).abs() < 1e-12);
/// let one = LockNut::learn(&[pair(0.15, 0.17)?], u)?;
/// assert!(one.mean().is_some() && one.after(set, Uncertainty::ZERO).is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LockNut {
    pairs: usize,
    mean: Option<LashChange>,
    spread: Option<Uncertainty<Lash>>,
    uncertainty: Uncertainty<Lash>,
    whole: Whole,
}

impl LockNut {
    /// Greatest shift that is accepted, in millimetres either way: this library's choice, to catch
    /// a slip of unit.
    pub const MAX_SHIFT_MM: f64 = 0.5;
    /// Most pairs that are taken.
    pub const MAX_PAIRS: usize = 1000;

    /// Learns from pairs of gaps; `uncertainty` is the standard uncertainty of one gap, leaves and
    /// hand together.
    ///
    /// No pairs: nothing is known. One: the shift, not how much it varies.
    ///
    /// # Errors
    /// [`AdjustError::LeftOut`] without the feature `whole`; [`AdjustError::TooManyPairs`]; [`AdjustError::LockingPair`] for a gap below zero or a shift over
    /// [`Self::MAX_SHIFT_MM`]; [`AdjustError::Quantity`], [`AdjustError::Tolerance`] if a result leaves
    /// what its quantity can be.
    ///
    /// # Source
    /// Sample mean, and standard deviation with one less than the number of pairs (JCGM 100:2008,
    /// 4.2.1 and 4.2.2).
    pub fn learn(
        pairs: &[LockingPair],
        uncertainty: Uncertainty<Lash>,
    ) -> Result<Self, AdjustError> {
        let whole = Whole::here()?;
        if pairs.len() > Self::MAX_PAIRS {
            return Err(AdjustError::TooManyPairs {
                count: pairs.len(),
                max: Self::MAX_PAIRS,
            });
        }
        for (i, pair) in pairs.iter().enumerate() {
            let shift = (pair.after - pair.before).mm();
            let felt = pair.before.mm() >= 0.0 && pair.after.mm() >= 0.0;
            if !(felt && shift.abs() <= Self::MAX_SHIFT_MM) {
                return Err(AdjustError::LockingPair {
                    pair: i + 1,
                    before_mm: pair.before.mm(),
                    after_mm: pair.after.mm(),
                    max_mm: Self::MAX_SHIFT_MM,
                });
            }
        }
        let shifts = || pairs.iter().map(|pair| (pair.after - pair.before).mm());
        let count = pairs.len() as f64;
        let mean = shifts().sum::<f64>() / count;
        let squares: f64 = shifts().map(|shift| (shift - mean) * (shift - mean)).sum();
        let spread = libm::sqrt(squares / (count - 1.0));
        Ok(Self {
            pairs: pairs.len(),
            mean: match pairs {
                [] => None,
                _ => Some(LashChange::from_mm(mean)?),
            },
            spread: match pairs {
                [] | [_] => None,
                _ => Some(Uncertainty::from_mm(spread)?),
            },
            uncertainty,
            whole,
        })
    }

    /// How many pairs it was learned from.
    #[must_use]
    pub const fn pairs(&self) -> usize {
        self.pairs
    }

    /// Mean shift, positive where locking opens the gap; `None` without pairs.
    #[must_use]
    pub const fn mean(&self) -> Option<LashChange> {
        self.mean
    }

    /// Standard deviation of the shifts as seen, the hand's own scatter included; `None` below two
    /// pairs.
    #[must_use]
    pub const fn spread(&self) -> Option<Uncertainty<Lash>> {
        self.spread
    }

    /// Standard uncertainty of one gap as it was felt.
    #[must_use]
    pub const fn uncertainty(&self) -> Uncertainty<Lash> {
        self.uncertainty
    }

    /// The gap to set before locking, so that locking brings it to `target` on the mean. Without
    /// pairs it is the target itself.
    #[must_use]
    pub fn before(&self, target: Lash) -> Lash {
        self.mean.map_or(target, |mean| target - mean)
    }

    /// Half the width round the mean within which the next shift lies with probability `p`; `None`
    /// below two pairs or for a `p` not between 0 and 1.
    ///
    /// # Source
    /// Prediction interval of a normal sample: t times spread times `sqrt(1 + 1/n)`.
    ///
    /// ```
    /// use lashwork::adjust::{LockNut, LockingPair};
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::Uncertainty;
    /// let zero = Lash::from_mm(0.0)?;
    /// let pair = |mm| Lash::from_mm(mm).map(|after| LockingPair { before: zero, after });
    /// let nut = LockNut::learn(&[pair(0.02)?, pair(0.04)?], Uncertainty::ZERO)?;
    /// // 12.706 times 0.01414 times the root of 1.5.
    /// assert!((nut.half_width(0.95).ok_or("?")?.mm() - 0.2201).abs() < 1e-4);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn half_width(&self, p: f64) -> Option<Uncertainty<Lash>> {
        let t = student_t_quantile(p, self.freedom()?).ok()?;
        Uncertainty::from_mm(t * self.scale()?).ok()
    }

    /// What a gap set to `set` before locking will be afterwards; `extra` is the standard
    /// uncertainty of anything else between that gap and the one that is judged, such as a
    /// thermal correction. `None` below two pairs: how much the shift varies is not known.
    ///
    /// # Source
    /// The module's method; normal parts add as squares (JCGM 100:2008, 5.1.2).
    #[must_use]
    pub fn after(&self, set: Lash, extra: Uncertainty<Lash>) -> Option<Predicted<Lash>> {
        let spread = Uncertainty::from_mm(self.scale()?).ok()?;
        let own = self.uncertainty.mm() * libm::sqrt(1.0 + 2.0 / self.pairs as f64);
        let normal = Uncertainty::from_mm(own).ok()?.combined(extra);
        Predicted::new(set + self.mean?, spread, self.freedom()?, normal).ok()
    }

    fn freedom(&self) -> Option<f64> {
        self.spread.map(|_| self.pairs as f64 - 1.0)
    }

    /// Scale of Student's t for the next shift, in millimetres.
    fn scale(&self) -> Option<f64> {
        let spread = self.spread?.mm();
        Some(spread * libm::sqrt(1.0 + 1.0 / self.pairs as f64))
    }
}
