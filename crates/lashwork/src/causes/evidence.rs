//! What was found, as a number for each state.

use super::chances::Kind;
use super::shown::{self, STATES, at_needle, either, index};
use super::signs::Sign;
use super::suspect::Case;
use super::{CauseCheck, CauseError, CauseLook, CylinderSigns, EngineSigns, LashSign, Seen};
use crate::mixture::gauge::GaugeCheck;
use alloc::vec::Vec;

impl EngineSigns {
    /// Lambda is reckoned of the gases: beside them it says nothing new.
    pub(super) const fn weighs_lambda(&self) -> bool {
        self.monoxide.is_none() && self.oxygen.is_none()
    }

    /// What the gauge itself shows.
    pub(super) fn needle(&self) -> Option<GaugeCheck> {
        self.gauge.map(|gauge| GaugeCheck {
            timing: None,
            lash: None,
            compression: None,
            ..gauge
        })
    }
}

/// The chance that what a look found has nothing to do with what is the matter: another engine's plugs, a gauge that
/// sticks, a table that does not fit this engine. So no look decides by itself. This library's choice.
const DOUBT: f64 = 0.03;

/// One finding: of what kind, and how probable it is with each outcome.
#[derive(Debug)]
struct Finding {
    kind: Kind,
    weights: Vec<f64>,
    is_stated: bool,
}

/// How probable a finding is if an outcome is the case, for each outcome; one that stands for several outcomes
/// is found as surely with each of these.
fn weights<T: Sign>(seen: &Seen<T>) -> Vec<f64> {
    let found = seen.found();
    let said = (0..T::OUTCOMES).filter(|at| found.says(*at)).count();
    let wrong = (1.0 - seen.chance()) / (T::OUTCOMES - said).max(1) as f64;
    let weight = |at| if found.says(at) { seen.chance() } else { wrong };
    (0..T::OUTCOMES).map(weight).collect()
}

fn finding<T: Sign>(kind: Kind, seen: Option<Seen<T>>) -> Option<Finding> {
    seen.map(|seen| Finding {
        kind,
        weights: weights(&seen),
        is_stated: seen.is_stated(),
    })
}

/// How probable what was found in one place is, for each two states there, over the most probable.
type Table = Vec<f64>;

#[derive(Debug)]
struct Part {
    look: CauseLook,
    /// None: the engine as a whole.
    cylinder: Option<usize>,
    table: Table,
}

/// All that was found.
#[derive(Debug)]
pub(super) struct Evidence {
    parts: Vec<Part>,
    has_unstated: bool,
}

fn of_cylinder(signs: &CylinderSigns, look: CauseLook) -> Vec<Option<Finding>> {
    match look {
        CauseLook::Clearances => alloc::vec![finding(Kind::Lash, signs.lash)],
        CauseLook::Records => {
            let kind = match signs.lash.map(|seen| seen.found()) {
                Some(LashSign::Tight) => Kind::DriftOfTight,
                Some(LashSign::Loose) => Kind::DriftOfLoose,
                _ => Kind::Drift,
            };
            alloc::vec![finding(kind, signs.drift)]
        }
        CauseLook::Compression => alloc::vec![finding(Kind::Compression, signs.compression)],
        CauseLook::Leak => alloc::vec![finding(Kind::Leak, signs.leak)],
        CauseLook::Plugs => alloc::vec![finding(Kind::Plug, signs.plug)],
        _ => Vec::new(),
    }
}

fn of_engine(signs: &EngineSigns, look: CauseLook) -> Vec<Option<Finding>> {
    match look {
        CauseLook::Compression => alloc::vec![finding(Kind::Pressure, signs.pressure)],
        CauseLook::Dwell => alloc::vec![finding(Kind::Dwell, signs.dwell)],
        CauseLook::Timing => alloc::vec![finding(Kind::Timing, signs.timing)],
        CauseLook::Gas => {
            let lambda = signs.lambda.filter(|_| signs.weighs_lambda());
            alloc::vec![
                finding(Kind::Monoxide, signs.monoxide),
                finding(Kind::Unburnt, signs.unburnt),
                finding(Kind::Oxygen, signs.oxygen),
                finding(Kind::Lambda, lambda),
            ]
        }
        _ => Vec::new(),
    }
}

/// Over the most probable.
fn over_most(mut table: Table) -> Table {
    let most = table.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    for p in &mut table {
        *p /= most;
    }
    table
}

impl Evidence {
    pub(super) fn of(check: &CauseCheck) -> Result<Self, CauseError> {
        let mut all = Self {
            parts: Vec::new(),
            has_unstated: false,
        };
        for look in CauseLook::WEIGHED {
            all.add(look, None, of_engine(&check.engine, look));
            for (at, signs) in check.cylinders.iter().enumerate() {
                all.add(look, Some(at), of_cylinder(signs, look));
            }
        }
        if let Some(needle) = check.engine.needle() {
            let likelihoods = needle.likelihoods()?;
            let says = |cause| {
                let found = likelihoods.iter().find(|(own, _)| *own == cause);
                alloc::vec![found.map_or(0.0, |(_, chance)| *chance)]
            };
            let each = at_needle(&says);
            let pairs = (0..STATES).flat_map(|a| (0..STATES).map(move |b| (a, b)));
            let table = pairs.map(|(a, b)| either(&each, a, b).iter().sum());
            all.parts.push(Part {
                look: CauseLook::Gauge,
                cylinder: None,
                table: over_most(table.collect()),
            });
        }
        Ok(all)
    }

    fn add(&mut self, look: CauseLook, cylinder: Option<usize>, found: Vec<Option<Finding>>) {
        let found: Vec<Finding> = found.into_iter().flatten().collect();
        if found.is_empty() {
            return;
        }
        self.has_unstated |= found.iter().any(|finding| !finding.is_stated);
        let mut table = alloc::vec![1.0; STATES * STATES];
        for finding in &found {
            for (all, p) in table
                .iter_mut()
                .zip(shown::found(finding.kind, &finding.weights))
            {
                *all *= p;
            }
        }
        self.parts.push(Part {
            look,
            cylinder,
            table: over_most(table),
        });
    }

    pub(super) fn has(&self, look: CauseLook) -> bool {
        self.parts.iter().any(|part| part.look == look)
    }

    pub(super) const fn has_unstated(&self) -> bool {
        self.has_unstated
    }

    /// How probable what a look found is in each case, over the most that it can be.
    pub(super) fn of_look(&self, look: CauseLook, cases: &Pairs, prior: &[f64]) -> Vec<f64> {
        let mut all = alloc::vec![1.0; prior.len()];
        for part in self.parts.iter().filter(|part| part.look == look) {
            for (p, pair) in all.iter_mut().zip(cases.of(part.cylinder)) {
                *p *= part.table.get(usize::from(*pair)).copied().unwrap_or(0.0);
            }
        }
        let mean: f64 = all.iter().zip(prior).map(|(p, share)| p * share).sum();
        for p in &mut all {
            *p = (1.0 - DOUBT) * *p + DOUBT * mean;
        }
        all
    }
}

/// Which two states each case shows in the engine as a whole and in each cylinder, as places in a [`Table`].
#[derive(Debug)]
pub(super) struct Pairs {
    whole: Vec<u16>,
    cylinders: Vec<Vec<u16>>,
}

impl Pairs {
    pub(super) fn of_cases(cases: &[Case], cylinders: usize) -> Self {
        let at = |cylinder: Option<usize>| {
            let pair = |case: &Case| {
                let [a, b] = case.states(cylinder).map(index);
                u16::try_from(a * STATES + b).unwrap_or(0)
            };
            cases.iter().map(pair).collect()
        };
        Self {
            whole: at(None),
            cylinders: (0..cylinders).map(|cylinder| at(Some(cylinder))).collect(),
        }
    }

    fn of(&self, cylinder: Option<usize>) -> &[u16] {
        match cylinder {
            None => &self.whole,
            Some(at) => self.cylinders.get(at).map_or(&[], Vec::as_slice),
        }
    }
}
