//! From a document as written to a job request of typed values; every fault is reported at its place.

mod crank_check;
mod crank_train;
mod engine;
mod metal;
mod plan;
mod readings;
mod shims;
mod specification;
mod valves;
mod warm;

use crate::document::{CombinationDoc, Document, FORMAT, GaugeDoc, RuleDoc};
use crate::problems::Part;
use lashwork::diagnosis::Prior;
use lashwork::engine::{CylinderLabel, Engine};
use lashwork::feeler::{Combination, Leaf, LeafSet};
use lashwork::job::{Metal, PlanChoice, Problem, Request, WarmQuestions};
use lashwork::quantity::Lash;
use lashwork::tolerance::{DecisionRule, HasLimits};

/// Any of the core's error enums: a code, a message and a hint.
macro_rules! fault {
    ($problems:expr, $place:expr, $error:expr) => {{
        let e = $error;
        $problems.push(lashwork::job::Problem::new(
            $place,
            e.code(),
            e.to_string(),
            e.hint(),
        ));
    }};
}
pub(crate) use fault;

/// Takes the value of a result, or reports the error at a place.
macro_rules! value {
    ($problems:expr, $place:expr, $result:expr) => {
        match $result {
            Ok(value) => Some(value),
            Err(error) => {
                crate::build::fault!($problems, $place, error);
                None
            }
        }
    };
}
pub(crate) use value;

pub(crate) use metal::one_rule;
pub(crate) use readings::at_valve;
pub(crate) use specification::{band, limits};
pub(crate) use valves::{adjuster, kind};

/// Most cylinders, firings or specifications in a document. Far above any engine; without it a
/// document within the byte limit could keep the kernel busy for minutes.
const MAX_ITEMS: usize = 100;

/// Whether a list is short enough; if not, that is reported.
fn is_short<T>(list: &[T], place: &str, problems: &mut Vec<Problem>) -> bool {
    let count = list.len();
    if count > MAX_ITEMS {
        problems.push(Problem::new(
            place,
            "document.too-many",
            format!("the list has {count} items, more than {MAX_ITEMS}"),
            format!("write at most {MAX_ITEMS}; split the job if it needs more"),
        ));
    }
    count <= MAX_ITEMS
}

/// Builds the request, or reports why it cannot be built.
pub(crate) fn request(document: Document, problems: &mut Vec<Problem>) -> Option<Request> {
    if let Some(version) = document.lashwork.take(Some("lashwork"), problems)
        && version != FORMAT
    {
        problems.push(Problem::new(
            "/lashwork",
            "document.version",
            format!("the document is of format {version}, this library reads {FORMAT}"),
            format!("write a document of format {FORMAT}, or use the library that matches"),
        ));
    }
    let title = document.title.take(Some("title"), problems);
    let note = document.note.take(None, problems);
    let engine = document.engine.take(Some("engine"), problems);
    let number = engine.as_ref().and_then(|e| e.number);
    let pulley = engine.as_ref().and_then(|e| engine::pulley(e, problems));
    let engine = engine.and_then(|e| engine::engine(e, problems));
    let valves = document.valves.take(Some("valves"), problems);
    let valves = valves.and_then(|v| valves::valves(&v, problems));
    let mut reference_assumed = Vec::new();
    let specifications = document
        .specifications
        .take(Some("specifications"), problems)
        .filter(|list| is_short(list, "/specifications", problems))
        .map(|list| specification::all(list, &mut reference_assumed, problems));
    let gauge = document.gauge.take(Some("gauge"), problems);
    let combination = gauge.as_ref().map(|g| combination(g.stack_tolerance));
    let leaves = gauge.and_then(|g| leaf_set(&g, problems));
    let ratio = valves.as_ref().and_then(|v| v.rocker_ratio);
    let mut thermometer_assumed = Vec::new();
    let metal = match document.metal {
        Part::Missing => Some((Metal::Unstated, WarmQuestions::default())),
        part => part
            .take(None, problems)
            .and_then(|m| metal::metal(m, ratio, &mut thermometer_assumed, problems)),
    };
    let rule = document.rule.take(None, problems).map(rule);
    let diagnosis = document.diagnosis.take(None, problems);
    let diagnosis_prior =
        diagnosis.and_then(|d| value!(problems, "/diagnosis/prior", Prior::new(d.prior)));
    let start = document.start.take(None, problems);
    let start = match (&engine, start) {
        (Some(engine), Some(label)) => cylinder(engine, &label, "/start", problems).map(Some),
        _ => Some(None),
    };
    let plan = match (&engine, document.plan.take(None, problems)) {
        (Some(engine), Some(doc)) => plan::plan(doc, engine, problems),
        _ => Some(PlanChoice::default()),
    };
    let list = document
        .readings
        .take(Some("readings"), problems)
        .unwrap_or_default();
    let readings = readings::all(
        list,
        engine.as_ref(),
        valves.as_ref(),
        leaves.as_ref(),
        problems,
    );

    let asked = document.crank_check.take(None, problems);
    let crank_check =
        asked.and_then(|doc| crank_check::check(doc, engine.as_ref(), valves.as_ref(), problems));

    let (metal, warm) = metal?;
    let (valves, engine) = (valves?, engine?);
    let engine = crank_train::with_ring(engine, valves.cam_ring, problems)?;
    Some(Request {
        title: title?,
        note,
        engine,
        engine_number: number,
        events: valves.events,
        guard: valves.guard,
        intake_valves: valves.intake,
        exhaust_valves: valves.exhaust,
        rocker_ratio: valves.rocker_ratio,
        adjuster: valves.adjuster,
        pulley,
        start: start?,
        plan: plan?,
        specifications: specifications?,
        reference_assumed,
        leaves: leaves?,
        combination: combination?,
        metal,
        thermometer_assumed,
        warm,
        readings,
        rule,
        diagnosis_prior,
        crank_check,
    })
}

/// How leaf tolerances add.
pub(crate) fn combination(doc: CombinationDoc) -> Combination {
    match doc {
        CombinationDoc::WorstCase => Combination::WorstCase,
        CombinationDoc::RootSumSquare => Combination::RootSumSquare,
    }
}

/// The rule of that name.
pub(crate) fn rule(doc: RuleDoc) -> DecisionRule {
    match doc {
        RuleDoc::GuardedTight => Lash::USUAL_RULE,
        RuleDoc::Simple => DecisionRule::simple(),
        RuleDoc::Iso14253 => DecisionRule::iso_14253_1(),
    }
}

/// Finds a cylinder by its label, or names the nearest one.
fn cylinder(
    engine: &Engine,
    label: &str,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<lashwork::engine::CylinderIndex> {
    let found = CylinderLabel::new(label)
        .ok()
        .and_then(|l| engine.index_of(&l));
    if found.is_none() {
        let known: Vec<&str> = engine
            .cylinders()
            .iter()
            .map(|c| c.label.as_str())
            .collect();
        let message = format!("there is no cylinder {label:?}");
        problems.push(crate::problems::unknown(
            place.to_owned(),
            "job.no-such-cylinder",
            &message,
            label,
            &known,
        ));
    }
    found
}

/// The leaves at hand.
pub(crate) fn leaf_set(gauge: &GaugeDoc, problems: &mut Vec<Problem>) -> Option<LeafSet> {
    let tolerance = gauge.tolerance.map(|t| t.0);
    let leaves = gauge
        .leaves
        .iter()
        .map(|mark| Leaf {
            mark: mark.0,
            tolerance,
        })
        .collect();
    value!(problems, "/gauge/leaves", LeafSet::new(leaves))
}
