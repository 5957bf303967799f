//! A finding, and how sure it is.

use super::{CauseError, CompressionSign, DriftSign};
use crate::statistics::normal_cdf;
use crate::tolerance::Probabilities;
use serde::Serialize;

/// How sure a finding is, if not stated. This library's choice.
pub(super) const USUALLY_SURE: f64 = 0.99;

/// A finding, and how sure it is.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::causes::{LashSign, Seen};
/// // The leaf says tight, and by its doubt is right with 80 %.
/// let lash = Seen::with_chance(LashSign::Tight, 0.8)?;
/// assert_eq!(lash.chance(), 0.8);
/// assert_eq!(Seen::from(LashSign::Tight).chance(), 0.99);
/// assert_eq!(Seen::with_chance(LashSign::Tight, 1.0).unwrap_err().code(), "causes.sure");
/// # Ok::<(), lashwork::causes::CauseError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Seen<T> {
    found: T,
    chance: f64,
    is_stated: bool,
}

impl<T: Copy> Seen<T> {
    /// A finding that is right with this chance; the rest is spread over what else it may be.
    ///
    /// # Errors
    /// [`CauseError::Sure`] if not from 0.5 up to, but not, 1.
    pub fn with_chance(found: T, chance: f64) -> Result<Self, CauseError> {
        if (0.5..1.0).contains(&chance) {
            Ok(Self {
                found,
                chance,
                is_stated: true,
            })
        } else {
            Err(CauseError::Sure { got: chance })
        }
    }

    /// What a judgement says: the side that is more probable than not, as surely as that, and never more surely
    /// than a finding whose doubt is not stated (0.99), because a judgement knows of no slip. None if no side is.
    ///
    /// ```
    /// use lashwork::causes::{LashSign, Seen};
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let lash = Lash::parse("0.14 mm")?;
    /// let found = Estimate::between(lash, lash, Uncertainty::from_mm(0.01)?)?;
    /// let p = found.probabilities(&"0.15 mm to 0.25 mm".parse()?);
    /// let seen = Seen::judged(&p, LashSign::Tight, LashSign::InLimits, LashSign::Loose).unwrap();
    /// assert!(seen.found() == LashSign::Tight && (seen.chance() - 0.841).abs() < 1e-3);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn judged(p: &Probabilities, below: T, in_band: T, above: T) -> Option<Self> {
        let sides = [
            (p.below.least, below),
            (p.in_band.least, in_band),
            (p.above.least, above),
        ];
        let (chance, found) = sides.into_iter().find(|(chance, _)| *chance >= 0.5)?;
        Some(Self {
            found,
            chance: chance.min(USUALLY_SURE),
            is_stated: true,
        })
    }

    /// What was found.
    #[must_use]
    pub const fn found(&self) -> T {
        self.found
    }

    /// The chance that it is right.
    #[must_use]
    pub const fn chance(&self) -> f64 {
        self.chance
    }

    pub(super) const fn is_stated(&self) -> bool {
        self.is_stated
    }
}

impl Seen<DriftSign> {
    /// How a valve went, by how many times more probable its readings are if it moves unlike its mates
    /// ([`crate::history::Standing::evidence`]), and whether it closes beside them or opens: so surely that the finding
    /// weighs what the readings do, and no more than a finding whose doubt is not stated. None if they say little.
    ///
    /// ```
    /// use lashwork::causes::{DriftSign, Seen};
    /// let seen = Seen::of_evidence(8.0, true).unwrap();
    /// assert_eq!(seen.found(), DriftSign::Closing);
    /// // 0.8 for this one of three outcomes, 0.1 for each of the others.
    /// assert!((seen.chance() - 0.8).abs() < 1e-12);
    /// assert_eq!(Seen::of_evidence(0.1, true).unwrap().found(), DriftSign::AsItsMates);
    /// assert!(Seen::of_evidence(1.2, true).is_none());
    /// ```
    #[must_use]
    pub fn of_evidence(evidence: f64, closes: bool) -> Option<Self> {
        let unlike = if closes {
            DriftSign::Closing
        } else {
            DriftSign::Opening
        };
        let (found, times) = if evidence < 1.0 {
            (DriftSign::AsItsMates, 1.0 / evidence.max(f64::MIN_POSITIVE))
        } else {
            (unlike, evidence)
        };
        // Of three outcomes, `times` as probable as either of the others.
        let chance = (times / (times + 2.0)).min(USUALLY_SURE);
        (chance >= 0.5).then_some(Self {
            found,
            chance,
            is_stated: true,
        })
    }
}

impl<T> From<T> for Seen<T> {
    fn from(found: T) -> Self {
        Self {
            found,
            chance: USUALLY_SURE,
            is_stated: false,
        }
    }
}

/// A cylinder that shows less of what its mates show is low. This library's choice: makers allow 70 to 75 % before
/// they ask for work, sound cylinders scatter by 3 or 4 %.
const LOW: f64 = 0.87;
/// Oil that brings back more of what is lost helps. This library's choice.
const HELPS: f64 = 0.25;

impl Seen<CompressionSign> {
    /// A cylinder's compression by the share of what its mates show, and what oil added to that share, each with
    /// its standard uncertainty. None if it is as likely low as not.
    ///
    /// ```
    /// use lashwork::causes::{CompressionSign, Seen};
    /// let seen = Seen::of_shares((0.60, 0.03), Some((0.25, 0.04))).unwrap();
    /// assert_eq!(seen.found(), CompressionSign::LowOilHelps);
    /// assert_eq!(Seen::of_shares((0.60, 0.03), None).unwrap().found(), CompressionSign::Low);
    /// ```
    #[must_use]
    pub fn of_shares(dry: (f64, f64), oil: Option<(f64, f64)>) -> Option<Self> {
        let under = |limit: f64, (value, u): (f64, f64)| {
            normal_cdf((limit - value) / u.max(f64::MIN_POSITIVE))
        };
        let low = under(LOW, dry);
        let (found, chance) = match oil {
            _ if low < 0.5 => (CompressionSign::AsItsMates, 1.0 - low),
            None => (CompressionSign::Low, low),
            Some((gain, u)) => {
                let (share, share_u) = dry;
                let enough = HELPS * (1.0 - share);
                let none = under(enough, (gain, libm::hypot(u, HELPS * share_u)));
                if none < 0.5 {
                    (CompressionSign::LowOilHelps, low * (1.0 - none))
                } else {
                    (CompressionSign::LowOilNoHelp, low * none)
                }
            }
        };
        (chance >= 0.5).then_some(Self {
            found,
            chance: chance.min(USUALLY_SURE),
            is_stated: true,
        })
    }
}
