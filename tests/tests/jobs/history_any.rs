//! Past services nobody meant: nothing panics, and every reading is used, or refused where it stands.
#![allow(
    clippy::panic,
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "a document that does not come apart as written is a broken test"
)]

use lashwork_tests::refusals::example;
use proptest::prelude::*;
use serde_json::{Map, Value, json};

fn one_of(texts: &'static [&'static str]) -> impl Strategy<Value = Value> {
    prop::sample::select(texts).prop_map(|text| json!(text))
}

/// Numbers in the units of a quantity and out of them, at their edges and beyond.
fn shown() -> impl Strategy<Value = Value> {
    prop_oneof![
        8 => (0.0..400.0_f64, one_of(&["kPa", "deg", "deg BTDC", "mm2", "mm", "psi", "%"])).prop_map(
            |(number, unit)| json!(format!("{number:.2} {}", unit.as_str().unwrap_or_default()))
        ),
        1 => one_of(&["", "-1 mm2", "1e999 kPa", "NaN deg", "0 mm", "48", "\u{0} deg", "999999999 kPa"]),
        1 => one_of(&["0.20 mm", "48 deg", "1000 kPa", "0.5 mm2", "8 deg BTDC"]),
    ]
}

fn read(field: &'static str) -> impl Strategy<Value = Value> {
    let extra = prop::option::weighted(
        0.3,
        one_of(&["0.01 mm", "1 deg", "10 kPa", "0.1 mm2", "0 kPa", "-1 deg"]),
    );
    (shown(), extra).prop_map(move |(value, extra)| {
        let mut made = Map::new();
        made.insert(field.to_owned(), value);
        made.extend(extra.map(|u| ("uncertainty".to_owned(), u)));
        Value::Object(made)
    })
}

/// What was found and left at one thing; `right` reads as it should be written, if it is drawn.
fn visit(field: &'static str, right: &'static str) -> impl Strategy<Value = Value> {
    let good = (0.5..2.0_f64).prop_map(move |by| {
        let (number, unit) = right.split_once(' ').expect("a unit");
        let number: f64 = number.parse().expect("a number");
        json!({ field: format!("{:.3} {unit}", number * by) })
    });
    let any = prop_oneof![80 => good.boxed(), 1 => read(field).boxed()];
    let cylinder = prop_oneof![80 => one_of(&["1", "2", "3", "4"]), 1 => one_of(&["5", "", "1 "])];
    (
        cylinder,
        prop::option::weighted(0.9, any.clone()),
        prop::option::weighted(0.15, any),
        prop::option::weighted(
            0.2,
            prop_oneof![20 => one_of(&["set", "renewed"]), 1 => one_of(&["mended"])],
        ),
    )
        .prop_map(|(cylinder, found, left, done)| {
            let mut made = json!({ "cylinder": cylinder });
            for (name, value) in [("found", found), ("left", left), ("done", done)] {
                if let Some(value) = value {
                    made[name] = value;
                }
            }
            made
        })
}

fn service() -> impl Strategy<Value = Value> {
    let list = |one: BoxedStrategy<Value>| prop::collection::vec(one, 0..4);
    let lash =
        (visit("lash", "0.2 mm"), one_of(&["intake", "exhaust"])).prop_map(|(mut one, valve)| {
            one["valve"] = valve;
            one
        });
    let tester = prop::option::weighted(
        0.3,
        prop_oneof![
            9 => Just(json!({ "orifice": "1 mm" })),
            9 => Just(json!({ "name": "the old one" })),
            1 => Just(json!({})),
        ],
    );
    (
        0..40_u32,
        list(lash.boxed()),
        list(visit("shows", "1000 kPa").boxed()),
        list(visit("shows", "0.5 mm2").boxed()),
        prop::collection::vec(visit("shows", "48 deg"), 0..2),
        tester,
        prop::option::weighted(0.03, one_of(&["12 km", "-3 km", "1000 h", "", "70000 mi"])),
    )
        .prop_map(|(at, lash, compression, leak, dwell, tester, odd)| {
            let mut made = json!({
                "distance": odd.unwrap_or_else(|| json!(format!("{} km", 40_000 + 1000 * at))),
                "lash": lash, "compression": compression, "leak_area": leak, "dwell": dwell
            });
            if let Some(tester) = tester {
                made["leak_tester"] = tester;
            }
            made
        })
}

/// How many readings of a quantity a list of services holds.
fn written(services: &Value, field: &str) -> usize {
    let services = services.as_array().map_or(&[][..], Vec::as_slice);
    let visits = services
        .iter()
        .filter_map(|one| one[field].as_array())
        .flatten();
    visits
        .map(|visit| {
            ["found", "left"]
                .iter()
                .filter(|name| visit.get(**name).is_some())
                .count()
        })
        .sum()
}

/// In the order of time, each thing once in a service, as services usually are.
fn tidy(services: &mut [Value]) {
    let kilometres = |one: &Value| {
        let text = one["distance"]
            .as_str()
            .and_then(|text| text.split_once(' '));
        text.and_then(|(number, _)| number.parse::<i32>().ok())
    };
    services.sort_by_key(kilometres);
    for field in ["lash", "compression", "leak_area", "dwell"] {
        for service in services.iter_mut() {
            let visits = service[field].as_array_mut().into_iter().flatten();
            for (i, visit) in visits.enumerate() {
                visit["cylinder"] = json!((i + 1).to_string());
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    /// An answer holds every reading that was written down; a refusal stands in the section, at a place that is there.
    #[test]
    fn every_past_reading_is_used_or_refused_where_it_stands(
        mut services in prop::collection::vec(service(), 0..6),
        is_tidy in any::<bool>(),
    ) {
        if is_tidy {
            tidy(&mut services);
        }
        let mut document = example("inline-four-with-history.json");
        document["record"] = json!({});
        document["history"] = json!({ "services": services });
        match lashwork_wire::report(document.to_string().as_bytes()) {
            Ok(report) => {
                let told = report.history.as_ref().expect("asked for");
                for (field, found) in [
                    ("lash", &told.lash),
                    ("compression", &told.compression),
                    ("leak_area", &told.leak_area),
                    ("dwell", &told.dwell),
                ] {
                    let subjects = found.iter().flat_map(|one| &one.subjects);
                    let used: usize = subjects.map(|one| one.chart.readings.len()).sum();
                    prop_assert_eq!(used, written(&document["history"]["services"], field), "{}", field);
                }
                prop_assert!(!report.sheet().is_empty() && !report.full_sheet().is_empty());
            }
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                for problem in problems {
                    prop_assert!(problem.place.starts_with("/history"), "{problem:?}");
                    // The place, or for what is missing there the one that lacks it.
                    let (above, _) = problem.place.rsplit_once('/').unwrap_or_default();
                    let is_there = document.pointer(&problem.place).or_else(|| document.pointer(above));
                    prop_assert!(is_there.is_some(), "{problem:?}");
                    prop_assert!(!problem.hint.is_empty(), "{problem:?}");
                }
            }
        }
    }
}
