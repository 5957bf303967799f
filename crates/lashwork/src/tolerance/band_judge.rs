//! Judging many estimates against one band under one rule.

use super::{DecisionRule, Estimate, HasLimits, Judgement, Limits, Verdict};
use core::marker::PhantomData;

/// A band and a rule, and what was already found out about the two together.
///
/// Whether a reading of some spread could be accepted at all does not depend on where it lies, so one
/// answer serves all readings that are narrower, or wider, than the one it was found for. Gives what
/// [`judge`](super::judge) gives, to the bit, in whatever order; no memory is allocated.
///
/// ```
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{BandJudge, Estimate, HasLimits, Uncertainty, judge};
/// let band = "0.15 mm to 0.20 mm".parse()?;
/// let rule = Lash::USUAL_RULE;
/// let mut many = BandJudge::new(&band, &rule);
/// for low in [0.10, 0.15, 0.20] {
///     let (low, high) = (Lash::from_mm(low)?, Lash::from_mm(low + 0.03)?);
///     let estimate = Estimate::between(low, high, Uncertainty::from_mm(0.002)?)?;
///     assert_eq!(many.judge(&estimate), judge(&estimate, &band, &rule));
/// }
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
pub struct BandJudge<'r, Q> {
    rule: &'r DecisionRule,
    lower: Option<f64>,
    upper: Option<f64>,
    fits: Option<Spread>,
    too_wide: Option<Spread>,
    quantity: PhantomData<Q>,
}

/// Half the width of the rectangle and the normal part; what is no wider in both is narrower.
#[derive(Clone, Copy, Debug)]
struct Spread {
    half: f64,
    u: f64,
}

impl Spread {
    fn within(self, other: Self) -> bool {
        self.half <= other.half && self.u <= other.u
    }
}

impl<'r, Q: HasLimits> BandJudge<'r, Q> {
    /// Takes a band and a rule.
    #[must_use]
    pub fn new(limits: &Limits<Q>, rule: &'r DecisionRule) -> Self {
        let (lower, upper) = limits.numbers();
        Self {
            rule,
            lower,
            upper,
            fits: None,
            too_wide: None,
            quantity: PhantomData,
        }
    }

    /// Judges one estimate; see [`judge`](super::judge).
    #[must_use]
    pub fn judge(&mut self, estimate: &Estimate<Q>) -> Judgement {
        let probabilities = estimate.placed(self.lower, self.upper);
        let verdict = self.rule.verdict(&probabilities);
        let provable = match (self.lower, self.upper) {
            (Some(lower), Some(upper)) => {
                verdict == Verdict::InBand || self.could_accept(estimate, lower, upper)
            }
            _ => true,
        };
        Judgement {
            verdict,
            probabilities,
            provable,
        }
    }

    /// More spread makes each tail of a symmetric shape with one peak heavier, so what fits keeps
    /// fitting when it gets narrower and what does not keeps failing when it gets wider. An answer is
    /// kept only if no rounding can have decided it.
    fn could_accept(&mut self, estimate: &Estimate<Q>, lower: f64, upper: f64) -> bool {
        let half = match (estimate.low(), estimate.high()) {
            (Some(low), Some(high)) => 0.5 * (high.number() - low.number()),
            _ => 0.0,
        };
        let u = estimate.normal_uncertainty().number();
        let spread = Spread { half, u };
        if self.fits.is_some_and(|known| spread.within(known)) {
            return true;
        }
        if self.too_wide.is_some_and(|known| known.within(spread)) {
            return false;
        }
        let (could, sure) = self.rule.could_accept(half, u, lower, upper);
        match (could, sure) {
            (true, true) => self.fits = Some(spread),
            (false, true) => self.too_wide = Some(spread),
            _ => {}
        }
        could
    }
}
