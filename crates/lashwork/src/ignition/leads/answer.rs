//! The most probable explanations of what was found, and where to look next.
//!
//! # Method
//! - A look that repeats an earlier one adds nothing: the same eye makes the same mistake.
//! - Bayes' rule over the states; those that predict the same of every look are one group.
//! - The next look is the one whose outcome is expected to take away most of the doubt for its effort: the
//!   mutual information of outcome and state, in bits; a lead costs 1, the rotor 2, a lamp 3.
//!
//! # Sources
//! Bayes' rule and Shannon's entropy are textbook mathematics. `tests/tests/ignition/leads_simulation.rs`
//! compares stated and true shares.

use super::Delivery;
use super::fault::{Candidate, candidates};
use super::look::FIRES_WITHIN;
use super::{
    LeadAssumption, LeadCheck, LeadError, LeadFault, LeadPriors, LeadState, Look, LookAt,
    MisreadChance,
};
use crate::engine::{CylinderIndex, Engine};
use crate::statistics::expected_bits;
use alloc::vec::Vec;
use serde::Serialize;

/// From this probability on a group counts as settled. This library's choice.
pub const SETTLED: f64 = 0.95;
/// Less information than this is rounding, in bits.
const NO_BITS: f64 = 1e-9;

/// One state with what is believed of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WeighedLead {
    /// How things are.
    pub state: LeadState,
    /// How likely that was taken to be before anything was found.
    pub prior: f64,
    /// How likely it is by what was found.
    pub probability: f64,
}

/// States that no look can tell apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LeadGroup {
    /// Those in it, most likely first.
    pub states: Vec<WeighedLead>,
    /// How likely one of them is true.
    pub probability: f64,
    /// The cylinders that then get no spark within 35 crank degrees of where it belongs; not known for
    /// something else.
    pub wrong_sparks: Option<Vec<CylinderIndex>>,
}

/// What came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum LeadVerdict {
    /// Nothing was looked at.
    NothingSeen,
    /// The first group holds, with a probability of 0.95 ([`SETTLED`]) or more.
    Settled,
    /// Several groups are still likely.
    Open,
    /// None of the states fits as well as something else.
    NothingFits,
}

/// A look worth taking.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NextLook {
    /// At what.
    pub at: LookAt,
    /// How much doubt it takes away on average, in bits.
    pub bits: f64,
}

/// The answer to a [`LeadCheck`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LeadAnswer {
    /// The explanations, most likely first.
    pub groups: Vec<LeadGroup>,
    /// What came out.
    pub verdict: LeadVerdict,
    /// Where to look next; none if no look tells more.
    pub next: Option<NextLook>,
    /// The chance of a wrong look that was taken.
    pub misread: MisreadChance,
    /// The shares of belief that were taken.
    pub priors: LeadPriors,
    /// What was taken for granted.
    pub assumptions: Vec<LeadAssumption>,
}

impl LeadCheck {
    /// Weighs what was found.
    ///
    /// # Errors
    /// Every problem found ([`LeadError`]): a look at a cylinder, tower or rotor that is not there, two looks
    /// of which one must be wrong, another order that is none or the engine's own, coils without pairs.
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::engine::Engine;
    /// use lashwork::ignition::leads::{Delivery, LeadCheck, LeadState, LeadVerdict, Look, Points};
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2])
    ///     .map_err(|problems| format!("{problems:?}"))?;
    /// let first = engine.order()[0];
    /// // Cylinder 1 on compression at its mark: the rotor points across the cap from its tower, whose lead
    /// // goes to cylinder 1 as it should.
    /// let across = Look::Rotor {
    ///     crank: engine.firing_position(first),
    ///     stroke_checked: true,
    ///     points: Points::Tower(2),
    /// };
    /// let mut check = LeadCheck {
    ///     delivery: Delivery::Distributor { teeth: Some(13) },
    ///     looks: vec![across, Look::Lead { tower: 0, cylinder: first }],
    ///     also_orders: vec![],
    ///     misread: None,
    ///     priors: None,
    /// };
    /// let answer = check.weigh(&engine).map_err(|problems| format!("{problems:?}"))?;
    /// assert_eq!(answer.groups[0].states[0].state, LeadState::HalfTurnOut);
    /// assert_eq!(answer.groups[0].wrong_sparks.as_ref().map(Vec::len), Some(4));
    ///
    /// check.looks.push(Look::Lead { tower: 1, cylinder: first });
    /// assert_eq!(check.weigh(&engine).unwrap_err()[0].code(), "ignition.lead-twice");
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn weigh(&self, engine: &Engine) -> Result<LeadAnswer, Vec<LeadError>> {
        let problems = self.problems(engine);
        if !problems.is_empty() {
            return Err(problems);
        }
        let misread = self.misread.unwrap_or(MisreadChance::assumed());
        let priors = self.priors.unwrap_or(LeadPriors::assumed());
        let looks = each_once(&self.looks);
        let states = candidates(engine, self, &priors);
        let probabilities = probabilities(engine, &states, &looks, misread.get());
        let next = self.next_look(engine, &states, &probabilities, misread.get());
        let groups = grouped(engine, &states, &probabilities);
        let verdict = match groups.first() {
            _ if looks.is_empty() => LeadVerdict::NothingSeen,
            Some(group) if is_something_else(group) => LeadVerdict::NothingFits,
            Some(group) if group.probability >= SETTLED => LeadVerdict::Settled,
            _ => LeadVerdict::Open,
        };
        Ok(LeadAnswer {
            groups,
            verdict,
            next,
            misread,
            priors,
            assumptions: self.assumptions(),
        })
    }

    /// The look that is expected to take away most doubt for its effort; the first of equals.
    fn next_look(
        &self,
        engine: &Engine,
        states: &[Candidate],
        probabilities: &[f64],
        wrong: f64,
    ) -> Option<NextLook> {
        let leads = (0..engine.order().len()).map(|tower| LookAt::LeadOf { tower });
        let first = engine.order().iter().take(1);
        let has_rotor = self.delivery != Delivery::DoubleEndedCoils;
        let rotor = first
            .filter(|_| has_rotor)
            .map(|cylinder| LookAt::RotorAtFiring {
                cylinder: *cylinder,
            });
        let sparks = engine.order().iter();
        let sparks = sparks.map(|cylinder| LookAt::SparkOf {
            cylinder: *cylinder,
        });
        let mut found: Option<NextLook> = None;
        for at in leads.chain(rotor).chain(sparks) {
            if at.is_in(&self.looks) {
                continue;
            }
            let bits = information(engine, at, states, probabilities, wrong);
            let worth = |bits: f64, at: LookAt| bits / at.effort();
            let least = found.map_or(NO_BITS, |best| worth(best.bits, best.at) + NO_BITS);
            if worth(bits, at) > least {
                found = Some(NextLook { at, bits });
            }
        }
        found
    }
}

fn is_something_else(group: &LeadGroup) -> bool {
    let of = group.states.first();
    of.is_some_and(|weighed| weighed.state.fault() == LeadFault::SomethingElse)
}

fn each_once(looks: &[Look]) -> Vec<Look> {
    let mut found: Vec<Look> = Vec::new();
    for look in looks {
        if !found.contains(look) {
            found.push(*look);
        }
    }
    found
}

fn probabilities(engine: &Engine, states: &[Candidate], looks: &[Look], wrong: f64) -> Vec<f64> {
    let ln_weight = |state: &Candidate| -> f64 {
        let chance = |look: &Look| look.likelihood(engine, state.wiring.as_ref(), wrong);
        let all: f64 = looks.iter().map(|look| libm::log(chance(look))).sum();
        libm::log(state.prior) + all
    };
    let logs: Vec<f64> = states.iter().map(ln_weight).collect();
    // The best one is the unit, so that none runs out of range.
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = logs.iter().map(|log| libm::exp(log - top)).collect();
    let all: f64 = weights.iter().sum();
    weights.into_iter().map(|weight| weight / all).collect()
}

fn grouped(engine: &Engine, states: &[Candidate], probabilities: &[f64]) -> Vec<LeadGroup> {
    let mut found: Vec<(&Candidate, LeadGroup)> = Vec::new();
    for (candidate, probability) in states.iter().zip(probabilities) {
        let weighed = WeighedLead {
            state: candidate.state,
            prior: candidate.prior,
            probability: *probability,
        };
        let same = |(known, _): &&mut (&Candidate, LeadGroup)| {
            let both = known.wiring.as_ref().zip(candidate.wiring.as_ref());
            both.is_some_and(|(a, b)| a.same_as(b))
        };
        if let Some((_, group)) = found.iter_mut().find(same) {
            group.probability += probability;
            group.states.push(weighed);
        } else {
            let group = LeadGroup {
                states: alloc::vec![weighed],
                probability: *probability,
                wrong_sparks: wrong_sparks(engine, candidate),
            };
            found.push((candidate, group));
        }
    }
    let mut groups: Vec<LeadGroup> = found.into_iter().map(|(_, group)| group).collect();
    for group in &mut groups {
        group
            .states
            .sort_by(|a, b| b.probability.total_cmp(&a.probability));
    }
    groups.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    groups
}

fn wrong_sparks(engine: &Engine, candidate: &Candidate) -> Option<Vec<CylinderIndex>> {
    let wiring = candidate.wiring.as_ref()?;
    let wrong = engine.order().iter().enumerate();
    let wrong = wrong.filter(|(place, _)| !wiring.is_right(*place, FIRES_WITHIN));
    Some(wrong.map(|(_, cylinder)| *cylinder).collect())
}

/// The mutual information of a look and the state, in bits.
fn information(
    engine: &Engine,
    at: LookAt,
    states: &[Candidate],
    probabilities: &[f64],
    wrong: f64,
) -> f64 {
    expected_bits(
        states
            .iter()
            .zip(probabilities)
            .map(|(state, probability)| {
                let chances = at.outcomes(engine, state.wiring.as_ref(), wrong);
                (*probability, chances)
            }),
    )
}
