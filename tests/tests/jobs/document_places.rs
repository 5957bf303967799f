//! The field at which a fault that belongs to one field is reported, and shims that cannot be fitted.

use lashwork_tests::refusals::{example, only, places, problems, with};
use serde_json::{Value, json};

/// An example with edits.
fn edited(file: &str, edits: &[(&str, Value)]) -> Vec<u8> {
    with(example(file), edits).to_string().into_bytes()
}

#[test]
fn every_cam_event_out_of_range_has_its_field() {
    let edits = [
        (
            "/clearance/valves/events/intake_closes_abdc",
            json!("352 deg"),
        ),
        (
            "/clearance/valves/events/exhaust_opens_bbdc",
            json!("-61 deg"),
        ),
    ];
    let found = problems(&edited("inline-four.json", &edits));
    let code = "valve.event-out-of-range";
    assert_eq!(
        places(&found),
        [
            ("/clearance/valves/events/exhaust_opens_bbdc", code),
            ("/clearance/valves/events/intake_closes_abdc", code),
        ]
    );
}

#[test]
fn a_cam_ring_that_cannot_be_has_its_field() {
    let of = |field: &str, value: Value, code| {
        let place = format!("/clearance/valves/cam_ring/{field}");
        let bytes = edited("radial-nine.json", &[(&place, value)]);
        only(&bytes, &place, code);
    };
    of("lobes", json!(0), "engine.cam-ring-lobes");
    of(
        "crank_turns_per_ring_turn",
        json!(0.5),
        "engine.cam-ring-speed",
    );
}

#[test]
fn faults_of_link_rods_have_the_field_of_the_rod() {
    let rods = |field: &str| format!("/engine/link_rods/{field}");
    let (link_rod, code) = (rods("link_rod"), "engine.link-rod-too-short");
    let short = problems(&edited("radial-nine.json", &[(&link_rod, json!("4 in"))]));
    assert_eq!(places(&short), [(link_rod.as_str(), code); 8]);
    let knuckles = json!([{ "cylinder": "4", "link_rod": "4 in" }]);
    let own = edited("radial-nine.json", &[(&rods("knuckles"), knuckles)]);
    only(&own, &rods("knuckles/0"), "engine.link-rod-too-short");
    // Two of nine hang on nothing.
    let links = json!(["2", "3", "4", "5", "6", "7"]);
    let few = problems(&edited(
        "radial-nine.json",
        &[(&rods("rows/0/links"), links)],
    ));
    let missing = (rods("rows"), "engine.link-rods-missing");
    assert_eq!(places(&few), [(missing.0.as_str(), missing.1); 2]);
}

#[test]
fn a_shim_is_not_ignored_where_screws_set_the_lash() {
    for (field, value) in [("shim", "2.65 mm"), ("shim_uncertainty", "0.003 mm")] {
        let place = format!("/clearance/readings/0/{field}");
        let bytes = edited("inline-four.json", &[(&place, json!(value))]);
        only(&bytes, &place, "job.shim-unused");
    }
}

/// Series 2.20 to 3.20 mm. A ground shim lies a little outside, another series' far outside.
#[test]
fn a_fitted_shim_belongs_to_the_series() {
    let with_shim = |size: &str| {
        edited(
            "v-eight-shims.json",
            &[("/clearance/readings/0/shim", json!(size))],
        )
    };
    assert!(lashwork_wire::report(&with_shim("2.15 mm")).is_ok());
    for size in ["3.65 mm", "0.265 mm"] {
        let place = "/clearance/readings/0/shim";
        let found = only(&with_shim(size), place, "adjust.fitted-outside-series");
        assert!(found.message.contains("2.20 mm to 3.20 mm"), "{found:?}");
    }
}
