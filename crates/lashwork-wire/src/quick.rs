//! One valve without an engine: limits and a reading in, a verdict and advice out.
//!
//! A quick check is a job with one valve. It is written out as that job's document, so that it is
//! read, judged and refused by the same code; places of problems are then named as in the check.

use crate::json;
use crate::problems::{Problems, unknown};
use crate::quantity::Q;
use lashwork::job::{Assumption, Judged, Problem, Report};
use lashwork::quantity::{Lash, Marked};
use serde::Serialize;
use serde_json::{Map, Value, json};

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

/// Without these there is nothing to judge.
const NEEDED: [&str; 3] = ["valve", "limits", "reading"];

/// What a reading of a job says besides, and a quick check's reading does not.
const WHICH_VALVE: [&str; 3] = ["cylinder", "valve", "number"];

/// Where the parts of a job's document stand in a quick check; the first that fits is meant.
const PLACES: [(&str, &str); 9] = [
    ("/specifications/0/intake", "/limits"),
    ("/specifications/0/exhaust", "/limits"),
    ("/specifications/0/reference", "/reference"),
    ("/specifications/0", "/limits"),
    ("/readings/0/valve", "/valve"),
    ("/readings/0", "/reading"),
    ("/valves/", "/"),
    ("/valves", ""),
    ("/specifications", "/limits"),
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
/// assert_eq!(report.judged.verdict, lashwork::tolerance::Verdict::Tight);
/// assert!(report.judged.advice.text.contains("screw out"));
///
/// let torn = lashwork_wire::quick_report(b"{ \"valve\": \"intake\" }").unwrap_err();
/// assert_eq!(torn[0].code, "document.missing-field");
/// # Ok::<(), String>(())
/// ```
pub fn quick_report(check: &[u8]) -> Result<QuickReport, Vec<Problem>> {
    let mut problems = Vec::new();
    let asked = json::parse(check, &mut problems).and_then(|value| ask(value, &mut problems));
    let answer =
        asked.and_then(
            |asked| match crate::report(asked.document.to_string().as_bytes()) {
                Ok(report) => quick(report, asked.stack_assumed),
                Err(faults) => {
                    problems.extend(placed(faults, asked.gauge_stated));
                    None
                }
            },
        );
    problems.sort();
    problems.dedup();
    match answer {
        Some(report) if problems.is_empty() => Ok(report),
        _ => Err(problems),
    }
}

/// The job that a quick check asks for.
struct Asked {
    /// Its document.
    document: Value,
    /// It has a gauge section; otherwise the leaves of the reading stand in.
    gauge_stated: bool,
    /// How leaf tolerances add in a stack was not stated, and matters.
    stack_assumed: bool,
}

fn ask(check: Value, problems: &mut Vec<Problem>) -> Option<Asked> {
    let Value::Object(mut check) = check else {
        problems.push(Problem::new(
            "",
            "document.wrong-type",
            "the quick check is not an object",
            "write a JSON object with \"valve\", \"limits\" and \"reading\"",
        ));
        return None;
    };
    let strangers = check.keys().filter(|key| !FIELDS.contains(&key.as_str()));
    problems.extend(strangers.map(|key| {
        let message = format!("there is no field {key:?} here");
        let place = json::step("", key);
        unknown(place, "document.unknown-field", &message, key, &FIELDS)
    }));
    for field in NEEDED {
        if !check.contains_key(field) {
            problems.push(Problem::new(
                "",
                "document.missing-field",
                format!("the field {field:?} is missing"),
                format!("add {field:?}"),
            ));
        }
    }
    let (valve, limits) = (check.remove("valve")?, check.remove("limits")?);
    let mut reading = check.remove("reading")?;
    let gauge_stated = check.contains_key("gauge");
    let stack_assumed = !gauge_stated && lists(&reading).any(|leaves| leaves.len() > 1);
    if !gauge_stated && (lists(&reading).next().is_some() || !reading.is_object()) {
        let leaves = named_leaves(&reading);
        let gauge = json!({ "leaves": leaves, "stack_tolerance": "worst_case" });
        check.insert("gauge".into(), gauge);
    }
    if let Value::Object(reading) = &mut reading {
        for key in WHICH_VALVE {
            if reading.remove(key).is_some() {
                problems.push(Problem::new(
                    json::step("/reading", key),
                    "document.unknown-field",
                    format!("a quick check is of one valve: there is no field {key:?} here"),
                    "leave it out; \"valve\" stands beside the reading",
                ));
            }
        }
        reading.insert("cylinder".into(), "1".into());
        reading.insert("valve".into(), valve);
    }
    let mut specification = json!({
        "id": "limits", "document": "the limits stated", "condition": "cold",
        "intake": limits.clone(), "exhaust": limits,
    });
    let mut valves = json!({ "intake_per_cylinder": 1, "exhaust_per_cylinder": 1 });
    take(&mut check, &["reference"], &mut specification);
    take(&mut check, &["screw", "shim", "rocker_ratio"], &mut valves);
    let mut document = json!({
        "lashwork": 1, "title": "Quick check",
        "engine": {
            "cycle": "four_stroke", "cylinders": [{ "label": "1" }], "firing_order": ["1"],
            "firing": "even", "numbering": "free_end",
            "rotation": { "sense": "clockwise", "seen_from": "free_end" },
        },
        "valves": valves, "specifications": [specification], "readings": [reading],
    });
    take(&mut check, &["gauge", "metal", "rule"], &mut document);
    Some(Asked {
        document,
        gauge_stated,
        stack_assumed,
    })
}

/// Moves fields that are there.
fn take(from: &mut Map<String, Value>, fields: &[&str], into: &mut Value) {
    if let Value::Object(into) = into {
        for field in fields {
            if let Some(value) = from.remove(*field) {
                into.insert((*field).to_owned(), value);
            }
        }
    }
}

/// The lists of leaves in a reading.
fn lists(reading: &Value) -> impl Iterator<Item = &Vec<Value>> {
    ["goes", "refuses", "drags"]
        .into_iter()
        .filter_map(|field| reading.get(field)?.as_array())
}

/// The leaves a reading names, each thickness once.
fn named_leaves(reading: &Value) -> Vec<Value> {
    let (mut seen, mut leaves) = (Vec::new(), Vec::new());
    for leaf in lists(reading).flatten() {
        // What cannot be read is kept: it is reported where the reading names it.
        let mark = deserr::deserialize::<Q<Marked>, _, Problems>(leaf.clone()).ok();
        let thickness = mark.map(|mark| mark.0.nominal());
        if thickness.is_none_or(|thickness| !seen.contains(&thickness)) {
            seen.extend(thickness);
            leaves.push(leaf.clone());
        }
    }
    leaves
}

/// The problems of the job, with their places in the quick check.
fn placed(faults: Vec<Problem>, gauge_stated: bool) -> Vec<Problem> {
    // A gauge section that was made up repeats the faults of the reading.
    let is_made_up = |fault: &Problem| !gauge_stated && fault.place.starts_with("/gauge");
    let (made_up, mut stated): (Vec<_>, Vec<_>) = faults.into_iter().partition(is_made_up);
    for fault in &mut stated {
        for (job, quick) in PLACES {
            if let Some(rest) = fault.place.strip_prefix(job) {
                fault.place = format!("{quick}{rest}");
                break;
            }
        }
    }
    if stated.is_empty() {
        stated.extend(made_up.into_iter().map(|mut fault| {
            "/reading".clone_into(&mut fault.place);
            fault
        }));
    }
    stated
}

fn quick(report: Report, stack_assumed: bool) -> Option<QuickReport> {
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
