//! What meters showed over the years in a document: dwell, ignition point, compression, leak.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use lashwork::history::{Figure, Look};
use lashwork::job::Report;
use lashwork::job::history::HistoryReport;
use lashwork::tolerance::DecidingSide;
use lashwork_tests::refusals::{example, only, put, with};
use serde_json::{Value, json};

const FILE: &str = "inline-four-with-history.json";

fn run(document: &Value) -> Report {
    let report = lashwork_wire::report(document.to_string().as_bytes());
    report.unwrap_or_else(|why| panic!("{why:?}"))
}

/// The example without its valves and with these readings of a quantity at 0, 100, 200, ... h; each row is
/// a service, each number a cylinder, or the engine where there is one.
fn of(field: &str, unit: &str, rows: &[&[f64]]) -> Value {
    let mut document = example(FILE);
    document
        .as_object_mut()
        .expect("an object")
        .remove("clearance");
    let services = rows.iter().enumerate().map(|(i, row)| {
        let visits = row.iter().enumerate().map(|(k, shows)| {
            let mut visit = json!({ "found": { "shows": format!("{shows} {unit}") } });
            if row.len() > 1 {
                visit["cylinder"] = json!(format!("{}", k + 1));
            }
            visit
        });
        let visits: Vec<Value> = visits.collect();
        json!({ "hours": format!("{} h", 100 * i), field: visits })
    });
    let services: Vec<Value> = services.collect();
    put(&mut document, "/history", json!({ "services": services }));
    document
}

fn section(report: &Report) -> &HistoryReport {
    report.history.as_ref().expect("asked for")
}

fn around(figure: Figure, made: f64) -> bool {
    figure.low < made && made < figure.high
}

/// The heel wears: the dwell grows by 1 deg in 100 h and is too large some time after 54 deg.
#[test]
fn dwell_grows_until_it_is_too_large() {
    let mut document = of("dwell", "deg", &[&[48.0], &[49.0], &[50.0], &[51.0]]);
    put(
        &mut document,
        "/history/limits",
        json!({ "dwell": { "from": "46 deg", "to": "54 deg" } }),
    );
    let report = run(&document);
    let dwell = section(&report).dwell.as_ref().expect("read");
    assert_eq!(dwell.unit, "deg");
    let [contacts] = dwell.subjects.as_slice() else {
        panic!("one set of contacts");
    };
    assert_eq!(contacts.name, "the contacts");
    let rate = contacts.rate.expect("fitted");
    assert!((rate.value - 0.01).abs() < 1e-4, "{rate:?}");
    let Look::At(due) = contacts.looks[0].look else {
        panic!("{contacts:?}");
    };
    assert_eq!(due.side, DecidingSide::Above);
    assert!(due.at > 300.0 && due.at < 601.0, "{due:?}");
    assert!(
        (due.reaches.middle.expect("near") - 600.0).abs() < 5.0,
        "{due:?}"
    );
    assert!(
        report
            .assumptions
            .iter()
            .any(|one| one.code == "history.dwell-uncertainty")
    );
}

/// It wanders late by 1 deg in 100 h, to behind top dead centre.
#[test]
fn timing_is_late_after_a_while() {
    let mut document = of("timing", "deg BTDC", &[&[8.0], &[7.0], &[6.0], &[5.0]]);
    let read = document["history"]["services"]
        .as_array_mut()
        .expect("services");
    for service in read {
        service["timing"][0]["found"]["uncertainty"] = json!("0.2 deg");
    }
    put(
        &mut document,
        "/history/limits",
        json!({ "timing": { "from": "4 deg BTDC", "to": "10 deg BTDC" } }),
    );
    let report = run(&document);
    let timing = section(&report).timing.as_ref().expect("read");
    let point = &timing.subjects[0];
    assert!(around(point.rate.expect("fitted"), -0.01));
    let text = point.rate_text.as_deref().expect("fitted");
    assert!(text.starts_with("retards by 1.0 deg in 100 h"), "{text}");
    assert!(
        point.looks[0].text.contains("too late"),
        "{}",
        point.looks[0].text
    );
    assert!(
        !report
            .assumptions
            .iter()
            .any(|one| one.code == "history.timing-uncertainty")
    );
    let end = point.chart.lines[0].last().expect("ahead");
    assert!(around(end.line, 8.0 - 0.01 * end.at), "{end:?}");
}

/// All fall by 5 kPa in 100 h; cylinder 3 by 70 more since 400 h.
#[test]
fn a_cylinder_whose_compression_falls_alone_is_named() {
    let row = |hours: f64| [0.0, 4.0, -3.0, 2.0].map(|own: f64| 1100.0 + own - 0.05 * hours);
    let rows: Vec<[f64; 4]> = (0..8)
        .map(|i| {
            let hours = 100.0 * f64::from(i);
            let mut row = row(hours);
            row[2] -= 0.7 * (hours - 400.0).max(0.0);
            row
        })
        .collect();
    let rows: Vec<&[f64]> = rows.iter().map(<[f64; 4]>::as_slice).collect();
    let report = run(&of("compression", "kPa", &rows));
    let found = section(&report).compression.as_ref().expect("read");
    let odd: Vec<&str> = (found.subjects.iter())
        .filter(|one| one.odd.as_ref().is_some_and(|odd| odd.is_odd))
        .map(|one| one.name.as_str())
        .collect();
    let evidence: Vec<_> = found.subjects.iter().map(|one| &one.odd).collect();
    assert_eq!(odd, ["cylinder 3"], "{evidence:?}");
    let mate = &found.subjects[0];
    assert_eq!(mate.cylinder.as_deref(), Some("1"));
    assert!(around(mate.rate.expect("fitted"), -0.05), "{mate:?}");
    let lines = found.subjects[2].advice.lines().join(" ");
    assert!(
        lines.contains("no verdict on the part") && lines.contains("hands and tools off"),
        "{lines}"
    );
    // The same without it: none is named.
    let rows: Vec<[f64; 4]> = (0..8).map(|i| row(100.0 * f64::from(i))).collect();
    let rows: Vec<&[f64]> = rows.iter().map(<[f64; 4]>::as_slice).collect();
    let report = run(&of("compression", "kPa", &rows));
    let found = section(&report).compression.as_ref().expect("read");
    assert!(
        found
            .subjects
            .iter()
            .all(|one| !one.odd.as_ref().is_some_and(|odd| odd.is_odd))
    );
}

#[test]
fn a_leak_grows_out_of_its_limit() {
    let rows: [&[f64]; 4] = [&[0.30, 0.32], &[0.40, 0.41], &[0.50, 0.52], &[0.60, 0.61]];
    let mut document = of("leak_area", "mm2", &rows);
    put(
        &mut document,
        "/history/limits",
        json!({ "leak_area": { "to": "1 mm2" } }),
    );
    let report = run(&document);
    let leak = section(&report).leak_area.as_ref().expect("read");
    assert_eq!((leak.unit, leak.subjects.len()), ("mm2", 2));
    assert!(around(leak.subjects[0].rate.expect("fitted"), 0.001));
    let Look::At(due) = leak.subjects[0].looks[0].look else {
        panic!("{leak:?}");
    };
    assert!(
        due.side == DecidingSide::Above && due.at > 300.0 && due.at < 800.0,
        "{due:?}"
    );
}

/// 0.040 in and 0.060 in testers show 60 and 75.31 of 80 psi of one leak (isentropic flow through two nozzles in a row,
/// worked by hand): what they show is never held side by side, the areas are, and the record says that testers differ.
#[test]
fn testers_are_told_and_what_they_show_is_no_area() {
    let rows: [&[f64]; 3] = [&[0.30, 0.32], &[0.40, 0.41], &[0.50, 0.52]];
    let plain = of("leak_area", "mm2", &rows);
    assert!(section(&run(&plain)).leak_testers.is_none());
    let tester = |i: usize| format!("/history/services/{i}/leak_tester");
    let small = json!({ "orifice": "0.040 in" });
    let mut document = with(
        plain,
        &[(&tester(0), small.clone()), (&tester(1), small.clone())],
    );
    let told = |document: &Value| section(&run(document)).leak_testers.clone().expect("named");
    let one = told(&document);
    assert!(!one.differ && one.some_not_known, "{one:?}");
    put(&mut document, &tester(2), small);
    let same = told(&document);
    assert!(
        !same.differ && !same.some_not_known && same.text.contains("one tester"),
        "{same:?}"
    );
    put(
        &mut document,
        &tester(2),
        json!({ "name": "the club's", "orifice": "0.060 in" }),
    );
    let report = run(&document);
    let both = section(&report).leak_testers.clone().expect("named");
    assert!(
        both.differ && both.text.contains("the club's, an orifice of "),
        "{both:?}"
    );
    assert!(
        report.sheet().contains("testers: read with "),
        "{}",
        report.sheet()
    );
    // The areas stand side by side all the same.
    let plain = of("leak_area", "mm2", &rows);
    let rates = |document: &Value| {
        let report = run(document);
        let leak = section(&report).leak_area.clone().expect("read");
        leak.subjects.iter().map(|one| one.rate).collect::<Vec<_>>()
    };
    assert_eq!(rates(&document), rates(&plain));
    let shows = "/history/services/1/leak_area/0/found/shows";
    for shown in [
        json!("12 %"),
        json!("70 psi"),
        json!({ "percent": 12.0 }),
        json!({ "psi": 70.0 }),
    ] {
        let document = with(plain.clone(), &[(shows, shown)]);
        only(
            document.to_string().as_bytes(),
            shows,
            "history.leak-as-shown",
        );
    }
    let document = with(plain, &[(&tester(1), json!({}))]);
    only(
        document.to_string().as_bytes(),
        &tester(1),
        "history.leak-tester",
    );
}

/// A set breaker begins anew: what it grew by before is not undone by setting.
#[test]
fn setting_begins_a_new_stretch() {
    let report = run(&example(FILE));
    let dwell = section(&report).dwell.as_ref().expect("read");
    let contacts = &dwell.subjects[0];
    assert_eq!(contacts.chart.lines.len(), 2);
    assert!(contacts.rate.expect("fitted").value > 0.0);
    let compression = section(&report).compression.as_ref().expect("read");
    assert_eq!(compression.subjects.len(), 4);
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let refused = |edits: &[(&str, Value)], place: &str, code: &str| {
        let document = with(example(FILE), edits);
        only(document.to_string().as_bytes(), place, code)
    };
    let at = |rest: &str| format!("/history/services/2{rest}");
    let twice = at("/compression/1");
    refused(
        &[(&at("/compression/1/cylinder"), json!("1"))],
        &twice,
        "history.twice-in-service",
    );
    let left_at = at("/dwell/0/left_at");
    refused(
        &[(&left_at, json!({ "distance": "49000 km" }))],
        &left_at,
        "history.read-before-reset",
    );
    let shows = at("/dwell/0/found/shows");
    refused(
        &[(&shows, json!("400 deg"))],
        &shows,
        "quantity.out-of-range",
    );
    let limits = "/history/limits/compression";
    refused(&[(limits, json!({}))], limits, "tolerance.empty-band");
}
