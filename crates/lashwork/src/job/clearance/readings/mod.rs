//! What each reading says by itself: estimated once, then judged against every specification that may apply.

pub(in crate::job) mod answer;
pub(in crate::job) mod locking;
pub(in crate::job) mod sheet;

use crate::adjust::Adjuster;
use crate::clearance::text::printed_limits;
use crate::clearance::{AsFound, Judged, Setting, first_try, judge, said};
use crate::feeler::{Assumed, GaugeUse, LeafSet, ReadingEstimate};
use crate::job::assumptions::Assumptions;
use crate::job::clearance::books::Book;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::text::{ValveNames, taken};
use crate::quantity::{Lash, Marked};
use crate::thermal::{Correction, NotAtReference};
use crate::tolerance::{DecisionRule, Uncertainty};
use crate::valve::{ValveId, ValveKind};
use alloc::format;
use alloc::string::ToString;
use alloc::vec::Vec;
use answer::{FirstLeafReport, JudgedReport, ValveReport};

/// Most judgements in one answer: readings times specifications that may apply. Far above any engine;
/// without it a short request could ask for an answer a thousand times its size.
pub const MAX_JUDGEMENTS: usize = 2_048;

/// What was found at one valve of the engine.
///
/// ```
/// use lashwork::clearance::AsFound;
/// use lashwork::engine::CylinderIndex;
/// use lashwork::feeler::{Leaf, Reading, Stack};
/// use lashwork::job::clearance::ValveReading;
/// use lashwork::quantity::Marked;
/// use lashwork::valve::{ValveId, ValveKind};
/// let leaf = Stack::new(vec![Leaf::new(Marked::parse("0.10 mm")?)])?;
/// let read = ValveReading {
///     valve: ValveId { cylinder: CylinderIndex::new(0), kind: ValveKind::Intake, number: 1 },
///     found: AsFound::new(Reading::goes(leaf)),
/// };
/// assert_eq!(read.found.words(), "0.10 mm goes");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct ValveReading {
    /// The valve.
    pub valve: ValveId,
    /// What was found there.
    pub found: AsFound,
}

/// What readings are judged by, besides the specifications.
#[derive(Clone, Copy)]
pub(in crate::job) struct Judging<'r> {
    pub(in crate::job) adjuster: &'r Adjuster,
    /// The same as single readings are advised with: no sizes where a plan chooses shims.
    pub(in crate::job) advised_with: &'r Adjuster,
    pub(in crate::job) rocker_ratio: Option<f64>,
    pub(in crate::job) leaves: &'r LeafSet,
    pub(in crate::job) gauge_use: &'r GaugeUse,
    pub(in crate::job) rule: &'r DecisionRule,
    pub(in crate::job) names: ValveNames<'r>,
}

/// A reading, estimated once and judged by each candidate in turn.
pub(in crate::job) struct Read<'r> {
    pub(in crate::job) reading: &'r ValveReading,
    pub(in crate::job) felt: ReadingEstimate,
    pub(in crate::job) judged: Vec<Judged>,
}

/// Judges every reading of a valve that exists and is read once; without `known` valves all are taken
/// to be there.
pub(in crate::job) fn judged<'r>(
    readings: &'r [ValveReading],
    known: Option<&[ValveId]>,
    books: &[&Book<'_>],
    by: Judging<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Read<'r>> {
    let count = readings.len().saturating_mul(books.len());
    if count > MAX_JUDGEMENTS {
        problems.push(Problem::new(
            Place::Specifications,
            "job.too-many-judgements",
            format!(
                "{} readings by {} specifications are {count} judgements, more than {MAX_JUDGEMENTS}",
                readings.len(),
                books.len()
            ),
            "split the job, or leave out the specifications that are not for this engine",
        ));
        return Vec::new();
    }
    let mut all: Vec<Read<'r>> = Vec::new();
    for (i, read) in readings.iter().enumerate() {
        if known.is_some_and(|known| !known.contains(&read.valve)) {
            problems.push(no_such_valve(read, i, by.names));
        } else if readings.iter().take(i).any(|r| r.valve == read.valve) {
            problems.push(Problem::new(
                Place::Reading(i),
                "job.valve-read-twice",
                format!("{} has a second reading", by.names.name(read.valve, false)),
                "keep one reading per valve",
            ));
        } else {
            if let Err(problem) = check_shim(by.adjuster, &read.found, i) {
                problems.push(problem);
            }
            match one(read, books, by, i) {
                Ok(read) => all.push(read),
                Err(problem) => problems.push(problem),
            }
        }
    }
    all
}

/// Notes what had to be taken of leaves and hand.
pub(in crate::job) fn assume<'f>(
    felt: impl Iterator<Item = &'f ReadingEstimate>,
    inches: bool,
    assumptions: &mut Assumptions,
) {
    let said = |mark: Option<Marked>| mark.map(|mark| taken(mark, inches));
    for Assumed {
        tolerance,
        hand,
        drag,
        joint,
    } in felt.map(|felt| felt.assumed)
    {
        if let Some(taken) = said(tolerance) {
            let text = format!("leaf tolerance not stated: +/- {taken} taken");
            assumptions.add("feeler.tolerance", text);
        }
        if let Some(taken) = said(hand) {
            let text = format!(
                "uncertainty of the hand not stated: {taken} (standard) taken at each end of a reading; \
                 common practice, no source"
            );
            assumptions.add("feeler.hand", text);
        }
        if let Some(taken) = said(drag) {
            let text = format!(
                "spread of a light drag not stated: {taken} (standard) taken; common practice, no source"
            );
            assumptions.add("feeler.drag", text);
        }
        if let Some(taken) = said(joint) {
            let text = format!(
                "oil and air between the leaves of a stack not stated: +/- {taken} taken for each joint"
            );
            assumptions.add("feeler.joint", text);
        }
    }
}

fn one<'r>(
    read: &'r ValveReading,
    books: &[&Book<'_>],
    by: Judging<'_>,
    index: usize,
) -> Result<Read<'r>, Problem> {
    let felt = read.found.estimate(by.gauge_use);
    let felt = felt.map_err(|e| Problem::at(Place::Reading(index), &e))?;
    let judged = books.iter().map(|book| {
        let against = book.against(read.valve.kind);
        let setting = Setting {
            limits: book.specification.limits(read.valve.kind),
            correction: against.correction.as_ref(),
            not_at_reference: against.not_at_reference.as_ref(),
            adjuster: by.advised_with,
            kind: Some(read.valve.kind),
            rocker_ratio: by.rocker_ratio,
            leaves: by.leaves,
            rule: by.rule,
        };
        judge(&read.found, &felt, &setting).map_err(|e| Problem::at(Place::Reading(index), &e))
    });
    Ok(Read {
        reading: read,
        judged: judged.collect::<Result<_, _>>()?,
        felt,
    })
}

fn no_such_valve(read: &ValveReading, index: usize, names: ValveNames<'_>) -> Problem {
    let (intake, exhaust) = (names.intake, names.exhaust);
    Problem::new(
        Place::ReadingNumber(index),
        "job.no-such-valve",
        format!(
            "{} does not exist: the engine has {intake} intake and {exhaust} exhaust valves per \
             cylinder",
            names.name(read.valve, true)
        ),
        "check the valve's number, or how many valves each cylinder is stated to have",
    )
}

/// Whether the shim of a reading, if one is stated, may sit in this engine.
pub(in crate::job) fn check_shim(
    adjuster: &Adjuster,
    found: &AsFound,
    index: usize,
) -> Result<(), Problem> {
    let Adjuster::Shim { series, .. } = adjuster else {
        let place = match (found.shim, found.shim_uncertainty) {
            (Some(_), _) => Place::ReadingShim(index),
            (None, Some(_)) => Place::ReadingShimUncertainty(index),
            (None, None) => return Ok(()),
        };
        return Err(Problem::new(
            place,
            "job.shim-unused",
            "a shim is given, but the engine is not stated to be set with shims",
            "describe the shims the valves are set with, or leave the reading's shim out",
        ));
    };
    match (series, found.shim) {
        (Some(series), Some(fitted)) => series
            .check_fitted(fitted)
            .map_err(|e| Problem::at(Place::ReadingShim(index), &e)),
        _ => Ok(()),
    }
}

/// One valve for the report.
pub(in crate::job) fn report(
    read: &Read<'_>,
    books: &[&Book<'_>],
    names: ValveNames<'_>,
) -> ValveReport {
    let (valve, found, felt) = (read.reading.valve, &read.reading.found, &read.felt.estimate);
    let label = names.engine.cylinder(valve.cylinder);
    let judged = books.iter().zip(&read.judged);
    ValveReport {
        cylinder: label.map(|c| c.label.to_string()).unwrap_or_default(),
        kind: valve.kind,
        number: valve.number,
        name: names.of(valve),
        reading: found.words(),
        leaves_in_inches: found.in_inches(),
        felt_low: felt.low(),
        felt_high: felt.high(),
        felt_uncertainty_mm: felt.normal_uncertainty().mm(),
        judged: judged
            .map(|(book, judged)| {
                let against = book.against(valve.kind);
                let (correction, off) = (
                    against.correction.as_ref(),
                    against.not_at_reference.as_ref(),
                );
                let id = &book.specification.id;
                judged_report(id, (correction, off), judged.clone(), found.in_inches())
            })
            .collect(),
    }
}

/// Which leaf to try first at the valves of each kind, by each candidate.
pub(in crate::job) fn first_leaves(books: &[&Book<'_>], by: Judging<'_>) -> Vec<FirstLeafReport> {
    let kinds = [ValveKind::Intake, ValveKind::Exhaust];
    let all = books
        .iter()
        .flat_map(|book| kinds.map(|kind| (book, kind)))
        .filter_map(|(book, kind)| {
            let against = book.against(kind);
            let setting = Setting {
                limits: book.specification.limits(kind),
                correction: against.correction.as_ref(),
                not_at_reference: against.not_at_reference.as_ref(),
                adjuster: by.advised_with,
                kind: Some(kind),
                rocker_ratio: by.rocker_ratio,
                leaves: by.leaves,
                rule: by.rule,
            };
            Some(FirstLeafReport {
                specification: book.specification.id.clone(),
                kind,
                first: first_try(&setting, by.gauge_use)?,
            })
        });
    all.collect()
}

/// One judgement for a report.
pub(in crate::job) fn judged_report(
    specification: &str,
    (correction, off): (Option<&Correction>, Option<&NotAtReference>),
    judged: Judged,
    inches: bool,
) -> JudgedReport {
    let Judged {
        estimate,
        judgement,
        deciding,
        next_leaf,
        limits,
        advice,
    } = judged;
    JudgedReport {
        specification: specification.into(),
        warmth: correction.map(|c| c.change),
        warmth_uncertainty_mm: correction.map_or_else(
            || off.map_or(0.0, |off| off.uncertainty_mm),
            Correction::standard_uncertainty_mm,
        ),
        low: estimate.low(),
        high: estimate.high(),
        normal_uncertainty_mm: estimate.normal_uncertainty().mm(),
        standard_uncertainty_mm: estimate.standard_uncertainty().map(Uncertainty::mm),
        limits: printed_limits(limits.judging(), inches),
        limit_low: limits.judging().lower().and_then(exact),
        limit_high: limits.judging().upper().and_then(exact),
        set_to: exact(limits.set_to()),
        verdict: judgement.verdict,
        verdict_text: said(judgement.verdict, &judgement.probabilities),
        deciding,
        next_leaf,
        probabilities: judgement.probabilities,
        provable: judgement.provable,
        advice,
    }
}

fn exact(mark: Marked) -> Option<Lash> {
    Lash::from_nominal(mark.nominal()).ok()
}
