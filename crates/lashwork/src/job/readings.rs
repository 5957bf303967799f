//! What the readings of a request say by themselves: each felt, corrected, judged and advised on.

use super::assumptions::Assumptions;
use super::cautions::CAUTIONS;
use super::comparison::comparisons;
use super::cooling::cooling_report;
use super::describe::{metal_words, name};
use super::judging::valve_report;
use super::lash_curve::lash_curves;
use super::{
    Adjuster, Assumption, ComparisonReport, CoolingReport, LashCurve, Problem, Request,
    ValveReading, ValveReport,
};
use crate::tolerance::{Applicability, DecisionRule, Specification};
use crate::valve::ValveId;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// The readings of a request, judged; the fields say the same as those of a [`Report`](super::Report).
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingsReport {
    /// The valves that were read, in the order of the readings.
    pub valves: Vec<ValveReport>,
    /// How warm the metal is and how the lash follows.
    pub metal: Vec<String>,
    /// The decision rule.
    pub rule: String,
    /// What had to be assumed for the judgements.
    pub assumptions: Vec<Assumption>,
    /// What can hurt someone.
    pub cautions: Vec<&'static str>,
}

/// Judges the readings of a request and leaves the rest of [`run`](super::run) aside: no stops, no
/// crank check, no shim plan, nothing said of the readings together. Whether the engine has the valves
/// is not checked.
///
/// # Errors
/// Every [`Problem`] that [`run`](super::run) finds with readings, metal and specifications.
pub fn judge_readings(request: &Request) -> Result<ReadingsReport, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut assumptions = Assumptions::of(request);
    let rule = assumptions.rule(request);
    let candidates = candidates(request, &mut problems);
    let valves = valves(
        request,
        None,
        &candidates,
        &rule,
        &mut assumptions,
        &mut problems,
    );
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(ReadingsReport {
        valves,
        metal: metal_words(&request.metal),
        rule: rule.name().to_string(),
        assumptions: assumptions.list(),
        cautions: CAUTIONS.to_vec(),
    })
}

/// What readings and metal say.
pub(super) struct Judgements {
    pub(super) valves: Vec<ValveReport>,
    pub(super) comparisons: Vec<ComparisonReport>,
    pub(super) cooling: Option<CoolingReport>,
    pub(super) lash_curves: Vec<LashCurve>,
}

/// Works out what readings and metal say; without `known` valves all are taken to be there.
pub(super) fn judgements(
    request: &Request,
    known: Option<&[ValveId]>,
    candidates: &[&Specification],
    rule: &DecisionRule,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Judgements {
    Judgements {
        valves: valves(request, known, candidates, rule, assumptions, problems),
        comparisons: kept(comparisons(request, candidates), problems),
        cooling: kept(cooling_report(request, candidates), problems),
        lash_curves: kept(lash_curves(request, candidates), problems),
    }
}

/// The specifications that may apply.
pub(super) fn candidates<'r>(
    request: &'r Request,
    problems: &mut Vec<Problem>,
) -> Vec<&'r Specification> {
    let candidates: Vec<&Specification> = request
        .specifications
        .iter()
        .filter(|s| s.applicability(request.engine_number) != Applicability::DoesNotApply)
        .collect();
    if candidates.is_empty() {
        problems.push(Problem::new(
            "/specifications",
            "job.no-specification",
            "no specification that may apply to this engine",
            "add the specification that is printed for this engine number",
        ));
    }
    candidates
}

/// The value, or the problem noted.
fn kept<T: Default>(result: Result<T, Problem>, problems: &mut Vec<Problem>) -> T {
    result.unwrap_or_else(|problem| {
        problems.push(problem);
        T::default()
    })
}

/// Judges every reading of a valve that exists and is read once.
fn valves(
    request: &Request,
    known: Option<&[ValveId]>,
    candidates: &[&Specification],
    rule: &DecisionRule,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Vec<ValveReport> {
    let mut judged = Vec::new();
    for (i, read) in request.readings.iter().enumerate() {
        let place = format!("/readings/{i}");
        if known.is_some_and(|all| !all.contains(&read.valve)) {
            let (intake, exhaust) = (request.intake_valves, request.exhaust_valves);
            let valve = name(&request.engine, read.valve, true);
            problems.push(Problem::new(
                format!("{place}/number"),
                "job.no-such-valve",
                format!(
                    "{valve} does not exist: the engine has {intake} intake and {exhaust} \
                     exhaust valves per cylinder"
                ),
                "check the valve's number, or the counts in the valves section",
            ));
        } else if request
            .readings
            .iter()
            .take(i)
            .any(|r| r.valve == read.valve)
        {
            problems.push(Problem::new(
                place,
                "job.valve-read-twice",
                format!(
                    "{} has a second reading",
                    name(&request.engine, read.valve, false)
                ),
                "keep one reading per valve",
            ));
        } else {
            if let Err(problem) = check_shim(request, read, &place) {
                problems.push(problem);
            }
            match valve_report(request, read, candidates, rule, &place) {
                Ok((report, tolerance_assumed)) => {
                    if tolerance_assumed {
                        assumptions.leaf_tolerance();
                    }
                    judged.push(report);
                }
                Err(problem) => problems.push(problem),
            }
        }
    }
    judged
}

/// Whether the shim of a reading, if one is stated, may sit in this engine.
fn check_shim(request: &Request, read: &ValveReading, place: &str) -> Result<(), Problem> {
    let Adjuster::Shim { series, .. } = &request.adjuster else {
        let field = match (read.shim, read.shim_uncertainty) {
            (Some(_), _) => "shim",
            (None, Some(_)) => "shim_uncertainty",
            (None, None) => return Ok(()),
        };
        return Err(Problem::new(
            format!("{place}/{field}"),
            "job.shim-unused",
            "a shim is given, but the engine is not said to be set with shims",
            "describe the shims under \"valves\", or leave the reading's shim out",
        ));
    };
    match (series, read.shim) {
        (Some(series), Some(fitted)) => series.check_fitted(fitted).map_err(|e| {
            let place = format!("{place}/shim");
            Problem::at(place, &e)
        }),
        _ => Ok(()),
    }
}
