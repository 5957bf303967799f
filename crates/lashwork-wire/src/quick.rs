//! One valve without an engine: limits and a reading in, a verdict and advice out.
//!
//! A quick check is a job with one valve and nothing but its reading. Its parts are read, judged and
//! refused by the code of a whole job; places of problems are then named as in the check.

use crate::build;
use crate::document::{
    CombinationDoc, GaugeDoc, KindDoc, LimitsDoc, OneRuleDoc, OneShimDoc, ReadingDoc, RuleDoc,
    ScrewDoc, ShimDoc,
};
use crate::json::{self, Json, Object};
use crate::place::Place;
use crate::problems::Part;
use crate::quantity::Q;
use crate::read::{Fields, Read, missing};
use lashwork::engine::{CylinderIndex, Engine};
use lashwork::feeler::Combination;
use lashwork::job::{
    Assumption, Judged, Metal, PlanChoice, Problem, ReadingsReport, Request, WarmQuestions,
    judge_readings,
};
use lashwork::quantity::{Lash, Marked, Temperature};
use lashwork::tolerance::{Condition, Provenance, Specification};
use lashwork::valve::ValveId;
use serde::Serialize;

/// What a quick check may state.
const FIELDS: [&str; 10] = [
    "valve",
    "limits",
    "reference",
    "reading",
    "gauge",
    "metal",
    "screw",
    "shim",
    "rocker_ratio",
    "rule",
];

/// What the limits of a quick check are called where a job has several specifications.
const SPECIFICATION: &str = "limits";

/// What a reading of a job says besides, and a quick check's reading does not.
const WHICH_VALVE: [&str; 3] = ["cylinder", "valve", "number"];

/// Where the parts of a job's document stand in a quick check; the first that fits is meant.
const PLACES: [(&str, &str); 3] = [
    ("/readings/0", "/reading"),
    ("/valves/", "/"),
    ("/valves", ""),
];

/// Assumptions about turning the engine and about other valves begin so; a quick check has neither.
const ABOUT_THE_ENGINE: [&str; 3] = ["engine.", "valve.", "adjust.swap"];

/// The answer to a quick check.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct QuickReport {
    /// The reading in words, as taken.
    pub reading: String,
    /// Whether the leaves are marked in inches.
    pub leaves_in_inches: bool,
    /// Lower end of the gap as felt.
    pub felt_low: Option<Lash>,
    /// Upper end of the gap as felt.
    pub felt_high: Option<Lash>,
    /// Standard uncertainty from leaves and feel, in millimetres.
    pub felt_uncertainty_mm: f64,
    /// The lash at the reference temperature, the verdict, how sure it is, and what to do.
    pub judged: Judged,
    /// How warm the metal is and how the lash follows, one line for each fact.
    pub metal: Vec<String>,
    /// The decision rule.
    pub rule: String,
    /// What had to be assumed.
    pub assumptions: Vec<Assumption>,
    /// What can hurt someone.
    pub cautions: Vec<&'static str>,
}

/// Judges the reading of one valve.
///
/// # Errors
/// Every [`Problem`] of the check, with JSON pointers as places.
///
/// ```
/// let check = br#"{ "valve": "intake", "reading": { "goes": ["0.12 mm"], "refuses": ["0.15 mm"] },
///     "limits": { "set_to": "0.20 mm", "set": { "from": "0.15 mm", "to": "0.25 mm" } },
///     "screw": { "pitch": "1 mm", "seat": "valve_side" } }"#;
/// let report = lashwork_wire::quick_report(check).map_err(|problems| format!("{problems:?}"))?;
/// assert_eq!(report.judged.verdict, lashwork::tolerance::Verdict::Below);
/// assert!(report.judged.advice.text.contains("screw out"));
///
/// let torn = lashwork_wire::quick_report(b"{ \"valve\": \"intake\" }").unwrap_err();
/// assert_eq!(torn[0].code, "document.missing-field");
/// # Ok::<(), String>(())
/// ```
pub fn quick_report(check: &[u8]) -> Result<QuickReport, Vec<Problem>> {
    let mut problems = Vec::new();
    let asked = json::parse(check, &mut problems).and_then(|value| ask(value, &mut problems));
    let answer = match asked {
        Some(asked) if problems.is_empty() => match judge_readings(&asked.request) {
            Ok(report) => quick(report, asked.stack_assumed),
            Err(faults) => {
                problems.extend(faults.into_iter().map(placed));
                None
            }
        },
        _ => None,
    };
    problems.sort();
    problems.dedup();
    answer.ok_or(problems)
}

/// The job that a quick check asks for.
struct Asked {
    request: Request,
    /// How leaf tolerances add in a stack was not stated, and matters.
    stack_assumed: bool,
}

/// What a quick check says, read field by field.
struct Check {
    valve: KindDoc,
    limits: LimitsDoc,
    reading: ReadingDoc,
    reference: Option<Q<Temperature>>,
    /// Without it the leaves of the reading stand in.
    gauge: Option<GaugeDoc>,
    metal: Option<OneRuleDoc>,
    screw: Option<ScrewDoc>,
    shim: Option<ShimDoc>,
    rocker_ratio: Option<f64>,
    rule: Option<RuleDoc>,
}

fn ask(check: Json, problems: &mut Vec<Problem>) -> Option<Asked> {
    let Json::Object(check) = check else {
        problems.push(Problem::new(
            "",
            "document.wrong-type",
            "the quick check is not an object",
            "write a JSON object with \"valve\", \"limits\" and \"reading\"",
        ));
        return None;
    };
    let check = read(check, problems)?;
    let mut faults = Vec::new();
    let asked = built(check, &mut faults);
    problems.extend(faults.into_iter().map(placed));
    asked
}

fn read(mut check: Object, problems: &mut Vec<Problem>) -> Option<Check> {
    let here = Place::Document;
    let reading = check.take("reading");
    if reading.is_none() {
        problems.push(missing(&here, "reading"));
    }
    let at = Place::Field(&here, "reading");
    let reading = reading.and_then(|reading| read_alone(reading, &at, problems));
    let fields = Fields::of_object(&check, &FIELDS, &here, problems);
    let valve = fields.read("valve", problems);
    let limits = fields.read("limits", problems);
    let reference = fields.read("reference", problems);
    let gauge: Part<GaugeDoc> = fields.read("gauge", problems)?;
    let metal: Part<OneRuleDoc> = fields.read("metal", problems)?;
    let rule: Part<RuleDoc> = fields.read("rule", problems)?;
    let screw = fields.read("screw", problems);
    let shim: Option<Option<OneShimDoc>> = fields.read("shim", problems);
    let rocker_ratio = fields.read("rocker_ratio", problems);
    let before = problems.len();
    let (gauge, metal, rule) = (
        gauge.take(None, problems),
        metal.take(None, problems),
        rule.take(None, problems),
    );
    if problems.len() > before {
        return None;
    }
    Some(Check {
        valve: valve?,
        limits: limits?,
        reading: reading?,
        reference: reference?,
        gauge,
        metal,
        screw: screw?,
        shim: shim?.map(ShimDoc::from),
        rocker_ratio: rocker_ratio?,
        rule,
    })
}

/// Reads a reading that does not say which valve it is of.
fn read_alone(
    mut reading: Json,
    place: &Place<'_>,
    problems: &mut Vec<Problem>,
) -> Option<ReadingDoc> {
    if let Json::Object(reading) = &mut reading {
        for key in WHICH_VALVE {
            if reading.take(key).is_some() {
                problems.push(Problem::new(
                    Place::Field(place, key).pointer(),
                    "document.unknown-field",
                    format!("a quick check is of one valve: there is no field {key:?} here"),
                    "leave it out; \"valve\" stands beside the reading",
                ));
            }
        }
        reading.put("cylinder", "1");
        reading.put("valve", "intake");
    }
    ReadingDoc::read(&reading, place, problems)
}

/// The request, with faults at the places of a whole job.
fn built(check: Check, faults: &mut Vec<Problem>) -> Option<Asked> {
    let reading = &check.reading;
    let lists = || {
        [&reading.goes, &reading.refuses, &reading.drags]
            .into_iter()
            .flatten()
    };
    let limits = build::limits(&check.limits, "/limits", faults);
    let adjuster = build::adjuster(check.screw.as_ref(), check.shim.as_ref(), faults);
    let mut thermometer_assumed = Vec::new();
    let metal = match check.metal {
        Some(metal) => build::one_rule(metal, check.rocker_ratio, &mut thermometer_assumed, faults),
        None => Some(Metal::Unstated),
    };
    let reference = match check.reference {
        Some(reference) => Some(reference.0),
        None => build::value!(faults, "/limits", Temperature::iso_1()),
    };
    let mut of_made_up = Vec::new();
    let (leaves, combination, stack_assumed) = match &check.gauge {
        Some(gauge) => {
            let leaves = build::leaf_set(gauge, faults);
            (leaves, build::combination(gauge.stack_tolerance), false)
        }
        None if lists().next().is_none() => {
            faults.push(missing(&Place::Document, "gauge"));
            (None, Combination::WorstCase, false)
        }
        None => {
            let gauge = GaugeDoc {
                leaves: each_once(lists().flatten()),
                tolerance: None,
                stack_tolerance: CombinationDoc::WorstCase,
            };
            let leaves = build::leaf_set(&gauge, &mut of_made_up);
            let assumed = lists().any(|leaves| leaves.len() > 1);
            (leaves, Combination::WorstCase, assumed)
        }
    };
    let valve = ValveId {
        cylinder: CylinderIndex::new(0),
        kind: build::kind(check.valve),
        number: 1,
    };
    let reading = build::at_valve(Some(valve), reading, leaves.as_ref(), "/reading", faults);
    // A gauge section that was made up may repeat the faults of the reading.
    if faults.is_empty() {
        faults.extend(of_made_up.into_iter().map(|mut fault| {
            "/reading".clone_into(&mut fault.place);
            fault
        }));
    }
    let (limits, metal) = (limits?, metal?);
    let request = Request {
        title: String::new(),
        note: None,
        engine: Engine::of_one_cylinder(),
        engine_number: None,
        events: None,
        guard: None,
        intake_valves: 1,
        exhaust_valves: 1,
        rocker_ratio: check.rocker_ratio,
        adjuster: adjuster?,
        pulley: None,
        start: None,
        plan: PlanChoice::default(),
        specifications: vec![Specification {
            id: SPECIFICATION.into(),
            provenance: Provenance {
                document: String::new(),
                edition: None,
                applies_to: None,
                engine_numbers: None,
            },
            condition: Condition::Cold,
            reference: reference?,
            measured_at: None,
            intake: limits,
            exhaust: limits,
        }],
        reference_assumed: match check.reference {
            Some(_) => Vec::new(),
            None => vec![SPECIFICATION.into()],
        },
        thermometer_assumed,
        leaves: leaves?,
        combination,
        metal,
        warm: WarmQuestions::default(),
        readings: vec![reading?],
        rule: check.rule.map(build::rule),
        diagnosis_prior: None,
        crank_check: None,
    };
    Some(Asked {
        request,
        stack_assumed,
    })
}

/// The leaves a reading names, each thickness once.
fn each_once<'m>(marks: impl Iterator<Item = &'m Q<Marked>>) -> Vec<Q<Marked>> {
    let mut once: Vec<Q<Marked>> = Vec::new();
    for mark in marks {
        if once.iter().all(|seen| seen.0.nominal() != mark.0.nominal()) {
            once.push(*mark);
        }
    }
    once
}

/// A problem of a whole job, with its place in the quick check.
fn placed(mut fault: Problem) -> Problem {
    for (job, quick) in PLACES {
        if let Some(rest) = fault.place.strip_prefix(job) {
            fault.place = format!("{quick}{rest}");
            break;
        }
    }
    fault
}

fn quick(report: ReadingsReport, stack_assumed: bool) -> Option<QuickReport> {
    let valve = report.valves.into_iter().next()?;
    let mut assumptions = report.assumptions;
    assumptions.retain(|a| {
        !ABOUT_THE_ENGINE
            .iter()
            .any(|about| a.code.starts_with(about))
    });
    if stack_assumed {
        assumptions.push(Assumption {
            code: "feeler.stack".into(),
            text: "how leaf tolerances add in a stack not stated: worst case taken".into(),
        });
        assumptions.sort();
    }
    Some(QuickReport {
        reading: valve.reading,
        leaves_in_inches: valve.leaves_in_inches,
        felt_low: valve.felt_low,
        felt_high: valve.felt_high,
        felt_uncertainty_mm: valve.felt_uncertainty_mm,
        judged: valve.judged.into_iter().next()?,
        metal: report.metal,
        rule: report.rule,
        assumptions,
        cautions: report.cautions,
    })
}
