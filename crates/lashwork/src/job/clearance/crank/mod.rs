//! Checks an assumed crank position against the rockers tried by hand, for the report.

pub(in crate::job) mod answer;
pub(in crate::job) mod sheet;

use crate::engine::{CylinderLabel, Engine, SAME_PLACE};
use crate::job::assumptions::Assumptions;
use crate::job::clearance::settle::StopWorkCode;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::text::ValveNames;
use crate::quantity::{CrankAngle, CyclePosition};
use crate::rockers::{
    AssumedPosition, CrankCheck, CrankSlip, EvidenceError, Group, Hypothesis, MisreadRisk,
    PhaseEvidence, PhaseVerdict, Rockers, each_once,
};
use crate::valve::CamEvents;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use answer::{
    CrankCheckReport, CrankHypothesisReport, ExplanationReport, NextRockerReport, RockerReport,
};

/// Weighs what the rockers did; none if it cannot be weighed, which is reported.
pub(in crate::job) fn report(
    check: &CrankCheck,
    events: &CamEvents,
    guard: CrankAngle,
    names: ValveNames<'_>,
    problems: &mut Vec<Problem>,
) -> Option<CrankCheckReport> {
    // The same faults of engine and cam are reported with the stop plans.
    let rockers = Rockers::new(names.engine, events, guard, names.intake, names.exhaust).ok()?;
    match rockers.weigh(check) {
        Ok(answer) => Some(written(names, check, answer)),
        Err(errors) => {
            problems.extend(errors.iter().map(problem));
            None
        }
    }
}

/// What to settle before any valve is set; none where the rockers agree, or none was tried.
pub(in crate::job) fn stop_work(check: &CrankCheckReport) -> Option<(StopWorkCode, String)> {
    let code = match check.verdict {
        PhaseVerdict::NothingFelt => return None,
        PhaseVerdict::Settled if holds_as_assumed(check) => return None,
        PhaseVerdict::Settled | PhaseVerdict::Elsewhere => StopWorkCode::CrankElsewhere,
        PhaseVerdict::Open | PhaseVerdict::NoPositionFits => StopWorkCode::CrankOpen,
    };
    Some((code, check.text.clone()))
}

/// Where the crank is, if the rockers settle that and the firing order stands.
pub(in crate::job) fn stands_at(check: &CrankCheckReport) -> Option<CyclePosition> {
    let found = check.explanations.first()?;
    let [first, rest @ ..] = found.hypotheses.as_slice() else {
        return None;
    };
    let alike = rest.iter().all(|h| h.position == first.position);
    let order_stands = found.hypotheses.iter().all(|h| h.order.is_none());
    (check.verdict == PhaseVerdict::Settled && alike && order_stands).then_some(first.position)
}

fn holds_as_assumed(check: &CrankCheckReport) -> bool {
    let first = check.explanations.first();
    first.is_some_and(|e| {
        e.hypotheses
            .iter()
            .any(|h| h.cause == CrankSlip::AsBelieved)
    })
}

/// What weighing rockers takes for granted.
pub(in crate::job) fn assume(check: &CrankCheck, assumptions: &mut Assumptions) {
    if check.wrong_call.is_none() {
        let percent = 100.0 * MisreadRisk::assumed().get();
        assumptions.add(
            "valve.wrong-call",
            format!(
                "chance of a wrong call not stated: {percent:.0} % taken for each rocker checked"
            ),
        );
    }
    if each_once(&check.checks).len() < check.checks.len() {
        assumptions.add(
            "valve.repeated-call",
            "a rocker tried again by the same hand is no second look: what it repeats counts once",
        );
    }
    let shares = CrankSlip::PRIOR_PERCENT.map(|(cause, percent)| {
        let word = match cause {
            CrankSlip::AsBelieved => "as assumed",
            CrankSlip::OneTurnOut => "360 degrees out (wrong stroke)",
            CrankSlip::NeighbouringMark => "a neighbouring mark or firing",
            CrankSlip::CountedBackwards => "counted backwards",
            CrankSlip::OtherOrder => "another firing order",
        };
        format!("{word} {percent:.0} %")
    });
    let shares = shares.join(", ");
    assumptions.add(
        "valve.crank-prior",
        format!("chances taken for the crank before any rocker is checked: {shares}"),
    );
}

fn problem(error: &EvidenceError) -> Problem {
    let place = match error {
        EvidenceError::NoSuchValve { rocker } => Place::Rocker(*rocker),
        EvidenceError::Order { order, .. } | EvidenceError::SameOrder { order } => {
            Place::OtherOrder(*order)
        }
        _ => Place::MisreadRisk,
    };
    Problem::at(place, error)
}

fn written(names: ValveNames<'_>, check: &CrankCheck, answer: PhaseEvidence) -> CrankCheckReport {
    let engine = names.engine;
    let contradictions = answer.contradictions.iter();
    let contradictions: Vec<String> = contradictions.map(|v| names.of(*v)).collect();
    let wrong_call = check.wrong_call.unwrap_or(MisreadRisk::assumed()).get();
    let text = words(engine, check, &answer, &contradictions);
    let believed = match check.believed {
        // A cylinder named is the clearer word, also where two fire together.
        AssumedPosition::FiringTdc(cylinder) => {
            let label = engine.cylinder(cylinder).map_or("?", |c| c.label.as_str());
            format!("firing TDC of {label}")
        }
        AssumedPosition::At(position) => place(engine, position),
    };
    CrankCheckReport {
        position: answer.position,
        believed,
        wrong_call,
        rockers: answer
            .expected
            .iter()
            .map(|(valve, expected)| RockerReport {
                valve: names.of(*valve),
                expected: *expected,
                calls: check
                    .checks
                    .iter()
                    .filter(|rocker| rocker.valve == *valve)
                    .map(|rocker| rocker.feel)
                    .collect(),
            })
            .collect(),
        explanations: answer
            .groups
            .into_iter()
            .map(|group| explanation(engine, group))
            .collect(),
        arcs: answer.arcs,
        contradictions,
        verdict: answer.verdict,
        text,
        next: answer.next.map(|next| NextRockerReport {
            valve: names.of(next.valve),
            bits: next.bits,
        }),
    }
}

fn explanation(engine: &Engine, group: Group) -> ExplanationReport {
    ExplanationReport {
        probability: group.probability,
        wrong_calls: group.wrong_calls,
        chance_of_so_many: group.chance_of_so_many,
        hypotheses: group
            .hypotheses
            .into_iter()
            .map(|hypothesis| CrankHypothesisReport {
                cause: hypothesis.cause,
                text: hypothesis_words(engine, &hypothesis),
                position: hypothesis.position,
                order: hypothesis
                    .order
                    .map(|order| order.iter().map(ToString::to_string).collect()),
                prior: hypothesis.prior,
                probability: hypothesis.probability,
            })
            .collect(),
    }
}

fn hypothesis_words(engine: &Engine, hypothesis: &Hypothesis) -> String {
    let at = place(engine, hypothesis.position);
    match (hypothesis.cause, &hypothesis.order) {
        (CrankSlip::OtherOrder, Some(order)) => {
            let order: Vec<&str> = order.iter().map(CylinderLabel::as_str).collect();
            format!("the engine fires {}", order.join("-"))
        }
        (CrankSlip::OneTurnOut, _) => format!("360 degrees out (wrong stroke), at {at}"),
        (CrankSlip::NeighbouringMark, _) => format!("a neighbouring mark or firing, at {at}"),
        (CrankSlip::CountedBackwards, _) => {
            format!("counted against the running direction, at {at}")
        }
        _ => format!("as assumed, at {at}"),
    }
}

/// A position as the cylinder at top dead centre there, or in degrees.
fn place(engine: &Engine, position: CyclePosition) -> String {
    let at = |wanted: CyclePosition| {
        let here = |place: CyclePosition| {
            let (on, back) = (place.forward_to(wanted), wanted.forward_to(place));
            on.degrees().min(back.degrees()) <= SAME_PLACE
        };
        let mut found = engine
            .order()
            .iter()
            .filter(|i| here(engine.dead_centre(**i)));
        found.next().and_then(|i| engine.cylinder(*i))
    };
    if let Some(cylinder) = at(position) {
        format!("firing TDC of {}", cylinder.label)
    } else if let Some(cylinder) = at(position.turned(CrankAngle::TURN)) {
        format!("overlap TDC of {}", cylinder.label)
    } else {
        format!("{:.1} deg after the first firing TDC", position.degrees())
    }
}

/// Explanations that cannot be told apart, in words; the first few where there are many.
fn several<S: AsRef<str>>(names: &[S]) -> String {
    const NAMED: usize = 3;
    let named: Vec<&str> = names.iter().take(NAMED).map(AsRef::as_ref).collect();
    let more = match names.len().saturating_sub(NAMED) {
        0 => String::new(),
        more => format!("; or {more} more that predict the same"),
    };
    format!("{}{more}", named.join("; or "))
}

/// The answer in a sentence or two.
fn words(
    engine: &Engine,
    check: &CrankCheck,
    answer: &PhaseEvidence,
    contradictions: &[String],
) -> String {
    let first = answer.groups.first();
    let name = |group: &Group| {
        let all: Vec<String> = group
            .hypotheses
            .iter()
            .map(|h| hypothesis_words(engine, h))
            .collect();
        several(&all)
    };
    let wait = "set no valve until this is settled";
    match (answer.verdict, first) {
        (PhaseVerdict::NothingFelt, _) => {
            String::from("no rocker was checked: the crank position is only assumed")
        }
        (PhaseVerdict::Settled, Some(group)) => {
            let holds = group
                .hypotheses
                .iter()
                .any(|h| h.cause == CrankSlip::AsBelieved);
            if holds {
                format!("the rockers agree: {}", name(group))
            } else {
                format!(
                    "crank is NOT where assumed: {}; do not adjust from the assumed position",
                    name(group)
                )
            }
        }
        (PhaseVerdict::Open, _) => {
            format!("more than one explanation is left: check another rocker, and {wait}")
        }
        (PhaseVerdict::Elsewhere, _) => {
            let arcs: Vec<String> = answer
                .arcs
                .iter()
                .map(|arc| {
                    let to = arc.from.turned(arc.length).degrees();
                    format!("{:.1} to {to:.1} deg", arc.from.degrees())
                })
                .collect();
            format!(
                "crank is NOT where assumed, and no usual mistake explains it: the rockers fit {} \
                 after the first firing TDC; {wait}",
                arcs.join(" or ")
            )
        }
        _ if !contradictions.is_empty() => format!(
            "no position fits: {} found both free and tight; check again before going on",
            contradictions.join(", ")
        ),
        _ => {
            let fewest = answer.arcs.iter().map(|arc| arc.wrong_calls).min();
            format!(
                "no position fits: even the best leaves {} of {} calls wrong; inspect cam timing, \
                 the order of the cylinders, and rockers without lash",
                fewest.unwrap_or(0),
                each_once(&check.checks).len()
            )
        }
    }
}
