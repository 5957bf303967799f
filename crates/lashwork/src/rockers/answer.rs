//! Weighs what was found at the rockers: which explanation fits, how probably, and what to check next.
//!
//! # Method
//! - A rocker tried again counts once: the same hand makes the same mistake again, so a second call
//!   that agrees with the first adds nothing.
//! - Bayes' rule over the hypotheses: a call that agrees with the rocker's state has the chance 1 - p,
//!   one that does not has p, one on a ramp has one half.
//! - Hypotheses that predict the same of every rocker cannot be told apart and are one group.
//! - Beside them the likelihood over the whole cycle: constant between the edges of the checked rockers'
//!   arcs, so the best arcs are found exactly.
//! - Nothing fits when even at the best place so many or more wrong calls would come up in less than
//!   one job of a hundred (upper tail of the binomial distribution).
//! - The next rocker is the one whose call is expected to take away most of the doubt: the mutual
//!   information between call and hypothesis, in bits.
//!
//! # Sources
//! Bayes' rule, the binomial distribution and Shannon's entropy are textbook mathematics; the two
//! thresholds are this library's choice.

use super::arcs::PositionArc;
use super::arcs::best;
use super::check::{CrankCheck, EvidenceError, MisreadRisk, RockerCheck, RockerState, Rockers};
use super::crank_slip::Hypothesis;
use super::crank_slip::{Candidate, believed_position, candidates};
use super::tally::{Tally, bits};
use crate::quantity::CyclePosition;
use crate::valve::ValveId;
use alloc::vec::Vec;
use serde::Serialize;

/// From this probability on a group counts as settled. This library's choice.
pub const SETTLED: f64 = 0.95;
/// Below this chance of so many wrong calls a place does not fit. This library's choice.
pub const CREDIBLE: f64 = 0.01;
/// Less information than this is rounding, in bits.
const NO_BITS: f64 = 1e-9;

/// Hypotheses that predict the same of every rocker.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Group {
    /// Those in it; more than one cannot be told apart by feeling rockers.
    pub hypotheses: Vec<Hypothesis>,
    /// How likely one of them is true, if any is.
    pub probability: f64,
    /// How many calls were then wrong.
    pub wrong_calls: usize,
    /// The chance of so many or more wrong calls.
    pub chance_of_so_many: f64,
}

/// What came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum PhaseVerdict {
    /// No rocker was checked.
    NothingFelt,
    /// The first group holds, with a probability of 0.95 ([`SETTLED`]) or more.
    Settled,
    /// Several groups are still likely.
    Open,
    /// None of the hypotheses fits, but the arcs do.
    Elsewhere,
    /// No position fits: too many wrong calls everywhere, or one rocker called both free and tight.
    NoPositionFits,
}

/// A rocker worth feeling.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NextLook {
    /// Its valve.
    pub valve: ValveId,
    /// How much doubt its call takes away on average, in bits.
    pub bits: f64,
}

/// The answer to a [`CrankCheck`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PhaseEvidence {
    /// Where the crank is assumed to be.
    pub position: CyclePosition,
    /// What each rocker must do there.
    pub expected: Vec<(ValveId, RockerState)>,
    /// The explanations, most likely first.
    pub groups: Vec<Group>,
    /// The arcs of the whole cycle that fit best, in order from the engine's zero.
    pub arcs: Vec<PositionArc>,
    /// Rockers called both free and tight.
    pub contradictions: Vec<ValveId>,
    /// What came out.
    pub verdict: PhaseVerdict,
    /// The rocker to feel next; none if no other can tell the groups apart.
    pub next: Option<NextLook>,
}

impl Rockers<'_> {
    /// Weighs what was found.
    ///
    /// # Errors
    /// Every problem found: a rocker the engine does not have, another order that is no order of the
    /// engine or the same again. Contradictions in what was found are an answer, not an error.
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::engine::{CylinderLabel, Engine};
    /// use lashwork::quantity::CrankAngle;
    /// use lashwork::valve::{CamEvents, ValveKind};
    /// use lashwork::rockers::{AssumedPosition, Feel, CrankSlip, CrankCheck, RockerCheck, PhaseVerdict, Rockers};
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2])
    ///     .map_err(|problems| format!("{problems:?}"))?;
    /// let guard = CrankAngle::from_degrees(20.0)?;
    /// let rockers = Rockers::new(&engine, &CamEvents::assumed(), guard, 1, 1)?;
    /// // Believed at firing TDC of No. 1, but its intake rocker... all calls as one turn further on.
    /// let (first, turn) = (engine.order()[0], CrankAngle::from_degrees(360.0)?);
    /// let truly = engine.firing_position(first).turned(turn);
    /// let tight = |valve: &_| rockers.state(*valve, truly) == lashwork::rockers::RockerState::Tight;
    /// let checks = rockers.valves().iter().map(|valve| RockerCheck {
    ///     valve: *valve,
    ///     feel: if tight(valve) { Feel::Tight } else { Feel::Free },
    /// });
    /// let mut check = CrankCheck {
    ///     believed: AssumedPosition::FiringTdc(first),
    ///     checks: checks.collect(),
    ///     wrong_call: None,
    ///     also_orders: vec![],
    /// };
    /// let answer = rockers.weigh(&check).map_err(|problems| format!("{problems:?}"))?;
    /// assert_eq!(answer.verdict, PhaseVerdict::Settled);
    /// assert_eq!(answer.groups[0].hypotheses[0].cause, CrankSlip::OneTurnOut);
    ///
    /// check.also_orders = vec![[1, 2, 2, 4].map(CylinderLabel::numbered).to_vec()];
    /// assert_eq!(rockers.weigh(&check).unwrap_err()[0].code(), "engine.order-twice");
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn weigh(&self, check: &CrankCheck) -> Result<PhaseEvidence, Vec<EvidenceError>> {
        let mut problems: Vec<EvidenceError> = check
            .checks
            .iter()
            .enumerate()
            .filter(|(_, rocker)| !self.valves.contains(&rocker.valve))
            .map(|(rocker, _)| EvidenceError::NoSuchValve { rocker })
            .collect();
        let candidates = match candidates(self, check) {
            Ok(found) if problems.is_empty() => found,
            Ok(_) => return Err(problems),
            Err(more) => {
                problems.extend(more);
                return Err(problems);
            }
        };
        let wrong = check.wrong_call.unwrap_or(MisreadRisk::assumed());
        let position = believed_position(self.engine, check.believed);
        let at = |valve: &ValveId| (*valve, self.state(*valve, position));
        let patterns = self.patterns(&candidates);
        let checks = each_once(&check.checks);
        let groups = self.groups(candidates, &patterns, &checks, wrong);
        let arcs = self.arcs_that_fit(&checks, wrong);
        let contradictions = contradictions(&checks);
        let verdict = verdict(&checks, &groups, &arcs, &contradictions);
        let next = self.next_look(&groups, &patterns, &checks, wrong);
        Ok(PhaseEvidence {
            position,
            expected: self.valves.iter().map(at).collect(),
            groups: groups.into_iter().map(|(_, group)| group).collect(),
            arcs: best(arcs),
            contradictions,
            verdict,
            next,
        })
    }

    /// What each hypothesis predicts of every rocker.
    fn patterns(&self, candidates: &[Candidate]) -> Vec<Vec<RockerState>> {
        let predicts = |candidate: &Candidate| {
            let engine = candidate.engine.as_ref().unwrap_or(self.engine);
            let rockers = self.firing_as(engine);
            let at = candidate.hypothesis.position;
            let states = self.valves.iter().map(|valve| rockers.state(*valve, at));
            states.collect()
        };
        candidates.iter().map(predicts).collect()
    }

    /// Hypotheses with their probabilities, gathered by pattern, most likely first; each group with
    /// its place among the patterns.
    fn groups(
        &self,
        candidates: Vec<Candidate>,
        patterns: &[Vec<RockerState>],
        checks: &[RockerCheck],
        wrong: MisreadRisk,
    ) -> Vec<(usize, Group)> {
        let tallies: Vec<Tally> = patterns
            .iter()
            .map(|pattern| Tally::of(checks, |valve| self.predicted(pattern, valve)))
            .collect();
        // The best one's likelihood is taken as the unit, so that none runs out of range.
        let logs = tallies.iter().map(|t| t.log_likelihood(wrong));
        let top = logs.clone().fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = candidates
            .iter()
            .zip(logs)
            .map(|(c, log)| c.hypothesis.prior * libm::exp(log - top))
            .collect();
        let all: f64 = weights.iter().sum();
        let mut groups: Vec<(usize, Group)> = Vec::new();
        let weighed = candidates
            .into_iter()
            .zip(patterns)
            .zip(weights)
            .zip(&tallies);
        for (place, (((candidate, pattern), weight), tally)) in weighed.enumerate() {
            let mut hypothesis = candidate.hypothesis;
            hypothesis.probability = weight / all;
            let same = |(known, _): &&mut (usize, Group)| patterns.get(*known) == Some(pattern);
            if let Some((_, group)) = groups.iter_mut().find(same) {
                group.probability += hypothesis.probability;
                group.hypotheses.push(hypothesis);
            } else {
                let group = Group {
                    probability: hypothesis.probability,
                    hypotheses: alloc::vec![hypothesis],
                    wrong_calls: tally.wrong,
                    chance_of_so_many: tally.chance_of_so_many(wrong),
                };
                groups.push((place, group));
            }
        }
        groups.sort_by(|(_, a), (_, b)| b.probability.total_cmp(&a.probability));
        groups
    }

    fn predicted(&self, pattern: &[RockerState], valve: ValveId) -> RockerState {
        let place = self.valves.iter().position(|v| *v == valve);
        let state = place.and_then(|at| pattern.get(at)).copied();
        state.unwrap_or(RockerState::CannotSay)
    }

    /// The rocker not yet checked whose call removes most doubt; the first of equals.
    fn next_look(
        &self,
        groups: &[(usize, Group)],
        patterns: &[Vec<RockerState>],
        checks: &[RockerCheck],
        wrong: MisreadRisk,
    ) -> Option<NextLook> {
        let mut found: Option<NextLook> = None;
        for (place, valve) in self.valves.iter().enumerate() {
            if checks.iter().any(|rocker| rocker.valve == *valve) {
                continue;
            }
            let (mut free, mut noise) = (0.0, 0.0);
            for (pattern, group) in groups {
                let state = patterns.get(*pattern).and_then(|p| p.get(place)).copied();
                let chance = match state.unwrap_or(RockerState::CannotSay) {
                    RockerState::Free => 1.0 - wrong.get(),
                    RockerState::Tight => wrong.get(),
                    RockerState::CannotSay => 0.5,
                };
                free += group.probability * chance;
                noise += group.probability * bits(chance);
            }
            let bits = bits(free) - noise;
            let least = found.map_or(NO_BITS, |best| best.bits + NO_BITS);
            if bits > least {
                found = Some(NextLook {
                    valve: *valve,
                    bits,
                });
            }
        }
        found
    }
}

/// The calls without those that repeat an earlier one of the same rocker.
pub(crate) fn each_once(checks: &[RockerCheck]) -> Vec<RockerCheck> {
    let mut found: Vec<RockerCheck> = Vec::new();
    for rocker in checks {
        if !found.contains(rocker) {
            found.push(*rocker);
        }
    }
    found
}

/// Rockers called both free and tight, each once, in the order of their first call.
fn contradictions(checks: &[RockerCheck]) -> Vec<ValveId> {
    let mut found = Vec::new();
    for rocker in checks {
        let against =
            |other: &RockerCheck| other.valve == rocker.valve && other.feel != rocker.feel;
        if checks.iter().any(against) && !found.contains(&rocker.valve) {
            found.push(rocker.valve);
        }
    }
    found
}

fn verdict(
    checks: &[RockerCheck],
    groups: &[(usize, Group)],
    arcs: &[(Tally, PositionArc)],
    contradictions: &[ValveId],
) -> PhaseVerdict {
    if checks.is_empty() {
        return PhaseVerdict::NothingFelt;
    }
    // A rocker does not change while the crank stands still.
    if !contradictions.is_empty() {
        return PhaseVerdict::NoPositionFits;
    }
    match groups.first() {
        Some((_, first)) if first.chance_of_so_many >= CREDIBLE => {
            if first.probability >= SETTLED {
                PhaseVerdict::Settled
            } else {
                PhaseVerdict::Open
            }
        }
        _ if arcs
            .iter()
            .any(|(_, arc)| arc.chance_of_so_many >= CREDIBLE) =>
        {
            PhaseVerdict::Elsewhere
        }
        _ => PhaseVerdict::NoPositionFits,
    }
}
