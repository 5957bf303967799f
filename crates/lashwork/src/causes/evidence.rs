//! What was found, as a number for each state.

use super::chances::Kind;
use super::shown::{STATES, at_needle, chances, index, states};
use super::signs::Sign;
use super::suspect::{Case, State};
use super::{CauseCheck, CauseError, CauseLook, CylinderSigns, EngineSigns, Seen};
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

/// The logarithm of how probable what was found in one place is, for each two states there.
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
        CauseLook::Records => alloc::vec![finding(Kind::Drift, signs.drift)],
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

fn table(of: impl Fn([State; 2]) -> f64) -> Table {
    let states = states();
    let pairs = states.iter().flat_map(|a| states.iter().map(|b| [*a, *b]));
    pairs.map(|pair| libm::log(of(pair))).collect()
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
            all.parts.push(Part {
                look: CauseLook::Gauge,
                cylinder: None,
                table: table(|pair| at_needle(pair, &says).iter().sum()),
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
        let probable = |pair| {
            let each = found.iter().map(|finding| {
                let chances = chances(finding.kind, pair);
                let both = chances.iter().zip(&finding.weights);
                both.map(|(p, weight)| p * weight).sum::<f64>()
            });
            each.product()
        };
        self.parts.push(Part {
            look,
            cylinder,
            table: table(probable),
        });
    }

    pub(super) fn has(&self, look: CauseLook) -> bool {
        self.parts.iter().any(|part| part.look == look)
    }

    pub(super) const fn has_unstated(&self) -> bool {
        self.has_unstated
    }

    /// The logarithm of how probable what a look found is in a case.
    pub(super) fn ln(&self, look: CauseLook, case: &Case) -> f64 {
        let parts = self.parts.iter().filter(|part| part.look == look);
        parts
            .map(|part| {
                let [a, b] = case.states(part.cylinder).map(index);
                part.table.get(a * STATES + b).copied().unwrap_or(0.0)
            })
            .sum()
    }
}
