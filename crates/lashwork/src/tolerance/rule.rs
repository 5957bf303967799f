//! From probabilities to a verdict.

use super::{BandJudge, Chance, LashEstimate, Limits, Probabilities, ToleranceError};
use crate::statistics::RectangularNormal;
use serde::Serialize;

/// Slack when a probability is held against a level, so that a reading exactly on a limit is not
/// decided by the last bit of a decimal.
const ROUNDING: f64 = 1e-12;
/// What a probability must differ from a level by, so that no rounding on the way to it, nor the slack
/// above, can have decided.
const SURE: f64 = 1e-9;

/// What may be said of a valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Verdict {
    /// In the band.
    InBand,
    /// Below the band: too little lash.
    Tight,
    /// Above the band: too much lash.
    Loose,
    /// The reading does not decide it under the rule.
    CannotSay,
}

/// How small a risk accepts one side of the band, and how large one calls it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Side {
    accept_up_to: f64,
    call_from: f64,
}

impl Side {
    /// Accepted with so much confidence, called when more likely than not.
    const fn guarded(confidence: f64) -> Self {
        Self {
            accept_up_to: 1.0 - confidence,
            call_from: 0.5,
        }
    }

    fn accepts(self, risk: Chance) -> bool {
        risk.most <= self.accept_up_to + ROUNDING
    }

    fn calls(self, risk: Chance) -> bool {
        risk.least >= self.call_from - ROUNDING
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    /// Each side by its own risk.
    Sides { tight: Side, loose: Side },
    /// Conformance and non-conformance each to be proven with a probability.
    Proof { confidence: f64 },
}

/// How sure one must be before a valve is called in the band, tight or loose.
///
/// ```
/// use lashwork::tolerance::DecisionRule;
/// assert_eq!(DecisionRule::default(), DecisionRule::guarded_tight());
/// assert_eq!(DecisionRule::iso_14253_1().name(), "iso_14253_1");
/// assert!(DecisionRule::guarded(0.95, 1.0).is_err());
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DecisionRule {
    name: &'static str,
    kind: Kind,
}

impl DecisionRule {
    /// Guarded on the tight side, simple on the loose side; the default.
    ///
    /// Not tight when P(tight) is 5 % or less, tight from 50 %, between cannot be said. Not loose
    /// when P(loose) is 50 % or less, loose above. A tight valve burns and a loose one ticks:
    /// common practice, no source.
    #[must_use]
    pub const fn guarded_tight() -> Self {
        Self {
            name: "guarded_tight",
            kind: Kind::Sides {
                tight: Side::guarded(0.95),
                loose: Side::guarded(0.5),
            },
        }
    }

    /// Simple acceptance: the risk is shared, each side is accepted up to 50 %.
    ///
    /// # Source
    /// JCGM 106:2012 8.2: a best estimate within the limits is accepted, one outside is not.
    #[must_use]
    pub const fn simple() -> Self {
        Self {
            name: "simple",
            kind: Kind::Sides {
                tight: Side::guarded(0.5),
                loose: Side::guarded(0.5),
            },
        }
    }

    /// In the band when that is 95 % probable; tight or loose when that side is 95 % probable;
    /// between the two, cannot say.
    ///
    /// A reading so uncertain that only both sides together reach 95 % proves that the valve is
    /// outside, not to which side; it is not called.
    ///
    /// # Source
    /// ISO 14253-1:2017, default conformance probability 95 %.
    #[must_use]
    pub const fn iso_14253_1() -> Self {
        Self {
            name: "iso_14253_1",
            kind: Kind::Proof { confidence: 0.95 },
        }
    }

    /// Guarded on each side with a chosen confidence: not tight when P(tight) is at most
    /// `1 - tight_confidence`, tight from 50 %; likewise loose. 0.5 is no guard.
    ///
    /// # Errors
    /// [`ToleranceError::Confidence`] if one is below 0.5, 1 or more, or not a number.
    pub fn guarded(tight_confidence: f64, loose_confidence: f64) -> Result<Self, ToleranceError> {
        let side = |side, got: f64| {
            if (0.5..1.0).contains(&got) {
                Ok(Side::guarded(got))
            } else {
                Err(ToleranceError::Confidence { side, got })
            }
        };
        Ok(Self {
            name: "guarded",
            kind: Kind::Sides {
                tight: side("tight", tight_confidence)?,
                loose: side("loose", loose_confidence)?,
            },
        })
    }

    /// A short name that never changes.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.name
    }

    pub(super) fn verdict(&self, p: &Probabilities) -> Verdict {
        let (accepted, tight, loose) = match self.kind {
            Kind::Sides { tight, loose } => (
                tight.accepts(p.tight) && loose.accepts(p.loose),
                tight.calls(p.tight),
                loose.calls(p.loose),
            ),
            Kind::Proof { confidence } => {
                let proven = |c: Chance| c.least >= confidence - ROUNDING;
                (proven(p.in_band), proven(p.tight), proven(p.loose))
            }
        };
        match (accepted, tight, loose) {
            (true, _, _) => Verdict::InBand,
            (false, true, false) => Verdict::Tight,
            (false, false, true) => Verdict::Loose,
            (false, _, _) => Verdict::CannotSay,
        }
    }

    /// Whether some reading of this spread could be accepted in a band of two limits, and whether
    /// that is so by more than the rounding of the probabilities.
    pub(super) fn could_accept(&self, half: f64, u: f64, lower: f64, upper: f64) -> (bool, bool) {
        let at = |middle: f64| {
            let (tight, in_band, loose) = RectangularNormal {
                a: middle - half,
                b: middle + half,
                u,
            }
            .split(Some(lower), Some(upper));
            let known = |p| Chance { least: p, most: p };
            Probabilities {
                tight: known(tight),
                in_band: known(in_band),
                loose: known(loose),
            }
        };
        let answer = |p: &Probabilities| {
            let sure = self.spare(p).abs() > SURE;
            (self.verdict(p) == Verdict::InBand, sure)
        };
        let centre = lower + 0.5 * (upper - lower);
        let (accepted, sure) = answer(&at(centre));
        if accepted {
            // The usual case, and far cheaper than the search below.
            return (accepted, sure);
        }
        let Kind::Sides { loose, .. } = self.kind else {
            return (accepted, sure);
        };
        // The place with the least tight risk: as high as the loose risk allows.
        let mut best = lower - (half + 40.0 * u + (upper - lower));
        let mut too_high = upper + half + 40.0 * u + (upper - lower);
        for _ in 0..80 {
            let middle = best + 0.5 * (too_high - best);
            if loose.accepts(at(middle).loose) {
                best = middle;
            } else {
                too_high = middle;
            }
        }
        let (accepted, _) = answer(&at(best));
        // There the loose risk is just what it may be, so the tight one alone decides.
        let Kind::Sides { tight, .. } = self.kind else {
            return (accepted, false);
        };
        let over = at(best).tight.most - tight.accept_up_to;
        (accepted, over.abs() > SURE)
    }

    /// How far the nearest of the probabilities that decide about accepting is from its level;
    /// negative if not accepted.
    fn spare(&self, p: &Probabilities) -> f64 {
        match self.kind {
            Kind::Sides { tight, loose } => {
                let by = |side: Side, risk: Chance| side.accept_up_to - risk.most;
                by(tight, p.tight).min(by(loose, p.loose))
            }
            Kind::Proof { confidence } => p.in_band.least - confidence,
        }
    }
}

impl Default for DecisionRule {
    fn default() -> Self {
        Self::guarded_tight()
    }
}

impl Serialize for DecisionRule {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeMap;
        match self.kind {
            Kind::Sides { tight, loose } => {
                let mut map = serializer.serialize_map(Some(3))?;
                map.serialize_entry("name", self.name)?;
                map.serialize_entry("tight_risk", &tight.accept_up_to)?;
                map.serialize_entry("loose_risk", &loose.accept_up_to)?;
                map.end()
            }
            Kind::Proof { confidence } => {
                let mut map = serializer.serialize_map(Some(2))?;
                map.serialize_entry("name", self.name)?;
                map.serialize_entry("confidence", &confidence)?;
                map.end()
            }
        }
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

/// Judges an estimate against a band under a rule.
///
/// Accepting needs the greatest possible risk to be small, calling tight or loose needs the least
/// possible one to be large; a reading that meets neither, or calls both sides, cannot say.
///
/// ```
/// use lashwork::quantity::{Lash, Marked};
/// use lashwork::tolerance::{DecisionRule, LashEstimate, LashUncertainty, Limits, Verdict, judge};
/// let band = Limits::between(Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?)?;
/// let u = LashUncertainty::from_mm(0.005)?;
/// let on_limit = Lash::parse("0.15 mm")?;
/// let estimate = LashEstimate::between(on_limit, on_limit, u)?;
/// let guarded = judge(&estimate, &band, &DecisionRule::guarded_tight());
/// assert_eq!(guarded.verdict, Verdict::Tight);
/// let simple = judge(&estimate, &band, &DecisionRule::simple());
/// assert_eq!(simple.verdict, Verdict::InBand);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn judge(estimate: &LashEstimate, limits: &Limits, rule: &DecisionRule) -> Judgement {
    BandJudge::new(limits, rule).judge(estimate)
}
