//! Where to look next.

use super::chances::Kind;
use super::seen::USUALLY_SURE;
use super::shown::{STATES, any_of, at_needle, chances, index};
use super::suspect::{Case, State};
use super::{CauseCheck, CauseLook, CompressionSign, LeakSign, NextCauseLook};
use crate::statistics::expected_bits;
use alloc::vec::Vec;

/// Less is no information.
const NO_BITS: f64 = 1e-3;
/// What is less likely than this takes part in no plan.
const TOO_UNLIKELY: f64 = 1e-4;
/// How many looks are proposed.
const PROPOSED: usize = 3;

/// What a look finds: signs of a kind, the same once the first outcome is excluded, or the needle.
#[derive(Clone, Copy, PartialEq)]
enum Finds {
    Signs(&'static [Kind]),
    Which(Kind),
    Needle,
}

/// What a look finds with the states of a place, worked out where it is asked for.
struct Outcomes {
    finds: Finds,
    /// Of the needle, in each state.
    needle: Vec<Vec<f64>>,
    /// Of two states.
    known: Vec<Option<Vec<f64>>>,
}

impl Outcomes {
    fn of(finds: Finds, cylinders: usize) -> Self {
        let needle = match finds {
            Finds::Needle => at_needle(&|cause| cause.movements(Some(cylinders)).to_vec()),
            _ => Vec::new(),
        };
        Self {
            finds,
            needle,
            known: alloc::vec![None; STATES * STATES],
        }
    }

    fn with(&mut self, states: [State; 3]) -> Vec<f64> {
        let [a, b, c] = states.map(index);
        if c != 0 {
            return self.worked_out(states);
        }
        let at = a * STATES + b;
        if let Some(Some(known)) = self.known.get(at) {
            return known.clone();
        }
        let own = self.worked_out(states);
        if let Some(known) = self.known.get_mut(at) {
            *known = Some(own.clone());
        }
        own
    }

    fn worked_out(&self, states: [State; 3]) -> Vec<f64> {
        match self.finds {
            Finds::Signs(kinds) => {
                let mut all = alloc::vec![1.0];
                for kind in kinds {
                    let own = as_seen(&chances(*kind, states));
                    let both = all.iter().flat_map(|a| own.iter().map(move |b| a * b));
                    all = both.collect();
                }
                all
            }
            Finds::Which(kind) => {
                let all = chances(kind, states);
                let rest: f64 = all.iter().skip(1).sum();
                let which: Vec<f64> = all.iter().skip(1).map(|p| p / rest).collect();
                as_seen(&which)
            }
            // The gauge's own chance of a wrong look is what a finding's is taken to be here.
            Finds::Needle => as_seen(&any_of(&self.needle, states.map(index))),
        }
    }
}

fn as_seen(chances: &[f64]) -> Vec<f64> {
    let wrong = (1.0 - USUALLY_SURE) / (chances.len() - 1).max(1) as f64;
    let seen = |p: &f64| p * USUALLY_SURE + (1.0 - p) * wrong;
    chances.iter().map(seen).collect()
}

/// What was not looked at; records are not proposed, since those at hand say all they can.
fn open(check: &CauseCheck) -> Vec<(CauseLook, Option<usize>, Finds)> {
    let mut open = Vec::new();
    let one = |kind: &'static [Kind]| Finds::Signs(kind);
    for (at, signs) in check.cylinders.iter().enumerate() {
        let each = [
            (
                signs.lash.is_none(),
                CauseLook::Clearances,
                one(&[Kind::Lash]),
            ),
            (
                signs.compression.is_none(),
                CauseLook::Compression,
                one(&[Kind::Compression]),
            ),
            (
                signs.compression.map(|seen| seen.found()) == Some(CompressionSign::Low),
                CauseLook::Oil,
                Finds::Which(Kind::Compression),
            ),
            (signs.leak.is_none(), CauseLook::Leak, one(&[Kind::Leak])),
            (
                signs.leak.map(|seen| seen.found()) == Some(LeakSign::Large),
                CauseLook::Listen,
                Finds::Which(Kind::Leak),
            ),
            (signs.plug.is_none(), CauseLook::Plugs, one(&[Kind::Plug])),
        ];
        let is_open = each.into_iter().filter(|(is_open, ..)| *is_open);
        open.extend(is_open.map(|(_, look, finds)| (look, Some(at), finds)));
    }
    let engine = &check.engine;
    let gas = engine.monoxide.is_none()
        && engine.unburnt.is_none()
        && engine.oxygen.is_none()
        && engine.lambda.is_none();
    let whole = [
        (
            engine.pressure.is_none(),
            CauseLook::Compression,
            one(&[Kind::Pressure]),
        ),
        (
            engine.dwell.is_none(),
            CauseLook::Dwell,
            one(&[Kind::Dwell]),
        ),
        (
            engine.timing.is_none(),
            CauseLook::Timing,
            one(&[Kind::Timing]),
        ),
        (engine.gauge.is_none(), CauseLook::Gauge, Finds::Needle),
        (
            gas,
            CauseLook::Gas,
            one(&[Kind::Monoxide, Kind::Unburnt, Kind::Oxygen]),
        ),
    ];
    let is_open = whole.into_iter().filter(|(is_open, ..)| *is_open);
    open.extend(is_open.map(|(_, look, finds)| (look, None, finds)));
    open
}

/// The looks that are expected to take away most doubt about causes and places for a minute of work.
pub(super) fn next_looks(
    check: &CauseCheck,
    cases: &[Case],
    probabilities: &[f64],
) -> Vec<NextCauseLook> {
    let likely: Vec<(&Case, f64)> = cases
        .iter()
        .zip(probabilities.iter().copied())
        .filter(|(_, probability)| *probability > TOO_UNLIKELY)
        .collect();
    let cylinders = check.cylinders.len();
    let mut known: Vec<Outcomes> = Vec::new();
    let mut looks: Vec<NextCauseLook> = open(check)
        .into_iter()
        .map(|(at, cylinder, finds)| {
            // What a look finds is the same in all cylinders.
            if !known.iter().any(|own| own.finds == finds) {
                known.push(Outcomes::of(finds, cylinders));
            }
            let mut outcomes = known.iter_mut().find(|own| own.finds == finds);
            // How plain a cause is, is no question of its own.
            let sets = likely.chunk_by(|(one, _), (other, _)| one.set == other.set);
            let bits = expected_bits(sets.map(|set| {
                let probability: f64 = set.iter().map(|(_, p)| p).sum();
                let mut together: Vec<f64> = Vec::new();
                for (case, p) in set {
                    let states = case.states(cylinder);
                    let own = outcomes.as_mut().map(|own| own.with(states));
                    let own = own.unwrap_or_default();
                    together.resize(own.len(), 0.0);
                    for (sum, chance) in together.iter_mut().zip(own) {
                        *sum += p / probability * chance;
                    }
                }
                (probability, together)
            }));
            NextCauseLook {
                at,
                cylinder,
                bits,
                minutes: at.minutes(),
            }
        })
        .filter(|look| look.bits > NO_BITS)
        .collect();
    // A stable order: the earlier of equals stays first.
    looks.sort_by(|a, b| (b.bits / b.minutes).total_cmp(&(a.bits / a.minutes)));
    looks.truncate(PROPOSED);
    looks
}
