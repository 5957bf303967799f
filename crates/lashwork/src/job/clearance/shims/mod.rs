//! Which shim goes where: the readings judged by one specification, as valves with shims to assign.
//!
//! A valve far from its kind, or whose reading does not decide, is one-sided, or whose shim is not known
//! is left out, with the reason: its shim is neither changed nor lent. A valve in its band keeps its shim unless
//! the request lets any shim move; then it is good with its own shim by the band it is judged by,
//! and with another by the set band.

pub(in crate::job) mod answer;
pub(in crate::job) mod check;
mod refer;
mod route;
pub(in crate::job) mod sheet;

use crate::adjust::{
    AdjustError, Adjuster, JudgedSize, ShimPlacement, ShimRules, ShimSeries, ShimSlot, ShimSource,
    ShimStock, ShimSupply, SwapScope, UsedShims, best_swaps, size_to_buy, working_order,
};
use crate::clearance::shim_aim::no_size;
use crate::clearance::text::{printed, printed_limits};
use crate::clearance::{Advice, AsFound, Judged};
use crate::engine::{Engine, Pulley};
use crate::job::assumptions::Assumptions;
use crate::quantity::shown::by_hand;
use crate::quantity::{CrankAngle, CyclePosition, Lash, LashChange, ShimThickness};
use crate::tolerance::{DecisionRule, Uncertainty, Verdict};
use crate::valve::{ASSUMED_AWAY, ValveId, ValveLimits, ValveTrain};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use answer::{NotShimmed, ShimCount, ShimFrom, ShimLeft, ShimMove, ShimPlanReport};
pub(in crate::job) use refer::{refer, without_sizes};

/// A gap on shims that has opened by more than this share of the value to set is looked into before
/// another shim is fitted: on buckets gaps close with wear. This library's choice.
const OPENED_FAR: f64 = 1.0 / 3.0;

/// Why a valve is left out.
const UNDECIDED: &str = "the reading does not decide: follow its advice first";
const UNKNOWN_SHIM: &str = "the fitted shim is not known: measure it";
const ONE_SIDED: &str = "the reading is one-sided: find the other leaf";
const ODD: &str = "far from the rest of its kind: find the cause first";

/// A judged valve, as a plan takes it.
pub(in crate::job) struct Candidate<'r> {
    pub(in crate::job) valve: ValveId,
    pub(in crate::job) name: String,
    pub(in crate::job) found: &'r AsFound,
    pub(in crate::job) limits: &'r ValveLimits,
    pub(in crate::job) judged: &'r Judged,
    /// Whether it is far from its kind, which a shim would hide.
    pub(in crate::job) is_odd: bool,
    /// What the temperature adds to the lash at the reading.
    pub(in crate::job) warmth: LashChange,
}

/// What turns the crank from valve to valve.
#[derive(Clone, Copy)]
pub(in crate::job) struct Turning<'r> {
    pub(in crate::job) train: &'r ValveTrain<'r>,
    pub(in crate::job) pulley: Option<Pulley>,
    pub(in crate::job) from: Option<CyclePosition>,
}

/// What the adjuster says of shims.
struct Shims<'r> {
    ratio: f64,
    series: Option<&'r ShimSeries>,
    stock: &'r ShimStock,
    rules: &'r ShimRules,
    decision: &'r DecisionRule,
    in_inches: bool,
    /// Whether the lash is said in inches.
    lash_in_inches: bool,
}

/// A valve in the plan.
struct Planned<'r> {
    valve: ValveId,
    name: &'r str,
    slot: ShimSlot,
    /// What the leaves feel more than the lash at the reference.
    feel_more: LashChange,
    /// What is to be found out before it is set, in words.
    cause: Option<String>,
}

/// The plan by one specification; none unless the lash is set with shims.
pub(in crate::job) fn plan(
    adjuster: &Adjuster,
    specification: &str,
    valves: &[Candidate<'_>],
    decision: &DecisionRule,
    (turning, inches): (Option<Turning<'_>>, bool),
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
        lash_in_inches: inches,
    };
    shims.plan(specification, valves, turning).map(Some)
}

/// What is taken of shims and their use.
pub(in crate::job) fn assume<'r>(
    adjuster: &Adjuster,
    engine: &Engine,
    found: impl Iterator<Item = &'r AsFound>,
    assumptions: &mut Assumptions,
) {
    assume_fit(adjuster, found, assumptions);
    let Adjuster::Shim { rules, .. } = adjuster else {
        return;
    };
    if rules.swap.is_none() {
        assumptions.add(
            "adjust.swap",
            "use of fitted shims not stated: only those of valves out of band are moved",
        );
    }
    if rules.used.is_none() {
        assumptions.add(
            "adjust.used-shims",
            "whether shims that have run may be used again not stated: fitted shims are moved; some \
             makers want new ones",
        );
    }
    if engine.indices().any(|c| engine.dead_centres(c).is_none()) {
        assumptions.add(
            "valve.shim-place",
            format!(
                "crank and rods not described: for changing shims a piston is taken to be away from \
                 its top from {} deg on either side",
                ASSUMED_AWAY.degrees()
            ),
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
            "rounding of shims not stated: of all sizes the one with the least risk beyond what the \
             rule accepts is taken, of equal ones the nearest to the value to set",
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
        turning: Option<Turning<'_>>,
    ) -> Result<ShimPlanReport, AdjustError> {
        let mut report = ShimPlanReport {
            specification: specification.to_string(),
            in_inches: self.in_inches,
            rounding: self.rules.rounding,
            moves: Vec::new(),
            stops: Vec::new(),
            total_turn: CrankAngle::ZERO,
            cautions: Vec::new(),
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
                    reason: reason.to_string(),
                    others: Vec::new(),
                }),
            }
        }
        let slots: Vec<ShimSlot> = planned.iter().map(|p| p.slot).collect();
        let supply = ShimSupply {
            ratio_from_shim_to_gap: self.ratio,
            series: self.series,
            rounding: self.rules.rounding,
            stock: self.stock,
            size_uncertainty: self.known_to(None),
            fitted_may_move: self.rules.used != Some(UsedShims::Forbidden),
            rule: self.decision,
        };
        let placements = best_swaps(&slots, &supply)?;
        self.keep(&planned, &placements, &supply, &mut report);
        self.fill(&planned, &placements, (&supply, turning), &mut report);
        Ok(report)
    }

    /// A valve to plan; nothing if it keeps its shim because it is good.
    fn planned<'r>(&self, valve: &'r Candidate<'_>) -> Result<Option<Planned<'r>>, &'static str> {
        if valve.is_odd {
            return Err(ODD);
        }
        let (judged, fitted) = (valve.judged, valve.found.shim);
        let is_good = judged.judgement.verdict == Verdict::InBand;
        if is_good && self.rules.swap != Some(SwapScope::Any) {
            return Ok(None);
        }
        let is_reset = matches!(judged.advice, Advice::Reset(_));
        if judged.judgement.verdict == Verdict::CannotSay && !is_reset {
            return Err(UNDECIDED);
        }
        let (Some(_), Some(fitted)) = (judged.estimate.centre(), fitted) else {
            return match (is_good, fitted) {
                (true, _) => Ok(None),
                (false, None) => Err(UNKNOWN_SHIM),
                (false, Some(_)) => Err(ONE_SIDED),
            };
        };
        let hollow = valve.found.hollow.map_or(0.0, |h| h.depth.mm());
        let feel_more = LashChange::from_mm(valve.warmth.mm() - hollow);
        Ok(Some(Planned {
            valve: valve.valve,
            name: &valve.name,
            slot: ShimSlot {
                fitted,
                fitted_uncertainty: self.known_to(valve.found.shim_uncertainty),
                lash: judged.estimate,
                set_to: valve.limits.set_to(),
                set: *valve.limits.set(),
                found: judged.judgement,
            },
            feel_more: feel_more.unwrap_or(valve.warmth),
            cause: match &judged.advice {
                Advice::FindCause { text, .. } => Some(text.clone()),
                _ => None,
            },
        }))
    }

    /// A shim's own uncertainty, else that of all shims, else none (which is listed).
    fn known_to(&self, own: Option<Uncertainty<ShimThickness>>) -> Uncertainty<ShimThickness> {
        own.or(self.rules.size_uncertainty)
            .unwrap_or(Uncertainty::ZERO)
    }

    /// Valves that keep their shim: good ones, and those that none serves.
    fn keep(
        &self,
        planned: &[Planned<'_>],
        placements: &[ShimPlacement],
        supply: &ShimSupply<'_>,
        report: &mut ShimPlanReport,
    ) {
        for (valve, placement) in planned.iter().zip(placements) {
            if placement.source != ShimSource::Stays {
                continue;
            }
            if placement.outcome.judgement.verdict == Verdict::InBand {
                report.keep.push(valve.name.to_string());
                continue;
            }
            let others = size_to_buy(&valve.slot, supply).others;
            if placement.outcome.judgement.verdict == Verdict::CannotSay {
                report.cannot.push(NotShimmed {
                    valve: valve.name.to_string(),
                    reason: UNDECIDED.to_string(),
                    others: Vec::new(),
                });
                continue;
            }
            let opened = valve
                .cause
                .clone()
                .or_else(|| opened_far(&valve.slot, self.lash_in_inches));
            let why = match (&opened, self.series) {
                (Some(text), _) => format!("{text}; "),
                (None, Some(_)) => String::from("find out why first; "),
                (None, None) => String::new(),
            };
            let sizes = match self.series {
                Some(_) => no_size(&others, self.in_inches, self.lash_in_inches),
                None => String::from("no shim at hand brings it into the set band"),
            };
            report.cannot.push(NotShimmed {
                valve: valve.name.to_string(),
                reason: format!("{why}{sizes}"),
                others,
            });
        }
    }

    fn fill(
        &self,
        planned: &[Planned<'_>],
        placements: &[ShimPlacement],
        (supply, turning): (&ShimSupply<'_>, Option<Turning<'_>>),
        report: &mut ShimPlanReport,
    ) {
        let sources: Vec<ShimSource> = placements.iter().map(|p| p.source).collect();
        let groups = working_order(&sources);
        let way = route::Way::of(&groups, &sources, planned, turning);
        let (mut buy, mut stock) = (Vec::new(), Vec::new());
        for (group, index, stop) in way.order() {
            let (Some(valve), Some(placement)) = (planned.get(index), placements.get(index)) else {
                continue;
            };
            match placement.source {
                ShimSource::Bought(size) => buy.push(size),
                ShimSource::Stock(item) => stock.push(item),
                ShimSource::Slot(_) | ShimSource::Stays => {}
            }
            let others = match placement.source {
                ShimSource::Bought(_) => size_to_buy(&valve.slot, supply).others,
                _ => Vec::new(),
            };
            let step = self.step((group, stop), valve, placement, planned, others);
            report.moves.extend(step);
            if !sources.contains(&ShimSource::Slot(index)) {
                report.left_over.push(ShimLeft {
                    valve: valve.name.to_string(),
                    thickness: valve.slot.fitted,
                });
            }
        }
        report.buy = counted(buy, Some);
        report.from_stock = counted(stock, |item| Some(self.stock.shims().get(item)?.size));
        if !report.moves.is_empty() {
            report.cautions = cautions(self.rules.used);
        }
        way.fill(planned, turning, report);
    }

    fn step(
        &self,
        (group, stop): (usize, Option<usize>),
        valve: &Planned<'_>,
        placement: &ShimPlacement,
        planned: &[Planned<'_>],
        others: Vec<JudgedSize>,
    ) -> Option<ShimMove> {
        let from = match placement.source {
            ShimSource::Stays => return None,
            ShimSource::Slot(other) => ShimFrom::Valve(planned.get(other)?.name.to_string()),
            ShimSource::Stock(item) => ShimFrom::Stock(self.stock.shims().get(item)?.size),
            ShimSource::Bought(size) => ShimFrom::Buy(size),
        };
        let (after, judgement) = (placement.outcome.lash, placement.outcome.judgement);
        Some(ShimMove {
            valve: valve.name.to_string(),
            group: group + 1,
            stop,
            from,
            old: valve.slot.fitted,
            new: placement.outcome.thickness,
            low: after.low(),
            high: after.high(),
            standard_uncertainty_mm: after.standard_uncertainty().map(Uncertainty::mm),
            limits: printed_limits(&valve.slot.set, self.lash_in_inches),
            feel_now: after.centre().map(|lash| lash + valve.feel_more),
            verdict: judgement.verdict,
            probabilities: judgement.probabilities,
            others,
            find_cause: valve
                .cause
                .clone()
                .or_else(|| opened_far(&valve.slot, self.lash_in_inches)),
        })
    }
}

/// That a gap on shims has opened far, in words.
fn opened_far(slot: &ShimSlot, inches: bool) -> Option<String> {
    let (lash, set_to) = (slot.lash.centre()?, slot.set_to);
    let target = Lash::from_nominal(set_to.nominal()).ok()?;
    let is_far =
        slot.found.verdict == Verdict::Above && (lash - target).mm() > OPENED_FAR * target.mm();
    is_far.then(|| {
        format!(
            "find out why first: opened to {} where {} is set, but on shims gaps close with wear; \
             worn cam or tappet, wrong shim or valve?",
            by_hand(lash.mm(), inches),
            printed(set_to, inches)
        )
    })
}

/// What can hurt the engine when shims are changed.
fn cautions(used: Option<UsedShims>) -> Vec<&'static str> {
    let mut all = Vec::from([
        "Press a valve down only as far as the shim needs, and only at the stop given: it can touch the piston.",
        "Never turn the crank with a shim or a tappet out.",
        "After fitting turn the crank three full turns, then measure every lash again before the engine is run.",
    ]);
    if used != Some(UsedShims::Allowed) {
        all.push(match used {
            Some(_) => "The maker forbids used shims: what is lifted out goes into no other valve.",
            None => "Some makers forbid used shims: look it up before one is moved.",
        });
    }
    all
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
