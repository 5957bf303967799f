//! Calls without a document: what the files say is what Rust answers, to the bit.

use lashwork::valve::Method;
use lashwork_tests::clearance;
use lashwork_tests::direct::{answer, bits, read};
use lashwork_tests::refusals::{example, with};
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Every call that has cases.
const CALLS: [&str; 55] = [
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
