//! One valve without an engine: limits and what was found in, a verdict and advice out.

use crate::clearance::gauge::{GaugeDoc, gauge_use, leaf_set};
use crate::clearance::metal::{OneRuleDoc, one_rule};
use crate::clearance::readings::{FoundDoc, as_found};
use crate::clearance::rule::{RuleDoc, rule};
use crate::clearance::shims::{OneShimDoc, ShimDoc};
use crate::clearance::specifications::{LimitsDoc, limits};
use crate::clearance::valves::{ScrewDoc, adjuster};
use crate::document::{UnitsDoc, units};
use crate::json::{self, Json};
use crate::part::Part;
use crate::place::Place;
use crate::problem::{Problem, missing, value};
use crate::quantity::Q;
use crate::read::{Fielded, Fields};
use crate::word::W;
use lashwork::feeler::{Leaf, LeafSet};
use lashwork::job;
use lashwork::job::clearance::{OneValve, OneValveReport};
use lashwork::quantity::{Marked, Temperature};
use lashwork::valve::{Condition, ValveKind};

parts! {
    /// One valve to judge.
    QuickDoc {
        /// Intake or exhaust: whose limits these are.
        valve: W<ValveKind>,
        limits: LimitsDoc,
        /// The temperature for which the limits hold; for a cold engine 20 C is assumed, and listed, if it
        /// is not stated.
        reference: Option<Q<Temperature>>,
        /// Whether the limits hold for a cold or a hot engine; if not stated, cold.
        condition: Option<W<Condition>>,
        reading: FoundDoc,
        /// The leaves at hand; if not stated, those of the reading are used.
        gauge: Part<GaugeDoc>,
        metal: Part<OneRuleDoc>,
        screw: Option<ScrewDoc>,
        shim: Option<OneShimDoc>,
        /// Valve movement over cam-side movement.
        rocker_ratio: Option<f64>,
        rule: Part<RuleDoc>,
        /// In which units texts say lengths and temperatures; numbers of the answer stay in SI units.
        units: Part<UnitsDoc>,
    }
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
/// assert!(report.judged.advice.text().contains("screw out"));
///
/// let torn = lashwork_wire::quick_report(b"{ \"valve\": \"intake\" }").unwrap_err();
/// assert_eq!(torn[0].code, "document.missing-field");
/// # Ok::<(), String>(())
/// ```
pub fn quick_report(check: &[u8]) -> Result<OneValveReport, Vec<Problem>> {
    json::read(check, |value, problems| {
        let asked = ask(value, problems).filter(|_| problems.is_empty())?;
        let judged = asked.judged().map_err(|problem| {
            let place = pointer(&problem.place);
            problems.push(Problem::of(problem, place));
        });
        judged.ok()
    })
}

/// Where a place of the one valve stands in its check.
fn pointer(place: &job::Place) -> String {
    match place {
        job::Place::Reading(_) => "/reading".into(),
        job::Place::ReadingShim(_) => "/reading/shim".into(),
        job::Place::ReadingShimUncertainty(_) => "/reading/shim_uncertainty".into(),
        job::Place::RockerRatio => "/rocker_ratio".into(),
        job::Place::Metal => "/metal".into(),
        _ => String::new(),
    }
}

fn ask(check: &Json, problems: &mut Vec<Problem>) -> Option<OneValve> {
    let Json::Object(object) = check else {
        problems.push(Problem::new(
            "",
            "document.wrong-type",
            "the quick check is not an object",
            "write a JSON object with \"valve\", \"limits\" and \"reading\"",
        ));
        return None;
    };
    let here = Place::Document;
    let fields = Fields::of_object(object, QuickDoc::FIELDS, &here, problems);
    let QuickDoc {
        valve: W(kind),
        limits: limits_doc,
        reference,
        condition,
        reading,
        gauge,
        metal,
        screw,
        shim,
        rocker_ratio,
        rule: rule_doc,
        units: units_doc,
    } = QuickDoc::of_fields(&fields, problems)?;
    let before = problems.len();
    let (gauge, metal, rule_doc, units_doc) = (
        gauge.take(None, problems),
        metal.take(None, problems),
        rule_doc.take(None, problems),
        units_doc.take(None, problems),
    );
    if problems.len() > before {
        return None;
    }
    let limits = limits(&limits_doc, "/limits", problems);
    let shim = shim.map(ShimDoc::from);
    let adjuster = adjuster(screw.as_ref(), shim.as_ref(), "", problems);
    let metal = metal.map(|metal| one_rule(metal, rocker_ratio, "/metal", problems));
    let leaves = match &gauge {
        Some(gauge) => leaf_set(gauge, "/gauge", problems),
        None => own_leaves(&reading, problems),
    };
    let before = problems.len();
    let used = gauge
        .as_ref()
        .and_then(|gauge| gauge_use(gauge, "/gauge", problems));
    if problems.len() > before {
        return None;
    }
    let found = leaves.and_then(|set| {
        let found = as_found(&reading, &set, "/reading", problems)?;
        Some((found, set))
    });
    let (found, leaves) = found?;
    let mut one = OneValve::new(found, limits?);
    one.kind = Some(kind);
    one.reference = reference.map(|t| t.0);
    one.condition = condition.map(|c| c.0);
    one.leaves = gauge.as_ref().map(|_| leaves);
    one.gauge_use = used;
    one.adjuster = adjuster?;
    one.rocker_ratio = rocker_ratio;
    if let Some(metal) = metal {
        let (intake, exhaust) = metal?;
        one.metal = match kind {
            ValveKind::Intake => intake,
            ValveKind::Exhaust => exhaust.unwrap_or(intake),
        };
    }
    one.rule = rule_doc.map(rule);
    one.units = units_doc.map(|doc| units(&doc)).unwrap_or_default();
    Some(one)
}

/// The leaves a reading names, each thickness once, where no gauge is given.
fn own_leaves(reading: &FoundDoc, problems: &mut Vec<Problem>) -> Option<LeafSet> {
    let lists = [&reading.goes, &reading.refuses, &reading.drags];
    let marks = lists.into_iter().flatten().flatten().map(|q| q.0);
    let mut once: Vec<Marked> = Vec::new();
    for mark in marks {
        if once.iter().all(|seen| seen.nominal() != mark.nominal()) {
            once.push(mark);
        }
    }
    if once.is_empty() {
        problems.push(missing(&Place::Document, "gauge"));
        return None;
    }
    let leaves = once.into_iter().map(Leaf::new).collect();
    value(problems, "/reading", LeafSet::new(leaves))
}
