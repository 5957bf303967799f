//! What was found, as a number for each state.

use super::chances::Kind;
use super::shown::{self, STATES, Shown, any_of, at_needle, index};
use super::sign::Sign;
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

/// What was found in one place, in each state: signs of several kinds, or how probable what the needle shows is.
#[derive(Debug)]
enum Says {
    Signs(Vec<Vec<Shown>>),
    Needle(Vec<Vec<f64>>),
}

impl Says {
    fn together(&self, at: [usize; 3]) -> f64 {
        match self {
            Self::Signs(kinds) => kinds.iter().map(|own| shown::together(own, at)).product(),
            Self::Needle(each) => any_of(each, at).iter().sum(),
        }
    }
}

/// What was found in one place, and how probable it is for each two states there.
#[derive(Debug)]
struct Part {
    look: CauseLook,
    /// None: the engine as a whole.
    cylinder: Option<usize>,
    says: Says,
    two: Vec<f64>,
}

impl Part {
    fn new(look: CauseLook, cylinder: Option<usize>, says: Says) -> Self {
        let pairs = (0..STATES).flat_map(|a| (0..STATES).map(move |b| [a, b, 0]));
        let two = pairs.map(|at| says.together(at)).collect();
        Self {
            look,
            cylinder,
            says,
            two,
        }
    }

    fn of(&self, at: [u8; 3]) -> f64 {
        let at @ [a, b, c] = at.map(usize::from);
        if c == 0 {
            self.two.get(a * STATES + b).copied().unwrap_or(0.0)
        } else {
            self.says.together(at)
        }
    }
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
        CauseLook::Records => alloc::vec![finding(Kind::Seats, signs.seats)],
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
            let needle = Says::Needle(at_needle(&says));
            all.parts.push(Part::new(CauseLook::Gauge, None, needle));
        }
        Ok(all)
    }

    fn add(&mut self, look: CauseLook, cylinder: Option<usize>, found: Vec<Option<Finding>>) {
        let found: Vec<Finding> = found.into_iter().flatten().collect();
        if found.is_empty() {
            return;
        }
        self.has_unstated |= found.iter().any(|finding| !finding.is_stated);
        let kinds = found
            .iter()
            .map(|own| shown::each(own.kind, &own.weights))
            .collect();
        let part = Part::new(look, cylinder, Says::Signs(kinds));
        self.parts.push(part);
    }

    pub(super) fn has(&self, look: CauseLook) -> bool {
        self.parts.iter().any(|part| part.look == look)
    }

    pub(super) const fn has_unstated(&self) -> bool {
        self.has_unstated
    }

    /// How probable what a look found is in each case.
    pub(super) fn of_look(&self, look: CauseLook, places: &States, prior: &[f64]) -> Vec<f64> {
        let mut all = alloc::vec![1.0; prior.len()];
        for part in self.parts.iter().filter(|part| part.look == look) {
            for (p, at) in all.iter_mut().zip(places.of(part.cylinder)) {
                *p *= part.of(*at);
            }
        }
        let mean: f64 = all.iter().zip(prior).map(|(p, share)| p * share).sum();
        for p in &mut all {
            *p = (1.0 - DOUBT) * *p + DOUBT * mean;
        }
        all
    }
}

/// Which states each case shows in the engine as a whole and in each cylinder, each by its [`index`].
#[derive(Debug)]
pub(super) struct States {
    whole: Vec<[u8; 3]>,
    cylinders: Vec<Vec<[u8; 3]>>,
}

impl States {
    pub(super) fn of_cases(cases: &[Case], cylinders: usize) -> Self {
        let at = |cylinder: Option<usize>| {
            let of = |case: &Case| {
                let states = case.states(cylinder).map(index);
                states.map(|at| u8::try_from(at).unwrap_or(0))
            };
            cases.iter().map(of).collect()
        };
        Self {
            whole: at(None),
            cylinders: (0..cylinders).map(|cylinder| at(Some(cylinder))).collect(),
        }
    }

    fn of(&self, cylinder: Option<usize>) -> &[[u8; 3]] {
        match cylinder {
            None => &self.whole,
            Some(at) => self.cylinders.get(at).map_or(&[], Vec::as_slice),
        }
    }
}
