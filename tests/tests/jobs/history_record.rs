//! A record grows only: one that lost or changed what was known of it is told, and answered all the same.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use lashwork::job::Report;
use lashwork::job::history::{HistoryReport, RecordDifference, RecordGrowthReport, RecordStanding};
use lashwork_tests::refusals::{example, only, put};
use serde_json::{Value, json};

const FILE: &str = "inline-four-with-history.json";

fn run(document: &Value) -> Report {
    let report = lashwork_wire::report(document.to_string().as_bytes());
    report.unwrap_or_else(|why| panic!("{why:?}"))
}

fn section(report: &Report) -> &HistoryReport {
    report.history.as_ref().expect("asked for")
}

fn record(report: &Report) -> &RecordGrowthReport {
    section(report).record.as_ref().expect("a record was known")
}

/// The example whose record was known as it stands, and then changed.
fn known(change: impl Fn(&mut Vec<Value>)) -> Value {
    let mut document = example(FILE);
    let services = document["history"]["services"].clone();
    put(&mut document, "/history/known", services);
    let services = document["history"]["services"].as_array_mut();
    change(services.expect("a list"));
    document
}

fn differences(report: &Report) -> Vec<(RecordDifference, Option<usize>, Option<usize>)> {
    let all = record(report).differences.iter();
    all.map(|one| (one.what, one.known_service, one.service))
        .collect()
}

#[test]
fn a_record_that_grew_is_no_matter() {
    let report = run(&known(|_| {}));
    assert_eq!(record(&report).standing, RecordStanding::Grown);
    assert_eq!(
        record(&report).text,
        "the record here has 4 services up to 2022-04-23, 53400 km, the one known before has 4 services up to \
         2022-04-23, 53400 km: it has grown and lost nothing"
    );
    // A service after the last one, and the present: the same as without a record that was known.
    let grown = known(|services| {
        let mut later = services[3].clone();
        later["date"] = json!("2023-05-01");
        later["distance"] = json!("55000 km");
        services.push(later);
    });
    assert_eq!(record(&run(&grown)).standing, RecordStanding::Grown);
    let plain = run(&example(FILE));
    assert!(section(&plain).record.is_none());
    assert_eq!(section(&plain).lash, section(&report).lash);
}

/// An older state is told with both records and what is missing; the answer is that of the services that are there.
#[test]
fn an_older_record_is_told_and_answered() {
    let document = known(|services| services.truncate(2));
    let report = run(&document);
    assert_eq!(record(&report).standing, RecordStanding::Older);
    let gone = RecordDifference::Gone;
    assert_eq!(
        differences(&report),
        [(gone, Some(2), None), (gone, Some(3), None)]
    );
    let text = &record(&report).text;
    for words in [
        "the record here has 2 services up to 2018-05-12, 45300 km",
        "the one known before has 4 services up to 2022-04-23, 53400 km",
        "the service of 2020-05-02, 49100 km is gone",
        "keep both, put back what is gone",
    ] {
        assert!(text.contains(words), "{text}");
    }
    let mut plain = document.clone();
    let fields = plain["history"].as_object_mut().expect("an object");
    fields.remove("known");
    let plain = run(&plain);
    let rates = |report: &Report| {
        let told = section(report).lash.as_ref().expect("read");
        told.subjects.iter().map(|one| one.rate).collect::<Vec<_>>()
    };
    assert_eq!(rates(&report), rates(&plain));
    // The doubt stands before all that follows, and on the sheet before it.
    let sure = &section(&report).lash.as_ref().expect("read").sure;
    assert!(
        sure[0].starts_with("the record is put right first"),
        "{sure:?}"
    );
    let sheet = report.sheet();
    let page = sheet.split("HISTORY: ").last().expect("a page");
    let (doubt, next) = (page.find("RECORD NOT WHOLE: "), page.find("Services: "));
    assert!(doubt.expect("told") < next.expect("told"), "{page}");
}

/// Torn: a service in the middle, or readings of one.
#[test]
fn a_torn_record_names_what_is_gone() {
    let middle = run(&known(|services| {
        services.remove(1);
    }));
    assert_eq!(record(&middle).standing, RecordStanding::Torn);
    assert_eq!(
        differences(&middle),
        [(RecordDifference::Gone, Some(1), None)]
    );
    let readings = run(&known(|services| {
        let lash = services[2]["lash"].as_array_mut().expect("a list");
        lash.truncate(7);
        let fields = services[3].as_object_mut().expect("an object");
        fields.remove("dwell");
        fields.remove("compression");
    }));
    assert_eq!(record(&readings).standing, RecordStanding::Torn);
    let texts: Vec<&str> = (record(&readings).differences.iter())
        .map(|one| one.text.as_str())
        .collect();
    assert_eq!(
        texts[0],
        "cylinder 4 exhaust in the service of 2020-05-02, 49100 km is gone"
    );
    assert_eq!(
        texts[1],
        "dwell in the service of 2022-04-23, 53400 km is gone"
    );
    assert_eq!(
        texts[2],
        "compression of cylinder 1 in the service of 2022-04-23, 53400 km is gone"
    );
    assert_eq!(texts.len(), 6);
    // Nothing at all is left of it.
    let empty = run(&known(Vec::clear));
    assert_eq!(record(&empty).standing, RecordStanding::Older);
    assert!(
        record(&empty)
            .text
            .contains("the record here has no services")
    );
    assert_eq!(record(&empty).differences.len(), 4);
}

#[test]
fn what_is_otherwise_is_told_as_changed() {
    type Change = fn(&mut Vec<Value>);
    let cases: [(&str, Change); 6] = [
        (
            "cylinder 1 exhaust in the service of 2016-04-30, 41200 km is not as it was",
            |services| services[0]["lash"][1]["found"]["lash"] = json!("0.32 mm"),
        ),
        (
            "dwell in the service of 2018-05-12, 45300 km is not as it was",
            |services| services[1]["dwell"][0]["found"]["shows"] = json!("49 deg"),
        ),
        (
            "the temperature of the service of 2016-04-30, 41200 km is not as it was",
            |services| services[0]["temperature"] = json!("19 C"),
        ),
        (
            "timing in the service of 2020-05-02, 49100 km was put in",
            |services| services[2]["timing"] = json!([{ "found": { "shows": "8 deg BTDC" } }]),
        ),
        (
            "the service of 2019-05-02, 47000 km was put in",
            |services| {
                let mut between = services[2].clone();
                between["date"] = json!("2019-05-02");
                between["distance"] = json!("47000 km");
                services.insert(2, between);
            },
        ),
        // Another time is another service in its place.
        (
            "the service of 2022-04-23, 53400 km is gone; the service of 2022-04-20, 53400 km was put in",
            |services| services[3]["date"] = json!("2022-04-20"),
        ),
    ];
    for (words, change) in cases {
        let report = run(&known(change));
        assert_eq!(record(&report).standing, RecordStanding::Changed, "{words}");
        assert!(
            record(&report).text.contains(words),
            "{}",
            record(&report).text
        );
    }
}

#[test]
fn a_known_record_that_cannot_be_read_is_refused_where_it_stands() {
    let mut document = known(|_| {});
    put(&mut document, "/history/known/1/date", json!("12.5.2018"));
    let bytes = document.to_string();
    only(bytes.as_bytes(), "/history/known/1/date", "history.day");
    let mut document = known(|_| {});
    let many = vec![json!({ "date": "2019-04-27" }); 201];
    put(&mut document, "/history/known", json!(many));
    let bytes = document.to_string();
    only(
        bytes.as_bytes(),
        "/history/known",
        "history.too-many-services",
    );
}
