//! Which plan is recommended, and what speaks against the others.

use super::answer::{Against, Recommendation};
use super::offer::Offer;
use super::words;
use super::written::at_most;
use crate::engine::Engine;
use crate::valve::{Method, StopPlan};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Whether the springs of open valves may push the cam ring aside.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Ring {
    /// No radial engine, or the ring is said not to float.
    Fixed,
    /// It is said to float.
    Floats,
    /// A radial engine of which nothing is said.
    MayFloat,
}

impl Ring {
    pub(super) fn of(engine: &Engine, floats: Option<bool>) -> Self {
        match floats {
            Some(true) => Self::Floats,
            None if engine.is_radial() => Self::MayFloat,
            _ => Self::Fixed,
        }
    }

    pub(super) fn is_assumed(self) -> bool {
        self == Self::MayFloat
    }
}

/// What speaks against a plan.
pub(super) fn against(plan: &StopPlan, ring: Ring) -> Vec<Against> {
    let mut all = Vec::new();
    let reason = |code: &str, text: String| Against {
        code: code.into(),
        text,
    };
    let least = StopPlan::LEAST_MARGIN.degrees();
    let margin = plan.smallest_margin;
    // The last bits of a sum apart.
    if margin.is_none_or(|m| m.degrees() < least - 1e-6) {
        let text = match margin {
            Some(margin) => format!(
                "the crank may be off by {} deg at most, less than the {least:.0} deg a stop needs",
                at_most(margin)
            ),
            None => String::from("no valve can be checked at its stops"),
        };
        all.push(reason("job.small-margin", text));
    }
    if plan.method != Method::CylinderByCylinder {
        let text = match ring {
            Ring::Fixed => None,
            Ring::Floats => Some("the cam ring floats: open valves push it aside"),
            Ring::MayFloat => Some("only if the book says that the cam ring does not float"),
        };
        all.extend(text.map(|text| reason("job.ring-floats", text.into())));
    }
    all
}

/// What makes a plan better, in words, and its cost.
type Criterion = (&'static str, fn(&StopPlan) -> f64);

const CRITERIA: [Criterion; 5] = [
    ("leaves out the fewest valves", |p| {
        p.unreachable.len() as f64
    }),
    ("has the fewest stops", |p| p.stops.len() as f64),
    ("lets the crank be off by the most", |p| {
        p.smallest_margin.map_or(0.0, |m| -m.degrees())
    }),
    ("turns the crank least", |p| p.total_turn.degrees()),
    ("has the fewest changes of side", |p| p.walks as f64),
];

/// The plan the book prescribes; else, of those that nothing speaks against, the one that leaves out the
/// fewest valves; of equal ones the one with fewer stops, then the larger least margin, then less turning,
/// then fewer changes of side, then the one listed first. Else why there is none, in words.
pub(super) fn recommend(
    offer: &Offer<'_>,
    against: &[Vec<Against>],
    prescribed: Option<Method>,
) -> Result<Recommendation, String> {
    let plans = &offer.plans;
    if let Some(method) = prescribed {
        return by_the_book(offer, method);
    }
    let mut left: Vec<usize> = (0..plans.len())
        .filter(|i| against.get(*i).is_some_and(Vec::is_empty))
        .collect();
    let allowed = left.len();
    let plan = |i: &usize| plans.get(*i);
    let mut why = None;
    for (i, (words, cost)) in CRITERIA.iter().enumerate() {
        let costs = left.iter().filter_map(plan).map(cost);
        let least = costs.fold(f64::INFINITY, f64::min);
        let before = left.len();
        // Angles within a hundredth of a degree are equal.
        left.retain(|i| plan(i).is_some_and(|p| cost(p) <= least + 0.01));
        if left.len() < before {
            why = Some((i > 1, words));
            if left.len() == 1 {
                break;
            }
        }
    }
    let Some(best) = left.first().copied() else {
        return Err(none_left(against));
    };
    let stops = plan(&best).map_or(0, |p| p.stops.len());
    let why = match why {
        Some((true, words)) => format!("of the plans with {stops} stops it {words}"),
        Some((false, words)) => format!("it {words}"),
        None if allowed > 1 => "no other plan costs less".into(),
        None if plans.len() > 1 => "it is the only one that nothing speaks against".into(),
        None => "it is the only one".into(),
    };
    Ok(Recommendation { plan: best, why })
}

/// The plan of a method, or why there is none.
fn by_the_book(offer: &Offer<'_>, method: Method) -> Result<Recommendation, String> {
    let found = offer.plans.iter().position(|p| p.method == method);
    if let Some(plan) = found {
        let why = "the book prescribes it".into();
        return Ok(Recommendation { plan, why });
    }
    let mut refused = offer.not_offered.iter();
    let why = refused
        .find(|r| r.method == method)
        .map_or("", |r| r.text.as_str());
    let way = words(method);
    Err(format!(
        "the book prescribes {way}, which is not possible here: {why}"
    ))
}

fn none_left(against: &[Vec<Against>]) -> String {
    let least = StopPlan::LEAST_MARGIN.degrees();
    let ring = against
        .iter()
        .flatten()
        .any(|a| a.code == "job.ring-floats");
    if ring {
        String::from(
            "only cylinder by cylinder is safe with a cam ring that may float, and something \
             speaks against that",
        )
    } else {
        format!(
            "no plan lets the crank be off by {least:.0} deg: use a degree wheel, or set each valve \
             by the way the book prescribes"
        )
    }
}
