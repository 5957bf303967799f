//! One reading judged: corrected to the reference temperature, compared with the limits, advised on.

use super::advice::advise;
use super::{Advice, AsFound, ClearanceError};
use crate::adjust::Adjuster;
use crate::engine::ASSUMED_ROCKER_RATIO;
use crate::feeler::{LeafSet, ReadingEstimate};
use crate::quantity::{Lash, LashChange};
use crate::thermal::Correction;
use crate::tolerance::{DecisionRule, Estimate, Judgement, Uncertainty, judge as judge_estimate};
use crate::valve::ValveLimits;

/// What a valve is judged by, and what it can be set with.
#[derive(Clone, Copy, Debug)]
pub struct Setting<'s> {
    /// What is asked for, at the reference temperature.
    pub limits: &'s ValveLimits,
    /// The thermal change from the reference to the metal's temperature; nothing if readings are
    /// judged uncorrected.
    pub correction: Option<&'s Correction>,
    /// How the lash is set.
    pub adjuster: &'s Adjuster,
    /// Valve movement over cam movement; [`ASSUMED_ROCKER_RATIO`] is taken, and to be listed, where it
    /// is not stated.
    pub rocker_ratio: Option<f64>,
    /// The leaves at hand.
    pub leaves: &'s LeafSet,
    /// When a valve is called tight, loose or in its band.
    pub rule: &'s DecisionRule,
}

impl Setting<'_> {
    /// The thermal change of the lash; nothing without a model.
    #[must_use]
    pub fn warmth(&self) -> LashChange {
        self.correction.map_or(LashChange::ZERO, |c| c.change)
    }

    /// The standard uncertainty of that, in millimetres.
    pub(super) fn warmth_uncertainty_mm(&self) -> f64 {
        self.correction
            .map_or(0.0, Correction::standard_uncertainty_mm)
    }

    pub(super) fn ratio(&self) -> f64 {
        self.rocker_ratio.unwrap_or(ASSUMED_ROCKER_RATIO)
    }
}

/// One valve, judged.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Judged {
    /// The lash at the reference temperature.
    pub estimate: Estimate<Lash>,
    /// The verdict and what it rests on.
    pub judgement: Judgement,
    /// What to do.
    pub advice: Advice,
}

/// Judges what was found at a valve.
///
/// # Errors
/// [`ClearanceError`]: an uncertainty, a turn or a shim out of range.
///
/// ```
/// use lashwork::adjust::Adjuster;
/// use lashwork::clearance::{Advice, AsFound, Setting, judge};
/// use lashwork::feeler::{Combination, Leaf, LeafSet, Reading, Stack};
/// use lashwork::quantity::{Lash, Marked};
/// use lashwork::tolerance::{HasLimits, Limits, Verdict};
/// use lashwork::valve::ValveLimits;
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let mark = |text| Marked::parse(text);
/// let one = |text| Stack::new(vec![Leaf::new(Marked::parse(text).unwrap())]);
/// let leaves = LeafSet::new(vec![Leaf::new(mark("0.12 mm")?), Leaf::new(mark("0.20 mm")?)])?;
/// let band = Limits::between(mark("0.15 mm")?, mark("0.25 mm")?)?;
/// let limits = ValveLimits::new(mark("0.20 mm")?, band, None)?;
/// let found = AsFound::new(Reading::between(one("0.10 mm")?, one("0.12 mm")?)?);
/// let setting = Setting {
///     limits: &limits,
///     correction: None,
///     adjuster: &Adjuster::Unstated,
///     rocker_ratio: None,
///     leaves: &leaves,
///     rule: &Lash::USUAL_RULE,
/// };
/// let judged = judge(&found, &found.estimate(Combination::WorstCase)?, &setting)?;
/// assert_eq!(judged.judgement.verdict, Verdict::Below);
/// assert!(matches!(judged.advice, Advice::Reset(_)));
/// assert_eq!(judged.advice.text(), "reset to 0.20 mm");
/// # Ok(())
/// # }
/// ```
pub fn judge(
    found: &AsFound,
    felt: &ReadingEstimate,
    setting: &Setting<'_>,
) -> Result<Judged, ClearanceError> {
    let extra = Uncertainty::from_mm(setting.warmth_uncertainty_mm())?;
    let estimate = felt.estimate.shifted(-setting.warmth(), extra);
    let judgement = judge_estimate(&estimate, setting.limits.judging(), setting.rule);
    let advice = advise(found, setting, &estimate, &judgement)?;
    Ok(Judged {
        estimate,
        judgement,
        advice,
    })
}
