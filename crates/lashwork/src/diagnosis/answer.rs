//! From marginal likelihoods to what is worth checking.

use super::evidence::{DiagnosisError, Evidence, Source};
use super::fit::Fit;
use super::likelihood::ln_sum;
use super::model::{FEWEST, MOST, MOST_SOURCES, Model, NOTHING_AT_MOST, TIED_TIMES, warmth_shift};
use super::odd::{KindOff, OddValve, kinds_off, odd_valves};
use super::reading_fault::{ReadingFault, Slip, Way};
use crate::quantity::LashChange;
use alloc::vec::Vec;
use core::cmp::Ordering;
use core::f64::consts::LN_10;
use serde::Serialize;

/// What came of the diagnosis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Status {
    /// No systematic fault is more probable than any cause, and no valve is far from its kind.
    NothingSpecial,
    /// No systematic fault stands out, but single valves are far from their kind.
    OddValves,
    /// A systematic fault is more probable, but not by enough to report it.
    Undecided,
    /// Something is worth checking.
    WorthChecking,
    /// Too few readings to say anything.
    TooFewReadings,
    /// More readings than are weighed.
    TooManyReadings,
}

/// One way in which a cause may be at work, weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct WeighedWay {
    /// The way.
    pub way: Way,
    /// The logarithm to base 10 of the Bayes factor against 'no systematic fault'.
    pub log10_bayes_factor: f64,
    /// Its probability given the readings.
    pub posterior: f64,
    /// How much each reading speaks for it, given all others: logarithm to base 10, in the order of
    /// the readings; only for causes worth checking.
    pub support: Vec<f64>,
}

/// A kind of cause, weighed over all its ways.
#[derive(Clone, Debug, PartialEq)]
pub struct WeighedCause {
    /// The cause.
    pub cause: ReadingFault,
    /// Its probability before the readings.
    pub prior: f64,
    /// The logarithm to base 10 of the Bayes factor of its ways together.
    pub log10_bayes_factor: f64,
    /// Its probability given the readings.
    pub posterior: f64,
    /// Whether it is worth checking.
    pub worth_checking: bool,
    /// Its ways, the most probable first; those at least a tenth as probable as the first.
    pub ways: Vec<WeighedWay>,
}

/// The answer of [`diagnose`].
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnosis {
    /// What came of it.
    pub status: Status,
    /// The model of 'no systematic fault'.
    pub model: Model,
    /// How many times as wide as the model says the ordinary valves of this engine spread, on the mean.
    pub spread_times: f64,
    /// Valves far from their kind, the farthest first.
    pub odd_valves: Vec<OddValve>,
    /// Kinds far from their set value as a whole; without a cause worth checking the answer is then undecided.
    pub kinds_off: Vec<KindOff>,
    /// Probability of no systematic fault, given the readings.
    pub nothing_special: f64,
    /// The logarithm to base 10 of the marginal likelihood of 'no systematic fault': of the probability
    /// of the readings, with a density in 1/mm for each light drag.
    pub log10_evidence: f64,
    /// The causes that could be weighed, the most probable first.
    pub causes: Vec<WeighedCause>,
    /// The causes that could not.
    pub not_weighed: Vec<ReadingFault>,
}

/// Weighs what may be wrong with an engine against 'no systematic fault'.
///
/// # Errors
/// [`DiagnosisError::NoSource`] without a specification.
///
/// # Source
/// Bayes' theorem with the models of the module's page, which are this library's choice.
///
/// # Examples
/// Four valves to be set to 0.20 mm and 0.30 mm, each kind read as the other should be:
/// ```
/// use lashwork::engine::CylinderIndex;
/// use lashwork::diagnosis::{ReadingFault, Evidence, Prior, Seen, Source, Status, Warming, diagnose};
/// use lashwork::quantity::{Lash, LashChange, LengthUnit, Marked};
/// use lashwork::tolerance::{Estimate, Uncertainty, Limits};
/// use lashwork::valve::ValveLimits;
/// use lashwork::valve::{ValveId, ValveKind};
///
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let limits = |set: &str, low: &str, high: &str| -> Result<ValveLimits, Box<dyn std::error::Error>> {
///     let band = Limits::between(Marked::parse(low)?, Marked::parse(high)?)?;
///     Ok(ValveLimits::new(Marked::parse(set)?, band, None)?)
/// };
/// let seen = |cylinder, kind, low: &str, high: &str| -> Result<Seen, Box<dyn std::error::Error>> {
///     Ok(Seen {
///         valve: ValveId { cylinder: CylinderIndex::new(cylinder), kind, number: 1 },
///         felt: Estimate::between(
///             Lash::parse(low)?, Lash::parse(high)?, Uncertainty::from_mm(0.003)?)?,
///         marked_in: LengthUnit::Millimetre,
///     })
/// };
/// let mut evidence = Evidence {
///     readings: vec![
///         seen(0, ValveKind::Intake, "0.30 mm", "0.32 mm")?,
///         seen(0, ValveKind::Exhaust, "0.18 mm", "0.20 mm")?,
///         seen(1, ValveKind::Intake, "0.28 mm", "0.30 mm")?,
///         seen(1, ValveKind::Exhaust, "0.20 mm", "0.22 mm")?,
///     ],
///     sources: vec![Source {
///         intake: limits("0.20 mm", "0.17 mm", "0.23 mm")?,
///         exhaust: limits("0.30 mm", "0.27 mm", "0.33 mm")?,
///         warmth: LashChange::ZERO,
///         warmth_uncertainty: Uncertainty::ZERO,
///     }],
///     one_turn_out: vec![],
///     warming: Warming::Unknown(Uncertainty::from_mm(0.05)?),
///     prior: Prior::usual(),
/// };
/// let found = diagnose(&evidence)?;
/// assert_eq!(found.status, Status::WorthChecking);
/// assert_eq!(found.causes[0].cause, ReadingFault::SwappedAll);
///
/// evidence.readings.truncate(3);
/// assert_eq!(diagnose(&evidence)?.status, Status::TooFewReadings);
/// evidence.sources.clear();
/// assert!(diagnose(&evidence).is_err());
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
pub fn diagnose(evidence: &Evidence) -> Result<Diagnosis, DiagnosisError> {
    let [believed, others @ ..] = evidence.sources.as_slice() else {
        return Err(DiagnosisError::NoSource);
    };
    let count = evidence.readings.len();
    let refused = match count {
        n if n < FEWEST => Some(Status::TooFewReadings),
        n if n > MOST => Some(Status::TooManyReadings),
        _ => None,
    };
    if let Some(status) = refused {
        return Ok(Diagnosis {
            status,
            model: Model::of(believed),
            spread_times: 1.0,
            odd_valves: Vec::new(),
            kinds_off: Vec::new(),
            nothing_special: 1.0 - evidence.prior.value(),
            log10_evidence: 0.0,
            causes: Vec::new(),
            not_weighed: ReadingFault::ALL.to_vec(),
        });
    }
    let fit = Fit::of(&evidence.readings, believed, Model::of(believed), true);
    let others: Vec<Fit> = others
        .iter()
        .take(MOST_SOURCES)
        .map(|source| {
            let model = Model::of_other(source, &fit.model);
            Fit::of(&evidence.readings, source, model, false)
        })
        .collect();
    let ways = ways(evidence, &fit, &others);
    Ok(weigh(evidence, believed, &fit, &others, &ways))
}

/// Every way that could show in these readings.
fn ways(evidence: &Evidence, fit: &Fit, others: &[Fit]) -> Vec<Way> {
    let mut all = Vec::new();
    for slip in Slip::BOTH {
        all.extend(
            fit.closed(None)
                .map(|reading| Way::SlipOne { reading, slip }),
        );
        for inches in [true, false] {
            if fit.closed(Some(inches)).count() > 1 {
                all.push(Way::SlipAll { inches, slip });
            }
        }
    }
    all.extend([true, false].map(|wider| Way::SetAll { wider }));
    if !fit.model.kinds_alike() {
        all.push(Way::SwappedAll);
        let cylinders = fit.cylinders();
        if cylinders.len() > 1 {
            all.extend(cylinders.into_iter().map(Way::SwappedCylinder));
        }
    }
    let differs = |other: &Fit| {
        let (a, b) = (&fit.model, &other.model);
        a.intake != b.intake || a.exhaust != b.exhaust
    };
    let sources = others.iter().enumerate().filter(|(_, o)| differs(o));
    all.extend(sources.map(|(i, _)| Way::OtherSource(i + 1)));
    let seen = |t: &super::WrongStroke| {
        evidence
            .readings
            .iter()
            .any(|r| t.lifted.contains(&r.valve))
    };
    let turned = evidence.one_turn_out.iter().enumerate();
    all.extend(
        turned
            .filter(|(_, t)| seen(t))
            .map(|(i, _)| Way::WrongStroke(i)),
    );
    if warmth_shift(evidence.warming).1 > fit.model.drift_mm {
        all.push(Way::NotCold(LashChange::ZERO));
    }
    all.push(Way::Several);
    all
}

fn weigh(
    evidence: &Evidence,
    believed: &Source,
    fit: &Fit,
    others: &[Fit],
    ways: &[Way],
) -> Diagnosis {
    let found: Vec<(Way, f64)> = ways
        .iter()
        .map(|way| match way {
            Way::OtherSource(i) => {
                let other = i.checked_sub(1).and_then(|i| others.get(i));
                (*way, other.map_or(f64::NEG_INFINITY, |o| o.ln_nothing))
            }
            Way::NotCold(_) => {
                let (ln, shift) = fit.warm(evidence);
                (Way::NotCold(LashChange::computed(shift)), ln)
            }
            _ => (*way, fit.ln_marginal(evidence, way)),
        })
        .map(|(way, ln)| (way, ln - fit.ln_nothing))
        .collect();
    let of = |cause: ReadingFault| found.iter().filter(move |(way, _)| way.cause() == cause);
    let (weighed, not_weighed): (Vec<ReadingFault>, Vec<ReadingFault>) = ReadingFault::ALL
        .into_iter()
        .partition(|cause| of(*cause).next().is_some());
    let special = evidence.prior.value();
    let nothing = libm::log(1.0 - special);
    // The logarithm of prior times Bayes factor of one way.
    let prior = special / weighed.len() as f64;
    let share = |cause: ReadingFault| (prior, libm::log(prior / of(cause).count() as f64));
    let all = found.iter().map(|(way, ln)| share(way.cause()).1 + ln);
    let total = ln_sum(all.chain([nothing]));
    let nothing_special = libm::exp(nothing - total);
    let mut causes: Vec<WeighedCause> = weighed
        .iter()
        .map(|cause| {
            let (prior, each) = share(*cause);
            let ln = ln_sum(of(*cause).map(|(_, ln)| *ln)) - libm::log(of(*cause).count() as f64);
            let mut ways: Vec<WeighedWay> = of(*cause)
                .map(|(way, ln)| WeighedWay {
                    way: *way,
                    log10_bayes_factor: ln / LN_10,
                    posterior: libm::exp(each + ln - total),
                    support: Vec::new(),
                })
                .collect();
            ways.sort_by(|a, b| falling(a.log10_bayes_factor, b.log10_bayes_factor));
            let best = ways.first().map_or(0.0, |w| w.log10_bayes_factor);
            ways.retain(|w| w.log10_bayes_factor >= best - libm::log10(TIED_TIMES));
            WeighedCause {
                cause: *cause,
                prior,
                log10_bayes_factor: ln / LN_10,
                posterior: libm::exp(libm::log(prior) + ln - total),
                worth_checking: false,
                ways,
            }
        })
        .collect();
    causes.sort_by(|a, b| falling(a.posterior, b.posterior));
    let alarm = nothing_special <= NOTHING_AT_MOST;
    let odd_valves = odd_valves(&evidence.readings, believed);
    let kinds_off = kinds_off(&evidence.readings, believed);
    let best = causes.first().map_or(0.0, |c| c.posterior);
    for cause in &mut causes {
        cause.worth_checking = alarm && cause.posterior * TIED_TIMES >= best;
        if cause.worth_checking {
            for way in &mut cause.ways {
                way.support = support(evidence, fit, others, &way.way);
            }
        }
    }
    Diagnosis {
        status: if alarm {
            Status::WorthChecking
        } else if !kinds_off.is_empty() {
            Status::Undecided
        } else if !odd_valves.is_empty() {
            Status::OddValves
        } else if nothing_special < 0.5 {
            Status::Undecided
        } else {
            Status::NothingSpecial
        },
        model: fit.model,
        spread_times: fit.spread_times(),
        odd_valves,
        kinds_off,
        nothing_special,
        log10_evidence: fit.ln_nothing / LN_10,
        causes,
        not_weighed,
    }
}

fn support(evidence: &Evidence, fit: &Fit, others: &[Fit], way: &Way) -> Vec<f64> {
    let natural = match way {
        Way::OtherSource(i) => {
            let other = i.checked_sub(1).and_then(|i| others.get(i));
            let with = other.map(Fit::predicted).unwrap_or_default();
            with.iter()
                .zip(fit.predicted())
                .map(|(a, b)| a - b)
                .collect()
        }
        _ => fit.support(evidence, way),
    };
    natural.iter().map(|ln| ln / LN_10).collect()
}

fn falling(a: f64, b: f64) -> Ordering {
    b.partial_cmp(&a).unwrap_or(Ordering::Equal)
}
