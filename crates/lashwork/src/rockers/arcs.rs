//! How well each position of the whole cycle fits what was found.
//!
//! # Method
//! The likelihood is constant between the edges of the checked rockers' arcs, so it is worked out once
//! for each piece; neighbours that fit alike are joined, also over the end of the cycle.

use super::check::{MisreadRisk, RockerCheck, Rockers};
use super::tally::Tally;
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;
use serde::Serialize;

/// Edges nearer than this are one, in degrees.
const ONE_EDGE: f64 = 1e-9;
/// Likelihoods nearer than this share are equal.
const EQUAL: f64 = 1e-9;

/// An arc of crank positions that fit equally well.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PositionArc {
    /// Its first position.
    pub from: CyclePosition,
    /// How far it goes on.
    pub length: CrankAngle,
    /// How many calls were wrong there.
    pub wrong_calls: usize,
    /// The chance of so many or more wrong calls.
    pub chance_of_so_many: f64,
    /// How likely the crank is in it, if every position was as likely before.
    pub probability: f64,
}

impl Rockers<'_> {
    /// The whole cycle in arcs over which no checked rocker changes its state, and how well each fits.
    pub(super) fn arcs_that_fit(
        &self,
        checks: &[RockerCheck],
        wrong: MisreadRisk,
    ) -> Vec<(Tally, PositionArc)> {
        let cycle = self.engine.cycle();
        let zero = CyclePosition::new(cycle, CrankAngle::ZERO);
        let mut edges = alloc::vec![0.0];
        for rocker in checks {
            let (free, tight) = self.arcs(rocker.valve.kind);
            for arc in [free, tight].into_iter().flatten() {
                let from = self.engine.crank_at(rocker.valve.cylinder, arc.from);
                edges.extend([from.degrees(), from.turned(arc.length).degrees()]);
            }
        }
        edges.sort_by(f64::total_cmp);
        edges.dedup_by(|a, b| *a - *b < ONE_EDGE);
        let ends = edges.iter().skip(1).copied().chain([cycle.degrees()]);
        let mut all: Vec<(Tally, PositionArc)> = Vec::new();
        for (from, to) in edges.iter().zip(ends) {
            let middle = zero.turned(CrankAngle::computed(f64::midpoint(*from, to)));
            let tally = Tally::of(checks, |valve| self.state(valve, middle));
            match all.last_mut() {
                Some((before, arc)) if *before == tally => {
                    arc.length = arc.length + CrankAngle::computed(to - from);
                }
                _ => all.push((
                    tally,
                    PositionArc {
                        from: zero.turned(CrankAngle::computed(*from)),
                        length: CrankAngle::computed(to - from),
                        wrong_calls: tally.wrong,
                        chance_of_so_many: tally.chance_of_so_many(wrong),
                        probability: 0.0,
                    },
                )),
            }
        }
        // The arc through the engine's zero is one.
        if let (Some((first, start)), Some((last, end))) =
            (all.first().copied(), all.last().copied())
            && all.len() > 1
            && first == last
        {
            all.pop();
            if let Some((_, arc)) = all.first_mut() {
                arc.from = end.from;
                arc.length = start.length + end.length;
            }
        }
        let logs = all.iter().map(|(tally, _)| tally.log_likelihood(wrong));
        let top = logs.fold(f64::NEG_INFINITY, f64::max);
        let weigh = |(tally, arc): &(Tally, PositionArc)| {
            arc.length.degrees() * libm::exp(tally.log_likelihood(wrong) - top)
        };
        let sum: f64 = all.iter().map(weigh).sum();
        for one in &mut all {
            one.1.probability = weigh(one) / sum;
        }
        all
    }
}

/// The arcs that fit best.
pub(super) fn best(arcs: Vec<(Tally, PositionArc)>) -> Vec<PositionArc> {
    let per_degree = |arc: &PositionArc| arc.probability / arc.length.degrees();
    let top = arcs.iter().map(|(_, a)| per_degree(a)).fold(0.0, f64::max);
    let fits = |(_, arc): &(Tally, PositionArc)| per_degree(arc) >= top * (1.0 - EQUAL);
    arcs.into_iter().filter(fits).map(|(_, arc)| arc).collect()
}
