//! What may be wrong with an assumed crank position, each as a position and a firing order.
//!
//! # Method
//! Beside the assumed position itself: one turn out; the next top dead centre forward and back, firing or not,
//! as marks for it are taken for one another; the next firing forward and back, where that is another
//! place (with an odd number of cylinders it is the second dead centre on); counted the other way round, which mirrors the position
//! about firing TDC of the first cylinder; and other firing orders with the same intervals: the ones
//! listed, the order backwards, and two neighbours of the order swapped. Where bank and crankpin
//! angles of all cylinders are known, orders the crank cannot give are left out.
//!
//! # Source
//! Geometry of rotation. Which slips are weighed, and their priors, are this library's choice.

use super::check::{AssumedPosition, CrankCheck, EvidenceError, Rockers};
use crate::engine::{
    CylinderIndex, CylinderLabel, Engine, EngineError, EngineParts, Intervals, SAME_PLACE,
};
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;
use serde::Serialize;

/// What may be the matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(
    feature = "schema",
    derive(schemars::JsonSchema),
    schemars(rename = "RockersCause")
)]
#[serde(rename_all = "snake_case")]
pub enum CrankSlip {
    /// Nothing: the crank is where it is assumed to be.
    AsBelieved,
    /// The crank is one turn (360 degrees) out.
    OneTurnOut,
    /// It is at a neighbouring top dead centre, or at the firing next to the assumed one.
    NeighbouringMark,
    /// It was counted against the running direction.
    CountedBackwards,
    /// The engine fires in another order.
    OtherOrder,
}

impl CrankSlip {
    /// All, with the share of belief each has before anything is checked, in per cent; several
    /// hypotheses of one cause share it evenly. This library's choice.
    pub const PRIOR_PERCENT: [(Self, f64); 5] = [
        (Self::AsBelieved, 60.0),
        (Self::OneTurnOut, 20.0),
        (Self::NeighbouringMark, 10.0),
        (Self::CountedBackwards, 5.0),
        (Self::OtherOrder, 5.0),
    ];

    /// The share of belief in per cent.
    ///
    /// ```
    /// use lashwork::rockers::CrankSlip;
    /// let all: f64 = CrankSlip::PRIOR_PERCENT.iter().map(|(cause, _)| cause.prior_percent()).sum();
    /// assert_eq!(all, 100.0);
    /// ```
    #[must_use]
    pub fn prior_percent(self) -> f64 {
        let found = Self::PRIOR_PERCENT.iter().find(|(cause, _)| *cause == self);
        found.map_or(0.0, |(_, percent)| *percent)
    }
}

/// One way in which things may be.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Hypothesis {
    /// What is the matter.
    pub cause: CrankSlip,
    /// Where the crank then stands.
    pub position: CyclePosition,
    /// The firing order, if it is another one.
    pub order: Option<Vec<CylinderLabel>>,
    /// How likely it was taken to be before anything was checked.
    pub prior: f64,
    /// How likely it is after the rockers checked.
    pub probability: f64,
}

/// A hypothesis with the engine it takes for granted.
pub(super) struct Candidate {
    pub(super) hypothesis: Hypothesis,
    /// None for the engine as described.
    pub(super) engine: Option<Engine>,
}

/// Every hypothesis with its prior, or what is wrong with the listed orders.
pub(super) fn candidates(
    rockers: &Rockers<'_>,
    check: &CrankCheck,
) -> Result<Vec<Candidate>, Vec<EvidenceError>> {
    let engine = rockers.engine;
    let others = other_orders(engine, &check.also_orders)?;
    let here = believed_position(engine, check.believed);
    let zero = CyclePosition::new(engine.cycle(), CrankAngle::ZERO);
    let mut found = alloc::vec![
        (CrankSlip::AsBelieved, here, None),
        (CrankSlip::OneTurnOut, here.turned(CrankAngle::TURN), None),
    ];
    for place in neighbours(engine, here) {
        found.push((CrankSlip::NeighbouringMark, place, None));
    }
    let mirrored = zero.turned(-zero.forward_to(here));
    found.push((CrankSlip::CountedBackwards, mirrored, None));
    for other in others {
        let place = match check.believed {
            AssumedPosition::At(position) => position,
            // The piston is where it was; what it fires after is another matter.
            AssumedPosition::FiringTdc(cylinder) => {
                let shift = engine.firing_position(cylinder).forward_to(here);
                other.firing_position(cylinder).turned(shift)
            }
        };
        found.push((CrankSlip::OtherOrder, place, Some(other)));
    }
    let count = |cause| found.iter().filter(|(c, ..)| *c == cause).count();
    let all: f64 = CrankSlip::PRIOR_PERCENT
        .iter()
        .filter(|(cause, _)| count(*cause) > 0)
        .map(|(_, percent)| percent)
        .sum();
    let priors: Vec<f64> = found
        .iter()
        .map(|(cause, ..)| cause.prior_percent() / all / count(*cause) as f64)
        .collect();
    Ok(found
        .into_iter()
        .zip(priors)
        .map(|((cause, position, engine), prior)| Candidate {
            hypothesis: Hypothesis {
                cause,
                position,
                order: engine.as_ref().map(labels),
                prior,
                probability: prior,
            },
            engine,
        })
        .collect())
}

/// Where the crank is assumed to be.
pub(super) fn believed_position(engine: &Engine, believed: AssumedPosition) -> CyclePosition {
    match believed {
        AssumedPosition::FiringTdc(cylinder) => engine.dead_centre(cylinder),
        AssumedPosition::At(position) => position,
    }
}

/// The next top dead centres forward and back, of any cylinder, firing or not, and the next firings
/// forward and back; each place once.
fn neighbours(engine: &Engine, here: CyclePosition) -> Vec<CyclePosition> {
    let firing: Vec<CyclePosition> = engine.indices().map(|i| engine.dead_centre(i)).collect();
    let turn = |place: &CyclePosition| place.turned(CrankAngle::TURN);
    let marks: Vec<CyclePosition> = firing
        .iter()
        .copied()
        .chain(firing.iter().map(turn))
        .collect();
    let mut found = Vec::new();
    for place in [&marks, &firing]
        .into_iter()
        .flat_map(|places| next_to(engine, here, places))
    {
        if !found.iter().any(|known| is_same(*known, place)) {
            found.push(place);
        }
    }
    found
}

/// The nearest of some places forward and the nearest back.
fn next_to(
    engine: &Engine,
    here: CyclePosition,
    places: &[CyclePosition],
) -> impl Iterator<Item = CyclePosition> {
    let nearest = |way: &dyn Fn(CyclePosition) -> CrankAngle| {
        let ahead = places.iter().filter(|m| way(**m).degrees() > SAME_PLACE);
        let ahead = ahead.filter(|m| way(**m).degrees() < engine.cycle().degrees() - SAME_PLACE);
        ahead
            .min_by(|a, b| way(**a).degrees().total_cmp(&way(**b).degrees()))
            .copied()
    };
    let forward = nearest(&|mark| here.forward_to(mark));
    let back = nearest(&|mark| mark.forward_to(here));
    forward.into_iter().chain(back)
}

fn is_same(a: CyclePosition, b: CyclePosition) -> bool {
    let apart = a.forward_to(b).degrees().min(b.forward_to(a).degrees());
    apart <= SAME_PLACE
}

fn labels(engine: &Engine) -> Vec<CylinderLabel> {
    let named = engine.order().iter().filter_map(|i| engine.cylinder(*i));
    named.map(|c| c.label.clone()).collect()
}

/// Engines that fire in another order: the listed ones first, then the usual slips.
fn other_orders(
    engine: &Engine,
    also: &[Vec<CylinderLabel>],
) -> Result<Vec<Engine>, Vec<EvidenceError>> {
    let own = labels(engine);
    let mut problems = Vec::new();
    let mut known = alloc::vec![own.clone()];
    let mut found = Vec::new();
    for (order, listed) in also.iter().enumerate() {
        let listed = from_first(listed, own.first());
        if known.contains(&listed) {
            problems.push(EvidenceError::SameOrder { order });
            continue;
        }
        match fires_as(engine, listed.clone()) {
            Ok(other) => found.push(other),
            Err(errors) => problems.extend(
                errors
                    .into_iter()
                    .map(|problem| EvidenceError::Order { order, problem }),
            ),
        }
        known.push(listed);
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let backwards: Vec<CylinderLabel> = own.iter().rev().cloned().collect();
    let swapped = (0..own.len()).map(|i| {
        let mut order = own.clone();
        order.swap(i, (i + 1) % own.len());
        order
    });
    for slip in core::iter::once(backwards).chain(swapped) {
        let slip = from_first(&slip, own.first());
        if !known.contains(&slip) {
            // An order the crank cannot give is no slip.
            found.extend(fires_as(engine, slip.clone()).ok());
            known.push(slip);
        }
    }
    Ok(found)
}

/// An order counted from another of its cylinders on; as it is if that is not in it.
fn from_first(order: &[CylinderLabel], first: Option<&CylinderLabel>) -> Vec<CylinderLabel> {
    let at = order.iter().position(|l| Some(l) == first).unwrap_or(0);
    let (before, from) = order.split_at(at);
    from.iter().chain(before).cloned().collect()
}

/// The engine in another order: where the crank is known in full it says when each fires, else the
/// same intervals follow each other.
fn fires_as(engine: &Engine, order: Vec<CylinderLabel>) -> Result<Engine, Vec<EngineError>> {
    let placed = |i: CylinderIndex| {
        let cylinder = engine.cylinder(i);
        cylinder.is_some_and(|c| c.bank.is_some() && c.crankpin.is_some())
    };
    let intervals = if engine.indices().all(placed) {
        Intervals::FromGeometry
    } else {
        Intervals::Listed(engine.intervals())
    };
    Engine::new(EngineParts {
        cycle: engine.cycle(),
        cylinders: engine.cylinders().to_vec(),
        order,
        intervals,
        rotation: engine.rotation(),
        numbering: engine.numbering().clone(),
    })
}
