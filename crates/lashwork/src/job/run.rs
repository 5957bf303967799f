//! From request to report.

use super::assumptions::Assumptions;
use super::cautions::CAUTIONS;
use super::comparison::comparisons;
use super::cooling::cooling_report;
use super::crank_check;
use super::describe::{
    all_disagreements, engine_report, metal_words, name, specification_report, valve_name,
};
use super::diagnosed::diagnosed;
use super::judging::valve_report;
use super::lash_curve::lash_curves;
use super::locking::locking_report;
use super::plans::plans;
use super::shim_plan::shim_plans;
use super::{Adjuster, Problem, Report, Request, ValveReading, ValveReport};
use crate::tolerance::{Applicability, DecisionRule, Specification};
use crate::valve::{ValveId, ValveTrain};
use alloc::collections::BTreeSet;
use alloc::format;
use alloc::string::ToString;
use alloc::vec::Vec;

/// Runs a whole clearance job.
///
/// # Errors
/// Every [`Problem`] found: valves that do not exist or are read twice, temperatures the material
/// data do not cover, no specification that may apply, cam data that make no window.
///
/// # Source
/// The formulas of each step are named where the step lives; this function only joins them.
///
/// # Examples
/// One cylinder, one reading: 0.10 mm goes, 0.12 mm does not, and 0.15 to 0.25 mm is asked for.
/// ```
/// use lashwork::engine::{
///     Cylinder, CylinderIndex, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering,
///     Rotation, Sense,
/// };
/// use lashwork::feeler::{Combination, Leaf, LeafSet, Reading, Stack};
/// use lashwork::job::{
///     Adjuster, Metal, PlanChoice, Request, ValveReading, WarmQuestions, run,
/// };
/// use lashwork::quantity::{Cycle, Marked, Temperature};
/// use lashwork::tolerance::{
///     Condition, Limits, Provenance, Specification, ValveLimits, Verdict,
/// };
/// use lashwork::valve::{ValveId, ValveKind};
///
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let engine = Engine::new(EngineParts {
///     cycle: Cycle::FourStroke,
///     cylinders: vec![Cylinder::new(CylinderLabel::numbered(1))],
///     order: vec![CylinderLabel::numbered(1)],
///     intervals: Intervals::Even,
///     rotation: Rotation { sense: Sense::Clockwise, seen_from: End::Free },
///     numbering: Numbering::FromFreeEnd,
/// })
/// .map_err(|errors| format!("{errors:?}"))?;
/// let band = Limits::between(Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?)?;
/// let limits = ValveLimits::new(Marked::parse("0.20 mm")?, band, None)?;
/// let leaf = |text| Marked::parse(text).map(Leaf::new);
/// let valve = |number| ValveId { cylinder: CylinderIndex::new(0), kind: ValveKind::Intake, number };
/// let mut request = Request {
///     title: "Invented single".into(),
///     note: None,
///     engine,
///     engine_number: None,
///     events: None,
///     guard: None,
///     intake_valves: 1,
///     exhaust_valves: 1,
///     rocker_ratio: None,
///     adjuster: Adjuster::Unstated,
///     pulley: None,
///     start: None,
///     plan: PlanChoice::default(),
///     specifications: vec![Specification {
///         id: "book".into(),
///         provenance: Provenance {
///             document: "Invented book".into(),
///             edition: None,
///             applies_to: None,
///             engine_numbers: None,
///         },
///         condition: Condition::Cold,
///         reference: Temperature::iso_1()?,
///         measured_at: None,
///         intake: limits.clone(),
///         exhaust: limits,
///     }],
///     reference_assumed: vec![],
///     thermometer_assumed: vec![],
///     leaves: LeafSet::new(vec![leaf("0.10 mm")?, leaf("0.12 mm")?, leaf("0.20 mm")?])?,
///     combination: Combination::WorstCase,
///     metal: Metal::Unstated,
///     warm: WarmQuestions::default(),
///     readings: vec![ValveReading {
///         valve: valve(1),
///         reading: Reading::between(
///             Stack::new(vec![leaf("0.10 mm")?])?,
///             Stack::new(vec![leaf("0.12 mm")?])?,
///         )?,
///         hollow: None,
///         shim: None,
///         shim_uncertainty: None,
///     }],
///     rule: None,
///     diagnosis_prior: None,
///     crank_check: None,
/// };
/// let report = run(&request).map_err(|problems| format!("{problems:?}"))?;
/// assert_eq!(report.valves[0].judged[0].verdict, Verdict::Tight);
/// assert_eq!(report.not_read, ["cylinder 1 exhaust"]);
/// assert!(report.assumptions.iter().any(|a| a.code == "tolerance.rule"));
/// assert!(report.sheet().contains("reset to 0.20 mm"));
///
/// request.readings[0].valve = valve(2);
/// assert_eq!(run(&request).unwrap_err()[0].code, "job.no-such-valve");
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
pub fn run(request: &Request) -> Result<Report, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut assumptions = Assumptions::of(request);
    let engine = &request.engine;
    let (events, guard) = (assumptions.events(request), assumptions.guard(request));
    let rule = assumptions.rule(request);
    let (intake, exhaust) = (request.intake_valves, request.exhaust_valves);
    let train = ValveTrain::new(engine, &events, guard, intake, exhaust)
        .map_err(|e| problems.push(Problem::new("/valves", e.code(), e.to_string(), e.hint())))
        .ok();
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
    let known = train.as_ref().map(ValveTrain::valves);
    let valves = judge_readings(
        request,
        known.as_deref(),
        &candidates,
        &rule,
        &mut assumptions,
        &mut problems,
    );
    let comparisons = kept(comparisons(request, &candidates), &mut problems);
    let cooling = kept(cooling_report(request, &candidates), &mut problems);
    let lash_curves = kept(lash_curves(request, &candidates), &mut problems);
    let crank_check = crank_check::report(request, &events, guard, &mut problems);
    let (Some(train), Some(known), []) = (train, known, problems.as_slice()) else {
        return Err(problems);
    };
    let shim_plans =
        shim_plans(request, &candidates, &valves, &rule).map_err(|problem| alloc::vec![problem])?;
    let diagnosis = diagnosed(request, &events, &train, &mut assumptions);
    let read: BTreeSet<ValveId> = request.readings.iter().map(|r| r.valve).collect();
    let open = known.iter().filter(|v| !read.contains(*v));
    let stops = plans(request, &train, &mut assumptions);
    Ok(Report {
        title: request.title.clone(),
        note: request.note.clone(),
        engine: engine_report(engine),
        specifications: request
            .specifications
            .iter()
            .map(|s| specification_report(s, request.engine_number))
            .collect(),
        disagreements: all_disagreements(&candidates),
        crank_check,
        places: stops.places,
        plans: stops.offered,
        not_offered: stops.not_offered,
        recommended: stops.recommended,
        metal: metal_words(&request.metal),
        comparisons,
        cooling,
        lash_curves,
        locking: locking_report(request),
        rule: rule.name().to_string(),
        valves,
        shim_plans,
        diagnosis,
        not_read: open.map(|v| valve_name(request, *v)).collect(),
        assumptions: assumptions.list(),
        cautions: CAUTIONS.to_vec(),
    })
}

/// The value, or the problem noted.
fn kept<T: Default>(result: Result<T, Problem>, problems: &mut Vec<Problem>) -> T {
    result.unwrap_or_else(|problem| {
        problems.push(problem);
        T::default()
    })
}

/// Judges every reading of a valve that exists and is read once.
fn judge_readings(
    request: &Request,
    known: Option<&[ValveId]>,
    candidates: &[&Specification],
    rule: &DecisionRule,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Vec<ValveReport> {
    let mut valves = Vec::new();
    let mut seen = BTreeSet::new();
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
        } else if !seen.insert(read.valve) {
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
                    valves.push(report);
                }
                Err(problem) => problems.push(problem),
            }
        }
    }
    valves
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
            Problem::new(place, e.code(), e.to_string(), e.hint())
        }),
        _ => Ok(()),
    }
}
