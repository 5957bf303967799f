//! Rules that lead from probabilities to a verdict.

use super::room::Room;
use super::{Chance, Probabilities, ToleranceError, Verdict};
use crate::statistics::RectangularNormal;
use serde::Serialize;

/// Slack when a probability is held against a level, so that a reading exactly on a limit is not
/// decided by the last bit of a decimal.
const ROUNDING: f64 = 1e-12;
/// What a probability must differ from a level by, so that no rounding on the way to it, nor the slack
/// above, can have decided.
const SURE: f64 = 1e-9;

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
    Sides { below: Side, above: Side },
    /// Conformance and non-conformance each to be proven with a probability.
    Proof { confidence: f64 },
}

/// How sure one must be before a value is called in the band, below or above it.
///
/// There is no default for every quantity: see [`HasLimits::USUAL_RULE`](super::HasLimits::USUAL_RULE).
///
/// ```
/// use lashwork::tolerance::DecisionRule;
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
    /// Guarded on each side, under the name by which documents call it.
    pub(crate) const fn of_sides(name: &'static str, below: f64, above: f64) -> Self {
        let (below, above) = (Side::guarded(below), Side::guarded(above));
        Self {
            name,
            kind: Kind::Sides { below, above },
        }
    }

    /// Simple acceptance: the risk is shared, each side is accepted up to 50 %.
    ///
    /// # Source
    /// JCGM 106:2012 8.2: a best estimate within the limits is accepted, one outside is not.
    #[must_use]
    pub const fn simple() -> Self {
        Self::of_sides("simple", 0.5, 0.5)
    }

    /// In the band when that is 95 % probable; below or above when that side is 95 % probable;
    /// between the two, cannot say.
    ///
    /// A reading so uncertain that only both sides together reach 95 % proves that the value is
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

    /// Guarded on each side with a chosen confidence: not below when P(below) is at most
    /// `1 - below`, below from 50 %; likewise above. 0.5 is no guard.
    ///
    /// # Errors
    /// [`ToleranceError::Confidence`] if one is below 0.5, 1 or more, or not a number.
    pub fn guarded(below: f64, above: f64) -> Result<Self, ToleranceError> {
        for (side, got) in [("lower", below), ("upper", above)] {
            if !(0.5..1.0).contains(&got) {
                return Err(ToleranceError::Confidence { side, got });
            }
        }
        Ok(Self::of_sides("guarded", below, above))
    }

    /// A short name that never changes.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// Without a branch on what is as likely as not.
    #[inline(always)]
    #[expect(
        clippy::inline_always,
        reason = "what is called elsewhere cannot stand side by side in a register"
    )]
    pub(super) fn verdict(&self, p: &Probabilities) -> Verdict {
        let (accepted, below, above) = match self.kind {
            Kind::Sides { below, above } => (
                below.accepts(p.below) & above.accepts(p.above),
                below.calls(p.below),
                above.calls(p.above),
            ),
            Kind::Proof { confidence } => {
                let proven = |c: Chance| c.least >= confidence - ROUNDING;
                (proven(p.in_band), proven(p.below), proven(p.above))
            }
        };
        let side = if below {
            Verdict::Below
        } else {
            Verdict::Above
        };
        let outside = if below == above {
            Verdict::CannotSay
        } else {
            side
        };
        if accepted { Verdict::InBand } else { outside }
    }

    /// Whether some reading of this spread could be accepted in a band of two limits, and whether
    /// that is so by more than the rounding of the probabilities.
    pub(super) fn could_accept(&self, half: f64, u: f64, lower: f64, upper: f64) -> (bool, bool) {
        let at = |middle: f64| {
            let shape = RectangularNormal {
                a: middle - half,
                b: middle + half,
                u,
            };
            Probabilities::known(shape.split(Some(lower), Some(upper)))
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
        let Kind::Sides { above, .. } = self.kind else {
            return (accepted, sure);
        };
        // The place with the least risk to lie below: as high as the risk to lie above allows.
        let mut best = lower - (half + 40.0 * u + (upper - lower));
        let mut too_high = upper + half + 40.0 * u + (upper - lower);
        for _ in 0..80 {
            let middle = best + 0.5 * (too_high - best);
            if above.accepts(at(middle).above) {
                best = middle;
            } else {
                too_high = middle;
            }
        }
        let (accepted, _) = answer(&at(best));
        // There the upper risk is just what it may be, so the lower one alone decides.
        let Kind::Sides { below, .. } = self.kind else {
            return (accepted, false);
        };
        let over = at(best).below.most - below.accept_up_to;
        (accepted, over.abs() > SURE)
    }

    /// How much wider than a spread a band is in which some reading of it is certainly accepted.
    pub(super) fn room(&self) -> Room {
        match self.kind {
            Kind::Sides { below, above } => {
                Room::of_risk(below.accept_up_to).with(Room::of_risk(above.accept_up_to))
            }
            Kind::Proof { confidence } => {
                let side = Room::of_risk(0.5 * (1.0 - confidence));
                side.with(side)
            }
        }
    }

    /// How much risk there is beyond what the rule accepts, on the worse side: 0 if it is accepted, up
    /// to 1.
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, HasLimits, Uncertainty};
    /// let (low, high) = (Lash::from_mm(0.14)?, Lash::from_mm(0.18)?);
    /// let p = Estimate::between(low, high, Uncertainty::ZERO)?.probabilities(&"at least 0.15 mm".parse()?);
    /// // A quarter lies below; a twentieth is accepted.
    /// assert!((Lash::USUAL_RULE.excess(&p) - 0.20).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn excess(&self, p: &Probabilities) -> f64 {
        (-self.spare(p)).max(0.0)
    }

    /// How far the nearest of the probabilities that decide about accepting is from its level;
    /// negative if not accepted.
    fn spare(&self, p: &Probabilities) -> f64 {
        match self.kind {
            Kind::Sides { below, above } => {
                let by = |side: Side, risk: Chance| side.accept_up_to - risk.most;
                by(below, p.below).min(by(above, p.above))
            }
            Kind::Proof { confidence } => p.in_band.least - confidence,
        }
    }
}

/// The share that keeps a value from being accepted, and what the rule allows of it.
///
/// ```
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{DecidingSide, Estimate, HasLimits, Limits, Uncertainty};
/// let limits: Limits<Lash> = "0.15 mm to 0.25 mm".parse()?;
/// let felt = Estimate::between(Lash::parse("0.145 mm")?, Lash::parse("0.195 mm")?, Uncertainty::ZERO)?;
/// let why = Lash::USUAL_RULE.deciding(&felt.probabilities(&limits)).ok_or("refused")?;
/// assert_eq!(why.side, DecidingSide::Below);
/// assert!((why.share - 0.10).abs() < 1e-12 && (why.allowed - 0.05).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Deciding {
    /// Which share.
    pub side: DecidingSide,
    /// How large it may be, or for what lies in the band how small.
    pub share: f64,
    /// The most the rule allows; for what lies in the band, the least it asks for.
    pub allowed: f64,
}

/// The share a rule looks at.
///
/// ```
/// use lashwork::tolerance::DecidingSide;
/// assert_ne!(DecidingSide::Below, DecidingSide::Above);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum DecidingSide {
    /// What may lie below the band.
    Below,
    /// What may lie above it.
    Above,
    /// What is certain to lie in it.
    InBand,
}

impl DecisionRule {
    /// What keeps a value of these probabilities from being accepted; nothing if it is accepted.
    #[must_use]
    pub fn deciding(&self, p: &Probabilities) -> Option<Deciding> {
        if self.verdict(p) == Verdict::InBand {
            return None;
        }
        Some(match self.kind {
            Kind::Sides { below, above } => {
                let side = |side, risk: Chance, by: Side| Deciding {
                    side,
                    share: risk.most,
                    allowed: by.accept_up_to,
                };
                if below.accepts(p.below) {
                    side(DecidingSide::Above, p.above, above)
                } else {
                    side(DecidingSide::Below, p.below, below)
                }
            }
            Kind::Proof { confidence } => Deciding {
                side: DecidingSide::InBand,
                share: p.in_band.least,
                allowed: confidence,
            },
        })
    }

    /// Whether what may lie below the band is little enough.
    pub(crate) fn accepts_below(&self, p: &Probabilities) -> bool {
        match self.kind {
            Kind::Sides { below, .. } => below.accepts(p.below),
            Kind::Proof { confidence } => p.below.most <= 1.0 - confidence + ROUNDING,
        }
    }

    /// Whether what may lie above the band is little enough.
    pub(crate) fn accepts_above(&self, p: &Probabilities) -> bool {
        match self.kind {
            Kind::Sides { above, .. } => above.accepts(p.above),
            Kind::Proof { confidence } => p.above.most <= 1.0 - confidence + ROUNDING,
        }
    }
}

impl Serialize for DecisionRule {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeMap;
        match self.kind {
            Kind::Sides { below, above } => {
                let mut map = serializer.serialize_map(Some(3))?;
                map.serialize_entry("name", self.name)?;
                map.serialize_entry("below_risk", &below.accept_up_to)?;
                map.serialize_entry("above_risk", &above.accept_up_to)?;
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
