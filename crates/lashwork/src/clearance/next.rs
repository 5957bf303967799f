//! Which leaf to try next at a valve.

use super::setting::Setting;
use crate::feeler::{GaugeUse, Leaf, LeafSet, NextLeaf, Reading, Stack, next_leaf};
use crate::quantity::{Lash, Marked, Nominal};
use crate::tolerance::{Estimate, FIRM, Uncertainty, Verdict, judge};
use alloc::format;
use alloc::string::{String, ToString};
use serde::Serialize;

/// A gap is taken to be at most so many times the upper limit, or what is known to go.
const AT_MOST: f64 = 2.0;

/// Ends of a gap nearer than this are one, in millimetres: the last bits of a sum.
const SAME_MM: f64 = 1e-6;

/// The leaf to try next, so that the verdict settles in the fewest tries.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct NextTry {
    /// Its mark.
    pub leaf: Marked,
    /// How many tries it takes on the mean, this one included, the gap being taken as likely anywhere it
    /// still may be.
    pub expected_tries: f64,
    /// Probability that the leaves at hand settle it.
    pub settles: f64,
    /// The same in words.
    pub text: String,
}

impl NextTry {
    pub(super) fn leaf_text(&self) -> String {
        self.leaf.to_string()
    }
}

/// A reading that one more leaf would make of this one; `felt` is what the leaves found, its
/// uncertainty stays.
pub(super) fn with_ends(
    felt: &Estimate<Lash>,
    shift: f64,
    (goes, refuses): (Option<Marked>, Option<Marked>),
    more_u: f64,
) -> Option<Estimate<Lash>> {
    let end = |mark: Option<Marked>, as_felt: Option<Lash>| match mark {
        Some(mark) => Lash::from_mm(mark.mm() + shift).ok(),
        None => as_felt,
    };
    let u = felt
        .normal_uncertainty()
        .combined(Uncertainty::from_mm(more_u).ok()?);
    Estimate::of(end(goes, felt.low()), end(refuses, felt.high()), u).ok()
}

/// The leaf to try first at a valve at which nothing was felt yet: its gap is taken to be as likely anywhere
/// from none to twice the upper limit. Nothing if no leaf at hand can settle it, or if no reading can be held
/// against these limits.
///
/// ```
/// use lashwork::adjust::Adjuster;
/// use lashwork::clearance::{Setting, first_try};
/// use lashwork::feeler::{GaugeUse, Leaf, LeafSet};
/// use lashwork::quantity::{Lash, Marked};
/// use lashwork::tolerance::{HasLimits, Limits};
/// use lashwork::valve::ValveLimits;
/// let mark = |text| Marked::parse(text);
/// let band = Limits::between(mark("0.15 mm")?, mark("0.25 mm")?)?;
/// let limits = ValveLimits::new(mark("0.20 mm")?, band, None)?;
/// let leaves = ["0.05 mm", "0.15 mm", "0.20 mm", "0.25 mm", "0.40 mm"];
/// let leaves: Result<Vec<Leaf>, _> = leaves.iter().map(|m| mark(m).map(Leaf::new)).collect();
/// let leaves = LeafSet::new(leaves?)?;
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
/// let first = first_try(&setting, &GaugeUse::default()).ok_or("a leaf")?;
/// assert!(first.leaf.mm() > 0.05 && first.leaf.mm() < 0.40 && first.text.contains(" first;"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn first_try(setting: &Setting<'_>, used: &GaugeUse) -> Option<NextTry> {
    if setting.not_at_reference.is_some() {
        return None;
    }
    let limits = setting.limits.reaching(setting.leaf_above_set_value());
    let setting = &Setting {
        limits: &limits,
        ..*setting
    };
    let thinnest = Reading::goes(Stack::of(setting.leaves.smallest()).ok()?);
    let u = thinnest.estimate_with(used, None).ok()?;
    let extra = Uncertainty::from_mm(setting.warmth_uncertainty_mm()).ok()?;
    let nothing_felt = Estimate::at_least(Lash::ZERO, u.estimate.normal_uncertainty());
    let estimate = nothing_felt.shifted(-setting.warmth(), extra);
    let next = next_of(setting, &estimate, -setting.warmth().mm())?;
    Some(told(&next, "first"))
}

/// The leaf to try next; nothing if the verdict is settled, or no leaf at hand can settle it. Tight or loose
/// is settled where it is said without "probably", or where no leaf lies between to tell. `estimate` is at the reference temperature; `shift` is what it has more than the leaves felt, in millimetres.
pub(super) fn next_try(
    setting: &Setting<'_>,
    estimate: &Estimate<Lash>,
    shift: f64,
) -> Option<NextTry> {
    next_of(setting, estimate, shift).map(|next| told(&next, "next"))
}

fn next_of(setting: &Setting<'_>, estimate: &Estimate<Lash>, shift: f64) -> Option<NextLeaf> {
    let upper = setting
        .limits
        .judging()
        .upper()
        .unwrap_or(setting.limits.set_to());
    let felt = |lash: Lash| lash.mm() - shift;
    let low = estimate.low().map_or(0.0, felt).max(0.0);
    let high = match estimate.high() {
        Some(high) => felt(high),
        None => AT_MOST * low.max(upper.mm() - shift),
    };
    let is_between = |low: Option<Lash>, high: Option<Lash>| {
        let above = |mm: f64| low.is_none_or(|low| felt(low) + SAME_MM < mm);
        let below = |mm: f64| high.is_none_or(|high| mm < felt(high) - SAME_MM);
        let mut sizes = setting.leaves.leaves().iter().map(|leaf| leaf.mark.mm());
        sizes.any(|mm| above(mm) && below(mm))
    };
    let settled = |goes: Option<Leaf>, refuses: Option<Leaf>| {
        let ends = (goes.map(|leaf| leaf.mark), refuses.map(|leaf| leaf.mark));
        with_ends(estimate, shift, ends, 0.0).is_some_and(|would_be| {
            let judged = judge(&would_be, setting.limits.judging(), setting.rule);
            let p = &judged.probabilities;
            let is_firm =
                |share: f64| share >= FIRM || !is_between(would_be.low(), would_be.high());
            match judged.verdict {
                Verdict::InBand => true,
                Verdict::Below => is_firm(p.below.least),
                Verdict::Above => is_firm(p.above.least),
                Verdict::CannotSay => false,
            }
        })
    };
    let range = (
        Nominal::nearest_mm(low).ok()?,
        Nominal::nearest_mm(high).ok()?,
    );
    let leaves: &LeafSet = setting.leaves;
    next_leaf(leaves, range, &settled)
}

fn told(next: &NextLeaf, when: &str) -> NextTry {
    let tries = format!("{:.1}", next.expected_tries);
    let tries = tries.strip_suffix(".0").unwrap_or(&tries);
    let word = if tries == "1" { "try" } else { "tries" };
    NextTry {
        leaf: next.leaf.mark,
        expected_tries: next.expected_tries,
        settles: next.settles,
        text: format!(
            "try {} {when}; about {tries} {word} until it is settled",
            next.leaf.mark
        ),
    }
}
