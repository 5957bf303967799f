//! What each reading says by itself: estimated once, then judged against every specification that may apply.

pub(in crate::job) mod answer;
pub(in crate::job) mod locking;
pub(in crate::job) mod sheet;

use crate::adjust::Adjuster;
use crate::clearance::text::printed_limits;
use crate::clearance::{AsFound, ClearanceError, Judged, Setting, first_try, judge, said};
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
use answer::{FirstLeafReport, JudgedReport, LeftReport, ValveReport};

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
///     left: None,
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
    /// What it read after it was set, if that was read: judged beside what was found, and of no weight in
    /// what all readings say together or in a shim plan.
    pub left: Option<AsFound>,
}

impl ValveReading {
    /// Everything that was read there.
    pub(in crate::job) fn taken(&self) -> impl Iterator<Item = &AsFound> {
        core::iter::once(&self.found).chain(&self.left)
    }
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
    left: Option<Left>,
}

impl Read<'_> {
    /// The estimates of everything that was read there.
    pub(in crate::job) fn estimates(&self) -> impl Iterator<Item = &ReadingEstimate> {
        core::iter::once(&self.felt).chain(self.left.as_ref().map(|left| &left.felt))
    }
}

/// The same after the valve was set.
struct Left {
    found: AsFound,
    felt: ReadingEstimate,
    judged: Vec<Judged>,
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
    let taken = readings.iter().flat_map(ValveReading::taken).count();
    let count = taken.saturating_mul(books.len());
    if count > MAX_JUDGEMENTS {
        problems.push(Problem::new(
            Place::Specifications,
            "job.too-many-judgements",
            format!(
                "{taken} readings by {} specifications are {count} judgements, more than {MAX_JUDGEMENTS}",
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
            problems.extend(check_shim(by.adjuster, &read.found, &as_found(i)).err());
            if let Some(left) = &read.left {
                problems.extend(check_shim(by.adjuster, left, &as_left(i)).err());
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
            assumptions.bears_on_verdict("feeler.tolerance", text);
        }
        if let Some(taken) = said(hand) {
            let text = format!(
                "uncertainty of the hand not stated: {taken} (standard) taken at each end of a reading; \
                 common practice, no source"
            );
            assumptions.bears_on_verdict("feeler.hand", text);
        }
        if let Some(taken) = said(drag) {
            let text = format!(
                "spread of a light drag not stated: {taken} (standard) taken; common practice, no source"
            );
            assumptions.bears_on_verdict("feeler.drag", text);
        }
        if let Some(taken) = said(joint) {
            let text = format!(
                "oil and air between the leaves of a stack not stated: +/- {taken} taken for each joint"
            );
            assumptions.bears_on_verdict("feeler.joint", text);
        }
    }
}

/// Where something read at a valve is told to be wrong.
pub(in crate::job) struct Places {
    at: fn(usize) -> Place,
    shim: fn(usize) -> Place,
    shim_uncertainty: fn(usize) -> Place,
    index: usize,
}

impl Places {
    fn refused(&self, why: &ClearanceError) -> Problem {
        Problem::at((self.at)(self.index), why)
    }
}

/// Of what was found.
pub(in crate::job) const fn as_found(index: usize) -> Places {
    Places {
        at: Place::Reading,
        shim: Place::ReadingShim,
        shim_uncertainty: Place::ReadingShimUncertainty,
        index,
    }
}

/// Of what was read after setting.
const fn as_left(index: usize) -> Places {
    Places {
        at: Place::Left,
        shim: Place::LeftShim,
        shim_uncertainty: Place::LeftShimUncertainty,
        index,
    }
}

fn one<'r>(
    read: &'r ValveReading,
    books: &[&Book<'_>],
    by: Judging<'_>,
    index: usize,
) -> Result<Read<'r>, Problem> {
    let places = as_found(index);
    let (felt, judged) =
        by_each(read.valve, &read.found, books, by).map_err(|e| places.refused(&e))?;
    let left = match &read.left {
        None => None,
        Some(left) => {
            let found = left.clone().set_after(&read.found);
            let (felt, judged) =
                by_each(read.valve, &found, books, by).map_err(|e| as_left(index).refused(&e))?;
            Some(Left {
                found,
                felt,
                judged,
            })
        }
    };
    Ok(Read {
        reading: read,
        felt,
        judged,
        left,
    })
}

/// Estimates what was read, and judges it by each candidate.
fn by_each(
    valve: ValveId,
    found: &AsFound,
    books: &[&Book<'_>],
    by: Judging<'_>,
) -> Result<(ReadingEstimate, Vec<Judged>), ClearanceError> {
    let felt = found.estimate(by.gauge_use)?;
    let judged = books.iter().map(|book| {
        let against = book.against(valve.kind);
        let setting = Setting {
            limits: book.specification.limits(valve.kind),
            correction: against.correction.as_ref(),
            not_at_reference: against.not_at_reference.as_ref(),
            adjuster: by.advised_with,
            kind: Some(valve.kind),
            rocker_ratio: by.rocker_ratio,
            leaves: by.leaves,
            rule: by.rule,
        };
        judge(found, &felt, &setting)
    });
    let judged = judged.collect::<Result<_, _>>()?;
    Ok((felt, judged))
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
    places: &Places,
) -> Result<(), Problem> {
    let Adjuster::Shim { series, .. } = adjuster else {
        let place = match (found.shim, found.shim_uncertainty) {
            (Some(_), _) => places.shim,
            (None, Some(_)) => places.shim_uncertainty,
            (None, None) => return Ok(()),
        };
        return Err(Problem::new(
            place(places.index),
            "job.shim-unused",
            "a shim is given, but the engine is not stated to be set with shims",
            "describe the shims the valves are set with, or leave the reading's shim out",
        ));
    };
    match (series, found.shim) {
        (Some(series), Some(fitted)) => series
            .check_fitted(fitted)
            .map_err(|e| Problem::at((places.shim)(places.index), &e)),
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
        judged: judged_reports(valve.kind, &read.judged, books, found.in_inches()),
        left: read.left.as_ref().map(|left| {
            let felt = &left.felt.estimate;
            LeftReport {
                reading: left.found.words(),
                leaves_in_inches: left.found.in_inches(),
                felt_low: felt.low(),
                felt_high: felt.high(),
                felt_uncertainty_mm: felt.normal_uncertainty().mm(),
                judged: judged_reports(valve.kind, &left.judged, books, left.found.in_inches()),
            }
        }),
    }
}

fn judged_reports(
    kind: ValveKind,
    judged: &[Judged],
    books: &[&Book<'_>],
    inches: bool,
) -> Vec<JudgedReport> {
    let by_books = books.iter().zip(judged);
    by_books
        .map(|(book, judged)| {
            let against = book.against(kind);
            let (correction, off) = (
                against.correction.as_ref(),
                against.not_at_reference.as_ref(),
            );
            let id = &book.specification.id;
            judged_report(id, (correction, off), judged.clone(), inches)
        })
        .collect()
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
