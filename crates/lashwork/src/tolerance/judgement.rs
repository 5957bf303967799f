//! A verdict and what it rests on.

use super::{BandJudge, DecisionRule, Estimate, HasLimits, Limits, Probabilities};
use core::fmt;
use serde::Serialize;

/// From here on a verdict is said without "probably".
pub(crate) const FIRM: f64 = 0.95;

/// How firmly a verdict may be said, no stronger than its probability: the one ladder of all quantities.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Firmness {
    /// As it is.
    Firm,
    /// With "probably".
    Probable,
    /// Accepted by the rule, and yet less probable than not: only that nothing speaks against it.
    NotShownOut,
    /// Nothing.
    CannotSay,
}

impl Firmness {
    /// What stands for [`Self::NotShownOut`] in words.
    pub(crate) const NOT_SHOWN_OUT: &str = "not shown to be out of band";

    pub(crate) const fn of(verdict: Verdict, p: &Probabilities) -> Self {
        let share = match verdict {
            Verdict::Below => p.below.least,
            Verdict::Above => p.above.least,
            Verdict::InBand => p.in_band.least,
            Verdict::CannotSay => return Self::CannotSay,
        };
        // Below and above are called from a half on, by every rule.
        if share >= FIRM {
            Self::Firm
        } else if share >= 0.5 || !matches!(verdict, Verdict::InBand) {
            Self::Probable
        } else {
            Self::NotShownOut
        }
    }
}

/// The verdict as far as it is shown: a value that the rule accepts, and that is yet less probable in the band
/// than not, settles nothing.
pub(crate) const fn as_shown(verdict: Verdict, p: &Probabilities) -> Verdict {
    match Firmness::of(verdict, p) {
        Firmness::NotShownOut => Verdict::CannotSay,
        _ => verdict,
    }
}

/// What may be said of a value against a band.
///
/// ```
/// use lashwork::tolerance::Verdict;
/// assert_eq!((Verdict::Below.to_string(), Verdict::Below.number()), ("below".into(), 2));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Verdict {
    /// In the band.
    InBand,
    /// Below the band.
    Below,
    /// Above the band.
    Above,
    /// The reading does not decide it under the rule.
    CannotSay,
}

impl Verdict {
    /// What stands for a row that was refused, where verdicts are numbers.
    pub const REFUSED: u8 = 0;

    /// The verdict as a number, for columns and for languages without enumerations; never
    /// [`Self::REFUSED`].
    #[must_use]
    pub const fn number(self) -> u8 {
        match self {
            Self::InBand => 1,
            Self::Below => 2,
            Self::Above => 3,
            Self::CannotSay => 4,
        }
    }
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::InBand => "in band",
            Self::Below => "below",
            Self::Above => "above",
            Self::CannotSay => "cannot say",
        })
    }
}

/// A verdict with what it rests on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Judgement {
    /// What may be said.
    pub verdict: Verdict,
    /// How probable each side is.
    pub probabilities: Probabilities,
    /// `false` when the uncertainty is so large against the band that no reading, wherever in the
    /// band, could be accepted under the rule: for a normal estimate and the 95 % rule below
    /// `T/u = 3.92`. A one-sided reading counts as a normal one of the same uncertainty.
    pub provable: bool,
}

impl Judgement {
    pub(crate) const fn shown(&self) -> Verdict {
        as_shown(self.verdict, &self.probabilities)
    }
}

/// Judges chances to lie below, in and above a band that were worked out from more than one estimate.
pub(crate) fn judge_known(chances: (f64, f64, f64), rule: &DecisionRule) -> Judgement {
    let probabilities = Probabilities::known(chances);
    Judgement {
        verdict: rule.verdict(&probabilities),
        probabilities,
        provable: true,
    }
}

/// Judges an estimate against a band under a rule.
///
/// Accepting needs the greatest possible risk to be small, calling below or above needs the least
/// possible one to be large; a reading that meets neither, or calls both sides, cannot say.
///
/// ```
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{DecisionRule, Estimate, HasLimits, Uncertainty, Verdict, judge};
/// let band = "0.15 mm to 0.25 mm".parse()?;
/// let on_limit = Lash::parse("0.15 mm")?;
/// let estimate = Estimate::between(on_limit, on_limit, Uncertainty::from_mm(0.005)?)?;
/// assert_eq!(judge(&estimate, &band, &Lash::USUAL_RULE).verdict, Verdict::Below);
/// let simple = judge(&estimate, &band, &DecisionRule::simple());
/// assert_eq!(simple.verdict, Verdict::InBand);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn judge<Q: HasLimits>(
    estimate: &Estimate<Q>,
    limits: &Limits<Q>,
    rule: &DecisionRule,
) -> Judgement {
    BandJudge::new(limits, rule).judge(estimate)
}
