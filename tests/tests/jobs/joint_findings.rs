//! What all readings, rockers and books say together: stop work first, odd valves by name, cautions
//! for this engine, and the record.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::clearance::Advice;
use lashwork::job::Report;
use lashwork::job::clearance::{StopWorkCode, ValveReport};
use lashwork_tests::{clearance, examples};
use serde_json::{Value, json};

fn example(name: &str) -> Value {
    let all = examples().into_iter();
    let mut found = all.filter(|(known, _)| known.strip_suffix(".json") == Some(name));
    serde_json::from_slice(&found.next().unwrap().1).unwrap()
}

fn report(document: &Value) -> Report {
    let answer = lashwork_wire::report(document.to_string().as_bytes());
    answer.unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn settles_first(valve: &ValveReport) -> bool {
    let mut advice = valve.judged.iter().map(|judged| &judged.advice);
    advice.all(|advice| matches!(advice, Advice::SettleFirst { .. }))
}

/// Bracket readings of the valves of a four-cylinder engine: cylinder, kind, what goes, what does not.
fn brackets(list: &[(&str, &str, &str, &str)]) -> Value {
    let one = |(cylinder, valve, goes, refuses): &(&str, &str, &str, &str)| json!({"cylinder": cylinder, "valve": valve, "goes": [goes], "refuses": [refuses]});
    list.iter().map(one).collect()
}

/// The inline four of the examples with these readings.
fn four(readings: &Value) -> Value {
    let mut document = example("inline-four");
    document["clearance"]["readings"] = readings.clone();
    document
}

/// An engine without limits by an oil of its own: intake and exhaust set values with half the band.
fn plain_four(intake: f64, exhaust: f64, half: f64, leaves: &[&str], readings: &Value) -> Value {
    let limits = |set: f64| {
        let mm = |x: f64| format!("{x:.3} mm");
        json!({"set_to": mm(set), "set": {"from": mm(set - half), "to": mm(set + half)}})
    };
    json!({
        "engine": {
            "cycle": "four_stroke",
            "cylinders": [{"label": "1"}, {"label": "2"}, {"label": "3"}, {"label": "4"}],
            "firing_order": ["1", "3", "4", "2"], "firing": "even", "numbering": "free_end",
            "rotation": {"sense": "clockwise", "seen_from": "free_end"}
        },
        "clearance": {
            "valves": {"intake_per_cylinder": 1, "exhaust_per_cylinder": 1},
            "specifications": [{
                "id": "book", "document": "Invented", "condition": "cold",
                "intake": limits(intake), "exhaust": limits(exhaust)
            }],
            "gauge": {"leaves": leaves, "stack_tolerance": "worst_case", "hand": "0 mm"},
            "readings": readings
        }
    })
}

#[test]
fn an_exchange_stands_first_and_takes_every_number_back() {
    let report = report(&example("exchanged-four"));
    let found = clearance(&report);
    assert_eq!(found.stop_work[0].code, StopWorkCode::Exchanged);
    assert_eq!(found.stop_work[0].valves.len(), 8);
    assert!(found.valves.iter().all(settles_first));
    let sheet = report.full_sheet();
    let (stop, cautions) = (
        sheet.find("STOP WORK").unwrap(),
        sheet.find("Cautions").unwrap(),
    );
    assert!(stop < cautions, "{sheet}");
    assert!(
        !sheet.contains("screw out") && !sheet.contains("screw in"),
        "{sheet}"
    );
}

#[test]
fn the_stops_start_where_the_rockers_show_the_crank_to_be() {
    let report = report(&example("inline-six-one-turn-out"));
    let found = clearance(&report);
    assert_eq!(found.stop_work[0].code, StopWorkCode::CrankElsewhere);
    let stops = serde_json::to_value(&found.stops).unwrap();
    let plans = stops["plans"].as_array().unwrap();
    assert!(!plans.is_empty());
    for plan in plans {
        let from = plan["from"]["deg"].as_f64().unwrap();
        assert!((from - 360.0).abs() < 1e-9, "{plan}");
    }
}

/// The twin's first book leaves alone what its second resets.
#[test]
fn two_books_that_disagree_on_a_valve_come_first() {
    // With the doubt of a cold that states no temperature, and of the hand, both books reset it.
    let mut document = example("upright-twin-warm");
    document["clearance"]["specifications"][1]["reference"] = json!("20 C");
    document["clearance"]["gauge"]["hand"] = json!("0 mm");
    let report = report(&document);
    let found = clearance(&report);
    let books = found.stop_work.iter();
    let books: Vec<_> = books
        .filter(|s| s.code == StopWorkCode::BooksDisagree)
        .collect();
    assert_eq!(books.len(), 1, "{:?}", found.stop_work);
    assert!(
        books[0].valves.contains(&"cylinder 1 intake".to_owned()),
        "{books:?}"
    );
    for valve in &found.valves {
        assert_eq!(
            books[0].valves.contains(&valve.name),
            settles_first(valve),
            "{valve:?}"
        );
    }
    // One line a kind.
    assert_eq!(found.disagreements.len(), 2, "{:?}", found.disagreements);
}

/// Two books that print the same in other units ask for the same thing.
#[test]
fn two_books_that_agree_stop_nothing() {
    let mut document = example("inline-four");
    let mut other = document["clearance"]["specifications"][0].clone();
    other["id"] = json!("reprint");
    let books = document["clearance"]["specifications"]
        .as_array_mut()
        .unwrap();
    books.push(other);
    let report = report(&document);
    let found = clearance(&report);
    assert!(found.stop_work.is_empty(), "{:?}", found.stop_work);
    assert!(found.disagreements.is_empty());
}

#[test]
fn no_shim_is_moved_by_numbers_that_are_taken_back() {
    let mut document = example("v-eight-shims");
    assert!(!clearance(&report(&document)).shim_plans.is_empty());
    document["clearance"]["crank_check"] = json!({
        "believed": {"cylinder": "1"},
        "rockers": [
            {"cylinder": "1", "valve": "intake", "rocker": "tight"},
            {"cylinder": "1", "valve": "exhaust", "rocker": "tight"}
        ]
    });
    let report = report(&document);
    let found = clearance(&report);
    assert!(found.valves.iter().all(settles_first));
    assert!(found.shim_plans.is_empty());
}

/// Another shim would hide why a valve is far from its kind; and its own shim serves no other valve.
#[test]
fn no_shim_is_planned_for_an_odd_valve() {
    let mut document = example("v-eight-shims");
    let mut readings = brackets(&[
        ("1", "intake", "0.25 mm", "0.28 mm"),
        ("2", "intake", "0.22 mm", "0.25 mm"),
        ("3", "intake", "0.25 mm", "0.28 mm"),
        ("4", "intake", "0.45 mm", "0.50 mm"),
        ("1", "exhaust", "0.35 mm", "0.38 mm"),
        ("2", "exhaust", "0.28 mm", "0.30 mm"),
        ("3", "exhaust", "0.35 mm", "0.38 mm"),
        ("4", "exhaust", "0.32 mm", "0.35 mm"),
    ]);
    for reading in readings.as_array_mut().unwrap() {
        reading["shim"] = json!("2.70 mm");
    }
    document["clearance"]["readings"] = readings;
    document["clearance"]["valves"]["shim"]["swap"] = json!("any");
    assert_eq!(odd(&document), ["cylinder 4 intake"]);
    let report = report(&document);
    let found = clearance(&report);
    assert!(found.stop_work.is_empty(), "{:?}", found.stop_work);
    let plan = &found.shim_plans[0];
    let left_out: Vec<&str> = plan.cannot.iter().map(|c| c.valve.as_str()).collect();
    assert_eq!(left_out, ["cylinder 4 intake"], "{plan:?}");
    assert!(plan.cannot[0].reason.contains("find the cause first"));
    assert!(plan.moves.iter().any(|m| m.valve == "cylinder 2 exhaust"));
    let steps = serde_json::to_string(&(&plan.moves, &plan.left_over)).unwrap();
    assert!(!steps.contains("cylinder 4 intake"), "{steps}");
    let mut valves = found.valves.iter();
    let last = valves.find(|v| v.name == "cylinder 4 intake").unwrap();
    let Advice::FindCause { text, causes, .. } = &last.judged[0].advice else {
        panic!("{:?}", last.judged[0].advice);
    };
    assert!(!text.contains("step"), "{text}");
    assert!(!causes.is_empty());
}

/// Without parts the shift of unnoticed warmth is what the kernel takes for a whole warm-up anywhere.
#[test]
fn unnoticed_warmth_is_as_large_as_anywhere_else() {
    use lashwork::thermal::{WARM_UP, unknown_shift};
    let readings: Vec<_> = SEVEN_RIGHT.to_vec();
    let leaves = [
        "0.18 mm", "0.20 mm", "0.22 mm", "0.28 mm", "0.30 mm", "0.32 mm",
    ];
    let document = plain_four(0.20, 0.30, 0.03, &leaves, &brackets(&readings));
    let report = report(&document);
    let model = &clearance(&report).diagnosis.as_ref().unwrap().model;
    let by = unknown_shift(WARM_UP).unwrap();
    assert!(
        (model.warmth_spread_mm - by.mm()).abs() < 1e-15,
        "{model:?}"
    );
    assert!(model.warmth_mean_mm.abs() < 1e-15);
    let listed = report.assumptions.iter();
    let mut listed = listed.filter(|a| a.text.contains("60 K"));
    let warmth = listed.next().unwrap();
    assert!(
        warmth.text.contains(&format!("{:.3}", by.mm())),
        "{warmth:?}"
    );
}

/// Exchanged and warm at once: both are named, as the first thing said.
#[test]
fn an_exchange_on_a_warm_engine_is_named_as_both() {
    let valves = [
        ("intake", "0.40 mm", "0.42 mm"),
        ("exhaust", "0.30 mm", "0.32 mm"),
    ];
    let mut list = Vec::new();
    for cylinder in ["1", "2", "3"] {
        list.extend(valves.map(|(kind, goes, refuses)| (cylinder, kind, goes, refuses)));
    }
    let leaves = ["0.30 mm", "0.32 mm", "0.40 mm", "0.42 mm"];
    let document = plain_four(0.20, 0.30, 0.05, &leaves, &brackets(&list));
    let report = report(&document);
    let found = clearance(&report);
    let [first, ..] = found.stop_work.as_slice() else {
        panic!("nothing stops the work");
    };
    assert_eq!(first.code, StopWorkCode::Several);
    for part in ["intake and exhaust swapped", "shifted alike, by about +0."] {
        assert!(first.text.contains(part), "{}", first.text);
    }
    assert!(found.valves.iter().all(settles_first));
}

const SEVEN_RIGHT: [(&str, &str, &str, &str); 7] = [
    ("1", "intake", "0.18 mm", "0.20 mm"),
    ("2", "intake", "0.18 mm", "0.20 mm"),
    ("3", "intake", "0.20 mm", "0.22 mm"),
    ("4", "intake", "0.18 mm", "0.20 mm"),
    ("1", "exhaust", "0.28 mm", "0.30 mm"),
    ("2", "exhaust", "0.30 mm", "0.32 mm"),
    ("3", "exhaust", "0.28 mm", "0.30 mm"),
];

fn odd(document: &Value) -> Vec<String> {
    let report = report(document);
    let diagnosis = clearance(&report).diagnosis.as_ref().unwrap();
    assert!(diagnosis.inspections.iter().all(|i| !i.look_at.is_empty()));
    let mut named: Vec<String> = diagnosis
        .inspections
        .iter()
        .map(|i| i.valve.clone())
        .collect();
    named.sort();
    named
}

#[test]
fn one_sunk_exhaust_among_seven_good_valves_is_named() {
    let mut list = SEVEN_RIGHT.to_vec();
    list.push(("4", "exhaust", "0.05 mm", "0.10 mm"));
    let document = four(&brackets(&list));
    assert_eq!(odd(&document), ["cylinder 4 exhaust"]);
    let report = report(&document);
    assert!(clearance(&report).stop_work.is_empty());
    let mut valves = clearance(&report).valves.iter();
    let last = valves.find(|v| v.name == "cylinder 4 exhaust").unwrap();
    let advice = &last.judged[0].advice;
    assert!(matches!(advice, Advice::FindCause { .. }), "{advice:?}");
    assert!(
        report.full_sheet().contains("seat"),
        "{}",
        report.full_sheet()
    );
}

#[test]
fn two_sunk_exhausts_are_both_named_and_no_unit_is_blamed() {
    let mut list = SEVEN_RIGHT[..6].to_vec();
    list.push(("3", "exhaust", "0.10 mm", "0.12 mm"));
    list.push(("4", "exhaust", "0.05 mm", "0.10 mm"));
    let document = four(&brackets(&list));
    assert_eq!(odd(&document), ["cylinder 3 exhaust", "cylinder 4 exhaust"]);
    let report = report(&document);
    let text = &clearance(&report).diagnosis.as_ref().unwrap().text;
    assert!(!text.contains("unit"), "{text}");
}

/// Two valves of the radial are named; a third, wholly under its band, is only measured once more, and stops
/// nothing.
#[test]
fn a_valve_that_stands_apart_is_measured_once_more() {
    let report = report(&example("radial-nine"));
    let found = clearance(&report);
    let apart = &found.diagnosis.as_ref().unwrap().stand_apart;
    let names: Vec<&str> = apart.iter().map(|a| a.valve.as_str()).collect();
    assert_eq!(names, ["cylinder 3 intake"]);
    assert!(!apart[0].looser);
    let stated = apart[0].probability;
    assert!((0.05..0.5).contains(&stated), "{stated}");
    assert!(
        apart[0].text.contains("measure it once more") && apart[0].text.contains(" %"),
        "{}",
        apart[0].text
    );
    assert!(report.full_sheet().contains("measure it once more"));
    assert!(found.stop_work.is_empty(), "{:?}", found.stop_work);
    let mut valves = found.valves.iter();
    let third = valves.find(|v| v.name == "cylinder 3 intake").unwrap();
    let advice = &third.judged[0].advice;
    assert!(!matches!(advice, Advice::FindCause { .. }), "{advice:?}");
}

#[test]
fn the_radials_and_the_twins_odd_valves_are_named() {
    assert_eq!(
        odd(&example("radial-nine")),
        ["cylinder 5 exhaust", "cylinder 9 exhaust"]
    );
    assert_eq!(
        odd(&example("v-twin")),
        ["cylinder front exhaust", "cylinder front intake"]
    );
}

/// Thousandths of an inch set where hundredths of a millimetre were meant, and the reverse with leaves
/// that end before the gap does.
#[test]
fn screws_set_in_the_wrong_unit_are_not_an_engine_that_is_not_cold() {
    let every = |intake: Value, exhaust: Value| -> Value {
        let mut list = Vec::new();
        for cylinder in ["1", "2", "3", "4"] {
            for (valve, found) in [("intake", &intake), ("exhaust", &exhaust)] {
                let mut one = found.clone();
                one["cylinder"] = json!(cylinder);
                one["valve"] = json!(valve);
                list.push(one);
            }
        }
        Value::Array(list)
    };
    let bracket = |goes: &str, refuses: &str| json!({"goes": [goes], "refuses": [refuses]});
    let wide = plain_four(
        0.20,
        0.30,
        0.03,
        &["0.50 mm", "0.55 mm", "0.75 mm", "0.80 mm"],
        &every(bracket("0.50 mm", "0.55 mm"), bracket("0.75 mm", "0.80 mm")),
    );
    let thin = plain_four(
        0.10,
        0.15,
        0.03,
        &["0.05 mm", "0.06 mm"],
        &every(json!({"nothing_goes": true}), bracket("0.05 mm", "0.06 mm")),
    );
    // Of a gap of 0.05 mm the leaves cannot tell: both stay open.
    for (document, rules_out_warmth) in [(wide, true), (thin, false)] {
        let report = report(&document);
        let found = clearance(&report);
        let diagnosis = serde_json::to_value(found.diagnosis.as_ref().unwrap()).unwrap();
        let first = &diagnosis["hypotheses"][0];
        assert_eq!(
            first["cause"],
            json!("unit_slip_all"),
            "{}",
            diagnosis["text"]
        );
        assert_eq!(first["worth_checking"], json!(true), "{diagnosis}");
        if !rules_out_warmth {
            // One look at a thermometer settles it.
            let check = diagnosis["tell_apart"].as_str().unwrap();
            assert!(check.contains("take the temperature"), "{check}");
            assert!(
                check.ends_with("it is all numbers in the wrong unit"),
                "{check}"
            );
            assert!(
                report
                    .full_sheet()
                    .contains("take the temperature of the metal")
            );
            continue;
        }
        assert_eq!(diagnosis["tell_apart"], Value::Null, "{diagnosis}");
        let not_cold = diagnosis["hypotheses"].as_array().unwrap().iter();
        let mut not_cold = not_cold.filter(|h| h["cause"] == json!("not_cold"));
        assert!(
            not_cold.all(|h| h["posterior"].as_f64().unwrap() < 0.05),
            "{diagnosis}"
        );
    }
}

/// Open plug leads: charm.li, 1988, 6 cylinders, ignition service precautions. Hydraulic lock: Historic
/// Aircraft Association. The rest is common practice, no source.
#[test]
fn every_engine_gets_five_to_eight_cautions_of_its_own() {
    for (name, bytes) in examples() {
        let report = lashwork_wire::report(&bytes).unwrap();
        let count = report.cautions.len();
        assert!((5..=8).contains(&count), "{name}: {count}");
    }
    let said = |document: &Value| report(document).cautions.join("\n");
    assert!(said(&example("radial-nine")).starts_with("Hydraulic lock"));
    assert!(said(&example("v-eight-shims")).contains("with a shim or bucket out"));
    assert!(said(&example("v-twin")).contains("valve no leaf passes"));
    assert!(!said(&example("exchanged-four")).contains("Hydraulic lock"));

    let mut boat = example("exchanged-four");
    boat["engine"]["machine"] = json!("boat");
    boat["engine"]["ignition"] = json!("diesel");
    boat["engine"]["started_by"] = json!("hand_crank");
    let text = said(&boat);
    for word in ["bilge", "decompressor", "thumb", "Before starting"] {
        assert!(text.contains(word), "{word}: {text}");
    }
    assert!(
        !text.contains("wheels") && !text.contains("ignition off"),
        "{text}"
    );
    let mut aircraft = example("exchanged-four");
    aircraft["engine"]["machine"] = json!("aircraft");
    aircraft["engine"]["ignition"] = json!("magneto");
    let text = said(&aircraft);
    assert!(
        text.contains("tail tied down") && text.contains("no key"),
        "{text}"
    );
    assert!(!text.contains("Gearbox"), "{text}");
}

#[test]
fn the_record_and_the_place_of_the_leaf_come_back() {
    let mut document = example("v-twin");
    document["record"] = json!({
        "date": "2 May", "hours": "310 h", "distance": "12 400 km", "gauge": "blue roll, no. 2", "by": "A."
    });
    let report = report(&document);
    assert_eq!(report.engine.number, Some(611));
    let sheet = report.full_sheet();
    for word in ["2 May", "310 h", "12 400 km", "blue roll", "by A.", "611"] {
        assert!(sheet.contains(word), "{word}: {sheet}");
    }
    assert!(
        sheet.contains("between rocker screw and valve stem"),
        "{sheet}"
    );
    let books = &clearance(&report).specifications;
    assert_eq!(
        books[0].measured_at.as_deref(),
        Some("between rocker screw and valve stem")
    );
}

#[test]
fn a_mark_in_front_of_the_text_is_read_over() {
    let text = example("inline-four").to_string();
    let marked = [b"\xef\xbb\xbf".as_slice(), text.as_bytes()].concat();
    assert_eq!(
        lashwork_wire::report(&marked),
        lashwork_wire::report(text.as_bytes())
    );
}

#[test]
fn no_message_repeats_a_long_label_in_full() {
    for long in ["x".repeat(100_000), "long label ".repeat(9_000)] {
        let mut document = example("inline-four");
        document["clearance"]["start"] = json!(long);
        document["engine"]["firing_order"][0] = json!(long);
        let problems = lashwork_wire::report(document.to_string().as_bytes()).unwrap_err();
        for problem in problems {
            assert!(problem.message.len() < 2_100, "{}", problem.message.len());
            assert!(problem.hint.len() < 2_100, "{}", problem.hint.len());
        }
    }
}

/// Where something is likelier than nothing, no number is followed, and what is probable is named as such.
#[test]
fn readings_that_fit_no_ordinary_engine_take_every_number_back() {
    let mut list = SEVEN_RIGHT.to_vec();
    list.push(("4", "exhaust", "0.28 mm", "0.30 mm"));
    list[2] = ("3", "intake", "0.28 mm", "0.30 mm");
    list[6] = ("3", "exhaust", "0.18 mm", "0.20 mm");
    let report = report(&four(&brackets(&list)));
    let found = clearance(&report);
    let diagnosis = found.diagnosis.as_ref().unwrap();
    assert!(diagnosis.nothing_special < 0.5, "{}", diagnosis.text);
    let worth = diagnosis.hypotheses.iter().filter(|h| h.worth_checking);
    assert_eq!(worth.count(), 0, "{}", diagnosis.text);
    let [stop] = found.stop_work.as_slice() else {
        panic!("{:?}", found.stop_work);
    };
    assert_eq!(stop.code, StopWorkCode::Exchanged);
    let probably = "probably intake and exhaust swapped in one cylinder: in cylinder 3";
    assert!(stop.text.starts_with(probably), "{}", stop.text);
    assert!(diagnosis.text.contains("probably"), "{}", diagnosis.text);
    assert!(found.valves.iter().all(settles_first));
}

/// What is exchanged in one cylinder says nothing against the others, nor do its valves count as odd.
#[test]
fn an_exchange_in_one_cylinder_takes_back_its_numbers_alone() {
    let (intake, exhaust) = (("0.14 mm", "0.16 mm"), ("0.39 mm", "0.41 mm"));
    let mut list = Vec::new();
    for cylinder in ["1", "2", "3", "4"] {
        let exchanged = cylinder == "3";
        for (valve, is_small) in [("intake", !exchanged), ("exhaust", exchanged)] {
            let (goes, refuses) = if is_small { intake } else { exhaust };
            list.push((cylinder, valve, goes, refuses));
        }
    }
    let leaves = ["0.14 mm", "0.16 mm", "0.39 mm", "0.41 mm"];
    let document = plain_four(0.15, 0.40, 0.02, &leaves, &brackets(&list));
    assert!(odd(&document).is_empty());
    let report = report(&document);
    let found = clearance(&report);
    let codes: Vec<_> = found.stop_work.iter().map(|s| s.code).collect();
    assert_eq!(codes, [StopWorkCode::Exchanged]);
    for valve in &found.valves {
        assert_eq!(settles_first(valve), valve.cylinder == "3", "{valve:?}");
    }
}

/// One rocker free leaves more than one place of the crank, two of one cylinder held at its firing TDC
/// leave none that is believed.
#[test]
fn a_crank_that_is_not_settled_stops_the_work() {
    let mut document = example("inline-four");
    document["clearance"]["crank_check"] = json!({
        "believed": {"cylinder": "1"},
        "rockers": [{"cylinder": "1", "valve": "intake", "rocker": "free"}]
    });
    let report = report(&document);
    let found = clearance(&report);
    assert_eq!(found.stop_work[0].code, StopWorkCode::CrankOpen);
    assert_eq!(found.stop_work[0].valves.len(), found.valves.len());
    assert!(found.valves.iter().all(settles_first));
}

/// Both books reset the valve: to values that the other does not allow the work stops, to values that
/// both allow it goes on.
#[test]
fn two_books_that_reset_a_valve_to_different_gaps_come_first() {
    for (set_to, from, to, stops) in [
        ("0.28 mm", "0.26 mm", "0.30 mm", true),
        ("0.21 mm", "0.19 mm", "0.23 mm", false),
    ] {
        let mut document = four(&brackets(&[("1", "intake", "0.35 mm", "0.40 mm")]));
        let mut other = document["clearance"]["specifications"][0].clone();
        other["id"] = json!("other");
        other["intake"] = json!({"set_to": set_to, "set": {"from": from, "to": to}});
        let books = document["clearance"]["specifications"].as_array_mut();
        books.unwrap().push(other);
        let report = report(&document);
        let found = clearance(&report);
        let codes: Vec<_> = found.stop_work.iter().map(|s| s.code).collect();
        let expected: &[StopWorkCode] = if stops {
            &[StopWorkCode::BooksDisagree]
        } else {
            &[]
        };
        assert_eq!(codes, expected, "{set_to}");
        assert_eq!(settles_first(&found.valves[0]), stops, "{set_to}");
    }
}

/// 0.20 mm over the value to set is no reason alone to look for a cause, but is among seven that are
/// right.
#[test]
fn a_valve_unlike_its_kind_gets_its_cause_found_before_it_is_set() {
    let mut list = SEVEN_RIGHT.to_vec();
    list.push(("4", "exhaust", "0.50 mm", "0.52 mm"));
    let mut document = four(&brackets(&list));
    let leaves = document["clearance"]["gauge"]["leaves"].as_array_mut();
    leaves.unwrap().extend([json!("0.50 mm"), json!("0.52 mm")]);
    assert_eq!(odd(&document), ["cylinder 4 exhaust"]);
    let advice = |document: &Value| {
        let report = report(document);
        let mut valves = clearance(&report).valves.iter();
        let last = valves.find(|v| v.name == "cylinder 4 exhaust").unwrap();
        last.judged[0].advice.clone()
    };
    let among = advice(&document);
    let Advice::FindCause { text, causes, .. } = &among else {
        panic!("{among:?}")
    };
    assert!(text.contains("looser than the rest of its kind"), "{text}");
    assert!(!causes.is_empty());
    // Alone it is only reset.
    document["clearance"]["readings"] = brackets(&list[7..]);
    assert!(matches!(advice(&document), Advice::Reset(_)));
}

/// On an engine that spreads widely all over, one more wide gap is not unlike the rest.
#[test]
fn on_a_neglected_engine_a_wide_gap_is_not_odd() {
    let gaps = [
        ("1", "intake", "0.11 mm", "0.13 mm"),
        ("2", "intake", "0.16 mm", "0.18 mm"),
        ("3", "intake", "0.22 mm", "0.24 mm"),
        ("4", "intake", "0.37 mm", "0.39 mm"),
        ("1", "exhaust", "0.19 mm", "0.21 mm"),
        ("2", "exhaust", "0.25 mm", "0.27 mm"),
        ("3", "exhaust", "0.33 mm", "0.35 mm"),
        ("4", "exhaust", "0.39 mm", "0.41 mm"),
    ];
    let leaves: Vec<String> = (10..45).map(|n| format!("0.{n} mm")).collect();
    let leaves: Vec<&str> = leaves.iter().map(String::as_str).collect();
    let document = plain_four(0.20, 0.30, 0.02, &leaves, &brackets(&gaps));
    assert!(odd(&document).is_empty(), "{:?}", odd(&document));
}

/// Hot metal is warned of from 45 C on, and where a book asks for a hot engine.
#[test]
fn hot_metal_is_warned_of_where_it_is_hot() {
    let warns = |document: &Value| {
        let cautions = report(document).cautions;
        cautions
            .iter()
            .any(|caution| caution.starts_with("Hot metal"))
    };
    let mut document = example("inline-four");
    document["clearance"]["readings"] = json!([]);
    for (celsius, hot) in [(44.0, false), (46.0, true)] {
        document["clearance"]["metal"] = json!({"temperature": {"is": {"C": celsius}}});
        assert_eq!(warns(&document), hot, "{celsius}");
    }
    document["clearance"]["metal"] = json!({"temperature": {"is": "20 C"}});
    document["clearance"]["specifications"][0]["condition"] = json!("hot");
    assert!(warns(&document));
}

/// Cylinders that lie opposite each other are no star: oil does not run into any of them.
#[test]
fn a_flat_engine_is_not_warned_of_hydraulic_lock() {
    let mut document = plain_four(0.20, 0.30, 0.02, &["0.20 mm", "0.30 mm"], &json!([]));
    let places = [
        ("0 deg", "0 deg"),
        ("180 deg", "0 deg"),
        ("0 deg", "180 deg"),
        ("180 deg", "180 deg"),
    ];
    for (i, (bank, crankpin)) in places.into_iter().enumerate() {
        document["engine"]["cylinders"][i]["bank"] = json!(bank);
        document["engine"]["cylinders"][i]["crankpin"] = json!(crankpin);
    }
    let cautions = report(&document).cautions.join("\n");
    assert!(!cautions.contains("Hydraulic lock"), "{cautions}");
}
