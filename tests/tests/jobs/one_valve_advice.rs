//! What a person is told to do at one valve: nothing that following it could hurt.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::needless_pass_by_value,
    reason = "a test stops at the first surprise"
)]

use lashwork_tests::refusals::{example, with};
use serde_json::{Value, json};

fn quick(check: &Value) -> Value {
    let answer: Value =
        serde_json::from_slice(&lashwork_wire::quick_check(check.to_string().as_bytes())).unwrap();
    assert!(answer.get("problems").is_none(), "{check} -> {answer}");
    answer["quick"].clone()
}

fn judged(check: &Value) -> Value {
    quick(check)["judged"].clone()
}

const LEAVES: [&str; 13] = [
    "0.05 mm", "0.10 mm", "0.12 mm", "0.15 mm", "0.18 mm", "0.20 mm", "0.22 mm", "0.25 mm",
    "0.28 mm", "0.30 mm", "0.32 mm", "0.35 mm", "0.40 mm",
];

/// An exhaust valve set to 0.30 mm with a screw in the rocker.
fn exhaust(reading: Value) -> Value {
    json!({
        "valve": "exhaust",
        "limits": {
            "set_to": "0.30 mm",
            "set": { "from": "0.28 mm", "to": "0.32 mm" },
            "leave_alone": { "from": "0.25 mm", "to": "0.35 mm" },
        },
        "reference": "20 C",
        "metal": { "temperature": { "is": "20 C", "uncertainty": "1 K" } },
        "gauge": { "leaves": LEAVES, "tolerance": "0.003 mm", "stack_tolerance": "worst_case" },
        "screw": { "pitch": "1 mm", "seat": "valve_side", "turning_in": "closes_gap" },
        "reading": reading,
    })
}

fn codes(list: &Value) -> Vec<&str> {
    let items = list.as_array().unwrap();
    items
        .iter()
        .map(|item| item["code"].as_str().unwrap())
        .collect()
}

#[test]
fn nothing_goes_asks_for_a_closed_valve_and_then_for_compression_before_any_amount() {
    let judged = judged(&exhaust(json!({ "nothing_goes": true })));
    let advice = &judged["advice"];
    assert_eq!(codes(&advice["first"]), ["close_valve", "test_compression"]);
    let text = advice["text"].as_str().unwrap();
    assert!(
        text.contains("closed") && !text.contains("open the gap"),
        "{text}"
    );
    assert!(advice["amount"].as_str().unwrap().contains("open the gap"));
    let document = with(
        example("inline-four.json"),
        &[(
            "/clearance/readings",
            json!([{ "cylinder": "1", "valve": "exhaust", "nothing_goes": true }]),
        )],
    );
    let sheet = lashwork_wire::report(document.to_string().as_bytes())
        .unwrap()
        .full_sheet();
    let at = |text: &str| {
        sheet
            .find(text)
            .unwrap_or_else(|| panic!("no {text}\n{sheet}"))
    };
    let order = [
        "first make sure that this valve is closed",
        "first if still none goes",
        "only then reset",
    ];
    assert!(order.map(at).is_sorted(), "{sheet}");
}

#[test]
fn a_thin_leaf_that_was_not_tried_is_asked_for_before_compression() {
    let advice = &judged(&exhaust(json!({ "refuses": ["0.15 mm"] })))["advice"];
    assert_eq!(codes(&advice["first"]), ["close_valve", "find_leaf"]);
    assert!(
        advice["first"][1]["text"]
            .as_str()
            .unwrap()
            .contains("0.12 mm")
    );
}

#[test]
fn a_gap_far_beyond_reason_gets_a_cause_to_find_and_no_turn() {
    let wide = [&LEAVES[..], &["2.00 mm", "2.50 mm"]].concat();
    let mut loose = exhaust(json!({ "goes": ["2.00 mm"], "refuses": ["2.50 mm"] }));
    loose["gauge"]["leaves"] = json!(wide);
    let tight = exhaust(json!({ "goes": ["0.05 mm"], "refuses": ["0.10 mm"] }));
    for (check, causes) in [
        (
            loose,
            ["pushrod_out", "lock_nut_slack", "rocker", "valve_stuck"],
        ),
        (
            tight,
            ["seat_sunk", "wrong_part", "not_closed", "lock_nut_slack"],
        ),
    ] {
        let advice = &judged(&check)["advice"];
        assert_eq!(advice["action"], "find_cause", "{advice}");
        assert!(advice.get("screw").is_none() && advice.get("amount").is_none());
        let found = codes(&advice["causes"]);
        assert!(
            causes.iter().all(|cause| found.contains(cause)),
            "{found:?}"
        );
    }
    // 0.35 mm over is far, 0.30 mm is not sure to be; so is 0.22 mm lost, and 0.15 mm is not.
    let mut wide = exhaust(Value::Null);
    wide["gauge"]["leaves"] =
        json!([&LEAVES[..], &["0.13 mm", "0.60 mm", "0.65 mm", "0.70 mm"]].concat());
    for (goes, refuses, action) in [
        ("0.65 mm", "0.70 mm", "find_cause"),
        ("0.60 mm", "0.65 mm", "reset"),
        ("0.10 mm", "0.12 mm", "find_cause"),
        ("0.13 mm", "0.15 mm", "reset"),
    ] {
        wide["reading"] = json!({ "goes": [goes], "refuses": [refuses] });
        assert_eq!(judged(&wide)["advice"]["action"], action, "{goes}");
    }
    // Less than half lost, and less than 0.3 mm over, is set.
    for (goes, refuses) in [("0.20 mm", "0.22 mm"), ("0.35 mm", "0.40 mm")] {
        let advice = &judged(&exhaust(json!({ "goes": [goes], "refuses": [refuses] })))["advice"];
        assert_eq!(advice["action"], "reset", "{advice}");
    }
}

#[test]
fn a_seat_that_does_not_tell_gets_no_angle() {
    let read = json!({ "goes": ["0.20 mm"], "refuses": ["0.22 mm"] });
    let advice = |seat: &str, ratio: Option<f64>| {
        let mut check = exhaust(read.clone());
        check["screw"] = json!({ "pitch": "1 mm", "seat": seat });
        if seat == "eccentric" {
            check["screw"] = json!({ "seat": seat });
        }
        if let Some(ratio) = ratio {
            check["rocker_ratio"] = json!(ratio);
        }
        let quick = quick(&check);
        let is_taken = codes(&quick["assumptions"]).contains(&"adjust.ratio");
        assert!(!is_taken, "{quick}");
        quick["judged"]["advice"].clone()
    };
    for (seat, ratio, why) in [
        ("cam_side", None, "the rocker ratio is not stated"),
        ("pivot", None, "the rocker ratio is not stated"),
        ("eccentric", Some(1.5), "eccentric"),
    ] {
        let advice = advice(seat, ratio);
        assert!(advice.get("screw").is_none(), "{advice}");
        assert!(advice["amount"].as_str().unwrap().contains(why), "{advice}");
    }
    // 0.09 mm by a 1 mm thread: 32.4 deg, a rocker of 1.5 between, 21.6 and 12.96.
    for (seat, degrees) in [("valve_side", 32.4), ("cam_side", 21.6), ("pivot", 12.96)] {
        let advice = advice(seat, Some(1.5));
        let turned = advice["screw"]["angle"]["deg"].as_f64().unwrap();
        assert!((turned + degrees).abs() < 1e-9, "{seat} {turned}");
        let part = if seat == "pivot" { "nut" } else { "screw" };
        assert_eq!(advice["screw"]["part"], part, "{seat}");
    }
}

#[test]
fn words_are_no_stronger_than_their_probability() {
    let said = |reading: Value| judged(&exhaust(reading))["verdict_text"].clone();
    let between = |goes: &str, refuses: &str| json!({ "goes": [goes], "refuses": [refuses] });
    assert_eq!(said(between("0.20 mm", "0.22 mm")), "tight");
    assert_eq!(said(between("0.22 mm", "0.28 mm")), "probably tight");
    assert_eq!(said(between("0.28 mm", "0.30 mm")), "in band");
    assert_eq!(said(between("0.28 mm", "0.40 mm")), "probably in band");
    assert_eq!(said(between("0.32 mm", "0.40 mm")), "probably loose");
    // About 4 % tight, 47 % in band and 49 % loose: accepted by the rule, but not shown.
    let mut wide = exhaust(between("0.242 mm", "0.455 mm"));
    wide["gauge"]["leaves"] = json!(["0.242 mm", "0.455 mm"]);
    assert_eq!(judged(&wide)["verdict_text"], "not shown to be out of band");
    let reading = json!([{ "cylinder": "1", "valve": "exhaust", "goes": ["0.20 mm"] }]);
    let document = with(
        example("inline-four.json"),
        &[("/clearance/readings", reading)],
    );
    let sheet = lashwork_wire::report(document.to_string().as_bytes())
        .unwrap()
        .full_sheet();
    assert!(sheet.contains(": one end only\n"), "{sheet}");
    assert!(!sheet.contains("to over 99.9 %"), "{sheet}");
}

/// A set with a step of 0.03 mm: nothing lies between the two leaves.
fn coarse(reading: Value) -> Value {
    let mut check = exhaust(reading);
    check["limits"] = json!({ "set_to": "0.10 mm", "set": { "from": "0.08 mm", "to": "0.12 mm" } });
    check["gauge"]["leaves"] = json!(["0.07 mm", "0.10 mm", "0.13 mm"]);
    check
}

#[test]
fn where_no_leaf_tells_closer_a_reset_is_weighed_against_leaving() {
    let judged = judged(&coarse(
        json!({ "goes": ["0.07 mm"], "refuses": ["0.10 mm"] }),
    ));
    assert_eq!(judged["verdict"], "cannot_say");
    assert_eq!(judged["deciding"]["side"], "below");
    let advice = &judged["advice"];
    assert_eq!(advice["action"], "reset", "{advice}");
    let because = advice["because"].as_str().unwrap();
    assert!(
        because.contains(" % tight, allowed 5 %") && because.contains("burnt valve"),
        "{because}"
    );
    assert!(
        !advice["text"].as_str().unwrap().contains("narrower"),
        "{advice}"
    );
    // With shims the work is another one.
    let mut shim =
        coarse(json!({ "goes": ["0.07 mm"], "refuses": ["0.10 mm"], "shim": "2.50 mm" }));
    shim.as_object_mut().unwrap().remove("screw");
    shim["shim"] = json!({ "gap_per_shim": 1, "series": { "first": "2.00 mm", "last": "3.00 mm", "step": "0.05 mm" } });
    let advice = &self::judged(&shim)["advice"];
    assert_eq!(advice["how"], "finer_leaves", "{advice}");
}

/// One chance in twenty or so of being tight, no leaf that tells closer, and a lock nut that shifts the gap by
/// up to 0.10 mm either way: setting it anew would end tight about one time in three. By a nut that shifts
/// by a hundredth of that the same valve is reset, and so it is without one.
#[test]
fn a_reset_that_gains_nothing_is_not_advised() {
    let advised = |shifts: Option<[f64; 4]>| {
        let mut check = exhaust(json!({ "drags": ["0.27 mm"], "spread": "0.013 mm" }));
        check["limits"] =
            json!({ "set_to": "0.30 mm", "set": { "from": "0.25 mm", "to": "0.35 mm" } });
        check["gauge"]["leaves"] = json!(["0.24 mm", "0.27 mm", "0.30 mm"]);
        if let Some(shifts) = shifts {
            let pair = |shift: &f64| json!({ "before": "0.30 mm", "after": format!("{:.3} mm", 0.30 + shift) });
            let pairs: Vec<Value> = shifts.iter().map(pair).collect();
            check["screw"]["lock_nut"] = json!({ "pairs": pairs, "uncertainty": "0.002 mm" });
        }
        let judged = judged(&check);
        assert_eq!(judged["verdict"], "cannot_say", "{judged}");
        assert_eq!(judged["deciding"]["side"], "below", "{judged}");
        judged["advice"].clone()
    };
    let wide = advised(Some([-0.10, 0.10, -0.10, 0.10]));
    assert_eq!(wide["action"], "leave", "{wide}");
    assert!(
        wide["text"]
            .as_str()
            .unwrap()
            .contains("a reset would be no better"),
        "{wide}"
    );
    for shifts in [Some([-0.001, 0.001, -0.001, 0.001]), None] {
        let advice = advised(shifts);
        assert_eq!(advice["action"], "reset", "{advice}");
    }
}

#[test]
fn a_leaf_or_a_stack_between_is_named_where_there_is_one() {
    let mut check = coarse(json!({ "goes": ["0.07 mm"], "refuses": ["0.10 mm"] }));
    check["gauge"]["leaves"] = json!(["0.07 mm", "0.085 mm", "0.10 mm", "0.13 mm"]);
    let named = judged(&check);
    assert_eq!(named["advice"]["how"], "narrower_bracket", "{named}");
    assert_eq!(named["advice"]["leaves"], json!(["0.085 mm"]));
    assert_eq!(named["next_leaf"]["leaf"]["text"], "0.085 mm");
    check["gauge"]["leaves"] = json!(["0.04 mm", "0.045 mm", "0.07 mm", "0.10 mm", "0.13 mm"]);
    let stacked = judged(&check);
    assert_eq!(
        stacked["advice"]["leaves"],
        json!(["0.045 mm", "0.04 mm"]),
        "{stacked}"
    );
}

/// Under a rule that asks for 95 % on both sides, 0.036 and 0.042 mm together say too little: oil and air
/// between two leaves are as wide as what is asked.
#[test]
fn a_stack_that_would_decide_nothing_is_not_named() {
    let mut check = coarse(json!({ "goes": ["0.07 mm"], "refuses": ["0.10 mm"] }));
    check["rule"] = json!("iso_14253_1");
    check["gauge"]["leaves"] = json!(["0.036 mm", "0.042 mm", "0.07 mm", "0.10 mm", "0.13 mm"]);
    let judged = judged(&check);
    assert_eq!(judged["verdict"], "cannot_say");
    let advice = &judged["advice"];
    assert_ne!(advice["how"], "narrower_bracket", "{advice}");
}

#[test]
fn a_drag_that_does_not_decide_asks_for_no_narrower_bracket() {
    let check = coarse(json!({ "drags": ["0.07 mm"], "spread": "0.02 mm" }));
    let mut check = check;
    check["limits"]["set"]["from"] = json!("0.06 mm");
    let advice = &judged(&check)["advice"];
    assert_ne!(advice["how"], "narrower_bracket", "{advice}");
    assert!(
        ["reset", "leave"].contains(&advice["action"].as_str().unwrap()),
        "{advice}"
    );
}

#[test]
fn after_setting_two_leaves_are_to_be_found_singles_first() {
    let advice = &judged(&exhaust(
        json!({ "goes": ["0.20 mm"], "refuses": ["0.22 mm"] }),
    ))["advice"];
    assert_eq!(
        advice["leaves"],
        json!({
            "goes": "0.28 mm",
            "drags": "0.30 mm",
            "refuses": "0.32 mm",
            "text": "0.28 mm goes, 0.30 mm drags, 0.32 mm does not",
        })
    );
}

/// A book with one figure: 0.10 mm and nothing else.
fn one_figure(reading: Value, leaves: &[&str]) -> Value {
    json!({
        "valve": "intake",
        "limits": { "set_to": "0.10 mm" },
        "reference": "20 C",
        "metal": { "temperature": { "is": "20 C", "uncertainty": "1 K" } },
        "gauge": { "leaves": leaves, "stack_tolerance": "worst_case" },
        "screw": { "pitch": "1 mm", "seat": "valve_side" },
        "reading": reading,
    })
}

#[test]
fn a_book_with_one_figure_is_taken_and_no_band_of_no_width_condemns_a_good_valve() {
    let leaves = ["0.05 mm", "0.10 mm", "0.12 mm", "0.15 mm"];
    let good = [
        json!({ "drags": ["0.10 mm"], "spread": "0.005 mm" }),
        json!({ "drags": ["0.10 mm"], "spread": "0.01 mm" }),
        json!({ "drags": ["0.10 mm"], "spread": "0.03 mm" }),
        json!({ "goes": ["0.10 mm"], "refuses": ["0.12 mm"] }),
    ];
    for reading in good {
        for band in [None, Some(json!({ "from": "0.10 mm", "to": "0.10 mm" }))] {
            let mut check = one_figure(reading.clone(), &leaves);
            if let Some(band) = band {
                check["limits"]["set"] = band;
            }
            let quick = quick(&check);
            assert_eq!(
                quick["judged"]["advice"]["action"], "leave",
                "{check} {quick}"
            );
            assert!(
                codes(&quick["assumptions"]).contains(&"tolerance.set-band"),
                "{quick}"
            );
        }
    }
    // Neighbours in the set: no leaf at hand shows a difference between them.
    let coarse = ["0.05 mm", "0.10 mm", "0.15 mm"];
    let judged = judged(&one_figure(
        json!({ "goes": ["0.10 mm"], "refuses": ["0.15 mm"] }),
        &coarse,
    ));
    assert_eq!(judged["advice"]["action"], "leave", "{judged}");
    assert_eq!(judged["limits"], "0.08 mm to 0.15 mm");
    // One leaf further than 0.05 mm is not next to the figure.
    let wide = self::judged(&one_figure(
        json!({ "goes": ["0.10 mm"], "refuses": ["0.16 mm"] }),
        &["0.05 mm", "0.10 mm", "0.16 mm"],
    ));
    assert_eq!(wide["limits"], "0.08 mm to 0.12 mm");
    // Its own leaf must go.
    let tight = self::judged(&one_figure(
        json!({ "goes": ["0.05 mm"], "refuses": ["0.10 mm"] }),
        &coarse,
    ));
    assert_eq!(tight["advice"]["action"], "reset", "{tight}");
}

#[test]
fn a_width_or_a_range_of_the_users_own_is_taken_as_stated() {
    let read = json!({ "goes": ["0.10 mm"], "refuses": ["0.12 mm"] });
    let leaves = ["0.05 mm", "0.10 mm", "0.12 mm", "0.15 mm"];
    let mut stated = one_figure(read.clone(), &leaves);
    stated["limits"]["plus_minus"] = json!("0.03 mm");
    let answer = quick(&stated);
    assert_eq!(answer["judged"]["limits"], "0.07 mm to 0.13 mm");
    assert!(!codes(&answer["assumptions"]).contains(&"tolerance.set-band"));
    let mut range = one_figure(read, &leaves);
    range["limits"] = json!({ "set": { "from": "0.08 mm", "to": "0.13 mm" } });
    let answer = quick(&range);
    assert_eq!(answer["judged"]["set_to"]["mm"], 0.105);
    assert!(codes(&answer["assumptions"]).contains(&"tolerance.set-to"));
    let refused = |limits: Value, place: &str, code: &str| {
        let mut check = one_figure(json!({ "goes": ["0.10 mm"] }), &leaves);
        check["limits"] = limits;
        let answer = lashwork_wire::quick_check(check.to_string().as_bytes());
        let answer: Value = serde_json::from_slice(&answer).unwrap();
        let problem = &answer["problems"][0];
        assert_eq!(
            (problem["place"].as_str(), problem["code"].as_str()),
            (Some(place), Some(code))
        );
    };
    refused(json!({}), "/limits", "tolerance.no-limits");
    refused(
        json!({ "set": { "from": "0.1 mm" } }),
        "/limits",
        "tolerance.no-value-to-set",
    );
    refused(
        json!({ "set_to": "0.1 mm", "set": { "to": "0.2 mm" }, "plus_minus": "0.01 mm" }),
        "/limits/plus_minus",
        "tolerance.two-bands",
    );
}

#[test]
fn a_whole_job_takes_books_that_print_one_figure_or_a_range() {
    let document = with(
        example("inline-four.json"),
        &[
            (
                "/clearance/specifications/0/intake",
                json!({ "set_to": "0.20 mm" }),
            ),
            (
                "/clearance/specifications/0/exhaust",
                json!({ "set": { "from": "0.28 mm", "to": "0.32 mm" } }),
            ),
        ],
    );
    let report = lashwork_wire::report(document.to_string().as_bytes()).unwrap();
    let assumed = |code: &str| {
        report
            .assumptions
            .iter()
            .find(|a| a.code == code)
            .unwrap()
            .text
            .clone()
    };
    assert!(
        assumed("tolerance.set-band")
            .contains("specification book prints for intake one figure, 0.20 mm")
    );
    assert!(assumed("tolerance.set-to").contains("0.3 mm, taken"));
}

/// Works-book intake of the twin: printed 0.0508 mm in a band from 0.0381 to 0.0762 mm, and a lock nut whose
/// shift spreads. Chances by a Monte Carlo of the same model, done apart: at 0.0508 mm 85.0 % in the band
/// and 13.5 % tight, at 0.0572 mm 90.1 and 4.8 %. What a hand can tell apart is 0.01 mm: 0.06.
#[test]
fn a_reset_aims_where_the_rule_is_kept() {
    let reading = json!([{ "cylinder": "1", "valve": "intake", "goes": ["0.15 mm"], "refuses": ["0.18 mm"] }]);
    let mut document = with(
        example("upright-twin-warm.json"),
        &[("/clearance/readings", reading)],
    );
    // By that book alone: where two disagree, which one applies comes first.
    let books = document.pointer_mut("/clearance/specifications").unwrap();
    books.as_array_mut().unwrap().truncate(1);
    let answer: Value =
        serde_json::from_slice(&lashwork_wire::run(document.to_string().as_bytes())).unwrap();
    let judged = answer
        .pointer("/report/clearance/valves/0/judged")
        .unwrap()
        .as_array()
        .unwrap();
    let works = judged
        .iter()
        .find(|j| j["specification"] == "works-book")
        .unwrap();
    let advice = &works["advice"];
    assert_eq!(advice["action"], "reset", "{advice}");
    let (aim, tight) = (
        advice["aim"]["mm"].as_f64().unwrap(),
        advice["lands_tight"].as_f64().unwrap(),
    );
    assert!((aim - 0.06).abs() < 1e-9, "{aim}");
    assert!(tight < 0.048 && tight > 0.02, "{tight}");
    assert_eq!(advice["aim_is_printed"], false);
    let why = advice["aim_text"].as_str().unwrap();
    assert!(why.contains("ends 13.5 % tight (allowed 5 %)"), "{why}");
}

#[test]
fn pads_that_nobody_looked_at_are_listed_as_taken_flat() {
    let read = json!({ "goes": ["0.28 mm"], "refuses": ["0.30 mm"] });
    let is_listed = |check: &Value| codes(&quick(check)["assumptions"]).contains(&"feeler.hollow");
    let mut check = exhaust(read);
    assert!(is_listed(&check));
    check["reading"]["hollow"] = json!({ "depth": "0 mm", "uncertainty": "0.005 mm" });
    assert!(!is_listed(&check));
}

#[test]
fn the_next_leaf_stands_in_every_answer_that_is_open() {
    let open = judged(&exhaust(json!({ "goes": ["0.20 mm"] })));
    assert_eq!(open["verdict"], "cannot_say");
    let next = &open["next_leaf"];
    assert!(next["expected_tries"].as_f64().unwrap() >= 1.0, "{open}");
    assert_eq!(open["advice"]["leaves"], json!([next["leaf"]["text"]]));
    let settled = judged(&exhaust(
        json!({ "goes": ["0.28 mm"], "refuses": ["0.30 mm"] }),
    ));
    assert_eq!(settled["next_leaf"], Value::Null);
}

/// The lash follows a 1 mm screw in the valve's side by a 360th of a millimetre for a degree.
#[test]
fn a_one_sided_reading_gets_the_least_turn_unless_half_of_the_gap_may_be_gone() {
    let amount = |reading: Value| {
        let advice = &judged(&exhaust(reading))["advice"];
        advice["amount"].as_str().unwrap().to_owned()
    };
    let loose = amount(json!({ "goes": ["0.40 mm"] }));
    assert!(loose.contains("screw in 36 deg or more"), "{loose}");
    let tight = amount(json!({ "refuses": ["0.22 mm"] }));
    assert!(tight.contains("screw out 28 deg or more"), "{tight}");
    let none = amount(json!({ "nothing_goes": true }));
    assert!(!none.contains("deg"), "{none}");
}

/// A wide bracket may make tight the likelier half; that settles nothing while a leaf between can tell.
#[test]
fn a_leaf_that_can_still_tell_is_named_though_the_verdict_is_probable() {
    let wide = judged(&exhaust(
        json!({ "goes": ["0.18 mm"], "refuses": ["0.30 mm"] }),
    ));
    assert_eq!(wide["verdict_text"], "probably tight");
    let leaf = wide["next_leaf"]["leaf"]["mm"].as_f64().unwrap();
    assert!((0.20..=0.28).contains(&leaf), "{wide}");
    let close = judged(&exhaust(
        json!({ "goes": ["0.22 mm"], "refuses": ["0.25 mm"] }),
    ));
    assert_eq!(close["next_leaf"], Value::Null, "{close}");
    // Far from the limits no leaf is wasted on what is known.
    let sure = judged(&exhaust(json!({ "refuses": ["0.20 mm"] })));
    assert_eq!(
        (sure["verdict"].as_str(), sure["next_leaf"].is_null()),
        (Some("below"), true)
    );
}

/// The leaf that drags is as near to the figure as hand and leaf can tell: nothing is turned, whether the
/// narrow band calls the valve tight or leaves it open.
#[test]
fn a_drag_near_the_figure_of_a_book_turns_nothing() {
    let leaves = ["0.09 mm", "0.095 mm", "0.10 mm", "0.12 mm"];
    for (leaf, plus_minus, verdict) in [
        ("0.09 mm", Some("0.005 mm"), "below"),
        ("0.095 mm", None, "cannot_say"),
    ] {
        let reading = json!({ "drags": [leaf], "spread": "0.012 mm" });
        let mut check = one_figure(reading, &leaves);
        if let Some(width) = plus_minus {
            check["limits"]["plus_minus"] = json!(width);
        }
        let judged = judged(&check);
        assert_eq!(judged["verdict"], verdict, "{judged}");
        assert_eq!(judged["advice"]["action"], "leave", "{judged}");
        let text = judged["advice"]["text"].as_str().unwrap();
        assert!(text.contains("as near to the value to set"), "{text}");
    }
}

/// Leaves to find prove the set band as it is felt: two leaves that make a size in it come before one
/// outside, and over a hollow the band is felt that much lower.
#[test]
fn leaves_to_find_prove_the_band_as_it_is_felt() {
    let leaves = |list: &[&str], hollow: Option<&str>| {
        let mut check = exhaust(json!({ "goes": ["0.20 mm"], "refuses": ["0.22 mm"] }));
        check["gauge"]["leaves"] = json!([&["0.20 mm", "0.22 mm"], list].concat());
        if let Some(depth) = hollow {
            check["reading"]["hollow"] = json!({ "depth": depth, "uncertainty": "0 mm" });
        }
        judged(&check)["advice"]["leaves"].clone()
    };
    let flat = leaves(&["0.07 mm", "0.25 mm", "0.35 mm"], None);
    assert_eq!(flat["goes"], "0.22 mm + 0.07 mm");
    // 0.28 to 0.32 mm is felt as 0.25 to 0.29 mm.
    let bridged = leaves(&["0.07 mm", "0.25 mm", "0.31 mm"], Some("0.03 mm"));
    assert_eq!(bridged["refuses"], "0.22 mm + 0.07 mm");
}
