//! Which shim goes where: the readings judged by one specification, as valves with shims to assign.
//!
//! A valve whose reading does not decide, is one-sided, or whose shim is not known is left out,
//! with the reason: its shim is neither changed nor lent. A valve in its band keeps its shim unless
//! the request lets any shim move; then it is good with its own shim by the band it is judged by,
//! and with another by the set band.
//!
//! What a new lash is known to is the reading's estimate, moved, with the standard uncertainties of
//! both shims added (JCGM 100:2008 5.1.2); the two are taken as measured independently.

pub(in crate::job) mod answer;
pub(in crate::job) mod sheet;

use crate::adjust::{
    AdjustError, Adjuster, ShimPlacement, ShimRules, ShimSeries, ShimSlot, ShimSource, ShimStock,
    ShimSupply, SwapScope, best_swaps, working_order,
};
use crate::clearance::{AsFound, Judged};
use crate::job::assumptions::Assumptions;
use crate::quantity::{Lash, ShimThickness};
use crate::tolerance::{DecisionRule, Estimate, Uncertainty, Verdict, judge};
use crate::valve::ValveLimits;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use answer::{NotShimmed, ShimCount, ShimFrom, ShimLeft, ShimMove, ShimPlanReport};

/// A judged valve, as a plan takes it.
pub(in crate::job) struct Candidate<'r> {
    pub(in crate::job) name: String,
    pub(in crate::job) found: &'r AsFound,
    pub(in crate::job) limits: &'r ValveLimits,
    pub(in crate::job) judged: &'r Judged,
}

/// What the adjuster says of shims.
struct Shims<'r> {
    ratio: f64,
    series: Option<&'r ShimSeries>,
    stock: &'r ShimStock,
    rules: &'r ShimRules,
    decision: &'r DecisionRule,
    in_inches: bool,
}

/// A valve in the plan.
struct Planned<'r> {
    name: &'r str,
    slot: ShimSlot,
    uncertainty: Uncertainty<ShimThickness>,
    estimate: Estimate<Lash>,
}

/// The plan by one specification; none unless the lash is set with shims.
pub(in crate::job) fn plan(
    adjuster: &Adjuster,
    specification: &str,
    valves: &[Candidate<'_>],
    decision: &DecisionRule,
) -> Result<Option<ShimPlanReport>, AdjustError> {
    let Adjuster::Shim {
        ratio,
        series,
        stock,
        rules,
    } = adjuster
    else {
        return Ok(None);
    };
    let shims = Shims {
        ratio: *ratio,
        series: series.as_ref(),
        stock,
        rules,
        decision,
        in_inches: adjuster.shims_in_inches(),
    };
    shims.plan(specification, valves).map(Some)
}

/// What is taken of shims and their use.
pub(in crate::job) fn assume<'r>(
    adjuster: &Adjuster,
    found: impl Iterator<Item = &'r AsFound>,
    assumptions: &mut Assumptions,
) {
    assume_fit(adjuster, found, assumptions);
    if let Adjuster::Shim { rules, .. } = adjuster
        && rules.swap.is_none()
    {
        assumptions.add(
            "adjust.swap",
            "use of fitted shims not stated: only those of valves out of band are moved",
        );
    }
}

/// What is taken of the shims themselves.
pub(in crate::job) fn assume_fit<'r>(
    adjuster: &Adjuster,
    mut found: impl Iterator<Item = &'r AsFound>,
    assumptions: &mut Assumptions,
) {
    let Adjuster::Shim { rules, stock, .. } = adjuster else {
        return;
    };
    if rules.rounding.is_none() {
        assumptions.add(
            "adjust.rounding",
            "rounding of shims not stated: of two sizes, the one that leaves the gap no tighter \
             than the value to set is taken if it lands in the set band, otherwise the nearer",
        );
    }
    let is_open = found.any(|r| r.shim.is_some() && r.shim_uncertainty.is_none())
        || stock.shims().iter().any(|s| s.uncertainty.is_none());
    if rules.size_uncertainty.is_none() && is_open {
        assumptions.add(
            "adjust.shim-thickness",
            "uncertainty of some shims' thickness not stated: taken as exact",
        );
    }
}

impl Shims<'_> {
    fn plan(
        &self,
        specification: &str,
        valves: &[Candidate<'_>],
    ) -> Result<ShimPlanReport, AdjustError> {
        let mut report = ShimPlanReport {
            specification: specification.to_string(),
            in_inches: self.in_inches,
            moves: Vec::new(),
            buy: Vec::new(),
            from_stock: Vec::new(),
            left_over: Vec::new(),
            keep: Vec::new(),
            cannot: Vec::new(),
        };
        let mut planned = Vec::new();
        for valve in valves {
            match self.planned(valve) {
                Ok(Some(one)) => planned.push(one),
                Ok(None) => report.keep.push(valve.name.clone()),
                Err(reason) => report.cannot.push(NotShimmed {
                    valve: valve.name.clone(),
                    reason,
                }),
            }
        }
        let slots: Vec<ShimSlot> = planned.iter().map(|p| p.slot).collect();
        let supply = ShimSupply {
            ratio_from_shim_to_gap: self.ratio,
            series: self.series,
            rounding: self.rules.rounding,
            stock: self.stock,
        };
        let placements = best_swaps(&slots, &supply)?;
        self.fill(&planned, &placements, &mut report);
        Ok(report)
    }

    /// A valve to plan; nothing if it keeps its shim because it is good.
    fn planned<'r>(&self, valve: &'r Candidate<'_>) -> Result<Option<Planned<'r>>, &'static str> {
        let (judged, fitted) = (valve.judged, valve.found.shim);
        let is_good = judged.judgement.verdict == Verdict::InBand;
        if is_good && self.rules.swap != Some(SwapScope::Any) {
            return Ok(None);
        }
        if judged.judgement.verdict == Verdict::CannotSay {
            return Err("the reading does not decide: follow its advice first");
        }
        let (Some(lash), Some(fitted)) = (judged.estimate.centre(), fitted) else {
            return match (is_good, fitted) {
                (true, _) => Ok(None),
                (false, None) => Err("the fitted shim is not known: measure it"),
                (false, Some(_)) => Err("the reading is one-sided: find the other leaf"),
            };
        };
        Ok(Some(Planned {
            name: &valve.name,
            slot: ShimSlot {
                fitted,
                lash,
                set_to: valve.limits.set_to(),
                set: *valve.limits.set(),
                is_good,
            },
            uncertainty: self.known_to(valve.found.shim_uncertainty),
            estimate: judged.estimate,
        }))
    }

    /// A shim's own uncertainty, else that of all shims, else none (which is listed).
    fn known_to(&self, own: Option<Uncertainty<ShimThickness>>) -> Uncertainty<ShimThickness> {
        own.or(self.rules.size_uncertainty)
            .unwrap_or(Uncertainty::ZERO)
    }

    fn fill(
        &self,
        planned: &[Planned<'_>],
        placements: &[ShimPlacement],
        report: &mut ShimPlanReport,
    ) {
        for (valve, placement) in planned.iter().zip(placements) {
            match placement.source {
                ShimSource::Stays if placement.is_good => report.keep.push(valve.name.to_string()),
                ShimSource::Stays => report.cannot.push(NotShimmed {
                    valve: valve.name.to_string(),
                    reason: "no shim on hand or to buy would serve it better than its own; STILL OUTSIDE \
                             the set band",
                }),
                _ => {}
            }
        }
        let (mut buy, mut stock) = (Vec::new(), Vec::new());
        for (group, order) in (1..).zip(working_order(placements)) {
            for index in order {
                let (Some(valve), Some(placement)) = (planned.get(index), placements.get(index))
                else {
                    continue;
                };
                match placement.source {
                    ShimSource::Bought(size) => buy.push(size),
                    ShimSource::Stock(item) => stock.push(item),
                    ShimSource::Slot(_) | ShimSource::Stays => {}
                }
                if let Some(one) = self.step(group, valve, placement, planned) {
                    report.moves.push(one);
                }
                let is_taken = |p: &ShimPlacement| p.source == ShimSource::Slot(index);
                if !placements.iter().any(is_taken) {
                    report.left_over.push(ShimLeft {
                        valve: valve.name.to_string(),
                        thickness: valve.slot.fitted,
                    });
                }
            }
        }
        report.buy = counted(buy, Some);
        report.from_stock = counted(stock, |item| Some(self.stock.shims().get(item)?.size));
    }

    fn step(
        &self,
        group: usize,
        valve: &Planned<'_>,
        placement: &ShimPlacement,
        planned: &[Planned<'_>],
    ) -> Option<ShimMove> {
        let (from, new_u) = match placement.source {
            ShimSource::Stays => return None,
            ShimSource::Slot(other) => {
                let other = planned.get(other)?;
                (ShimFrom::Valve(other.name.to_string()), other.uncertainty)
            }
            ShimSource::Stock(item) => {
                let item = self.stock.shims().get(item)?;
                (ShimFrom::Stock(item.size), self.known_to(item.uncertainty))
            }
            ShimSource::Bought(size) => (ShimFrom::Buy(size), self.known_to(None)),
        };
        let extra = self.ratio * valve.uncertainty.combined(new_u).mm();
        let extra = Uncertainty::from_mm(extra).ok()?;
        let after = valve
            .estimate
            .shifted(placement.predicted - valve.slot.lash, extra);
        let judgement = judge(&after, &valve.slot.set, self.decision);
        Some(ShimMove {
            valve: valve.name.to_string(),
            group,
            from,
            old: valve.slot.fitted,
            new: placement.thickness,
            low: after.low(),
            high: after.high(),
            standard_uncertainty_mm: after.standard_uncertainty().map(Uncertainty::mm),
            limits: valve.slot.set.to_string(),
            in_set: placement.is_good,
            verdict: judgement.verdict,
            probabilities: judgement.probabilities,
        })
    }
}

/// How many there are of each.
fn counted<T: Copy + Ord, S>(mut all: Vec<T>, size: impl Fn(T) -> Option<S>) -> Vec<ShimCount<S>> {
    all.sort_unstable();
    let alike = all.chunk_by(|a, b| a == b);
    alike
        .filter_map(|alike| {
            Some(ShimCount {
                size: size(*alike.first()?)?,
                count: u32::try_from(alike.len()).ok()?,
            })
        })
        .collect()
}
