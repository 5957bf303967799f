//! The clearance section of a document.

pub(crate) mod cooling;
pub(crate) mod crank_check;
pub(crate) mod gauge;
pub(crate) mod lock_nut;
pub(crate) mod metal;
pub(crate) mod readings;
pub(crate) mod rule;
pub(crate) mod shims;
pub(crate) mod specifications;
pub(crate) mod stops;
pub(crate) mod valves;

use crate::engine::{crank_train, cylinder};
use crate::part::Part;
use crate::place::Place;
use crate::problem::{Problem, is_short, value};
use crate::section::Section;
use crank_check::CrankCheckDoc;
use gauge::GaugeDoc;
use lashwork::diagnosis::Prior;
use lashwork::engine::Engine;
use lashwork::job::clearance::{Clearance, StopOptions, WarmQuestions};
use lashwork::thermal::Metal;
use metal::MetalDoc;
use readings::ReadingDoc;
use rule::RuleDoc;
use specifications::SpecificationDoc;
use stops::PlanDoc;
use valves::ValvesDoc;

parts! {
    /// Valve clearances: what is asked for, what was found, and what is at hand.
    ClearanceDoc {
        /// Its valves and how they are adjusted.
        valves: Part<ValvesDoc>,
        /// Every specification at hand.
        specifications: Part<Vec<Part<SpecificationDoc>>>,
        /// The feeler leaves at hand.
        gauge: Part<GaugeDoc>,
        /// The metal temperature.
        #[cfg_attr(feature = "schema", schemars(default))]
        metal: Part<MetalDoc>,
        /// The readings.
        readings: Part<Vec<Part<ReadingDoc>>>,
        /// The decision rule.
        #[cfg_attr(feature = "schema", schemars(default))]
        rule: Part<RuleDoc>,
        /// What the diagnosis over all readings starts from.
        #[cfg_attr(feature = "schema", schemars(default))]
        diagnosis: Part<DiagnosisDoc>,
        /// The cylinder to start with.
        #[cfg_attr(feature = "schema", schemars(default))]
        start: Part<String>,
        /// An assumed crank position and the rockers checked there.
        #[cfg_attr(feature = "schema", schemars(default))]
        crank_check: Part<CrankCheckDoc>,
        /// Where the crank can be stopped, and where it is now.
        #[cfg_attr(feature = "schema", schemars(default))]
        plan: Part<PlanDoc>,
        }
    /// What the diagnosis over all readings starts from.
    DiagnosisDoc {
        /// Probability, before any reading, of a systematic fault; 0.1 is assumed, and listed, if it is not stated.
        prior: f64,
    }
}

/// The section in typed values, with the engine as its cam ring completes it. Without an engine only
/// what needs none is checked.
pub(crate) fn clearance(
    Section(doc): Section<ClearanceDoc>,
    engine: Option<Engine>,
    problems: &mut Vec<Problem>,
) -> Option<(Engine, Clearance)> {
    let here = Place::Field(&Place::Document, "clearance");
    let valves = doc.valves.take(Some((&here, "valves")), problems);
    let valves = valves.and_then(|v| valves::valves(&v, problems));
    let specifications = doc
        .specifications
        .take(Some((&here, "specifications")), problems)
        .filter(|list| is_short(list, "/clearance/specifications", problems))
        .map(|list| specifications::all(list, problems));
    let gauge = doc.gauge.take(Some((&here, "gauge")), problems);
    let gauge_use = gauge
        .as_ref()
        .and_then(|g| gauge::gauge_use(g, "/clearance/gauge", problems));
    let leaves = gauge.and_then(|g| gauge::leaf_set(&g, "/clearance/gauge", problems));
    let ratio = valves.as_ref().and_then(|v| v.rocker_ratio);
    let metal = match doc.metal {
        Part::Missing => Some(((Metal::Unstated, None), WarmQuestions::default())),
        part => part
            .take(None, problems)
            .and_then(|m| metal::metal(m, ratio, problems)),
    };
    let rule = doc.rule.take(None, problems).map(rule::rule);
    let diagnosis = doc.diagnosis.take(None, problems);
    let prior =
        diagnosis.and_then(|d| value(problems, "/clearance/diagnosis/prior", Prior::new(d.prior)));
    let start = doc.start.take(None, problems);
    let start = match (&engine, start) {
        (Some(engine), Some(label)) => {
            cylinder(engine, &label, "/clearance/start", problems).map(Some)
        }
        _ => Some(None),
    };
    let stops = match (&engine, doc.plan.take(None, problems)) {
        (Some(engine), Some(doc)) => stops::plan(doc, start?, engine, problems),
        _ => Some(StopOptions {
            start: start?,
            ..StopOptions::default()
        }),
    };
    let list = doc
        .readings
        .take(Some((&here, "readings")), problems)
        .unwrap_or_default();
    let (known, leaves_known) = (engine.as_ref(), leaves.as_ref());
    let readings = readings::all(list, known, valves.as_ref(), leaves_known, problems);
    let asked = doc.crank_check.take(None, problems);
    let crank_check =
        asked.and_then(|doc| crank_check::check(doc, known, valves.as_ref(), problems));
    let ((metal, exhaust_metal), warmth) = metal?;
    let valves = valves?;
    let engine = crank_train::with_ring(engine?, valves.cam_ring, problems)?;
    let mut made = Clearance::new(specifications?, leaves?)
        .with_valves(valves.intake, valves.exhaust)
        .with_adjuster(valves.adjuster)
        .with_gauge_use(gauge_use?)
        .with_metal(metal)
        .with_warmth(warmth)
        .with_readings(readings)
        .with_stops(stops?);
    made.exhaust_metal = exhaust_metal;
    made.events = valves.events;
    made.guard = valves.guard;
    made.rocker_ratio = valves.rocker_ratio;
    made.rule = rule;
    made.prior = prior;
    made.crank_check = crank_check;
    Some((engine, made))
}
