//! Calls without a document: what the files say is what Rust answers, to the bit.

use lashwork::valve::Method;
use lashwork_tests::direct::{answer, bits, read};
use lashwork_tests::refusals::{example, with};
use lashwork_tests::{Differences, clearance, list, number, numbers, oracle, text};
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Every call that has cases.
const CALLS: [&str; 72] = [
    "angles_at_drop",
    "choose_shim",
    "companion",
    "convert_length",
    "convert_temperature",
    "dead_centres",
    "estimate_changed",
    "estimate_from_leaves",
    "firing_offsets",
    "judge",
    "judge_columns",
    "lash_with_shim",
    "parse_crank_angle",
    "parse_length",
    "parse_temperature",
    "piston_drop",
    "pitch_per_inch",
    "plan",
    "rotor_angles",
    "shim_wanted",
    "show_length",
    "tdc_from_stops",
    "tdc_offsets",
    "turn_screw",
    "warmth_shift",
    "dwell_of_reading",
    "reading_of_dwell",
    "dwell_at_gap",
    "gap_at_dwell",
    "spark_shift",
    "distributor_at_point",
    "point_at_distributor",
    "dial_at_point",
    "point_at_dial",
    "rim_at_point",
    "point_at_rim",
    "copper_resistance",
    "charge_at_speed",
    "weak_from_speed",
    "advance_at_speed",
    "judge_strobe_columns",
    "fit_advance_curve",
    "weigh_advance_curve",
    "parse_fuel",
    "air_fuel_ratio",
    "lambda_of_gas",
    "lambda_of_co",
    "lambda_of_columns",
    "density_of_air",
    "density_at_height",
    "density_altitude",
    "density_of_columns",
    "fit_idle_curve",
    "idle_beside",
    "balance_throttles",
    "expected_compression",
    "implied_exponent",
    "compression_in_other_air",
    "judge_compression",
    "leak_area",
    "tester_would_show",
    "leak_of_columns",
    "wrench_setting",
    "torque_at_bolt",
    "wrench_uncertainty",
    "nut_factor",
    "preload_of_torque",
    "events_at_lash",
    "drift_of_record",
    "forecast_of_record",
    "departures_of_record",
    "drift_of_columns",
];

#[test]
fn every_case_is_what_rust_answers() -> Result<(), String> {
    let cases = read()?;
    let differing: Vec<String> = cases
        .iter()
        .filter_map(|case| {
            let got = answer(&case.call, &case.input);
            (got != case.output).then(|| format!("{}: {got:?}, not {:?}", case.id, case.output))
        })
        .collect();
    assert!(differing.is_empty(), "{}", differing.join("\n"));
    Ok(())
}

#[test]
fn every_call_has_cases_and_most_have_a_refusal() -> Result<(), String> {
    let cases = read()?;
    let called: BTreeSet<&str> = cases.iter().map(|case| case.call.as_str()).collect();
    assert_eq!(called, BTreeSet::from(CALLS));
    let refused = cases.iter().filter(|case| case.output.is_err()).count();
    assert!(refused >= 40, "only {refused} refusals");
    Ok(())
}

/// The number of which an answer writes the bits.
fn number_of(written: &Value) -> Result<f64, String> {
    let digits = written.as_str().and_then(|text| text.strip_prefix("0x"));
    let bits = digits.and_then(|digits| u64::from_str_radix(digits, 16).ok());
    bits.map(f64::from_bits)
        .ok_or_else(|| format!("{written} are no bits"))
}

/// The numbers that an answer begins with.
fn first(call: &str, input: &Value, count: usize) -> Result<Vec<f64>, String> {
    let found = answer(call, input.as_array().map_or(&[], Vec::as_slice))?;
    found.iter().take(count).map(number_of).collect()
}

/// Calls of condition and events give what numpy and scipy have for the same inputs (`tests/oracles/condition_*.json`);
/// how near, is written there and in the tests of those areas.
#[test]
fn calls_of_condition_are_those_of_the_reference_values() -> Result<(), String> {
    let mut differences = Differences::default();
    for case in oracle("condition_expected") {
        let n = |key: &str| number(&case, key);
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let engine = [
            n("ratio"),
            n("ratio_u"),
            n("closes"),
            n("closes_u"),
            n("air"),
            n("air_u"),
        ];
        let input = |first: f64, second: f64| {
            let mut input = json!(engine);
            let crank = json!([1, 1, 1, n("stroke") / 2.0, n("rod"), 0.0, first, second]);
            if let (Some(input), Some(crank)) = (input.as_array_mut(), crank.as_array()) {
                input.extend(crank.iter().cloned());
            }
            input
        };
        let found = first("expected_compression", &input(n("low"), n("high")), 4)?;
        for (at, key) in [(0, "from"), (1, "to"), (3, "effective")] {
            let got = found.get(at).copied().unwrap_or(f64::NAN);
            differences.compare(&place(key), got, n(key), 0.0, 1e-9);
        }
        let found = first("implied_exponent", &input(n("shown"), n("shown_u")), 2)?;
        let exponent = found.first().copied().unwrap_or(f64::NAN);
        differences.compare(&place("exponent"), exponent, n("exponent"), 0.0, 1e-9);
    }
    for case in oracle("condition_leak") {
        let n = |key: &str| number(&case, key);
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let input = json!([
            n("supply"),
            n("supply_u"),
            n("bore"),
            n("bore_u"),
            n("shown"),
            n("shown_u"),
            n("air"),
            n("air_u")
        ]);
        let found = first("leak_area", &input, 2)?;
        let [area, u] = found.as_slice() else {
            return Err("no leak".to_owned());
        };
        differences.compare(&place("area"), *area, n("area"), 0.0, 1e-9);
        differences.compare(&place("area u"), *u, n("area_u"), 0.0, 0.02);
        let input = json!([600.0, 0.0, 1.2, 0.0, n("area"), n("air")]);
        for shown in first("tester_would_show", &input, 1)? {
            differences.compare(&place("by another"), shown, n("by_other"), 0.0, 1e-7);
        }
    }
    differences.settle();
    Ok(())
}

/// The rate of one subject read without uncertainty is that of a least-squares line (`tests/oracles/history_drift.json`).
#[test]
fn the_drift_of_a_record_is_that_of_the_reference_values() -> Result<(), String> {
    let mut seen = 0;
    for case in oracle("history_drift") {
        if text(&case, "what") != "pooled" || number(&case, "u") > 0.0 {
            continue;
        }
        let subjects = list(&case, "subjects");
        if subjects.len() != 1 {
            continue;
        }
        let stretch = subjects
            .first()
            .and_then(|all| all.get(0))
            .ok_or("no stretch")?;
        let (x, y) = (numbers(stretch, "x"), numbers(stretch, "y"));
        let zeros = vec![0.0; x.len()];
        let input = json!([
            x, y, y, zeros, null, null, null, 1, 0, 0, 0, 1, 2, 200_000, 0, 1, 0, 0
        ]);
        let found = first("drift_of_record", &input, 4)?;
        for (got, wanted) in [found.get(2), found.first(), found.get(3)]
            .iter()
            .zip(numbers(&case, "rate"))
        {
            let got = got.ok_or("no rate")?;
            assert!((got / wanted - 1.0).abs() < 1e-5, "{got}, not {wanted}");
            seen += 1;
        }
    }
    assert_eq!(seen, 3);
    Ok(())
}

/// The margins of a plan cylinder by cylinder, as a document gives them.
fn by_document(events: &Value) -> Result<Vec<Value>, String> {
    let limits =
        |set_to: &str| json!({ "set_to": set_to, "set": { "from": "0.08 mm", "to": "0.17 mm" } });
    let book = json!({ "id": "book", "document": "Invented book", "condition": "cold",
        "intake": limits("0.10 mm"), "exhaust": limits("0.15 mm") });
    let document = with(
        example("inline-four.json"),
        &[
            ("/clearance/valves/events", events.clone()),
            ("/clearance/specifications", json!([book])),
            ("/clearance/readings", json!([])),
        ],
    );
    let report = lashwork_wire::report(document.to_string().as_bytes());
    let report = report.map_err(|problems| format!("{problems:?}"))?;
    let mut plans = clearance(&report).stops.plans.iter();
    let plan = plans.find(|plan| plan.method == Method::CylinderByCylinder);
    let stops = plan.into_iter().flat_map(|plan| &plan.stops);
    let checks = stops.flat_map(|stop| &stop.check);
    Ok(checks.map(|check| bits(check.margin.degrees())).collect())
}

/// The same without a document: two valves at each of four stops, the margin last of their four numbers.
fn by_call(at: &Value) -> Result<Vec<Value>, String> {
    let mut input = json!([
        4,
        1,
        1,
        1,
        1,
        [1, 3, 4, 2],
        null,
        null,
        null,
        17,
        53,
        50,
        14,
        20,
        1,
        1
    ]);
    if let (Some(input), Some(at)) = (input.as_array_mut(), at.as_array()) {
        input.extend(at.iter().cloned());
        input.extend([json!(0.10), json!(0.15), json!(1), json!(0), json!(0)]);
    }
    let found = answer("plan", input.as_array().map_or(&[], Vec::as_slice))?;
    let stops = found.get(4..).unwrap_or_default().chunks_exact(14);
    let margins = stops.flat_map(|stop| [stop.get(9), stop.get(13)]);
    Ok(margins.flatten().cloned().collect())
}

/// Where the events hold narrows the arcs alike: stated as a lash, as a lift, or not at all.
#[test]
fn events_hold_where_they_do_in_a_document() -> Result<(), String> {
    let events = json!({ "intake_opens_btdc": "17 deg", "intake_closes_abdc": "53 deg",
        "exhaust_opens_bbdc": "50 deg", "exhaust_closes_atdc": "14 deg" });
    let lash = json!({ "lash": "1 mm" });
    let lift = json!({ "lift": "1 mm" });
    for (said, at) in [
        (with(events.clone(), &[("/at", lash)]), json!([1, 1.0, 0])),
        (
            with(
                events.clone(),
                &[("/at", lift), ("/greatest_lift", json!("9 mm"))],
            ),
            json!([2, 1.0, 9]),
        ),
        (events, json!([0, 0, 0])),
    ] {
        let (document, call) = (by_document(&said)?, by_call(&at)?);
        assert_eq!(document.len(), 8);
        assert_eq!(document, call, "{said}");
    }
    Ok(())
}
