//! What the other sections of a document read joins the record as the last service, or it is said why it does not.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use lashwork::history::{ChartReading, NotKnown};
use lashwork::job::Report;
use lashwork::job::history::{HistoryReport, QuantityHistoryReport};
use lashwork_tests::refusals::{example, put};
use serde_json::{Value, json};

const FILE: &str = "inline-four-with-history.json";
/// The present of the example.
const NOW: f64 = 58_000.0;

fn run(document: &Value) -> Report {
    let report = lashwork_wire::report(document.to_string().as_bytes());
    report.unwrap_or_else(|why| panic!("{why:?}"))
}

fn section(report: &Report) -> &HistoryReport {
    report.history.as_ref().expect("asked for")
}

/// The example with compression in kPa and dwell read now.
fn read_now() -> Value {
    let mut document = example(FILE);
    let readings = [1_020, 1_025, 965, 1_030].iter().enumerate();
    let readings = readings
        .map(|(i, kpa)| json!({"cylinder": (i + 1).to_string(), "dry": format!("{kpa} kPa")}));
    let readings: Vec<Value> = readings.collect();
    document["condition"] = json!({ "compression": { "readings": readings } });
    document["ignition"] =
        json!({ "contacts": { "dwell": { "shows": "52 deg", "uncertainty": "0.5 deg" } } });
    document
}

/// What a quantity has of the present, of the first subject or of one by its place.
fn at_present(told: &QuantityHistoryReport, subject: usize) -> Vec<ChartReading> {
    let readings = told.subjects[subject].chart.readings.iter();
    readings.filter(|one| one.at >= NOW).copied().collect()
}

fn dwell(report: &Report) -> Vec<ChartReading> {
    at_present(section(report).dwell.as_ref().expect("read"), 0)
}

fn compression(report: &Report) -> Vec<ChartReading> {
    at_present(section(report).compression.as_ref().expect("read"), 2)
}

#[track_caller]
fn says(report: &Report, words: &str) {
    let text = &section(report).present;
    assert!(text.contains(words), "{text}");
}

/// 25 kPa are the 15 of a reading and the 20 of a gauge together, which the condition section takes where nothing
/// is stated (this library's choice there).
#[test]
fn what_meters_show_now_is_the_last_service() {
    let report = run(&read_now());
    says(
        &report,
        "the present readings of the clearances, the dwell and the compression count as the last service",
    );
    assert_eq!(section(&report).services.len(), 5);
    let [shown] = compression(&report)[..] else {
        panic!("one reading of cylinder 3");
    };
    assert_eq!(
        (shown.at, shown.low, shown.is_left),
        (NOW, Some(965.0), false)
    );
    assert!((shown.to.expect("known") - 965.0 - 1.96 * 25.0).abs() < 0.01);
    let [shown] = dwell(&report)[..] else {
        panic!("one reading of the contacts");
    };
    assert_eq!((shown.low, shown.is_left), (Some(52.0), false));
    assert!((shown.to.expect("known") - 52.0 - 1.96 * 0.5).abs() < 1e-6);
    // It moves what is said: the drift is that of five readings, and the last one is told.
    let without = run(&example(FILE));
    let rate = |report: &Report| {
        let told = section(report).compression.as_ref().expect("read");
        told.subjects[2].rate.expect("fitted").value
    };
    assert!((rate(&report) - rate(&without)).abs() > 1e-5);
    let told = section(&report).compression.as_ref().expect("read");
    let last = told.subjects[2].last.as_deref().expect("read");
    assert_eq!(last, "found 965 kPa on 2025-05-10, 58000 km");
}

/// A cold engine's rings are not as they run: no reading of it goes beside those of a warm one.
#[test]
fn a_cold_engine_does_not_join() {
    let mut document = read_now();
    put(
        &mut document,
        "/condition/compression/cranked",
        json!({ "warm": false }),
    );
    let report = run(&document);
    says(&report, "of the clearances and the dwell count");
    says(
        &report,
        "the present readings of the compression do not count here: the engine was cold",
    );
    assert!(compression(&report).is_empty());
    let on_sheet = report.sheet();
    let on_sheet = on_sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(on_sheet.contains("the compression do not count here"));
}

#[test]
fn what_is_to_be_read_again_does_not_join() {
    let mut document = read_now();
    document["log"] = json!([
        { "step": "compression", "did": "read" },
        { "step": "contacts", "did": "read" },
        { "step": "valves", "did": "set" },
    ]);
    let report = run(&document);
    says(
        &report,
        "the present readings of the compression do not count here: read the compression again",
    );
    says(
        &report,
        "the present readings of the dwell do not count here: read the contacts again",
    );
    assert!(compression(&report).is_empty() && dwell(&report).is_empty());
    // So is what stands on something that is not settled itself.
    let mut tight = read_now();
    let reading =
        json!({ "cylinder": "1", "valve": "exhaust", "goes": ["0.06 mm"], "refuses": ["0.08 mm"] });
    put(&mut tight, "/clearance/readings/1", reading);
    says(
        &run(&tight),
        "the compression do not count here: settle the valve clearances first",
    );
}

/// The log says whether the meter was read before the contacts were set or after.
#[test]
fn the_log_tells_found_from_left() {
    let with = |log: Value| {
        let mut document = read_now();
        document["log"] = log;
        run(&document)
    };
    let read = json!({ "step": "contacts", "did": "read" });
    let set = json!({ "step": "contacts", "did": "set", "dwell": "-4 deg" });
    let before = with(json!([read, set]));
    assert!(!dwell(&before)[0].is_left);
    let told = section(&before).dwell.as_ref().expect("read");
    assert_eq!(told.subjects[0].not_known, Some(NotKnown::NotRead));
    let after = with(json!([set, read]));
    assert!(dwell(&after)[0].is_left);
    let told = section(&after).dwell.as_ref().expect("read");
    assert_eq!(told.subjects[0].not_known, None);
    let neither = with(json!([set]));
    says(
        &neither,
        "does not say whether it was read before that or after",
    );
    assert!(dwell(&neither).is_empty());
}

/// Areas are compared by any tester, but one cylinder read with another than the rest is told and left out.
#[test]
fn another_tester_does_not_join() {
    let mut document = example(FILE);
    let past = |mm2: [f64; 2]| {
        let one = |(i, mm2): (usize, &f64)| json!({"cylinder": (i + 1).to_string(), "found": {"shows": format!("{mm2} mm2")}});
        mm2.iter().enumerate().map(one).collect::<Value>()
    };
    for (i, mm2) in [[0.30, 0.32], [0.33, 0.36], [0.38, 0.39]]
        .iter()
        .enumerate()
    {
        put(
            &mut document,
            &format!("/history/services/{i}/leak_area"),
            past(*mm2),
        );
    }
    document["condition"] = json!({ "leak": {
        "tester": { "supply": "80 psi", "orifice": "0.040 in" },
        "readings": [
            { "cylinder": "1", "shows": "70 psi", "held": true },
            { "cylinder": "2", "shows": "74 psi", "held": true,
              "tester": { "supply": "80 psi", "orifice": "0.060 in" } },
        ],
    } });
    let report = run(&document);
    says(&report, "the clearances and the leaks count");
    says(
        &report,
        "the leak of cylinder 2 does not count here: it was read with another tester",
    );
    let leak = section(&report).leak_area.as_ref().expect("read");
    let area = report.condition.as_ref().expect("asked for");
    let area = area.leak.as_ref().expect("asked for").cylinders[0].area_mm2;
    assert_eq!(at_present(leak, 0)[0].low, Some(area));
    assert!(at_present(leak, 1).is_empty());
    put(&mut document, "/condition/leak/warm", json!(false));
    says(
        &run(&document),
        "the leaks do not count here: the engine was cold",
    );
}

/// A meter on another scale, and a lamp read with the hose connected.
#[test]
fn what_may_be_another_number_does_not_join() {
    let mut document = read_now();
    document["ignition"] = json!({
        "contacts": {
            "dwell": { "shows": "34.7 deg" }, "dwell_limits": { "from": "49 deg", "to": "55 deg" }
        },
        "timing": {
            "limits": { "from": "6 deg BTDC", "to": "9 deg BTDC" },
            "centrifugal": { "crank": [
                { "speed": "1000 rpm", "least": "0 deg", "most": "1 deg" },
                { "speed": "3000 rpm", "least": "20 deg", "most": "24 deg" }
            ], "ends": true },
            "vacuum": { "distributor": [
                { "vacuum": "5 inHg", "least": "0 deg", "most": "0 deg" },
                { "vacuum": "20 inHg", "least": "10 deg", "most": "12 deg" }
            ], "ends": true },
            "reading": { "read": "20 deg BTDC", "running": {
                "speed": "850 rpm", "vacuum_hose": "connected", "vacuum": "18 inHg"
            } }
        }
    });
    put(
        &mut document,
        "/history/services/0/timing",
        json!([{ "found": { "shows": "8 deg BTDC" } }]),
    );
    let report = run(&document);
    says(&report, "the meter may have stood on another scale");
    says(&report, "with the vacuum hose connected");
    let timing = section(&report).timing.as_ref().expect("read");
    assert_eq!(timing.subjects[0].chart.readings.len(), 1);
    // Standing, it is the point itself; the contacts stand.
    document["ignition"] = json!({ "timing": {
        "limits": { "from": "6 deg BTDC", "to": "9 deg BTDC" },
        "reading": { "read": "7 deg BTDC", "uncertainty": "0.5 deg" }
    } });
    let report = run(&document);
    let timing = section(&report).timing.as_ref().expect("read");
    let [shown] = at_present(timing, 0)[..] else {
        panic!("{}", section(&report).present);
    };
    assert_eq!(shown.low, Some(7.0));
    assert!((shown.to.expect("known") - 7.0 - 1.96 * 0.5).abs() < 1e-6);
}

/// The last service is told with the same day: what it lacks is its, what it has is not counted twice.
#[test]
fn what_the_last_service_has_is_not_counted_twice() {
    let mut document = read_now();
    put(
        &mut document,
        "/record",
        json!({ "date": "2022-04-23", "distance": "53400 km" }),
    );
    let typed = run(&document);
    says(
        &typed,
        "the present readings of the clearances, the dwell and the compression are taken to be those of the last \
         service",
    );
    let last = &mut document["history"]["services"][3];
    last.as_object_mut().expect("an object").remove("dwell");
    let lacks = run(&document);
    says(
        &lacks,
        "of the dwell count as the last service, of the same time",
    );
    assert_eq!(section(&lacks).services.len(), 4);
    let told = section(&lacks).dwell.as_ref().expect("read");
    let last = told.subjects[0].chart.readings.last().expect("read");
    assert_eq!((last.at, last.service, last.low), (53_400.0, 3, Some(52.0)));
}

/// A section that no past service read begins no record of its own, and is told.
#[test]
fn without_a_past_there_is_nothing_to_stand_beside() {
    let mut document = read_now();
    for service in document["history"]["services"]
        .as_array_mut()
        .expect("a list")
    {
        service.as_object_mut().expect("an object").remove("dwell");
    }
    let report = run(&document);
    assert!(section(&report).dwell.is_none());
    says(
        &report,
        "the dwell do not count here: no past service read that",
    );
}
