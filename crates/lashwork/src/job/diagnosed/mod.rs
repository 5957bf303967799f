//! Brings the readings of a request to the diagnosis, and its answer to the report.

mod look_at;
mod words;

use super::assumptions::Assumptions;
use super::describe::valve_name;
use super::warm::{at_other_temperatures, warmth};
use super::{
    DiagnosisReport, EvidenceReport, HypothesisReport, Metal, ModelReport, Request, WayReport,
};
use crate::diagnosis::{
    Cause, Diagnosis, Evidence, Prior, Seen, Source, Status, TurnedOut, Warming, Way, WeighedWay,
    diagnose, limits_of_report, turned_out, warmth_shift,
};
use crate::feeler::Reading;
use crate::quantity::{LashChange, LengthUnit, TemperatureDifference};
use crate::thermal::Correction;
use crate::tolerance::{Applicability, Specification, Uncertainty};
use crate::valve::{CamEvents, ValveTrain};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::cmp::Ordering;

/// A reading that speaks less than this either way, logarithm to base 10, is no evidence.
const SPEAKS: f64 = 0.1;

/// What the words are made from.
struct Told<'r> {
    request: &'r Request,
    evidence: Evidence,
    /// The specifications, in the order of the sources.
    specifications: Vec<&'r Specification>,
}

/// Diagnoses a request that has been checked.
pub(super) fn diagnosed(
    request: &Request,
    events: &CamEvents,
    train: &ValveTrain<'_>,
    assumptions: &mut Assumptions,
) -> Option<DiagnosisReport> {
    let (believed, specifications) = sources_in_order(request)?;
    let sources = specifications.iter().filter_map(|s| source(request, s));
    let (specifications, sources): (Vec<&Specification>, Vec<Source>) = sources.unzip();
    let told = Told {
        evidence: Evidence {
            readings: request
                .readings
                .iter()
                .filter_map(|r| seen(request, r))
                .collect(),
            sources,
            turned_out: ways_out(request, events, train),
            warming: warming(&request.metal, believed),
            prior: request.diagnosis_prior.unwrap_or(Prior::usual()),
        },
        request,
        specifications,
    };
    let found = diagnose(&told.evidence).ok()?;
    if !matches!(
        found.status,
        Status::TooFewReadings | Status::TooManyReadings
    ) {
        assume(&told, &found, assumptions);
    }
    Some(report(&told, &found, believed))
}

/// The specification believed, which is the first that applies or else may apply, and all of them
/// with that one first.
fn sources_in_order(request: &Request) -> Option<(&Specification, Vec<&Specification>)> {
    let is = |wanted: &[Applicability]| {
        let mut all = request.specifications.iter();
        all.find(|s| wanted.contains(&s.applicability(request.engine_number)))
    };
    let believed = is(&[Applicability::Applies])
        .or_else(|| is(&[Applicability::NotStated, Applicability::CannotTell]))?;
    let others = request
        .specifications
        .iter()
        .filter(|s| s.id != believed.id);
    Some((believed, core::iter::once(believed).chain(others).collect()))
}

fn source<'s>(
    request: &Request,
    specification: &'s Specification,
) -> Option<(&'s Specification, Source)> {
    let correction = warmth(&request.metal, specification.reference).ok()?;
    let u = correction
        .as_ref()
        .map_or(0.0, Correction::standard_uncertainty_mm);
    let source = Source {
        intake: specification.intake,
        exhaust: specification.exhaust,
        warmth: correction.map_or(LashChange::ZERO, |c| c.change),
        warmth_uncertainty: Uncertainty::from_mm(u).ok()?,
    };
    Some((specification, source))
}

fn seen(request: &Request, read: &super::ValveReading) -> Option<Seen> {
    let tolerances = request.leaf_tolerances();
    let found = read.reading.estimate_with(&tolerances, read.hollow).ok()?;
    Some(Seen {
        valve: read.valve,
        felt: found.estimate,
        marked_in: marked_in(&read.reading),
    })
}

/// The unit of the first leaf.
fn marked_in(reading: &Reading) -> LengthUnit {
    let (Reading::Between { goes: stack, .. }
    | Reading::Goes(stack)
    | Reading::Refuses(stack)
    | Reading::Drags { stack, .. }) = reading;
    let first = stack.leaves().first();
    first.map_or(LengthUnit::Millimetre, |leaf| leaf.mark.unit())
}

fn ways_out(request: &Request, events: &CamEvents, train: &ValveTrain<'_>) -> Vec<TurnedOut> {
    let walk = train.cylinder_by_cylinder(request.start);
    let first = request
        .start
        .or_else(|| request.engine.order().first().copied());
    let table = first.and_then(|c| train.two_position(c));
    turned_out(&request.engine, events, &walk, table.as_ref())
}

/// What the metal would add to every lash if it were as much warmer as the model states.
fn warming(metal: &Metal, believed: &Specification) -> Warming {
    let more = |metal: &Metal| -> Option<LashChange> {
        warmth(metal, believed.reference).ok()?.map(|c| c.change)
    };
    let by = warmer(metal).and_then(|warm| {
        let (warm, now) = (more(&warm)?, more(metal)?);
        LashChange::from_mm(warm.mm() - now.mm()).ok()
    });
    by.map_or(Warming::Unknown, Warming::Known)
}

/// The metal as much warmer than believed as the model states; none if nothing tells how the lash
/// follows.
fn warmer(metal: &Metal) -> Option<Metal> {
    let rise = TemperatureDifference::from_kelvin(crate::diagnosis::UNNOTICED_KELVIN).ok()?;
    match metal {
        Metal::Unstated | Metal::At { .. } => None,
        Metal::Chain { .. } | Metal::Coefficient { .. } => {
            at_other_temperatures(metal, |_, t| Ok(t + rise)).ok()
        }
    }
}

fn assume(told: &Told<'_>, found: &Diagnosis, assumptions: &mut Assumptions) {
    let stated = told.request.diagnosis_prior.is_some();
    assumptions.diagnosis(&words::assumptions(told, found, stated));
}

fn report(told: &Told<'_>, found: &Diagnosis, believed: &Specification) -> DiagnosisReport {
    let worth = found.causes.iter().filter(|c| c.worth_checking);
    let tied = worth.clone().count() > 1;
    let unlike = worth
        .filter(|c| c.cause == Cause::OneUnlike)
        .flat_map(|c| &c.ways);
    let (warmth_mean_mm, warmth_spread_mm) = warmth_shift(told.evidence.warming);
    let (reported_at_most, tied_within) = limits_of_report();
    DiagnosisReport {
        status: found.status,
        text: words::summary(told, found, &believed.id),
        nothing_special: found.nothing_special,
        hypotheses: found
            .causes
            .iter()
            .map(|cause| HypothesisReport {
                cause: cause.cause,
                text: words::cause(cause.cause).to_string(),
                prior: cause.prior,
                log10_bayes_factor: cause.log10_bayes_factor,
                posterior: cause.posterior,
                worth_checking: cause.worth_checking,
                tied: cause.worth_checking && tied,
                ways: cause.ways.iter().map(|w| way(told, w)).collect(),
            })
            .collect(),
        things_to_look_at: unlike
            .filter_map(|w| look_at::thing(told, &w.way))
            .collect(),
        cannot_tell: words::cannot_tell(told, found),
        model: ModelReport {
            specification: believed.id.clone(),
            readings: told.evidence.readings.len(),
            prior: told.evidence.prior.value(),
            reported_at_most,
            tied_within,
            intake: found.model.intake,
            exhaust: found.model.exhaust,
            worn_share: found.model.worn_share,
            drift_mm: found.model.drift_mm,
            warmth_mean_mm,
            warmth_spread_mm,
            log10_evidence: found.log10_evidence,
        },
    }
}

fn way(told: &Told<'_>, weighed: &WeighedWay) -> WayReport {
    let readings = told.evidence.readings.iter().zip(&told.request.readings);
    let mut evidence: Vec<EvidenceReport> = readings
        .zip(&weighed.support)
        .filter(|(_, support)| support.abs() >= SPEAKS)
        .map(|((seen, read), support)| EvidenceReport {
            valve: valve_name(told.request, seen.valve),
            reading: read.reading.to_string(),
            under: words::under(told, &weighed.way, seen),
            log10_support: *support,
        })
        .collect();
    evidence.sort_by(|a, b| {
        let order = b.log10_support.partial_cmp(&a.log10_support);
        order.unwrap_or(Ordering::Equal)
    });
    WayReport {
        text: words::way(told, &weighed.way),
        log10_bayes_factor: weighed.log10_bayes_factor,
        posterior: weighed.posterior,
        evidence,
    }
}

/// The valve of a reading by its place.
fn valve_at(told: &Told<'_>, reading: usize) -> String {
    let seen = told.evidence.readings.get(reading);
    seen.map_or_else(String::new, |s| valve_name(told.request, s.valve))
}

/// The source a way points to.
fn source_id<'t>(told: &'t Told<'_>, way: &Way) -> &'t str {
    match way {
        Way::OtherSource(i) => told.specifications.get(*i).map_or("", |s| s.id.as_str()),
        _ => "",
    }
}
