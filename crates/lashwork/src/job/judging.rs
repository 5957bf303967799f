//! One reading: felt, corrected to the reference temperature, judged, advised.

use super::advice::advise;
use super::describe::valve_name;
use super::warm::warmth;
use super::{Judged, Problem, Request, ValveReading, ValveReport};
use crate::quantity::{Lash, LashChange, Marked};
use crate::thermal::Correction;
use crate::tolerance::{
    DecisionRule, Estimate, Specification, ToleranceError, Uncertainty, ValveLimits, judge,
};
use crate::valve::ValveKind;
use alloc::format;
use alloc::string::ToString;
use alloc::vec::Vec;

/// One valve's report, and whether a leaf tolerance had to be assumed for it.
pub(super) fn valve_report(
    request: &Request,
    read: &ValveReading,
    candidates: &[&Specification],
    rule: &DecisionRule,
    place: &str,
) -> Result<(ValveReport, bool), Problem> {
    let found = read
        .reading
        .estimate_with(&request.leaf_tolerances(), read.hollow)
        .map_err(|e| Problem::new(place, e.code(), e.to_string(), e.hint()))?;
    let mut judged = Vec::new();
    for specification in candidates {
        judged.push(judge_one(
            request,
            read,
            &found.estimate,
            specification,
            rule,
            place,
        )?);
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
        reading: match read.hollow {
            Some(h) => format!("{}; a hollow of {} is added", read.reading, h.depth),
            None => read.reading.to_string(),
        },
        leaves_in_inches: read.in_inches(),
        felt_low: found.estimate.low(),
        felt_high: found.estimate.high(),
        felt_uncertainty_mm: found.estimate.normal_uncertainty().mm(),
        judged,
    };
    Ok((report, found.assumed_tolerance.is_some()))
}

fn judge_one(
    request: &Request,
    read: &ValveReading,
    raw: &Estimate<Lash>,
    specification: &Specification,
    rule: &DecisionRule,
    place: &str,
) -> Result<Judged, Problem> {
    let refused = |e: ToleranceError| Problem::new(place, e.code(), e.to_string(), e.hint());
    let correction = warmth(&request.metal, specification.reference)
        .map_err(|e| Problem::new("/metal", e.code(), e.to_string(), e.hint()))?;
    let warmth = correction.as_ref().map_or(LashChange::ZERO, |c| c.change);
    let warmth_u = correction
        .as_ref()
        .map_or(0.0, Correction::standard_uncertainty_mm);
    let extra = Uncertainty::from_mm(warmth_u).map_err(refused)?;
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
        warmth: correction.map(|c| c.change),
        warmth_uncertainty_mm: warmth_u,
        low: estimate.low(),
        high: estimate.high(),
        normal_uncertainty_mm: estimate.normal_uncertainty().mm(),
        standard_uncertainty_mm: estimate.standard_uncertainty().map(Uncertainty::mm),
        limits: limits.judging().to_string(),
        limit_low: limits.judging().lower().and_then(exact),
        limit_high: limits.judging().upper().and_then(exact),
        set_to: exact(limits.set_to()),
        verdict: judgement.verdict,
        probabilities: judgement.probabilities,
        provable: judgement.provable,
        advice,
    })
}

fn exact(mark: Marked) -> Option<Lash> {
    Lash::from_nominal(mark.nominal()).ok()
}
