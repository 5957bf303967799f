//! Metal that is not at the temperature of a book, with nothing to say how the lash follows: no reading
//! is judged. The engine is invented; the sizes are from published pairs of figures.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first surprise"
)]

use approx::assert_abs_diff_eq;
use lashwork_tests::refusals::{example, problems, put, with};
use serde_json::{Value, json};

/// A four whose valves are all right by hot figures of 0.19 and 0.29 mm, and loose by its cold book.
fn four(condition: &str, reference: Value, metal: Value) -> Value {
    let limits = |set_to: f64| {
        let mm = |x: f64| format!("{x:.2} mm");
        json!({ "set_to": mm(set_to),
            "set": { "from": mm(set_to - 0.02), "to": mm(set_to + 0.02) } })
    };
    let mut book = json!({ "id": "book", "document": "Invented book", "condition": condition,
        "intake": limits(0.15), "exhaust": limits(0.25) });
    if !reference.is_null() {
        put(&mut book, "/reference", reference);
    }
    let mut readings = Vec::new();
    for cylinder in ["1", "2", "3", "4"] {
        for (valve, goes, refuses) in [("intake", 0.18, 0.20), ("exhaust", 0.28, 0.30)] {
            let leaf = |mm: f64| json!([format!("{mm:.2} mm")]);
            readings.push(json!({ "cylinder": cylinder, "valve": valve,
                "goes": leaf(goes), "refuses": leaf(refuses) }));
        }
    }
    let leaves: Vec<String> = (12..32)
        .map(|n| format!("{:.2} mm", f64::from(n) / 100.0))
        .collect();
    let mut document = with(
        example("inline-four.json"),
        &[
            ("/clearance/specifications", json!([book])),
            ("/clearance/gauge/leaves", json!(leaves)),
            ("/clearance/gauge/tolerance", json!("0 mm")),
            ("/clearance/readings", json!(readings)),
        ],
    );
    let clearance = document["clearance"].as_object_mut().unwrap();
    clearance.remove("metal");
    if !metal.is_null() {
        clearance.insert("metal".into(), metal);
    }
    document
}

fn report(document: &Value) -> Value {
    let answer = lashwork_wire::run(document.to_string().as_bytes());
    let answer: Value = serde_json::from_slice(&answer).unwrap();
    assert!(answer["report"].is_object(), "{answer}");
    answer["report"].clone()
}

/// Each valve's verdict and how to measure again, all alike.
fn all_say(document: &Value, how: &str) -> Value {
    let report = report(document);
    let valves = report["clearance"]["valves"].as_array().unwrap();
    assert_eq!(valves.len(), 8);
    for valve in valves {
        let judged = &valve["judged"][0];
        assert_eq!(judged["verdict"], "cannot_say", "{judged}");
        assert_eq!(judged["advice"]["action"], "measure", "{judged}");
        assert_eq!(judged["advice"]["how"], how, "{judged}");
    }
    let codes = report["assumptions"].to_string();
    assert!(codes.contains("thermal.unknown-shift"), "{codes}");
    report
}

fn at(celsius: f64) -> Value {
    json!({ "temperature": { "is": { "C": celsius }, "uncertainty": "2 K" } })
}

#[test]
fn a_hot_engine_is_not_judged_by_a_cold_book() {
    let report = all_say(&four("cold", json!("20 C"), at(64.0)), "let_it_cool");
    let off = &report["clearance"]["specifications"][0]["not_at_reference"];
    assert_eq!(off["is"]["celsius"], 64.0);
    // 44 K of the 60 K over which the published figures change by about 0.1 mm.
    let u = off["uncertainty_mm"].as_f64().unwrap();
    assert!((u - 0.1 * 44.0_f64.hypot(2.0) / 60.0).abs() < 1e-12, "{u}");
    // The published changes are no further off than two standard uncertainties of a whole warm-up.
    let judged = &report["clearance"]["valves"][0]["judged"][0];
    assert_eq!(judged["warmth_uncertainty_mm"].as_f64(), Some(u));
    let text = judged["advice"]["text"].as_str().unwrap();
    assert!(text.contains("64 C") && text.contains("20 C"), "{text}");
    let together = report["clearance"]["diagnosis"]["text"].as_str().unwrap();
    assert!(together.contains("not at the temperature"), "{together}");
}

#[test]
fn a_cold_engine_is_not_judged_by_a_hot_book() {
    for metal in [at(20.0), Value::Null] {
        let document = four("hot", json!("80 C"), metal);
        let report = all_say(&document, "at_book_temperature");
        let text = report["clearance"]["valves"][0]["judged"][0]["advice"]["text"].to_string();
        assert!(text.contains("80 C"), "{text}");
    }
}

/// A book that says hot and no temperature is accepted, and nothing is judged by it.
#[test]
fn hot_without_a_temperature_judges_nothing() {
    for metal in [at(20.0), at(80.0), Value::Null] {
        let report = all_say(&four("hot", Value::Null, metal), "at_book_temperature");
        let book = &report["clearance"]["specifications"][0];
        assert!(book["reference"].is_null(), "{book}");
    }
}

/// A temperature that is hardly known does not put the metal at the reference.
#[test]
fn metal_of_a_doubtful_temperature_is_not_at_the_reference() {
    let metal = json!({ "temperature": { "is": "22 C", "uncertainty": "20 K" } });
    all_say(&four("cold", json!("20 C"), metal), "let_it_cool");
}

/// Near the reference, or with a book and an engine that are only said to be cold, the verdict stands.
#[test]
fn metal_near_the_reference_is_judged() {
    for (reference, metal) in [
        (json!("20 C"), at(24.0)),
        (json!("20 C"), Value::Null),
        (Value::Null, at(29.0)),
        (Value::Null, Value::Null),
    ] {
        let report = report(&four("cold", reference, metal));
        let valves = report["clearance"]["valves"].as_array().unwrap();
        assert!(valves.iter().all(|v| v["judged"][0]["verdict"] == "above"));
        assert!(report["clearance"]["specifications"][0]["not_at_reference"].is_null());
    }
}

/// With a rule the same reading is judged.
#[test]
fn a_measured_rule_lets_a_hot_engine_be_judged() {
    let mut metal = at(64.0);
    let measured =
        |at: &str, lash: &str| json!({ "at": at, "lash": lash, "uncertainty": "0.001 mm" });
    put(
        &mut metal,
        "/measured",
        json!([measured("20 C", "0.15 mm"), measured("64 C", "0.19 mm")]),
    );
    let report = report(&four("cold", json!("20 C"), metal));
    assert_eq!(
        report["clearance"]["valves"][0]["judged"][0]["verdict"],
        "in_band"
    );
}

/// The same by a quick check, which may say that its limits are for a hot engine.
#[test]
fn a_quick_check_holds_nothing_against_another_temperature_either() {
    let check = |more: &[(&str, Value)]| {
        let check = json!({ "valve": "intake",
            "limits": { "set_to": "0.20 mm", "set": { "from": "0.15 mm", "to": "0.25 mm" } },
            "reading": { "goes": ["0.18 mm"], "refuses": ["0.20 mm"] } });
        let check = with(check, more);
        let answer = lashwork_wire::quick_check(check.to_string().as_bytes());
        let answer: Value = serde_json::from_slice(&answer).unwrap();
        assert!(answer["quick"].is_object(), "{answer}");
        answer["quick"].clone()
    };
    let how = |answer: Value| answer["judged"]["advice"]["how"].clone();
    assert_eq!(check(&[])["judged"]["verdict"], "in_band");
    assert_eq!(how(check(&[("/metal", at(64.0))])), "let_it_cool");
    assert_eq!(
        how(check(&[("/reference", json!("80 C"))])),
        "at_book_temperature"
    );
    let hot = check(&[("/condition", json!("hot"))]);
    assert!(hot["not_at_reference"]["reference"].is_null());
    assert_eq!(how(hot), "at_book_temperature");
}

/// Shims are not planned on readings that are not judged.
#[test]
fn no_shim_is_planned_on_a_hot_engine_and_a_cold_book() {
    let mut document = example("v-eight-shims.json");
    put(&mut document, "/clearance/metal", at(80.0));
    let report = report(&document);
    let plans = report["clearance"]["shim_plans"].as_array().unwrap();
    for plan in plans {
        assert_eq!(plan["moves"], json!([]), "{plan}");
        assert_eq!(plan["buy"], json!([]), "{plan}");
    }
    let first = &report["clearance"]["stop_work"][0];
    assert_eq!(first["code"], "not_at_reference", "{first}");
}

/// An infrared thermometer's own uncertainty does not hold on bare metal, so what it shows near the
/// reference does not put the metal there; on tape it does. Bare aluminium has an emissivity of 0.04 to
/// 0.2 (manualslib.fr, 379414, p. 12).
#[test]
fn an_infrared_thermometer_on_bare_metal_is_not_believed() {
    let shown = |with: &str| {
        let metal =
            json!({ "temperature": { "is": "24 C", "uncertainty": "2 K", "taken_with": with } });
        four("cold", json!("20 C"), metal)
    };
    let report_of = all_say(&shown("infrared"), "let_it_cool");
    assert!(
        report_of["assumptions"]
            .to_string()
            .contains("thermal.bare-metal")
    );
    let report = report(&shown("infrared_corrected"));
    assert_eq!(
        report["clearance"]["valves"][0]["judged"][0]["verdict"],
        "above"
    );
}

/// Cold and hot column of one book: the one for the metal's temperature is used, and where both agree by
/// the measured rule nothing disagrees.
#[test]
fn two_columns_of_one_book_are_one_specification() {
    let limits = |set_to: &str, from: &str, to: &str| json!({ "set_to": set_to, "set": { "from": from, "to": to } });
    let column = |id: &str, reference: &str, intake: Value, exhaust: Value| {
        json!({ "id": id, "document": "Invented book", "condition": id, "reference": reference,
            "intake": intake, "exhaust": exhaust })
    };
    let cold = column(
        "cold",
        "20 C",
        limits("0.15 mm", "0.13 mm", "0.17 mm"),
        limits("0.25 mm", "0.23 mm", "0.27 mm"),
    );
    let hot = |intake: Value| {
        column(
            "hot",
            "64 C",
            intake,
            limits("0.29 mm", "0.27 mm", "0.31 mm"),
        )
    };
    let right = hot(limits("0.19 mm", "0.17 mm", "0.21 mm"));
    let wrong = hot(limits("0.30 mm", "0.28 mm", "0.32 mm"));
    let measured =
        |at: &str, lash: &str| json!({ "at": at, "lash": lash, "uncertainty": "0.001 mm" });
    let with_rule = |is: &str, hot: &Value| {
        let metal = json!({ "temperature": { "is": is, "uncertainty": "0 K" },
            "measured": [measured("20 C", "0.15 mm"), measured("64 C", "0.19 mm")] });
        let mut document = four("cold", json!("20 C"), metal);
        put(
            &mut document,
            "/clearance/specifications",
            json!([cold, hot]),
        );
        report(&document)["clearance"].clone()
    };
    for (is, used, set_aside) in [("64 C", "hot", 0), ("24 C", "cold", 1)] {
        let section = with_rule(is, &right);
        assert_eq!(section["disagreements"], json!([]), "at {is}");
        let judged = section["valves"][0]["judged"].as_array().unwrap();
        assert_eq!(judged.len(), 1);
        assert_eq!(judged[0]["specification"], used);
        assert_eq!(section["specifications"][set_aside]["used_instead"], used);
    }
    let section = with_rule("64 C", &wrong);
    let told = section["disagreements"].as_array().unwrap();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].as_str().unwrap().contains("intake"), "{told:?}");
    // Without a rule either column serves at its own temperature.
    let mut document = four("cold", json!("20 C"), at(64.0));
    put(
        &mut document,
        "/clearance/specifications",
        json!([cold, right]),
    );
    let section = report(&document)["clearance"].clone();
    assert_eq!(section["valves"][0]["judged"][0]["verdict"], "in_band");
    assert_eq!(section["valves"][0]["judged"].as_array().unwrap().len(), 1);
}

/// The gap is what the lengths leave over: a chain without its pushrod, or without the head on the valve's
/// side, is refused with both sums; a temperature no part follows is refused by name.
#[test]
fn a_chain_that_does_not_close_is_refused() {
    let twin = || example("upright-twin-warm.json");
    let without = |part: &str| {
        let mut document = twin();
        let parts = document["clearance"]["metal"]["parts"]
            .as_array_mut()
            .unwrap();
        let before = parts.len();
        parts.retain(|p| p["part"] != part);
        assert_eq!(parts.len() + 1, before);
        document
    };
    for (part, side, sums) in [
        ("pushrod", "cam", ["240.0", "45.0"]),
        (
            "head, valve seat to rocker spindle",
            "valve",
            ["0.0", "95.0"],
        ),
    ] {
        let found = problems(without(part).to_string().as_bytes());
        let codes: Vec<&str> = found.iter().map(|p| p.code.as_str()).collect();
        assert_eq!(codes, ["thermal.not-closed"], "{found:?}");
        let message = &found[0].message;
        assert!(
            message.contains(side) && sums.iter().all(|sum| message.contains(sum)),
            "{message}"
        );
    }
    let mut document = twin();
    let moon = json!({ "name": "moon", "is": "-20 C", "uncertainty": "2 K" });
    put(&mut document, "/clearance/metal/temperatures/2", moon);
    let found = problems(document.to_string().as_bytes());
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].code, "thermal.unused-temperature");
    assert!(found[0].message.contains("moon"));
    assert_eq!(found[0].place, "/clearance/metal");
}

/// A book that does not apply has nothing to be held against.
#[test]
fn a_book_that_does_not_apply_is_not_held_against_the_metal() {
    let mut document = example("inline-four.json");
    put(&mut document, "/clearance/metal", at(64.0));
    let report = report(&document);
    let books = report["clearance"]["specifications"].as_array().unwrap();
    assert!(books[0]["not_at_reference"].is_object(), "{}", books[0]);
    assert_eq!(books[1]["applicability"], "does_not_apply");
    assert!(books[1]["not_at_reference"].is_null(), "{}", books[1]);
}

/// A valve of another steel in the exhaust's chain alone: X45CrSi9-3 against an austenitic one. What the
/// two add differs by the steels alone, and one chain for both is said to be assumed.
#[test]
fn a_part_may_be_of_one_kind_of_valve() {
    let mut document = example("upright-twin-warm.json");
    let one = report(&document);
    assert!(
        one["assumptions"]
            .to_string()
            .contains("thermal.one-for-both")
    );
    let parts = document["clearance"]["metal"]["parts"]
        .as_array_mut()
        .unwrap();
    let valve = parts.iter_mut().find(|p| p["part"] == "valve").unwrap();
    let mut exhaust = valve.clone();
    valve["of"] = json!("intake");
    exhaust["of"] = json!("exhaust");
    exhaust["material"] = json!("valve steel X53CrMnNiNbN21-9");
    let (length, head, hot) = (95.0, 40.0, exhaust.clone());
    parts.push(hot);
    let two = report(&document);
    assert!(
        !two["assumptions"]
            .to_string()
            .contains("thermal.one-for-both")
    );
    let added = |report: &Value, kind: &str| {
        let valves = report["clearance"]["valves"].as_array().unwrap();
        let valve = valves.iter().find(|v| v["kind"] == kind).unwrap();
        valve["judged"][0]["warmth"]["mm"].as_f64().unwrap()
    };
    assert_abs_diff_eq!(added(&one, "intake"), added(&two, "intake"));
    let strain = |name: &str| {
        let steel = lashwork_tests::values::table(name);
        let at = |c| lashwork_tests::values::celsius(c);
        steel.strain(at(20.0), at(head)).unwrap()
    };
    let more = strain("valve steel X53CrMnNiNbN21-9") - strain("valve steel X45CrSi9-3");
    assert!(more > 0.0);
    let closes = added(&one, "exhaust") - added(&two, "exhaust");
    assert!((closes - length * more).abs() < 1e-12, "{closes}");
}

/// A lash measured at one kind of valve corrects that kind alone; the other stays without a rule.
#[test]
fn a_measured_lash_may_be_of_one_kind_of_valve() {
    let mut metal = at(64.0);
    let measured = |at: &str, lash: &str| json!({ "at": at, "lash": lash, "uncertainty": "0.001 mm", "of": "intake" });
    put(
        &mut metal,
        "/measured",
        json!([measured("20 C", "0.15 mm"), measured("64 C", "0.19 mm")]),
    );
    let report = report(&four("cold", json!("20 C"), metal));
    for valve in report["clearance"]["valves"].as_array().unwrap() {
        let judged = &valve["judged"][0];
        let expected = if valve["kind"] == "intake" {
            "in_band"
        } else {
            "cannot_say"
        };
        assert_eq!(judged["verdict"], expected, "{valve}");
    }
}

/// Unnoticed warmth is sized by the same published changes as known kelvins: 0.1 mm over a warm-up of 60 K.
#[test]
fn unnoticed_warmth_has_the_same_size() {
    let report = report(&four("cold", json!("20 C"), Value::Null));
    let spread = &report["clearance"]["diagnosis"]["model"]["warmth_spread_mm"];
    assert!((spread.as_f64().unwrap() - 0.1).abs() < 1e-15, "{spread}");
}

/// A stated reference holds for 5 K either way, a book that only says cold for 10 K; beyond that nothing
/// is judged.
#[test]
fn metal_a_little_too_far_from_the_reference_is_not_judged() {
    all_say(&four("cold", json!("20 C"), at(26.0)), "let_it_cool");
    all_say(
        &four("cold", json!("20 C"), at(14.0)),
        "at_book_temperature",
    );
    all_say(&four("cold", Value::Null, at(31.0)), "let_it_cool");
    // Nor does another leaf settle anything.
    let mut open = four("cold", json!("20 C"), at(26.0));
    let reading = json!({ "cylinder": "1", "valve": "intake", "goes": ["0.14 mm"] });
    put(&mut open, "/clearance/readings/0", reading);
    let report = all_say(&open, "let_it_cool");
    let judged = &report["clearance"]["valves"][0]["judged"][0];
    assert!(judged["next_leaf"].is_null(), "{judged}");
}

/// The lengths on a side may miss by 5 mm, or by three times what they are not known to: the twin's on the
/// valve's side are known to 2 and 1 mm, together 2.24.
#[test]
fn a_chain_may_miss_by_what_its_lengths_are_not_known_to() {
    let codes = |length: &str, of_exhaust: Option<&str>| {
        let mut document = example("upright-twin-warm.json");
        let parts = document["clearance"]["metal"]["parts"].as_array_mut();
        let parts = parts.unwrap();
        let head = "head, valve seat to rocker spindle";
        let head = parts.iter_mut().find(|p| p["part"] == head).unwrap();
        head["length"] = json!(length);
        if let Some(length) = of_exhaust {
            let valve = parts.iter_mut().find(|p| p["part"] == "valve").unwrap();
            let mut exhaust = valve.clone();
            valve["of"] = json!("intake");
            exhaust["of"] = json!("exhaust");
            exhaust["length"] = json!(length);
            parts.push(exhaust);
        }
        let answer = lashwork_wire::report(document.to_string().as_bytes());
        let problems = answer.err().unwrap_or_default();
        problems.into_iter().map(|p| p.code).collect::<Vec<_>>()
    };
    assert!(codes("101 mm", None).is_empty());
    assert_eq!(codes("103 mm", None), ["thermal.not-closed"]);
    // Each kind has a chain of its own to close.
    assert!(codes("95 mm", Some("95 mm")).is_empty());
    assert_eq!(codes("95 mm", Some("80 mm")), ["thermal.not-closed"]);
}

/// Exhaust gaps that grow fifteen times as fast are no fault of all where each kind has its rule.
#[test]
fn each_kind_is_held_together_by_its_own_rule() {
    let mut metal = at(64.0);
    let measured = |of: &str, at: &str, lash: &str| json!({ "at": at, "lash": lash, "uncertainty": "0.001 mm", "of": of });
    let rules = json!([
        measured("intake", "20 C", "0.15 mm"),
        measured("intake", "64 C", "0.19 mm"),
        measured("exhaust", "20 C", "0.25 mm"),
        measured("exhaust", "64 C", "0.85 mm")
    ]);
    put(&mut metal, "/measured", rules);
    let mut document = four("cold", json!("20 C"), metal);
    let leaves: Vec<String> = (12..90).map(|n| format!("0.{n} mm")).collect();
    put(&mut document, "/clearance/gauge/leaves", json!(leaves));
    for reading in document["clearance"]["readings"].as_array_mut().unwrap() {
        if reading["valve"] == "exhaust" {
            reading["goes"] = json!(["0.84 mm"]);
            reading["refuses"] = json!(["0.86 mm"]);
        }
    }
    let report = report(&document);
    assert_eq!(report["clearance"]["stop_work"], json!([]));
    let together = &report["clearance"]["diagnosis"];
    assert_eq!(together["status"], "nothing_special", "{together}");
}
