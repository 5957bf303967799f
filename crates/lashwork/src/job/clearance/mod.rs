//! The clearance step: which specification applies, where to stop, what each reading says and what to do,
//! and what all of it says together.
//!
//! One folder a question: what is asked, the answer worked out (`mod.rs`), what the report says of it
//! (`answer.rs`), its part of the sheet (`sheet.rs`). A question uses areas, the texts of `job` and the
//! books, never another question; this file carries values from one to the next.

mod assumed;
pub(super) mod books;
mod crank;
mod metals;
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
pub use shims::answer::{NotShimmed, ShimCount, ShimFrom, ShimLeft, ShimMove, ShimPlanReport};
pub use stops::StopOptions;
pub use stops::answer::{
    Against, CheckReport, LastFired, NotOffered, PlanReport, Recommendation, StopReport,
    StopsReport, UnreachableReport, WatchReport,
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
use crate::quantity::Temperature;
use crate::tolerance::DecisionRule;
use crate::valve::{Specification, ValveKind, ValveTrain};
use alloc::string::ToString;
use alloc::vec::Vec;
use books::Book;
use metals::Metals;
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
    assume(asked, assumptions);
    let (events, guard, rule) = (
        assumed::events(asked.events, &asked.specifications, assumptions),
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
    let metals = metals(asked);
    metals.check(&mut problems);
    if let Some(other) = &asked.warmth.compared {
        let other = Metals {
            intake: other,
            exhaust: None,
        };
        other.check(&mut problems);
    }
    let books = books::read(all, known.number, metals, assumptions, &mut problems);
    let candidates: Vec<&Book<'_>> = books.iter().filter(|b| b.may_apply()).collect();
    let judging = Judging {
        adjuster: &asked.adjuster,
        rocker_ratio: asked.rocker_ratio,
        leaves: &asked.leaves,
        gauge_use: &asked.gauge_use,
        rule: &rule,
        names,
    };
    let valves = train.as_ref().map(ValveTrain::valves);
    let list = valves.as_deref();
    let reads = readings::judged(&asked.readings, list, &candidates, judging, &mut problems);
    readings::assume(reads.iter().map(|read| &read.felt), assumptions);
    let held: Vec<(&Specification, Temperature)> = candidates
        .iter()
        .filter_map(|b| Some((b.specification, b.reference.temperature()?)))
        .collect();
    let warmth = warmth::report(metals, &asked.warmth, &held, &mut problems);
    let crank_check = asked
        .crank_check
        .as_ref()
        .and_then(|check| crank::report(check, &events, guard, names, &mut problems));
    let shim_plans = shim_plans(asked, &reads, &candidates, &rule, names)
        .map_err(|e| problems.push(e))
        .unwrap_or_default();
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
    names: ValveNames<'_>,
) -> Result<Vec<ShimPlanReport>, Problem> {
    let mut plans = Vec::new();
    for (i, book) in candidates.iter().enumerate() {
        let valves = reads.iter().filter_map(|read| {
            let valve = read.reading.valve;
            Some(shims::Candidate {
                name: names.of(valve),
                found: &read.reading.found,
                limits: book.specification.limits(valve.kind),
                judged: read.judged.get(i)?,
            })
        });
        let valves: Vec<_> = valves.collect();
        let plan = shims::plan(&asked.adjuster, &book.specification.id, &valves, rule);
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

fn metals(asked: &Clearance) -> Metals<'_> {
    Metals {
        intake: &asked.metal,
        exhaust: asked.exhaust_metal.as_ref(),
    }
}

/// What the section's open ends make necessary, whatever its readings.
fn assume(asked: &Clearance, assumptions: &mut Assumptions) {
    warmth::assume(metals(asked), &asked.warmth, assumptions);
    if let Some(check) = &asked.crank_check {
        crank::assume(check, assumptions);
    }
    readings::locking::assume(&asked.adjuster, assumptions);
    let found = asked.readings.iter().map(|r| &r.found);
    shims::assume(&asked.adjuster, found, assumptions);
    assumed::ratio(asked.rocker_ratio, &asked.metal, assumptions);
    for specification in &asked.specifications {
        let whose = alloc::format!("specification {}", specification.id);
        for kind in [ValveKind::Intake, ValveKind::Exhaust] {
            let of = alloc::format!(" for {}", kind.word());
            assumed::band(specification.limits(kind), &whose, &of, assumptions);
        }
    }
    let found = asked.readings.iter().map(|r| &r.found);
    assumed::pads(&asked.adjuster, found, assumptions);
}
