//! Past services in the units they are written in: miles, psi, bar.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use lashwork::job::Report;
use lashwork_tests::refusals::{example, only};
use serde_json::{Value, json};

/// Services every 10,000 miles, compression of two cylinders in psi that falls by 2 psi each time.
fn document() -> Value {
    let mut document = example("inline-four-with-history.json");
    let fields = document.as_object_mut().expect("an object");
    fields.remove("clearance");
    fields.remove("record");
    let services = (0..5).map(|i| {
        let read = |cylinder: &str, psi: f64| {
            let shows = format!("{} psi", psi - 2.0 * f64::from(i) + f64::from(i % 2) * 0.2);
            json!({ "cylinder": cylinder, "found": { "shows": shows, "uncertainty": "0.5 psi" } })
        };
        json!({
            "date": format!("{}-05-01", 2015 + i),
            "distance": format!("{} mi", 36_000 + 10_000 * i),
            "compression": [read("1", 150.0), read("2", 149.0)]
        })
    });
    let services: Vec<Value> = services.collect();
    document["history"] = json!({
        "limits": { "compression": { "from": "120 psi" } }, "gauge_unit": "psi", "services": services
    });
    document
}

fn run(document: &Value) -> Report {
    let report = lashwork_wire::report(document.to_string().as_bytes());
    report.unwrap_or_else(|why| panic!("{why:?}"))
}

/// Gathers every text.
fn gather(value: &Value, out: &mut Vec<String>) {
    match value {
        Value::String(text) => out.push(text.clone()),
        Value::Array(items) => items.iter().for_each(|item| gather(item, out)),
        Value::Object(map) => map.values().for_each(|item| gather(item, out)),
        _ => {}
    }
}

/// Every text of the history, and its section of the sheet.
fn texts(report: &Report) -> String {
    let history = serde_json::to_value(report.history.as_ref().expect("asked for"));
    let sheet = report.full_sheet();
    let section = sheet.split("\nHistory\n").last().expect("a section");
    let section = section.split("\nAssumptions made").next();
    let mut all = vec![section.expect("a section").to_owned()];
    gather(&history.expect("serialises"), &mut all);
    // The unit of the numbers is told as such.
    all.retain(|text| text != "kPa");
    all.join("\n")
}

/// 2 psi in 10,000 mi; 120 psi are 22 psi, so 110,000 mi, under the 142 psi of the last service.
#[test]
fn miles_and_psi_are_said_as_they_are_written() {
    let report = run(&document());
    let all = texts(&report);
    for words in [
        "2015-05-01, 36000 mi",
        "2019-05-01, 76000 mi",
        "falls by 2.0 psi in 10 000 mi",
        "found 142 psi on 2019-05-01, 76000 mi",
        "at least 120 psi",
    ] {
        assert!(all.contains(words), "no {words:?} in\n{all}");
    }
    assert!(!all.contains(" km") && !all.contains(" kPa"), "{all}");
    // Rates are in the units of the report, a chart in those of the words beside it.
    let told = report.history.as_ref().expect("asked for");
    let compression = told.compression.as_ref().expect("read");
    assert_eq!(compression.unit, "kPa");
    let rate = compression.kinds[0].rate.expect("five services");
    assert!(
        (rate.value + 2.0 * 6.894_757 / 16_093.44).abs() < 1e-4,
        "{rate:?}"
    );
    let chart = &compression.subjects[0].chart;
    assert_eq!((chart.value_unit, chart.time_unit), ("psi", "mi"));
    let read = chart.readings[0];
    assert!((read.at - 36_000.0).abs() < 1e-6, "{read:?}");
    assert!((read.low.expect("read") - 150.0).abs() < 1e-4, "{read:?}");
    let within = |end: Option<f64>| (end.expect("read") - 150.0).abs();
    assert!((within(read.from) - within(read.to)).abs() < 1e-9 && within(read.to) < 10.0);
    assert!((chart.limits[0] - 120.0).abs() < 1e-4 && chart.limits.len() == 1);
    // The line goes through what was read, and the band is about it.
    let first = chart.lines[0][0];
    assert!((first.at - 36_000.0).abs() < 1e-6, "{first:?}");
    assert!((first.line.value - 150.0).abs() < 3.0, "{first:?}");
    assert!(first.found.low < first.line.low && first.line.high < first.found.high);
    assert!(first.found.standard_uncertainty < 10.0, "{first:?}");
}

/// Leaves in inches: the chart is in inches.
#[test]
fn a_chart_of_inches() {
    let services: Vec<Value> = (["0.0120 in", "0.0115 in", "0.0110 in", "0.0105 in"].iter().enumerate())
        .map(|(i, lash)| json!({
            "hours": format!("{} h", 100 * (i + 1)),
            "lash": [{ "cylinder": "1", "valve": "exhaust", "found": { "lash": lash, "uncertainty": "0.0003 in" } }],
        }))
        .collect();
    let mut document = example("radial-nine.json");
    document["history"] = json!({ "services": services });
    let report = run(&document);
    let told = report.history.as_ref().and_then(|told| told.lash.as_ref());
    let told = told.expect("read");
    let chart = &told.subjects[0].chart;
    assert_eq!((chart.value_unit, chart.time_unit), ("in", "h"));
    let low = chart.readings[0].low.expect("read");
    assert!((low - 0.012).abs() < 1e-9, "{low}");
    assert!((chart.readings[3].at - 400.0).abs() < 1e-9);
    assert_eq!(told.unit, "mm");
}

/// The condition section says pressures in its unit, and so does what the years say of them; what is chosen for
/// the history goes before it.
#[test]
fn units_are_those_of_the_document() {
    let mut document = document();
    let fields = document["history"].as_object_mut().expect("an object");
    fields.remove("gauge_unit");
    assert!(texts(&run(&document)).contains("found 979 kPa"));
    document["condition"] = json!({ "compression": {
        "unit": "bar", "readings": [{ "cylinder": "1", "dry": "9.6 bar" }, { "cylinder": "2", "dry": "9.5 bar" }]
    } });
    let all = texts(&run(&document));
    assert!(all.contains("at least 8.27 bar"), "{all}");
    assert!(!all.contains(" kPa") && !all.contains("psi"), "{all}");
    document["history"]["distance_unit"] = json!("km");
    let all = texts(&run(&document));
    assert!(all.contains("57930 km") && !all.contains(" mi"), "{all}");
    // One service in kilometres: all are said in them.
    let fields = document["history"].as_object_mut().expect("an object");
    fields.remove("distance_unit");
    document["history"]["services"][4]["distance"] = json!("122310 km");
    assert!(texts(&run(&document)).contains("57930 km"));
}

/// A refusal says distances as they were written.
#[test]
fn a_refusal_says_miles() {
    let mut document = document();
    document["history"]["services"][2]["distance"] = json!("45000 mi");
    let bytes = document.to_string();
    let problem = only(
        bytes.as_bytes(),
        "/history/services/2",
        "history.time-backwards",
    );
    assert!(
        problem.message.contains("at 45000 mi, before the 46000 mi"),
        "{}",
        problem.message
    );
    document["history"]["services"][2]["distance"] = json!("9000000 mi");
    let bytes = document.to_string();
    let place = "/history/services/2/distance";
    let problem = only(bytes.as_bytes(), place, "history.count");
    assert!(
        problem.message.starts_with("9000000 mi is outside 0 to"),
        "{}",
        problem.message
    );
}
