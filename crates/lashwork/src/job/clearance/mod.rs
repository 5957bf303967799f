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
mod settle;
pub(super) mod sheet;
pub(super) mod shims;
mod stop_work;
pub(super) mod stops;
mod together;
mod warmth;

pub use books::answer::SpecificationReport;
pub use crank::answer::{
    CrankCheckReport, CrankHypothesisReport, ExplanationReport, NextRockerReport, RockerReport,
};
pub use one_valve::{OneValve, OneValveReport};
pub use readings::answer::{FirstLeafReport, JudgedReport, LeftReport, LockingReport, ValveReport};
pub(in crate::job) use readings::assume as assume_leaves;
pub use readings::{MAX_JUDGEMENTS, ValveReading};
pub use report::ClearanceReport;
pub use request::Clearance;
pub use settle::StopWorkCode;
pub use shims::answer::{
    NotShimmed, ShimCount, ShimFrom, ShimLeft, ShimMove, ShimPlanReport, ShimStopReport,
    ShimVisitReport,
};
pub use stop_work::answer::StopWorkReport;
pub use stops::StopOptions;
pub use stops::answer::{
    Against, CheckReport, LastFired, NotOffered, PlanReport, Recommendation, StopReport,
    StopsReport, UnreachableReport, WatchReport,
};
pub use together::answer::{
    DiagnosisReport, EvidenceReport, HypothesisReport, Inspection, ModelReport, StandsApart,
    WayReport,
};
pub use warmth::answer::{
    ComparisonReport, CoolingReport, LashCurve, LashPoint, TemperatureReport, WaitReport,
    WarmthReport,
};
pub use warmth::ask::{Cooling, LashTable, WarmQuestions};

use super::assumptions::Assumptions;
use super::cautions::ValveWork;
use super::known::Known;
use super::place::Place;
use super::problem::Problem;
use super::text::ValveNames;
use super::units::ShownLength;
use crate::adjust::Adjuster;
use crate::clearance::{Advice, AsFound};
use crate::feeler::Reading;
use crate::quantity::{LashChange, Temperature};
use crate::thermal::Metal;
use crate::tolerance::DecisionRule;
use crate::valve::{Condition, Specification, ValveId, ValveKind, ValveTrain};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use books::Book;
use metals::Metals;
use readings::{Judging, Read};
use stop_work::StopWork;

/// Works out the section.
pub(super) fn report(
    asked: &Clearance,
    known: Known<'_>,
    assumptions: &mut Assumptions,
) -> Result<ClearanceReport, Vec<Problem>> {
    let in_units = shown_in(asked, known.units.length);
    worked_out(in_units.as_ref().unwrap_or(asked), known, assumptions)
}

fn worked_out(
    asked: &Clearance,
    known: Known<'_>,
    assumptions: &mut Assumptions,
) -> Result<ClearanceReport, Vec<Problem>> {
    let shown = known.shown;
    let mut problems = Vec::new();
    assume(asked, known, assumptions);
    let (events, guard, rule) = (
        assumed::events(asked, shown.inches, assumptions),
        assumed::guard(asked.guard, assumptions),
        assumed::rule(asked.rule, assumptions),
    );
    let names = names(asked, known);
    let train = ValveTrain::new(known.engine, &events, guard, names.intake, names.exhaust)
        .map_err(|e| problems.push(Problem::at(Place::Valves, &e)))
        .ok();
    let metals = metals(asked);
    check(asked, &mut problems);
    let books = books::read(
        &asked.specifications,
        known.number,
        metals,
        shown,
        assumptions,
        &mut problems,
    );
    let candidates: Vec<&Book<'_>> = books.iter().filter(|b| b.may_apply()).collect();
    let advised_with = shims::without_sizes(&asked.adjuster);
    let judging = Judging {
        adjuster: &asked.adjuster,
        advised_with: &advised_with,
        rocker_ratio: asked.rocker_ratio,
        leaves: &asked.leaves,
        gauge_use: &asked.gauge_use,
        rule: &rule,
        names,
    };
    let valves = train.as_ref().map(ValveTrain::valves);
    let list = valves.as_deref();
    let mut reads = readings::judged(&asked.readings, list, &candidates, judging, &mut problems);
    let felt = reads.iter().flat_map(Read::estimates);
    readings::assume(felt, shown.inches, assumptions);
    let held = held(&candidates);
    let warmth = warmth::report(metals, &asked.warmth, &held, shown, &mut problems);
    let check = asked.crank_check.as_ref();
    let crank_check =
        check.and_then(|check| crank::report(check, &events, guard, names, &mut problems));
    let (Some(train), Some(valves), []) = (train, valves, problems.as_slice()) else {
        // What the shims refuse is told with the rest.
        let shims = shim_plans(asked, &reads, &candidates, &rule, known, (&[], &[], None));
        problems.extend(shims.err());
        return Err(problems);
    };
    let joint = together::diagnosed(
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
            shown,
        },
        assumptions,
    );
    let before = (known.valves_back, crank_check.as_ref(), joint.as_ref());
    let stop_work = stop_work(before, &reads, &candidates);
    let options = stops_from(&asked.stops, crank_check.as_ref());
    let (diagnosis, odd) = joint.map(|joint| (joint.report, joint.odd)).unzip();
    let odd = odd.unwrap_or_default();
    let turning = turning(&train, known, &options);
    let by = (stop_work.as_slice(), odd.as_slice(), Some(turning));
    let shim_plans = shim_plans(asked, &reads, &candidates, &rule, known, by)
        .map_err(|problem| Vec::from([problem]))?;
    refer_to_plans(&mut reads, &candidates, &shim_plans, names);
    let stops = stops::plans(
        stops::Stops {
            options: &options,
            train: &train,
            pulley: known.pulley,
            names,
        },
        assumptions,
    );
    let told = |read| valve_report(read, &candidates, names, &stop_work, &odd);
    Ok(ClearanceReport {
        stop_work: stop_work.iter().map(|one| one.report(names)).collect(),
        specifications: books::reports(&books, shown),
        disagreements: books::all_disagreements(&books, shown),
        crank_check,
        stops,
        warmth,
        locking: readings::locking::report(&asked.adjuster, shown.inches),
        rule: rule.name().to_string(),
        valves: reads.iter().map(told).collect(),
        shim_plans,
        diagnosis,
        first_leaves: readings::first_leaves(&candidates, judging),
        not_read: not_read(asked, &valves, names),
    })
}

const fn turning<'r>(
    train: &'r ValveTrain<'r>,
    known: Known<'r>,
    options: &StopOptions,
) -> shims::Turning<'r> {
    shims::Turning {
        train,
        pulley: known.pulley,
        from: options.from,
    }
}

const fn names<'r>(asked: &Clearance, known: Known<'r>) -> ValveNames<'r> {
    ValveNames {
        engine: known.engine,
        intake: asked.intake_valves,
        exhaust: asked.exhaust_valves,
    }
}

/// The same with its readings said in a unit that is asked for.
fn shown_in(asked: &Clearance, length: Option<ShownLength>) -> Option<Clearance> {
    let unit = length?.unit();
    let mut shown = asked.clone();
    for reading in &mut shown.readings {
        reading.found.shown_in = Some(unit);
        if let Some(left) = &mut reading.left {
            left.shown_in = Some(unit);
        }
    }
    Some(shown)
}

/// Whether what is said of the metal can be so, here and where it is compared, of the rocker ratio and of
/// how the leaves are used.
fn check(asked: &Clearance, problems: &mut Vec<Problem>) {
    problems.extend(rocker_ratio(asked).err());
    let used = asked.gauge_use.check();
    problems.extend(used.err().map(|e| Problem::at(Place::Gauge, &e)));
    metals(asked).check(problems);
    if let Some(other) = &asked.warmth.compared {
        let other = Metals {
            intake: other,
            exhaust: None,
        };
        other.check(problems);
    }
}

/// The books whose figures hold at a known temperature, and that temperature.
fn held<'b>(books: &[&'b Book<'b>]) -> Vec<(&'b Specification, Temperature)> {
    let held = books.iter();
    held.filter_map(|b| Some((b.specification, b.reference.temperature()?)))
        .collect()
}

/// The valves without a reading, by name.
fn not_read(asked: &Clearance, valves: &[ValveId], names: ValveNames<'_>) -> Vec<String> {
    let mut read: Vec<_> = asked.readings.iter().map(|r| r.valve).collect();
    read.sort();
    let open = valves.iter().filter(|v| read.binary_search(v).is_err());
    open.map(|v| names.of(*v)).collect()
}

/// Whether the rocker ratio is used at all, if one is stated.
fn rocker_ratio(asked: &Clearance) -> Result<(), Problem> {
    let metals = [Some(&asked.metal), asked.exhaust_metal.as_ref()];
    shims::check::rocker_ratio(&asked.adjuster, asked.rocker_ratio, metals)
}

/// Makes the advice at each reading agree with the shim plan by the same book.
fn refer_to_plans(
    reads: &mut [Read<'_>],
    books: &[&Book<'_>],
    plans: &[ShimPlanReport],
    names: ValveNames<'_>,
) {
    for read in reads {
        let valve = read.reading.valve;
        let by_books = books.iter().zip(plans);
        for (judged, (book, plan)) in read.judged.iter_mut().zip(by_books) {
            let set_to = book.specification.limits(valve.kind).set_to();
            let to = (set_to, read.reading.found.in_inches());
            shims::refer(&mut judged.advice, plan, &names.of(valve), to);
        }
    }
}

/// What comes before every setting: decided before anything is advised.
fn stop_work(
    (valves_back, crank, joint): (
        Option<&str>,
        Option<&CrankCheckReport>,
        Option<&together::Joint>,
    ),
    reads: &[Read<'_>],
    candidates: &[&Book<'_>],
) -> Vec<StopWork> {
    let read = || reads.iter().map(|read| read.reading.valve).collect();
    let mut found: Vec<StopWork> = Vec::new();
    if let Some(why) = valves_back {
        let why = String::from(why);
        found.push(StopWork::new(StopWorkCode::HeadBolts, why, read()));
    }
    if let Some((code, text)) = crank.and_then(crank::stop_work) {
        found.push(StopWork::new(code, text, read()));
    }
    for off in candidates.iter().filter_map(|book| book.not_at_reference()) {
        let told = found.iter().any(|one| one.text() == off.text());
        if !reads.is_empty() && !told {
            found.push(StopWork::new(
                StopWorkCode::NotAtReference,
                off.text(),
                read(),
            ));
        }
    }
    for one in joint.into_iter().flat_map(|joint| &joint.findings) {
        found.push(StopWork::new(
            one.code,
            one.text.clone(),
            one.valves.clone(),
        ));
    }
    let by_books: Vec<stop_work::ByBooks<'_>> = reads
        .iter()
        .map(|read| stop_work::ByBooks {
            valve: read.reading.valve,
            said: candidates
                .iter()
                .zip(&read.judged)
                .map(|(book, judged)| {
                    let limits = book.specification.limits(read.reading.valve.kind);
                    (limits, &judged.advice)
                })
                .collect(),
        })
        .collect();
    let ids: Vec<&str> = candidates
        .iter()
        .map(|b| b.specification.id.as_str())
        .collect();
    found.extend(stop_work::books(&ids, &by_books));
    found
}

/// One valve, its advice taken back where something has to be settled first, or where an amount would
/// hide why it is far from its kind.
fn valve_report(
    read: &Read<'_>,
    candidates: &[&Book<'_>],
    names: ValveNames<'_>,
    stop_work: &[StopWork],
    odd: &[(ValveId, Advice)],
) -> ValveReport {
    let mut report = readings::report(read, candidates, names);
    let settle = stop_work::settle(stop_work, read.reading.valve);
    let after = report.left.as_mut().map(|left| &mut left.judged);
    if let Some(advice) = &settle {
        for judged in after.into_iter().flatten() {
            judged.advice = advice.clone();
        }
    }
    let odd = odd.iter().find(|(valve, _)| *valve == read.reading.valve);
    for judged in &mut report.judged {
        match (&settle, odd) {
            (Some(advice), _) => judged.advice = advice.clone(),
            (None, Some((_, advice))) if matches!(judged.advice, Advice::Reset(_)) => {
                let before = judged.advice.first().to_vec();
                judged.advice = advice.clone().after(before);
            }
            _ => {}
        }
    }
    report
}

/// The options of the stops, counted from where the rockers show the crank to be: they are a later
/// and a better witness than what was stated.
fn stops_from(stated: &StopOptions, crank: Option<&CrankCheckReport>) -> StopOptions {
    let found = crank.and_then(crank::stands_at);
    found.map_or_else(|| stated.clone(), |at| stated.found_at(at))
}

/// The readings as shims see them, by each specification in turn; none whose numbers are spoiled, and
/// none that is far from its kind gets a shim.
fn shim_plans(
    asked: &Clearance,
    reads: &[Read<'_>],
    candidates: &[&Book<'_>],
    rule: &DecisionRule,
    known: Known<'_>,
    (stop_work, odd, turning): (
        &[StopWork],
        &[(ValveId, Advice)],
        Option<shims::Turning<'_>>,
    ),
) -> Result<Vec<ShimPlanReport>, Problem> {
    let names = names(asked, known);
    let spoiled = |read: &&Read<'_>| stop_work.iter().any(|one| one.spoils(read.reading.valve));
    let reads: Vec<&Read<'_>> = reads.iter().filter(|read| !spoiled(read)).collect();
    let mut plans = Vec::new();
    if reads.is_empty() && !stop_work.is_empty() {
        return Ok(plans);
    }
    for (i, book) in candidates.iter().enumerate() {
        let valves = reads.iter().filter_map(|read| {
            let valve = read.reading.valve;
            Some(shims::Candidate {
                valve,
                name: names.of(valve),
                found: &read.reading.found,
                limits: book.specification.limits(valve.kind),
                judged: read.judged.get(i)?,
                is_odd: odd.iter().any(|(odd, _)| *odd == valve),
                warmth: book
                    .against(valve.kind)
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
            (turning, known.shown.inches),
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

fn metals(asked: &Clearance) -> Metals<'_> {
    Metals {
        intake: &asked.metal,
        exhaust: asked.exhaust_metal.as_ref(),
    }
}

/// Metal this warm, in degrees Celsius, burns a hand that stays on it; common practice, no source.
const BURNS_FROM: f64 = 45.0;

/// What is done to the valves, for the cautions.
pub(super) fn valve_work(asked: &Clearance) -> ValveWork {
    let found = asked.readings.iter().flat_map(ValveReading::taken);
    let work = work(&asked.adjuster, &asked.metal, found);
    let hot_book = asked
        .specifications
        .iter()
        .any(|s| s.condition == Condition::Hot);
    ValveWork {
        hot: work.hot || hot_book,
        ..work
    }
}

fn work<'f>(
    adjuster: &Adjuster,
    metal: &Metal,
    mut found: impl Iterator<Item = &'f AsFound>,
) -> ValveWork {
    ValveWork {
        shims: matches!(adjuster, Adjuster::Shim { .. }),
        no_leaf: found.any(|found| matches!(found.reading, Reading::Refuses(_))),
        hot: metal
            .temperatures()
            .iter()
            .any(|(_, t)| t.is.celsius() >= BURNS_FROM),
    }
}

/// What the section's open ends make necessary, whatever its readings.
fn assume(asked: &Clearance, known: Known<'_>, assumptions: &mut Assumptions) {
    let shown = known.shown;
    warmth::assume(metals(asked), &asked.warmth, shown, assumptions);
    if let Some(check) = &asked.crank_check {
        crank::assume(check, assumptions);
    }
    readings::locking::assume(&asked.adjuster, assumptions);
    let found = asked.readings.iter().map(|r| &r.found);
    shims::assume(&asked.adjuster, known.engine, found, assumptions);
    assumed::ratio(asked.rocker_ratio, &asked.metal, assumptions);
    for specification in &asked.specifications {
        let whose = alloc::format!("specification {}", specification.id);
        for kind in [ValveKind::Intake, ValveKind::Exhaust] {
            let of = alloc::format!(" for {}", kind.word());
            let limits = specification.limits(kind);
            assumed::band(limits, (&whose, &of), shown.length(), assumptions);
        }
    }
    let found = asked.readings.iter().map(|r| &r.found);
    assumed::pads(&asked.adjuster, found, assumptions);
}
