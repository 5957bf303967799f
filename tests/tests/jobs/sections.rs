//! Only the engine is needed; each section is answered by itself, and an answer is bounded.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first surprise"
)]

use approx::abs_diff_eq;
use lashwork::clearance::AsFound;
use lashwork::engine::{CylinderIndex, Engine};
use lashwork::feeler::{Leaf, LeafSet};
use lashwork::job::clearance::{Clearance, MAX_JUDGEMENTS, ValveReading};
use lashwork::job::{Request, run};
use lashwork::quantity::{Marked, Temperature};
use lashwork::tolerance::Limits;
use lashwork::valve::{Condition, Specification, ValveId, ValveKind, ValveLimits};
use lashwork_tests::refusals::{example, only, put};
use serde_json::{Value, json};

/// An invented engine of so many cylinders and nothing else.
fn alone(cycle: &str, count: usize) -> Value {
    let labels: Vec<String> = (1..=count).map(|n| n.to_string()).collect();
    let cylinders: Vec<Value> = labels.iter().map(|l| json!({ "label": l })).collect();
    json!({
        "engine": {
            "cycle": cycle,
            "cylinders": cylinders,
            "firing_order": labels,
            "firing": "even",
            "rotation": { "sense": "clockwise", "seen_from": "free_end" },
            "numbering": "free_end",
            "pulley_diameter": "100 mm",
        }
    })
}

fn answer(document: &Value) -> Value {
    serde_json::from_slice(&lashwork_wire::run(document.to_string().as_bytes())).unwrap()
}

/// Equal parts of a turn; the rotor of a two-stroke turns as fast as its crank, that of a four-stroke
/// half as fast. Geometry.
#[test]
fn an_engine_alone_is_answered_with_what_fires_when() {
    for (cycle, turn, rotor) in [("two_stroke", 360.0, 1.0), ("four_stroke", 720.0, 0.5)] {
        let report = answer(&alone(cycle, 3));
        assert!(report["report"]["clearance"].is_null(), "{report}");
        let firing = report["report"]["engine"]["firing"].as_array().unwrap();
        for (i, fires) in (0_u8..).zip(firing) {
            let at = turn / 3.0 * f64::from(i);
            let deg = |key: &str| fires[key]["deg"].as_f64().unwrap();
            assert!(abs_diff_eq!(deg("top"), at, epsilon = 1e-9), "{fires}");
            assert!(
                abs_diff_eq!(deg("rotor"), rotor * at, epsilon = 1e-9),
                "{fires}"
            );
            let rim = std::f64::consts::PI * 100.0 * (at % 360.0) / 360.0;
            let mark = fires["pulley_mark_mm"].as_f64().unwrap();
            assert!(abs_diff_eq!(mark, rim, epsilon = 1e-9), "{fires}");
        }
        assert_eq!(firing.len(), 3);
        let sheet = lashwork_wire::job_sheet(alone(cycle, 3).to_string().as_bytes()).unwrap();
        assert!(sheet.contains("rotor"), "{sheet}");
    }
}

#[test]
fn valves_of_a_two_stroke_are_refused_with_a_way_out() {
    let mut document = alone("two_stroke", 3);
    let four = example("inline-four.json");
    put(&mut document, "/clearance", four["clearance"].clone());
    put(&mut document, "/clearance/readings", json!([]));
    let bytes = document.to_string();
    let problem = only(
        bytes.as_bytes(),
        "/clearance/valves",
        "valve.not-four-stroke",
    );
    assert!(
        problem.hint.contains("leave the valve clearances out"),
        "{problem:?}"
    );
}

fn limits() -> ValveLimits {
    let mark = |text| Marked::parse(text).unwrap();
    let band = Limits::between(mark("0.15 mm"), mark("0.25 mm")).unwrap();
    ValveLimits::new(mark("0.20 mm"), band, None).unwrap()
}

fn asked(specifications: Vec<Specification>) -> Clearance {
    let leaf = Leaf::new(Marked::parse("0.20 mm").unwrap());
    Clearance::new(specifications, LeafSet::new(vec![leaf]).unwrap())
}

/// What the kernel takes for granted stands in the list for callers with typed values, too.
#[test]
fn a_rust_caller_is_told_what_was_assumed() {
    let book = Specification::cold("book", "Invented book", limits());
    let valve = ValveId {
        cylinder: CylinderIndex::new(0),
        kind: ValveKind::Intake,
        number: 1,
    };
    let found = AsFound::new("0.18 mm goes, 0.22 mm does not".parse().unwrap());
    let readings = vec![ValveReading {
        valve,
        found,
        left: None,
    }];
    let asked = asked(vec![book]).with_readings(readings);
    let request = Request::new(Engine::inline_four_stroke(&[1]).unwrap()).with_clearance(asked);
    let report = run(&request).unwrap();
    let codes: Vec<&str> = report.assumptions.iter().map(|a| a.code.as_str()).collect();
    for code in ["tolerance.reference", "tolerance.rule", "feeler.tolerance"] {
        assert!(codes.contains(&code), "{codes:?}");
    }
    let taken = report.clearance.unwrap().specifications[0].reference;
    assert_eq!(taken, Some(Temperature::ISO_1));
}

#[test]
fn hot_limits_without_their_temperature_judge_nothing_for_a_rust_caller_too() {
    let mut hot = Specification::cold("hot", "Invented book", limits());
    hot.condition = Condition::Hot;
    let request =
        Request::new(Engine::inline_four_stroke(&[1]).unwrap()).with_clearance(asked(vec![hot]));
    let section = run(&request).unwrap().clearance.unwrap();
    let off = section.specifications[0].not_at_reference.unwrap();
    assert_eq!((off.is, off.reference), (None, None));
}

/// 100 valves by 100 books would be 10,000 judgements and an answer a thousand times as long as the
/// question.
#[test]
fn an_answer_of_too_many_judgements_is_refused_with_the_reason() {
    let mut document = alone("four_stroke", 50);
    let four = example("inline-four.json");
    put(&mut document, "/clearance", four["clearance"].clone());
    let one = four["clearance"]["specifications"][0].clone();
    let many = (0..100).map(|i| {
        let mut book = one.clone();
        put(&mut book, "/id", json!(i.to_string()));
        put(&mut book, "/engine_numbers", Value::Null);
        book
    });
    put(
        &mut document,
        "/clearance/specifications",
        json!(many.collect::<Vec<_>>()),
    );
    let read = |n: usize, valve: &str| json!({ "cylinder": n.to_string(), "valve": valve, "goes": ["0.15 mm"] });
    let readings: Vec<Value> = (1..=50)
        .flat_map(|n| [read(n, "intake"), read(n, "exhaust")])
        .collect();
    put(&mut document, "/clearance/readings", json!(readings));
    let bytes = document.to_string();
    let place = "/clearance/specifications";
    let problem = only(bytes.as_bytes(), place, "job.too-many-judgements");
    assert!(
        problem.message.contains(&MAX_JUDGEMENTS.to_string()),
        "{problem:?}"
    );
}
