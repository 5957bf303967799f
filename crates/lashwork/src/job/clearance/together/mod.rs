//! Brings the readings of a request to the diagnosis, and its answer to the report.

pub(in crate::job) mod answer;
mod findings;
mod inspections;
pub(in crate::job) mod sheet;
mod summary;
mod taken;
mod words;

use crate::adjust::Adjuster;
use crate::clearance::Advice;
use crate::clearance::AsFound;
use crate::diagnosis::{
    Diagnosis, Evidence, Prior, Seen, Source, Status, UNNOTICED, Warming, Way, WeighedWay,
    WrongStroke, diagnose, limits_of_report, one_turn_out, warmth_shift,
};
use crate::engine::CylinderIndex;
use crate::feeler::ReadingEstimate;
use crate::job::assumptions::Assumptions;
use crate::job::clearance::books::Book;
use crate::job::clearance::settle::StopWorkCode;
use crate::job::text::ValveNames;
use crate::job::units::Shown;
use crate::quantity::{Lash, LashChange};
use crate::thermal::{Correction, Metal, Reference, WARM_UP, unknown_shift};
use crate::tolerance::{Estimate, Uncertainty};
use crate::valve::{Applicability, CamEvents, ValveId, ValveKind, ValveTrain};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use answer::{DiagnosisReport, EvidenceReport, HypothesisReport, ModelReport, WayReport};
use core::cmp::Ordering;

/// A reading that speaks less than this either way, logarithm to base 10, is no evidence.
const SPEAKS: f64 = 0.1;

/// A reading with the gap it stands for.
pub(in crate::job) struct Taken<'r> {
    pub(in crate::job) valve: ValveId,
    pub(in crate::job) found: &'r AsFound,
    pub(in crate::job) felt: ReadingEstimate,
}

/// What is weighed together.
pub(in crate::job) struct Asked<'r> {
    pub(in crate::job) readings: Vec<Taken<'r>>,
    pub(in crate::job) books: &'r [Book<'r>],
    pub(in crate::job) metal: &'r Metal,
    pub(in crate::job) adjuster: &'r Adjuster,
    pub(in crate::job) events: &'r CamEvents,
    pub(in crate::job) train: &'r ValveTrain<'r>,
    /// The cylinder to start with.
    pub(in crate::job) start: Option<CylinderIndex>,
    pub(in crate::job) prior: Option<Prior>,
    pub(in crate::job) names: ValveNames<'r>,
    /// The units of what belongs to no single reading.
    pub(in crate::job) shown: Shown,
}

/// What the words are made from.
struct Told<'r> {
    asked: &'r Asked<'r>,
    evidence: Evidence,
    /// The specifications, in the order of the sources; the one believed first.
    books: Vec<&'r Book<'r>>,
}

/// What the readings say together.
pub(in crate::job) struct Joint {
    pub(in crate::job) report: DiagnosisReport,
    /// What of it must be settled before valves are set.
    pub(in crate::job) findings: Vec<JointFinding>,
    /// The valves far from their kind, and what is said at each.
    pub(in crate::job) odd: Vec<(ValveId, Advice)>,
}

/// A cause worth checking, with the valves whose numbers it spoils.
pub(in crate::job) struct JointFinding {
    pub(in crate::job) code: StopWorkCode,
    pub(in crate::job) text: String,
    pub(in crate::job) valves: Vec<ValveId>,
}

/// Diagnoses readings that have been checked.
pub(in crate::job) fn diagnosed(asked: &Asked<'_>, assumptions: &mut Assumptions) -> Option<Joint> {
    let books = in_order(asked.books)?;
    let believed = *books.first()?;
    let told = Told {
        evidence: Evidence {
            readings: asked
                .readings
                .iter()
                .map(|taken| Seen {
                    valve: taken.valve,
                    felt: like_intake(taken, believed),
                    marked_in: taken.found.marked_in(),
                })
                .collect(),
            sources: books.iter().filter_map(|book| source(book)).collect(),
            one_turn_out: ways_out(asked),
            warming: warming(asked.metal, believed.reference)?,
            prior: asked.prior.unwrap_or(Prior::usual()),
        },
        asked,
        books,
    };
    let found = diagnose(&told.evidence).ok()?;
    if !matches!(
        found.status,
        Status::TooFewReadings | Status::TooManyReadings
    ) {
        for (code, text) in taken::assumptions(&told, &found, asked.prior.is_some()) {
            assumptions.add(code, text);
        }
    }
    Some(Joint {
        report: report(&told, &found, &believed.specification.id),
        findings: findings::findings(&told, &found),
        odd: findings::odd(&told, &found),
    })
}

/// All specifications, with the assumed one first: the first that applies, or else may apply.
fn in_order<'r>(books: &'r [Book<'r>]) -> Option<Vec<&'r Book<'r>>> {
    let is = |wanted: &[Applicability]| {
        let mut used = books.iter().filter(|b| b.used_instead.is_none());
        used.find(|b| wanted.contains(&b.applicability))
    };
    let believed = is(&[Applicability::Applies])
        .or_else(|| is(&[Applicability::NotStated, Applicability::CannotTell]))?;
    let id = &believed.specification.id;
    let others = books
        .iter()
        .filter(|b| b.is_in_reach && b.used_instead.is_none() && b.specification.id != *id);
    Some(core::iter::once(believed).chain(others).collect())
}

fn source(book: &Book<'_>) -> Option<Source> {
    let against = book.against(ValveKind::Intake);
    let (correction, off) = (
        against.correction.as_ref(),
        against.not_at_reference.as_ref(),
    );
    let unknown = off.map_or(0.0, |off| off.uncertainty_mm);
    let u = correction.map_or(unknown, Correction::standard_uncertainty_mm);
    Some(Source {
        intake: book.specification.intake,
        exhaust: book.specification.exhaust,
        warmth: correction.map_or(LashChange::ZERO, |c| c.change),
        warmth_uncertainty: Uncertainty::from_mm(u).ok()?,
    })
}

/// What was felt, as it would be if the metal of all valves were that of the intake valves: a source knows
/// one thermal change.
fn like_intake(taken: &Taken<'_>, believed: &Book<'_>) -> Estimate<Lash> {
    let change = |kind| {
        let correction = believed.against(kind).correction.as_ref();
        correction.map_or(0.0, |c: &Correction| c.change.mm())
    };
    let more = change(taken.valve.kind) - change(ValveKind::Intake);
    let less = LashChange::from_mm(-more).unwrap_or(LashChange::ZERO);
    taken.felt.estimate.shifted(less, Uncertainty::ZERO)
}

fn ways_out(asked: &Asked<'_>) -> Vec<WrongStroke> {
    let engine = asked.names.engine;
    let walk = asked.train.cylinder_by_cylinder(asked.start);
    let first = asked.start.or_else(|| engine.order().first().copied());
    let table = first.and_then(|c| asked.train.two_position(c));
    one_turn_out(engine, asked.events, &walk, table.as_ref())
}

/// What the metal would add to every lash if it were as much warmer as the model states; nothing tells how
/// much in an answer that cannot be.
fn warming(metal: &Metal, reference: Reference) -> Option<Warming> {
    let known = || {
        let at = reference.temperature()?;
        let change = |metal: &Metal| Some(metal.correction(at).ok()??.change);
        let (warm, now) = (change(&warmer(metal)?)?, change(metal)?);
        LashChange::from_mm(warm.mm() - now.mm()).ok()
    };
    if let Some(by) = known() {
        return Some(Warming::Known(by));
    }
    // How the lash follows is as unknown as the temperature: half a warm-up, as with known parts, would leave
    // out shifts that a whole one makes on many an engine.
    unknown_shift(WARM_UP).ok().map(Warming::Unknown)
}

/// The metal as much warmer than assumed as the model states; none if nothing tells how the lash
/// follows.
fn warmer(metal: &Metal) -> Option<Metal> {
    let rise = UNNOTICED;
    if !metal.has_rule() {
        return None;
    }
    metal.at_other_temperatures(|_, t| Ok(t + rise)).ok()
}

fn report(told: &Told<'_>, found: &Diagnosis, believed: &str) -> DiagnosisReport {
    let worth = found.causes.iter().filter(|c| c.worth_checking);
    let tied = worth.count() > 1;
    let (warmth_mean_mm, warmth_spread_mm) = warmth_shift(told.evidence.warming);
    let (reported_at_most, tied_within) = limits_of_report();
    DiagnosisReport {
        status: found.status,
        tell_apart: tied.then(|| summary::tell_apart(found)),
        text: summary::summary(told, found, believed),
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
        inspections: findings::unexplained(told, found)
            .filter_map(|odd| inspections::inspection(told, odd))
            .collect(),
        stand_apart: found
            .apart
            .iter()
            .map(|apart| inspections::stands_apart(told, apart))
            .collect(),
        cannot_tell: summary::cannot_tell(told, found),
        model: ModelReport {
            specification: believed.to_string(),
            readings: told.evidence.readings.len(),
            prior: told.evidence.prior.value(),
            reported_at_most,
            tied_within,
            intake: found.model.intake,
            exhaust: found.model.exhaust,
            spread_times: found.spread_times,
            worn_share: found.model.worn_share,
            drift_mm: found.model.drift_mm,
            warmth_mean_mm,
            warmth_spread_mm,
            log10_evidence: found.log10_evidence,
        },
    }
}

fn way(told: &Told<'_>, weighed: &WeighedWay) -> WayReport {
    let readings = told.evidence.readings.iter().zip(&told.asked.readings);
    let mut evidence: Vec<EvidenceReport> = readings
        .zip(&weighed.support)
        .filter(|(_, support)| support.abs() >= SPEAKS)
        .map(|((seen, taken), support)| EvidenceReport {
            valve: told.asked.names.of(seen.valve),
            reading: taken.found.reading.to_string(),
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
    seen.map_or_else(String::new, |s| told.asked.names.of(s.valve))
}

/// The source a way points to.
fn source_id<'t>(told: &'t Told<'_>, way: &Way) -> &'t str {
    match way {
        Way::OtherSource(i) => told
            .books
            .get(*i)
            .map_or("", |b| b.specification.id.as_str()),
        _ => "",
    }
}
