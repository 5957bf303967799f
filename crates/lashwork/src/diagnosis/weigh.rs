//! From marginal likelihoods to what is worth checking.

use super::answer::{Diagnosis, Status, WeighedCause, WeighedWay};
use super::evidence::{DiagnosisError, Evidence, Source};
use super::fit::Fit;
use super::model::{
    FEWEST, MOST, MOST_SOURCES, Model, NOTHING_AT_MOST, PROBABLY, TIED_TIMES, warmth_shift,
};
use super::odd::{apart, kinds_off, odd_valves};
use super::reading_fault::{ReadingFault, Way};
use super::ways::{priors, ways};
use crate::statistics::ln_sum;
use alloc::vec::Vec;
use core::cmp::Ordering;
use core::f64::consts::LN_10;

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
            apart: Vec::new(),
            kinds_off: Vec::new(),
            nothing_special: 1.0 - evidence.prior.value(),
            log10_evidence: 0.0,
            causes: Vec::new(),
            not_weighed: ReadingFault::ALL.to_vec(),
        });
    }
    let readings = &evidence.readings;
    let fit = Fit::believed(readings, believed, warmth_shift(evidence.warming));
    let others: Vec<Fit> = others
        .iter()
        .take(MOST_SOURCES)
        .map(|source| Fit::other(readings, source, &fit.model))
        .collect();
    let ways = ways(evidence, &fit, &others);
    Ok(weigh(evidence, believed, &fit, &others, &ways))
}

/// A way with what it is worth.
struct Worth {
    way: Way,
    /// Its probability before the readings.
    prior: f64,
    /// The natural logarithm of its Bayes factor.
    ln_factor: f64,
    /// Its probability given the readings, not divided by that of all ways, as a logarithm.
    ln_joint: f64,
}

/// What every way is worth.
fn worths(evidence: &Evidence, fit: &Fit, others: &[Fit], ways: &[Way]) -> Vec<Worth> {
    let each = ways.iter().zip(priors(ways, evidence.prior));
    each.map(|(way, prior)| {
        let (ln, way) = if let Way::OtherSource(i) = way {
            let other = i.checked_sub(1).and_then(|i| others.get(i));
            (other.map_or(f64::NEG_INFINITY, |o| o.ln_nothing), *way)
        } else {
            fit.weighed(evidence, way)
        };
        let ln_factor = ln - fit.ln_nothing;
        Worth {
            way,
            prior,
            ln_factor,
            ln_joint: libm::log(prior) + ln_factor,
        }
    })
    .collect()
}

fn weigh(
    evidence: &Evidence,
    believed: &Source,
    fit: &Fit,
    others: &[Fit],
    ways: &[Way],
) -> Diagnosis {
    let found = worths(evidence, fit, others, ways);
    let of = |cause: ReadingFault| found.iter().filter(move |w| w.way.cause() == cause);
    let (weighed, not_weighed): (Vec<ReadingFault>, Vec<ReadingFault>) = ReadingFault::ALL
        .into_iter()
        .partition(|cause| of(*cause).next().is_some());
    let nothing = libm::log(1.0 - evidence.prior.value());
    let total = ln_sum(found.iter().map(|w| w.ln_joint).chain([nothing]));
    let nothing_special = libm::exp(nothing - total);
    let mut causes: Vec<WeighedCause> = weighed
        .iter()
        .map(|cause| {
            let prior: f64 = of(*cause).map(|w| w.prior).sum();
            let ln_joint = ln_sum(of(*cause).map(|w| w.ln_joint));
            let mut ways: Vec<&Worth> = of(*cause).collect();
            ways.sort_by(|a, b| falling(a.ln_joint, b.ln_joint));
            let best = ways.first().map_or(0.0, |w| w.ln_joint);
            ways.retain(|w| w.ln_joint >= best - libm::log(TIED_TIMES));
            let weighed = |w: &Worth| WeighedWay {
                way: w.way,
                log10_bayes_factor: w.ln_factor / LN_10,
                posterior: libm::exp(w.ln_joint - total),
                support: Vec::new(),
            };
            WeighedCause {
                cause: *cause,
                prior,
                log10_bayes_factor: (ln_joint - libm::log(prior)) / LN_10,
                posterior: libm::exp(ln_joint - total),
                worth_checking: false,
                ways: ways.into_iter().map(weighed).collect(),
            }
        })
        .collect();
    causes.sort_by(|a, b| falling(a.posterior, b.posterior));
    let alarm = nothing_special <= NOTHING_AT_MOST;
    let (odd_valves, outside) = odd_valves(&evidence.readings, believed);
    let kinds_off = kinds_off(&evidence.readings, believed);
    // Of readings that are to be taken again anyway none is taken once more.
    let apart = if nothing_special < PROBABLY || !kinds_off.is_empty() {
        Vec::new()
    } else {
        let named: Vec<usize> = odd_valves.iter().map(|odd| odd.reading).collect();
        apart(&outside, &fit.odd(&named))
    };
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
        } else if !kinds_off.is_empty() || nothing_special < PROBABLY {
            Status::Undecided
        } else if !odd_valves.is_empty() {
            Status::OddValves
        } else {
            Status::NothingSpecial
        },
        model: fit.model,
        spread_times: fit.spread_times(),
        odd_valves,
        apart,
        kinds_off,
        nothing_special,
        log10_evidence: fit.ln_nothing / LN_10,
        causes,
        not_weighed,
    }
}

fn support(evidence: &Evidence, fit: &Fit, others: &[Fit], way: &Way) -> Vec<f64> {
    let natural = if let Way::OtherSource(i) = way {
        let other = i.checked_sub(1).and_then(|i| others.get(i));
        let with = other.map(Fit::predicted).unwrap_or_default();
        let without = fit.predicted();
        with.iter().zip(without).map(|(a, b)| a - b).collect()
    } else {
        fit.support(evidence, way)
    };
    natural.iter().map(|ln| ln / LN_10).collect()
}

fn falling(a: f64, b: f64) -> Ordering {
    b.partial_cmp(&a).unwrap_or(Ordering::Equal)
}
