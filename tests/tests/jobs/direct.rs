//! Calls without a document: what the files say is what Rust answers, to the bit.

use lashwork_tests::direct::{answer, read};
use std::collections::BTreeSet;

/// Every call that has cases.
const CALLS: [&str; 26] = [
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
    "companion",
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
    assert!(refused >= 20, "only {refused} refusals");
    Ok(())
}
