//! What a valve is with another shim, judged by the rule, and which size to buy for it.
//!
//! # Conventions
//! - What the lash then is known to: the reading's estimate, moved, with the standard uncertainties of
//!   both shims added (JCGM 100:2008 5.1.2); the two are taken as measured independently.
//! - A new shim is judged against the set band.
//! - Ends of the lash are whole nanometres, so that a sum that lies on a limit on paper lies on it here.
//! - A shim that would leave its valve called tight or loose is no shim for it: nobody buys or moves
//!   one to end outside the band.
//!
//! # Which size to buy
//! Of all sizes of the series that do not end so: the least risk beyond what the rule accepts, in
//! [`RISK_STEPS`]; of those it accepts first the ones that are not doubtful, in the band with
//! [`DOUBTFUL_BELOW`] or more; of equal ones the nearest to the value to set, of equal ones the one
//! that is not tighter. Where the maker says how to round, that size alone.

use super::series::ShimRounding;
use super::{ShimChoice, ShimFit, ShimSeries, ShimStock};
use crate::quantity::{Lash, Marked, Nominal, ShimThickness};
use crate::tolerance::{
    BandJudge, DecisionRule, Estimate, Judgement, Limits, Probabilities, Uncertainty, Verdict,
};
use alloc::vec::Vec;
use serde::Serialize;

/// Steps in which risk beyond what the rule accepts is weighed: each is a sixteenth, and all over a
/// half are alike. Finer differences are no ground to buy a shim. This library's choice.
///
/// ```
/// assert_eq!(lashwork::adjust::RISK_STEPS, 8);
/// ```
pub const RISK_STEPS: u8 = 8;

/// A new shim that leaves its valve in the band with a smaller chance than this is doubtful even where
/// the rule accepts it: as likely out as in is no job done while a better one can be had. This library's
/// choice.
///
/// ```
/// assert_eq!(lashwork::adjust::DOUBTFUL_BELOW, 0.75);
/// ```
pub const DOUBTFUL_BELOW: f64 = 0.75;

/// Slack when a chance is held against that, so that the last bit of a decimal does not decide.
const ROUNDING: f64 = 1e-9;

/// A valve whose shim may be changed or lent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimSlot {
    /// The shim that is fitted.
    pub fitted: ShimThickness,
    /// Standard uncertainty of its thickness.
    pub fitted_uncertainty: Uncertainty<ShimThickness>,
    /// The lash with it, at the temperature the limits hold at; a reading with both ends.
    pub lash: Estimate<Lash>,
    /// The value to set.
    pub set_to: Marked,
    /// The band a new setting must lie in.
    pub set: Limits<Lash>,
    /// How it is judged as it is, by whatever band an old setting is judged.
    pub found: Judgement,
}

/// Where shims may come from, besides the valves, and how they are judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimSupply<'s> {
    /// How much the gap closes for each millimetre a shim grows; see
    /// [`ShimSeat::ratio`](super::ShimSeat::ratio).
    pub ratio_from_shim_to_gap: f64,
    /// Sizes that can be bought, any number of each; none if nothing can.
    pub series: Option<&'s ShimSeries>,
    /// Which size to take; every size is looked at if not stated.
    pub rounding: Option<ShimRounding>,
    /// Shims on hand.
    pub stock: &'s ShimStock,
    /// Standard uncertainty of a shim that states none of its own.
    pub size_uncertainty: Uncertainty<ShimThickness>,
    /// Whether a shim that has run in one valve may be fitted to another.
    pub fitted_may_move: bool,
    /// The rule.
    pub rule: &'s DecisionRule,
}

/// A valve with another shim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimOutcome {
    /// How thick the shim is.
    pub thickness: ShimThickness,
    /// The lash with it.
    pub lash: Estimate<Lash>,
    /// The verdict to expect, and what it rests on.
    pub judgement: Judgement,
    /// Nothing if all is well, 1 if a new shim is accepted and doubtful, above that the risk beyond what
    /// the rule accepts, up to 1 + [`RISK_STEPS`].
    pub risk: u8,
    /// Best estimate of the lash less the value to set, in nanometres.
    pub over: i64,
}

/// A size of the series, and what is to be expected with it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct JudgedSize {
    /// Size, gap and how far that is from the value to set.
    #[serde(flatten)]
    pub choice: ShimChoice,
    /// The verdict to expect against the set band.
    pub verdict: Verdict,
    /// How certain it is.
    pub probabilities: Probabilities,
}

/// Which size to buy for one valve, and its neighbours.
///
/// Two valves of one engine: what 0.2306 mm and the rule choose between.
/// ```
/// use lashwork::adjust::{ShimSeries, ShimSlot, ShimStock, ShimSupply, size_to_buy};
/// use lashwork::quantity::{Lash, Marked, ShimThickness};
/// use lashwork::tolerance::{Estimate, HasLimits, Limits, Uncertainty, judge};
/// let m = |text| Marked::parse(text);
/// let series = ShimSeries::new(m("2.20 mm")?, m("3.20 mm")?, m("0.05 mm")?)?;
/// let (low, high) = (Lash::parse("0.214 mm")?, Lash::parse("0.244 mm")?);
/// let lash = Estimate::between(low, high, Uncertainty::from_mm(0.004)?)?;
/// let set = Limits::between(m("0.32 mm")?, m("0.38 mm")?)?;
/// let rule = Lash::USUAL_RULE;
/// let slot = ShimSlot {
///     fitted: ShimThickness::parse("2.85 mm")?,
///     fitted_uncertainty: Uncertainty::ZERO,
///     lash,
///     set_to: m("0.35 mm")?,
///     set,
///     found: judge(&lash, &set, &rule),
/// };
/// let supply = ShimSupply {
///     ratio_from_shim_to_gap: 1.0,
///     series: Some(&series),
///     rounding: None,
///     stock: &ShimStock::default(),
///     size_uncertainty: Uncertainty::ZERO,
///     fitted_may_move: true,
///     rule: &rule,
/// };
/// // 2.75 mm comes nearer, but would be tight with more than 5 %.
/// let sizes = size_to_buy(&slot, &supply);
/// assert_eq!(sizes.chosen.unwrap().choice.size, m("2.70 mm")?.nominal());
/// assert!(sizes.others[0].probabilities.below.most > 0.05);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SizeToBuy {
    /// The size; none if every size would leave the valve called tight or loose.
    pub chosen: Option<JudgedSize>,
    /// The sizes on either side of the exact thickness, without the one chosen.
    pub others: Vec<JudgedSize>,
}

/// Looks at the sizes of the series for one valve; see [`SizeToBuy`].
#[must_use]
pub fn size_to_buy(slot: &ShimSlot, supply: &ShimSupply<'_>) -> SizeToBuy {
    let (Some(series), Some(fit)) = (supply.series, slot.fit(supply)) else {
        return SizeToBuy::default();
    };
    let mut judge = BandJudge::new(&slot.set, supply.rule);
    let best = bought(slot, supply, &mut judge);
    let mut judged = |size: Nominal| {
        let thickness = ShimThickness::from_nominal(size).ok()?;
        let u = supply.size_uncertainty;
        let outcome = slot.with(thickness, u, supply, &mut judge)?;
        Some(outcome.judged_size(size, &fit))
    };
    let chosen = best.and_then(|(size, _)| judged(size));
    let beside = series.beside(&fit).into_iter();
    let others = beside.filter(|size| chosen.is_none_or(|c| c.choice.size != *size));
    SizeToBuy {
        others: others.filter_map(&mut judged).collect(),
        chosen,
    }
}

/// The size to buy for a valve and what it would be with it.
pub(super) fn bought(
    slot: &ShimSlot,
    supply: &ShimSupply<'_>,
    judge: &mut BandJudge<'_, Lash>,
) -> Option<(Nominal, ShimOutcome)> {
    let (series, fit) = (supply.series?, slot.fit(supply)?);
    let sizes = match supply.rounding {
        Some(rounding) => Vec::from([series.rounded(&fit, rounding)?]),
        None => series.sizes(),
    };
    let mut best: Option<(Nominal, ShimOutcome)> = None;
    for size in sizes {
        let Ok(thickness) = ShimThickness::from_nominal(size) else {
            continue;
        };
        let outcome = slot.with(thickness, supply.size_uncertainty, supply, judge);
        if let Some(outcome) = outcome.filter(|o| o.serves(supply))
            && best.is_none_or(|(_, known)| outcome.rank() < known.rank())
        {
            best = Some((size, outcome));
        }
    }
    best
}

impl ShimSlot {
    /// The best estimate of its lash.
    fn centre(&self) -> Option<Lash> {
        self.lash.centre()
    }

    fn fit(&self, supply: &ShimSupply<'_>) -> Option<ShimFit> {
        Some(ShimFit {
            old: self.fitted,
            measured: self.centre()?,
            target: Lash::from_nominal(self.set_to.nominal()).ok()?,
            ratio_from_shim_to_gap: supply.ratio_from_shim_to_gap,
        })
    }

    /// The valve as it is.
    pub(super) fn as_it_is(&self, rule: &DecisionRule) -> Option<ShimOutcome> {
        let lash = self.centre()?;
        Some(ShimOutcome {
            thickness: self.fitted,
            lash: self.lash,
            judgement: self.found,
            risk: risk(&self.found, rule),
            over: self.over(lash)?,
        })
    }

    /// The valve with another shim.
    pub(super) fn with(
        &self,
        thickness: ShimThickness,
        uncertainty: Uncertainty<ShimThickness>,
        supply: &ShimSupply<'_>,
        judge: &mut BandJudge<'_, Lash>,
    ) -> Option<ShimOutcome> {
        let (now, ratio) = (self.centre()?, supply.ratio_from_shim_to_gap);
        let then = super::predicted_lash(self.fitted, thickness, now, ratio).ok()?;
        let both = self.fitted_uncertainty.combined(uncertainty);
        let extra = Uncertainty::from_mm(ratio * both.mm()).ok()?;
        let moved = self.lash.shifted(then - now, extra);
        let exact = |end: Lash| Lash::from_nominal(Nominal::nearest_mm(end.mm()).ok()?).ok();
        let ends = (exact(moved.low()?)?, exact(moved.high()?)?);
        let lash = Estimate::between(ends.0, ends.1, moved.normal_uncertainty()).ok()?;
        let judgement = judge.judge(&lash);
        let is_doubtful = judgement.probabilities.in_band.least < DOUBTFUL_BELOW - ROUNDING;
        Some(ShimOutcome {
            thickness,
            lash,
            judgement,
            risk: risk(&judgement, supply.rule).max(u8::from(is_doubtful)),
            over: self.over(then)?,
        })
    }

    fn over(&self, lash: Lash) -> Option<i64> {
        let exact = Nominal::nearest_mm(lash.mm()).ok()?;
        Some(exact.minus(self.set_to.nominal()).ok()?.nanometres())
    }
}

impl ShimOutcome {
    /// Whether such a shim is fitted at all.
    pub(super) fn serves(&self, supply: &ShimSupply<'_>) -> bool {
        let is_called = matches!(self.judgement.verdict, Verdict::Below | Verdict::Above);
        let is_tighter = self.over < 0 && supply.rounding == Some(ShimRounding::NeverTighter);
        !is_called && !is_tighter
    }

    /// Less is better.
    const fn rank(&self) -> (u8, u64, bool) {
        (self.risk, self.over.unsigned_abs(), self.over < 0)
    }

    fn judged_size(&self, size: Nominal, fit: &ShimFit) -> JudgedSize {
        let predicted_lash = self.lash.centre().unwrap_or(fit.target);
        JudgedSize {
            choice: ShimChoice {
                size,
                predicted_lash,
                error: predicted_lash - fit.target,
            },
            verdict: self.judgement.verdict,
            probabilities: self.judgement.probabilities,
        }
    }
}

/// Risk beyond what the rule accepts, in steps.
fn risk(judgement: &Judgement, rule: &DecisionRule) -> u8 {
    if judgement.verdict == Verdict::InBand {
        return 0;
    }
    let excess = rule.excess(&judgement.probabilities);
    let step = |steps: &u8| excess <= f64::from(*steps) / f64::from(2 * RISK_STEPS);
    1 + (1..RISK_STEPS).find(step).unwrap_or(RISK_STEPS)
}
