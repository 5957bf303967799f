//! From request to report.

use super::assumptions::Assumptions;
use super::cautions::CAUTIONS;
use super::crank_check;
use super::describe::{
    all_disagreements, engine_report, metal_words, specification_report, valve_name,
};
use super::diagnosed::diagnosed;
use super::locking::locking_report;
use super::plans::plans;
use super::readings::{Judgements, candidates, judgements};
use super::shim_plan::shim_plans;
use super::{Problem, Report, Request};
use crate::valve::{ValveId, ValveTrain};
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
/// assert_eq!(report.valves[0].judged[0].verdict, Verdict::Below);
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
    let candidates = candidates(request, &mut problems);
    let known = train.as_ref().map(ValveTrain::valves);
    let Judgements {
        valves,
        comparisons,
        cooling,
        lash_curves,
    } = judgements(
        request,
        known.as_deref(),
        &candidates,
        &rule,
        &mut assumptions,
        &mut problems,
    );
    let crank_check = crank_check::report(request, &events, guard, &mut problems);
    let (Some(train), Some(known), []) = (train, known, problems.as_slice()) else {
        return Err(problems);
    };
    let shim_plans =
        shim_plans(request, &candidates, &valves, &rule).map_err(|problem| alloc::vec![problem])?;
    let diagnosis = diagnosed(request, &events, &train, &mut assumptions);
    let mut read: Vec<ValveId> = request.readings.iter().map(|r| r.valve).collect();
    read.sort();
    let open = known.iter().filter(|v| read.binary_search(v).is_err());
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
