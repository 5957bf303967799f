//! From request to report.

use super::advice::advise;
use super::cautions::CAUTIONS;
use super::{
    Assumption, CheckReport, EngineReport, Judged, Metal, PlanReport, Problem, Report, Request,
    SpecificationReport, StopReport, ValveReading, ValveReport,
};
use crate::engine::{CylinderIndex, Engine, Numbering};
use crate::feeler::{Felt, Reading, assumed_leaf_tolerance};
use crate::quantity::{CrankAngle, CyclePosition, LashChange, LengthUnit, Temperature};
use crate::thermal::{Correction, UNSTATED_HALF_WIDTH};
use crate::tolerance::{
    Applicability, DecisionRule, LashEstimate, LashUncertainty, Provenance, Specification,
    ValveLimits, disagreements, judge,
};
use crate::valve::{ASSUMED_GUARD_DEGREES, CamEvents, StopPlan, ValveId, ValveKind, ValveTrain};
use alloc::collections::BTreeSet;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Runs a whole clearance job.
///
/// # Errors
/// Every [`Problem`] found: valves that do not exist or are read twice, temperatures the material
/// data do not cover, no specification that may apply, cam data that make no window.
///
/// # Source
/// The formulas of each step are named where the step lives; this function only joins them.
pub fn run(request: &Request) -> Result<Report, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut assumptions = BTreeSet::new();
    let mut assume = |code: &str, text: String| {
        assumptions.insert(Assumption {
            code: code.to_string(),
            text,
        });
    };
    let engine = &request.engine;
    for assumption in engine.assumptions() {
        assume("engine.turn", assumption.to_string());
    }

    let events = request.events.unwrap_or_else(|| {
        assume("valve.events", "cam events not stated: intake 40 BTDC to 80 ABDC, exhaust 80 BBDC to 40 ATDC taken, wider than usual".into());
        CamEvents::assumed()
    });
    let guard = request.guard.unwrap_or_else(|| {
        assume("valve.guard", format!("guard for ramps not stated: {ASSUMED_GUARD_DEGREES} deg taken at both ends of the base circle"));
        CrankAngle::from_degrees(ASSUMED_GUARD_DEGREES).unwrap_or(CrankAngle::ZERO)
    });
    let train = ValveTrain::new(
        engine,
        &events,
        guard,
        request.intake_valves,
        request.exhaust_valves,
    )
    .map_err(|e| problems.push(Problem::new("/valves", e.code(), e.to_string(), e.hint())))
    .ok();

    let rule = request.rule.unwrap_or_else(|| {
        let rule = DecisionRule::guarded_tight();
        assume(
            "tolerance.rule",
            format!("decision rule not stated: {}", rule.name()),
        );
        rule
    });
    for id in &request.reference_assumed {
        assume(
            "tolerance.reference",
            format!("specification {id} states no reference temperature: 20 C taken (ISO 1)"),
        );
    }
    match &request.metal {
        Metal::Unstated => assume("thermal.unstated", "metal temperature not stated: readings taken to be at each specification's reference temperature".into()),
        Metal::At { temperature, .. } => assume("thermal.no-rule", format!("metal at {:.1} C, but neither parts nor a coefficient say how lash follows: readings judged uncorrected", temperature.celsius())),
        Metal::Chain { .. } => assume("thermal.coefficients", format!("expansion coefficients whose source states no uncertainty: half-width {:.0} % taken", UNSTATED_HALF_WIDTH * 100.0)),
        Metal::Coefficient { .. } => {}
    }
    if request.rocker_ratio.is_none() && matches!(request.adjuster, super::Adjuster::Screw { .. }) {
        assume("adjust.ratio", "rocker ratio not stated: 1 taken".into());
    }

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

    let known = train.as_ref().map(ValveTrain::valves).unwrap_or_default();
    let mut valves = Vec::new();
    let mut seen = BTreeSet::new();
    for (i, read) in request.readings.iter().enumerate() {
        let place = format!("/readings/{i}");
        if train.is_some() && !known.contains(&read.valve) {
            problems.push(Problem::new(format!("{place}/number"), "job.no-such-valve", format!("{} does not exist: the engine has {} intake and {} exhaust valves per cylinder", name(engine, read.valve, true), request.intake_valves, request.exhaust_valves), "check the valve's number, or the counts in the valves section"));
            continue;
        }
        if !seen.insert(read.valve) {
            problems.push(Problem::new(
                place,
                "job.valve-read-twice",
                format!("{} has a second reading", name(engine, read.valve, false)),
                "keep one reading per valve",
            ));
            continue;
        }
        match valve_report(request, read, &candidates, &rule, &place) {
            Ok((report, assumed)) => {
                if assumed {
                    assume(
                        "feeler.tolerance",
                        format!(
                            "leaf tolerance not stated: +/- {} taken",
                            assumed_leaf_tolerance()
                        ),
                    );
                }
                valves.push(report);
            }
            Err(problem) => problems.push(problem),
        }
    }
    let Some(train) = train else {
        return Err(problems);
    };
    if !problems.is_empty() {
        return Err(problems);
    }

    let mut plans = Vec::new();
    let walk = train.cylinder_by_cylinder(request.start);
    let first = walk
        .stops
        .first()
        .and_then(|s| s.firing_tdc)
        .or(engine.order().first().copied());
    plans.push(plan_report(request, &walk));
    if let Some(plan) = first.and_then(|c| train.two_position(request.start.unwrap_or(c))) {
        plans.push(plan_report(request, &plan));
    }
    let not_read = known
        .iter()
        .filter(|v| !seen.contains(*v))
        .map(|v| valve_name(request, *v))
        .collect();
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
        plans,
        rule: rule.name().to_string(),
        valves,
        not_read,
        assumptions: assumptions.into_iter().collect(),
        cautions: CAUTIONS.to_vec(),
    })
}

/// One valve's report, and whether a leaf tolerance had to be assumed for it.
fn valve_report(
    request: &Request,
    read: &ValveReading,
    candidates: &[&Specification],
    rule: &DecisionRule,
    place: &str,
) -> Result<(ValveReport, bool), Problem> {
    let felt = read
        .reading
        .felt(request.combination, assumed_leaf_tolerance(), read.hollow)
        .map_err(|e| Problem::new(place, e.code(), e.to_string(), e.hint()))?;
    let mut judged = Vec::new();
    for specification in candidates {
        judged.push(judge_one(request, read, &felt, specification, rule, place)?);
    }
    let label = request
        .engine
        .cylinder(read.valve.cylinder)
        .map(|c| c.label.to_string());
    let report = ValveReport {
        cylinder: label.unwrap_or_default(),
        kind: read.valve.kind,
        number: read.valve.number,
        name: valve_name(request, read.valve),
        reading: words(&read.reading),
        felt_low: felt.low,
        felt_high: felt.high,
        felt_uncertainty_mm: felt.standard_uncertainty_mm,
        judged,
    };
    Ok((report, felt.assumed_tolerance))
}

fn judge_one(
    request: &Request,
    read: &ValveReading,
    felt: &Felt,
    specification: &Specification,
    rule: &DecisionRule,
    place: &str,
) -> Result<Judged, Problem> {
    let refused = |e: crate::tolerance::ToleranceError| {
        Problem::new(place, e.code(), e.to_string(), e.hint())
    };
    let (warmth, warmth_u) = match warmth(&request.metal, specification.reference)
        .map_err(|e| Problem::new("/metal", e.code(), e.to_string(), e.hint()))?
    {
        Some(c) => (c.change, c.standard_uncertainty_mm()),
        None => (
            LashChange::from_mm(0.0)
                .map_err(|e| Problem::new(place, e.code(), e.to_string(), e.hint()))?,
            0.0,
        ),
    };
    let u = LashUncertainty::from_mm(felt.standard_uncertainty_mm).map_err(refused)?;
    let raw = match (felt.low, felt.high) {
        (Some(low), Some(high)) => LashEstimate::between(low, high, u).map_err(refused)?,
        (Some(low), None) => LashEstimate::at_least(low, u),
        (None, Some(high)) => LashEstimate::at_most(high, u),
        (None, None) => {
            return Err(Problem::new(
                place,
                "job.empty-reading",
                "the reading bounds the gap on neither side",
                "name a leaf that goes or one that does not",
            ));
        }
    };
    let extra = LashUncertainty::from_mm(warmth_u).map_err(refused)?;
    let estimate = raw.shifted(-warmth, extra);
    let limits: &ValveLimits = match read.valve.kind {
        ValveKind::Intake => &specification.intake,
        ValveKind::Exhaust => &specification.exhaust,
    };
    let judgement = judge(&estimate, limits.judging(), rule);
    let advice = advise(
        request,
        read,
        limits,
        &estimate,
        &judgement,
        (warmth, warmth_u),
        place,
    )?;
    Ok(Judged {
        specification: specification.id.clone(),
        warmth,
        warmth_uncertainty_mm: warmth_u,
        low: estimate.low(),
        high: estimate.high(),
        normal_uncertainty_mm: estimate.normal_uncertainty().mm(),
        standard_uncertainty_mm: estimate.standard_uncertainty().map(LashUncertainty::mm),
        limits: limits.judging().to_string(),
        verdict: judgement.verdict,
        probabilities: judgement.probabilities,
        provable: judgement.provable,
        advice,
    })
}

/// What the metal's temperature adds to the lash against `reference`.
fn warmth(
    metal: &Metal,
    reference: Temperature,
) -> Result<Option<Correction>, crate::thermal::ThermalError> {
    match metal {
        Metal::Unstated | Metal::At { .. } => Ok(None),
        Metal::Chain {
            chain,
            temperatures,
        } => chain.correction(reference, temperatures).map(Some),
        Metal::Coefficient {
            coefficient,
            temperature,
            uncertainty,
        } => coefficient
            .correction(*temperature, *uncertainty, reference)
            .map(Some),
    }
}

fn words(reading: &Reading) -> String {
    match reading {
        Reading::Between { goes, refuses } => format!("{goes} goes, {refuses} does not"),
        Reading::Goes(stack) => format!("{stack} goes"),
        Reading::Refuses(stack) => format!("{stack} does not go"),
        Reading::Drags { stack, spread } => format!("{stack} drags lightly (spread {spread})"),
    }
}

fn name(engine: &Engine, valve: ValveId, numbered: bool) -> String {
    let label = engine
        .cylinder(valve.cylinder)
        .map_or("?", |c| c.label.as_str());
    let word = valve.kind.word();
    if numbered {
        format!("cylinder {label} {word} {}", valve.number)
    } else {
        format!("cylinder {label} {word}")
    }
}

fn valve_name(request: &Request, valve: ValveId) -> String {
    let count = match valve.kind {
        ValveKind::Intake => request.intake_valves,
        ValveKind::Exhaust => request.exhaust_valves,
    };
    name(&request.engine, valve, count > 1)
}

fn engine_report(engine: &Engine) -> EngineReport {
    let label = |c: &CylinderIndex| engine.cylinder(*c).map(|c| c.label.to_string());
    EngineReport {
        cycle: engine.cycle(),
        firing_order: engine.order().iter().filter_map(label).collect(),
        intervals: engine.intervals(),
        rotation: engine.rotation(),
        numbering: match engine.numbering() {
            Numbering::FromFreeEnd => "cylinder 1 at the free end (SAE J824, DIN 73021)".into(),
            Numbering::FromOutputEnd => "cylinder 1 at the output end (ISO 1204)".into(),
            Numbering::Stated(text) => text.clone(),
        },
    }
}

fn provenance(p: &Provenance) -> String {
    let mut text = p.document.clone();
    for part in [&p.edition, &p.applies_to].into_iter().flatten() {
        text.push_str(", ");
        text.push_str(part);
    }
    if let Some(range) = &p.engine_numbers {
        text.push_str(&format!(
            ", engine numbers {} to {}",
            range.first(),
            range.last()
        ));
    }
    text
}

fn limits_words(limits: &ValveLimits) -> String {
    let set = format!("set to {}, band {}", limits.set_to(), limits.set());
    match limits.leave_alone() {
        Some(alone) => format!("{set}; leave alone within {alone}"),
        None => set,
    }
}

fn specification_report(s: &Specification, engine_number: Option<u64>) -> SpecificationReport {
    SpecificationReport {
        id: s.id.clone(),
        provenance: provenance(&s.provenance),
        applicability: s.applicability(engine_number),
        condition: s.condition,
        reference: s.reference,
        intake: limits_words(&s.intake),
        exhaust: limits_words(&s.exhaust),
    }
}

fn all_disagreements(candidates: &[&Specification]) -> Vec<String> {
    let mut all = Vec::new();
    for (i, a) in candidates.iter().enumerate() {
        for b in candidates.iter().skip(i + 1) {
            for d in disagreements(a, b) {
                let size = d
                    .size
                    .map(|n| format!(" ({} apart)", n.show(LengthUnit::Millimetre, 4)));
                all.push(format!(
                    "{}: {} says {}, {} says {}{}",
                    d.field,
                    a.id,
                    d.first,
                    b.id,
                    d.second,
                    size.unwrap_or_default()
                ));
            }
        }
    }
    all
}

fn plan_report(request: &Request, plan: &StopPlan) -> PlanReport {
    let engine = &request.engine;
    let start = CyclePosition::new(engine.cycle(), CrankAngle::ZERO);
    let stops = plan.stops.iter().map(|stop| {
        let from_first = start.forward_to(stop.position);
        let within_turn = from_first.degrees() % 360.0;
        let mark = CrankAngle::from_degrees(within_turn).unwrap_or(CrankAngle::ZERO);
        StopReport {
            position: stop.position,
            turn: stop.turn,
            firing_tdc: stop
                .firing_tdc
                .and_then(|c| engine.cylinder(c))
                .map(|c| c.label.to_string()),
            rotor: from_first.at_distributor(engine.cycle()),
            pulley_mark_mm: request.pulley.map(|p| p.arc(mark).mm()),
            check: stop
                .checks
                .iter()
                .map(|c| CheckReport {
                    valve: valve_name(request, c.valve),
                    margin: c.margin,
                })
                .collect(),
        }
    });
    PlanReport {
        method: plan.method,
        stops: stops.collect(),
        total_turn: plan.total_turn,
        walks: plan.walks,
        unreachable: plan
            .unreachable
            .iter()
            .map(|v| valve_name(request, *v))
            .collect(),
    }
}
