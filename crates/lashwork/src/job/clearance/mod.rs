//! The clearance step: which specification applies, where to stop, what each reading says and what to do,
//! and what all of it says together.
//!
//! One folder a question: what is asked, the answer worked out (`mod.rs`), what the report says of it
//! (`answer.rs`), its part of the sheet (`sheet.rs`). A question uses areas, the texts of `job` and the
//! books, never another question; this file carries values from one to the next.

mod assumed;
pub(super) mod books;
mod crank;
mod one_valve;
mod readings;
mod report;
mod request;
pub(super) mod sheet;
mod shims;
mod stops;
mod together;
mod warmth;

pub use books::answer::SpecificationReport;
pub use crank::answer::{
    CrankCheckReport, CrankHypothesisReport, ExplanationReport, NextRockerReport, RockerReport,
};
pub use one_valve::{OneValve, OneValveReport};
pub use readings::answer::{JudgedReport, LockingReport, ValveReport};
pub use readings::{MAX_JUDGEMENTS, ValveReading};
pub use report::ClearanceReport;
pub use request::Clearance;
pub use shims::answer::{
    NotShimmed, ShimCount, ShimFrom, ShimLeft, ShimMove, ShimPlanReport, ShimStopReport,
    ShimVisitReport,
};
pub use stops::StopOptions;
pub use stops::answer::{
    CheckReport, LastFired, NotOffered, PlanReport, Recommendation, StopReport, StopsReport,
    UnreachableReport,
};
pub use together::answer::{
    DiagnosisReport, EvidenceReport, HypothesisReport, Inspection, ModelReport, WayReport,
};
pub use warmth::answer::{
    ComparisonReport, CoolingReport, LashCurve, LashPoint, WaitReport, WarmthReport,
};
pub use warmth::ask::{Cooling, LashTable, WarmQuestions};

use super::assumptions::Assumptions;
use super::place::Place;
use super::problem::Problem;
use super::text::ValveNames;
use crate::engine::{Engine, Pulley};
use crate::quantity::{LashChange, Temperature};
use crate::tolerance::DecisionRule;
use crate::valve::{Specification, ValveTrain};
use alloc::string::ToString;
use alloc::vec::Vec;
use books::Book;
use readings::{Judging, Read};

/// What the rest of the job knows of the engine.
#[derive(Clone, Copy)]
pub(super) struct Known<'r> {
    pub(super) engine: &'r Engine,
    pub(super) number: Option<u64>,
    pub(super) pulley: Option<Pulley>,
}

/// Works out the section.
pub(super) fn report(
    asked: &Clearance,
    known: Known<'_>,
    assumptions: &mut Assumptions,
) -> Result<ClearanceReport, Vec<Problem>> {
    let mut problems = Vec::new();
    assume(asked, known.engine, assumptions);
    let (events, guard, rule) = (
        assumed::events(asked.events, assumptions),
        assumed::guard(asked.guard, assumptions),
        assumed::rule(asked.rule, assumptions),
    );
    let names = ValveNames {
        engine: known.engine,
        intake: asked.intake_valves,
        exhaust: asked.exhaust_valves,
    };
    let train = ValveTrain::new(known.engine, &events, guard, names.intake, names.exhaust)
        .map_err(|e| problems.push(Problem::at(Place::Valves, &e)))
        .ok();
    let all = &asked.specifications;
    let books = books::read(all, known.number, &asked.metal, assumptions, &mut problems);
    let candidates: Vec<&Book<'_>> = books.iter().filter(|b| b.may_apply()).collect();
    let judging = Judging {
        adjuster: &asked.adjuster,
        rocker_ratio: asked.rocker_ratio,
        leaves: &asked.leaves,
        combination: asked.combination,
        rule: &rule,
        names,
    };
    let valves = train.as_ref().map(ValveTrain::valves);
    let list = valves.as_deref();
    if let Err(problem) =
        shims::check::rocker_ratio(&asked.adjuster, asked.rocker_ratio, &asked.metal)
    {
        problems.push(problem);
    }
    let mut reads = readings::judged(&asked.readings, list, &candidates, judging, &mut problems);
    readings::assume(reads.iter().map(|read| &read.felt), assumptions);
    let held: Vec<(&Specification, Temperature)> = candidates
        .iter()
        .map(|b| (b.specification, b.reference))
        .collect();
    let warmth = warmth::report(&asked.metal, &asked.warmth, &held, &mut problems);
    let crank_check = asked
        .crank_check
        .as_ref()
        .and_then(|check| crank::report(check, &events, guard, names, &mut problems));
    let turning = train.as_ref().map(|train| shims::Turning {
        train,
        pulley: known.pulley,
        from: asked.stops.from,
    });
    let shim_plans = shim_plans(asked, &reads, &candidates, &rule, (names, turning))
        .map_err(|e| problems.push(e))
        .unwrap_or_default();
    for read in &mut reads {
        for (judged, plan) in read.judged.iter_mut().zip(&shim_plans) {
            let name = names.of(read.reading.valve);
            shims::refer(&mut judged.advice, plan, &name);
        }
    }
    let (Some(train), Some(valves), []) = (train, valves, problems.as_slice()) else {
        return Err(problems);
    };
    let diagnosis = together::diagnosed(
        &together::Asked {
            readings: reads.iter().map(taken).collect(),
            books: &books,
            metal: &asked.metal,
            adjuster: &asked.adjuster,
            events: &events,
            train: &train,
            start: asked.stops.start,
            prior: asked.prior,
            names,
        },
        assumptions,
    );
    let stops = stops::plans(
        stops::Stops {
            options: &asked.stops,
            train: &train,
            pulley: known.pulley,
            names,
        },
        assumptions,
    );
    let mut read: Vec<_> = asked.readings.iter().map(|r| r.valve).collect();
    read.sort();
    let open = valves.iter().filter(|v| read.binary_search(v).is_err());
    Ok(ClearanceReport {
        specifications: books.iter().map(books::report).collect(),
        disagreements: books::all_disagreements(&books),
        crank_check,
        stops,
        warmth,
        locking: readings::locking::report(&asked.adjuster),
        rule: rule.name().to_string(),
        valves: reads
            .iter()
            .map(|read| readings::report(read, &candidates, names))
            .collect(),
        shim_plans,
        diagnosis,
        not_read: open.map(|v| names.of(*v)).collect(),
    })
}

/// The readings as shims see them, by each specification in turn.
fn shim_plans(
    asked: &Clearance,
    reads: &[Read<'_>],
    candidates: &[&Book<'_>],
    rule: &DecisionRule,
    (names, turning): (ValveNames<'_>, Option<shims::Turning<'_>>),
) -> Result<Vec<ShimPlanReport>, Problem> {
    let mut plans = Vec::new();
    for (i, book) in candidates.iter().enumerate() {
        let valves = reads.iter().filter_map(|read| {
            let valve = read.reading.valve;
            Some(shims::Candidate {
                valve,
                name: names.of(valve),
                found: &read.reading.found,
                limits: book.specification.limits(valve.kind),
                judged: read.judged.get(i)?,
                warmth: book
                    .correction
                    .as_ref()
                    .map_or(LashChange::ZERO, |c| c.change),
            })
        });
        let valves: Vec<_> = valves.collect();
        let plan = shims::plan(
            &asked.adjuster,
            &book.specification.id,
            &valves,
            rule,
            turning,
        );
        plans.extend(plan.map_err(|e| Problem::at(Place::Shims, &e))?);
    }
    Ok(plans)
}

fn taken<'r>(read: &Read<'r>) -> together::Taken<'r> {
    together::Taken {
        valve: read.reading.valve,
        found: &read.reading.found,
        felt: read.felt,
    }
}

/// What the section's open ends make necessary, whatever its readings.
fn assume(asked: &Clearance, engine: &Engine, assumptions: &mut Assumptions) {
    warmth::assume(&asked.metal, &asked.warmth, assumptions);
    if let Some(check) = &asked.crank_check {
        crank::assume(check, assumptions);
    }
    readings::locking::assume(&asked.adjuster, assumptions);
    let found = asked.readings.iter().map(|r| &r.found);
    shims::assume(&asked.adjuster, engine, found, assumptions);
    assumed::ratio(
        asked.rocker_ratio,
        &asked.adjuster,
        &asked.metal,
        assumptions,
    );
}
