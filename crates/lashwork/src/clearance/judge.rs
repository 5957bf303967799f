//! One reading judged: corrected to the reference temperature, compared with the limits, advised on.

use super::advice::{Advice, Case};
use super::as_found::AsFound;
use super::error::ClearanceError;
use super::next::{NextTry, next_try};
use super::setting::Setting;
use crate::feeler::ReadingEstimate;
use crate::quantity::Lash;
use crate::tolerance::{
    Deciding, Estimate, Judgement, Uncertainty, Verdict, judge as judge_estimate,
};
use crate::valve::ValveLimits;

/// One valve, judged.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Judged {
    /// The lash at the reference temperature.
    pub estimate: Estimate<Lash>,
    /// The verdict and what it rests on.
    pub judgement: Judgement,
    /// The share that keeps it from being called in band, and what the rule allows of it; nothing if it is.
    pub deciding: Option<Deciding>,
    /// The leaf to try next; nothing if the verdict is settled or no leaf at hand settles it.
    pub next_leaf: Option<NextTry>,
    /// What it was judged by: as printed, or with the band that was taken where none is.
    pub limits: ValveLimits,
    /// What to do.
    pub advice: Advice,
}

/// Judges what was found at a valve. Metal that is not at the temperature of the limits decides nothing,
/// whatever the probabilities: its verdict is that it cannot be said.
///
/// # Errors
/// [`ClearanceError`]: an uncertainty, a turn or a shim out of range.
///
/// ```
/// use lashwork::adjust::Adjuster;
/// use lashwork::clearance::{Advice, AsFound, Setting, judge};
/// use lashwork::feeler::{GaugeUse, Leaf, LeafSet, Reading, Stack};
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
///     not_at_reference: None,
///     adjuster: &Adjuster::Unstated,
///     kind: None,
///     rocker_ratio: None,
///     leaves: &leaves,
///     rule: &Lash::USUAL_RULE,
/// };
/// let judged = judge(&found, &found.estimate(&GaugeUse::default())?, &setting)?;
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
    let limits = setting.limits.reaching(setting.leaf_above_set_value());
    let setting = &Setting {
        limits: &limits,
        ..*setting
    };
    let extra = Uncertainty::from_mm(setting.warmth_uncertainty_mm())?;
    let estimate = felt.estimate.shifted(-setting.warmth(), extra);
    let mut judgement = judge_estimate(&estimate, setting.limits.judging(), setting.rule);
    if setting.not_at_reference.is_some() {
        judgement.verdict = Verdict::CannotSay;
    }
    let hollow = found.hollow.map_or(0.0, |hollow| hollow.depth.mm());
    let may_settle = setting.not_at_reference.is_none();
    let next_leaf = may_settle
        .then(|| next_try(setting, &estimate, hollow - setting.warmth().mm()))
        .flatten();
    let case = Case {
        found,
        setting,
        felt: &felt.estimate,
        estimate: &estimate,
        judgement: &judgement,
        next: next_leaf.as_ref(),
    };
    let advice = case.advise()?;
    Ok(Judged {
        estimate,
        judgement,
        deciding: setting.rule.deciding(&judgement.probabilities),
        next_leaf,
        limits,
        advice,
    })
}
