//! Judging many estimates against one band under one rule.

use super::room::{ROUNDING, Room};
use super::{DecisionRule, Estimate, HasLimits, Judgement, Limits, Verdict};
use core::marker::PhantomData;

/// A band and a spread this large, as a share of the limits, are moved so little by rounding that no
/// probability shows it.
const COARSE: f64 = 1e-4;

/// A band and a rule, and what was already found out about the two together.
///
/// Whether a reading of some spread could be accepted at all depends neither on where it lies nor on where
/// the band does, so one answer serves all readings that are narrower against their band, or wider, than the
/// one it was found for. Gives what
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
    pub(super) rule: &'r DecisionRule,
    lower: Option<f64>,
    upper: Option<f64>,
    /// In how wide a band some reading of a spread is certainly accepted, if that was asked for.
    pub(super) room: Room,
    fits: Option<Spread>,
    too_wide: Option<Spread>,
    quantity: PhantomData<Q>,
}

/// Half the width of the rectangle and the normal part, as shares of the band's width; what is no wider in
/// both is narrower, in whatever band.
#[derive(Clone, Copy, Debug)]
struct Spread {
    half: f64,
    u: f64,
}

impl Spread {
    /// Readings between the same two leaves differ in their last bits; no probability shows that.
    fn within(self, other: Self) -> bool {
        self.half <= other.half * (1.0 + ROUNDING) && self.u <= other.u * (1.0 + ROUNDING)
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
            // Not worth its logarithms for one reading.
            room: Room::UNKNOWN,
            fits: None,
            too_wide: None,
            quantity: PhantomData,
        }
    }

    /// Takes a rule, for many readings with bands that [`Self::turn_to`] gives in the base unit.
    pub(crate) fn of_rule(rule: &'r DecisionRule) -> Self {
        Self {
            rule,
            lower: None,
            upper: None,
            room: rule.room(),
            fits: None,
            too_wide: None,
            quantity: PhantomData,
        }
    }

    /// Judges by these limits from now on.
    #[inline]
    pub(crate) fn turn_to(&mut self, lower: Option<f64>, upper: Option<f64>) {
        (self.lower, self.upper) = (lower, upper);
    }

    /// Judges one estimate; see [`judge`](super::judge).
    #[must_use]
    pub fn judge(&mut self, estimate: &Estimate<Q>) -> Judgement {
        let half = match (estimate.low(), estimate.high()) {
            (Some(low), Some(high)) => 0.5 * (high.number() - low.number()),
            _ => 0.0,
        };
        let u = estimate.normal_uncertainty().number();
        let probabilities = estimate.placed(self.lower, self.upper);
        let verdict = self.rule.verdict(&probabilities);
        let provable = match (self.lower, self.upper) {
            (Some(lower), Some(upper)) => {
                verdict == Verdict::InBand
                    || self.room.is_between(lower, upper, half, u)
                    || self.could_accept(half, u, lower, upper)
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
    #[inline(never)]
    pub(super) fn could_accept(&mut self, half: f64, u: f64, lower: f64, upper: f64) -> bool {
        let (width, magnitude) = (upper - lower, 1.0 + lower.abs() + upper.abs());
        let coarse = COARSE * magnitude;
        if width < coarse || half.max(u) < coarse {
            return self.rule.could_accept(half, u, lower, upper).0;
        }
        let spread = Spread {
            half: half / width,
            u: u / width,
        };
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
