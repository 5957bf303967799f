//! Past services in a document: what they say of each valve, and what is refused.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use lashwork::history::{CountedBy, Look, NotKnown};
use lashwork::job::Report;
use lashwork::job::WorkAdvice;
use lashwork::job::history::{HistoryReport, QuantityHistoryReport, SubjectDriftReport};
use lashwork::tolerance::Verdict;
use lashwork_tests::refusals::{example, only, put, with};
use serde_json::{Value, json};

const FILE: &str = "inline-four-with-history.json";

fn run(document: &Value) -> Report {
    let report = lashwork_wire::report(document.to_string().as_bytes());
    let report = report.unwrap_or_else(|why| panic!("{why:?}"));
    let page = page(&report);
    assert!(
        page.lines().all(|line| line.chars().count() <= 100),
        "{page}"
    );
    report
}

/// The page of the history.
fn page(report: &Report) -> String {
    let sheet = report.sheet();
    sheet.split("HISTORY: ").last().expect("a page").to_owned()
}

fn section(report: &Report) -> &HistoryReport {
    report.history.as_ref().expect("asked for")
}

fn lash(report: &Report) -> &QuantityHistoryReport {
    section(report).lash.as_ref().expect("valves were read")
}

fn valve<'r>(report: &'r Report, name: &str) -> &'r SubjectDriftReport {
    let mut all = lash(report).subjects.iter();
    all.find(|valve| valve.name == name).expect("read")
}

/// 0.316 - 0.003 * 16.8 - 0.010 * 8.9 = 0.177 mm at 58,000 km, closing by 0.013 mm in 1000 km: at 0.13 mm after
/// 61,600 km. The others close by 0.003 mm in 1000 km.
#[test]
fn a_seat_that_sinks_is_named_before_it_is_tight() {
    let report = run(&example(FILE));
    assert_eq!(section(&report).counted_by, CountedBy::Distance);
    assert_eq!(section(&report).services.len(), 5);
    let name = "cylinder 3 exhaust";
    let odd = |valve: &SubjectDriftReport| valve.odd.as_ref().is_some_and(|odd| odd.is_odd);
    let named: Vec<&str> = (lash(&report).subjects.iter())
        .filter(|valve| odd(valve))
        .map(|valve| valve.name.as_str())
        .collect();
    assert_eq!(named, [name]);
    let own = valve(&report, name);
    let since = own.odd.as_ref().and_then(|odd| odd.since);
    assert_eq!(since, Some(2), "{own:?}");
    // Ville's bound: four valves of a kind, 5 % of kinds: 4 / 0.05.
    for odd in (lash(&report).subjects.iter()).filter_map(|valve| valve.odd.as_ref()) {
        assert!((odd.needed - 80.0).abs() < 1e-9, "{odd:?}");
        assert_eq!(odd.is_odd, odd.evidence >= 80.0, "{odd:?}");
    }
    // It is in its band today.
    let clearance = report.clearance.as_ref().expect("asked for");
    let judged = clearance.valves.iter().find(|valve| valve.name == name);
    assert_eq!(judged.expect("read").judged[0].verdict, Verdict::InBand);
    let Look::At(due) = own.looks[0].look else {
        panic!("{own:?}");
    };
    assert!(due.at > 58_000.0 && due.at < 61_600.0, "{due:?}");
    let (from, to) = (
        due.reaches.from.expect("near"),
        due.reaches.to.expect("near"),
    );
    assert!(from < 61_600.0 && to > 61_600.0, "{due:?}");
    let rate = own.rate.expect("fitted");
    assert!(rate.low < -0.013e-3 && rate.high > -0.013e-3, "{rate:?}");
    let next = lash(&report).next.as_deref().expect("due");
    assert!(next.contains(name), "{next}");
    // Its mates are looked at later.
    let mate = valve(&report, "cylinder 1 exhaust");
    match mate.looks[0].look {
        Look::At(other) => assert!(other.at > 65_000.0, "{other:?}"),
        Look::NotBefore(far) => assert!(far > 100_000.0),
        other => panic!("{other:?}"),
    }
}

/// The page tells once what holds for many, by itself what does not, and no valve is lost between the two; 66 lines of
/// 100 characters are a page of a line printer.
#[test]
fn what_many_share_is_said_once_and_fits_a_page() {
    let report = run(&example(FILE));
    let page = page(&report);
    assert!(page.lines().count() <= 66, "{page}");
    let told = lash(&report);
    let shared: Vec<usize> = told
        .alike
        .iter()
        .flat_map(|one| one.subjects.clone())
        .collect();
    assert_eq!(shared, [0, 1, 2, 3, 4, 6, 7], "{told:?}");
    let one = &told.alike[0];
    assert_eq!(one.texts.len(), 2, "{one:?}");
    // The readings of the document, least and greatest of each kind, and the rates that it was made with.
    for said in [
        "cylinders 1, 2, 3 and 4 intake: found between 0.180 mm and 0.200 mm on 2025-05-10",
        "cylinders 1, 2 and 4 exhaust: found between 0.240 mm and 0.280 mm on 2025-05-10",
        "each closes by 0.030 mm to 0.033 mm in 10 000 km",
    ] {
        assert!(
            one.texts.iter().any(|text| text.contains(said)),
            "{said}: {one:?}"
        );
    }
    assert_eq!(
        page.matches("nothing to do on account of its drift")
            .count(),
        2,
        "{page}"
    );
    assert_eq!(
        page.matches("cylinder 3 exhaust: found").count(),
        1,
        "{page}"
    );
    // The full sheet has each by itself, with its own interval.
    let full = report.full_sheet();
    for valve in &told.subjects {
        assert!(
            full.contains(&format!("\n{}: found", valve.name)),
            "{}",
            valve.name
        );
    }
}

/// Of few readings each, what is asked is said once; valves whose dates differ have theirs in one list, the earliest
/// first.
#[test]
fn valves_with_dates_of_their_own_stand_in_one_list() {
    let mut document = example(FILE);
    put(
        &mut document,
        "/clearance/specifications/0/intake/leave_alone/from",
        json!("0.16 mm"),
    );
    let report = run(&document);
    let told = lash(&report);
    let dated = (told.alike.iter()).find_map(|one| match &one.advice {
        WorkAdvice::Leave { text } if text.starts_with("their drift asks for a look") => Some(text),
        _ => None,
    });
    let text = dated.unwrap_or_else(|| panic!("{:?}", told.alike));
    assert!(text.contains(": by ") && text.contains("intake"), "{text}");
    // Of the clearances, the dwell and the compression, once each.
    let mut few = example(FILE);
    let services = few["history"]["services"].as_array().expect("services");
    few["history"]["services"] = json!([services[3]]);
    few["record"] = json!({});
    let report = run(&few);
    let page = page(&report);
    assert_eq!(
        page.matches("there are too few readings to see one")
            .count(),
        3,
        "{page}"
    );
}

#[test]
fn its_words_are_no_verdict_and_say_what_must_be_sure() {
    let report = run(&example(FILE));
    let WorkAdvice::FindCause { text, causes } = &valve(&report, "cylinder 3 exhaust").advice
    else {
        panic!("a cause is looked for");
    };
    assert!(text.contains("no verdict on the valve"), "{text}");
    assert!(causes.iter().any(|cause| cause.contains("leak-down")));
    let page = page(&report);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    let place = |text: &str| {
        page.find(text)
            .unwrap_or_else(|| panic!("no {text:?} on\n{page}"))
    };
    let (next, odd) = (
        place("Next: look first at"),
        place("ODD ONE: cylinder 3 exhaust"),
    );
    let (warm, amount) = (place("measured"), place("closes by"));
    assert!(odd < next && next < warm && warm < amount, "{page}");
    assert!(page.contains("at most 5 %"), "{page}");
}

/// Without the present readings there are four services; what the clearances found is not typed twice.
#[test]
fn present_readings_count_where_they_are_dated() {
    let dated = run(&example(FILE));
    let mut document = example(FILE);
    put(&mut document, "/record", json!({ "date": "10 May" }));
    let undated = run(&document);
    assert_eq!(section(&undated).services.len(), 4);
    assert!(section(&undated).present.contains("do not count"));
    assert!(
        section(&dated)
            .present
            .contains("count as the last service")
    );
    // A record of the last service's own day is that service.
    put(&mut document, "/record", json!({ "date": "2022-04-23" }));
    assert_eq!(section(&run(&document)).services.len(), 4);
    // Something to settle first spoils the readings.
    let mut spoiled = example(FILE);
    put(
        &mut spoiled,
        "/clearance/metal/temperature/is",
        json!("80 C"),
    );
    let spoiled = run(&spoiled);
    assert!(section(&spoiled).present.contains("until this is settled"));
}

#[test]
fn too_few_readings_say_so() {
    let mut document = example(FILE);
    let first = document["history"]["services"][0].clone();
    put(&mut document, "/history/services", json!([first]));
    document
        .as_object_mut()
        .expect("an object")
        .remove("clearance");
    let report = run(&document);
    for kind in &lash(&report).kinds {
        assert!(kind.too_few.is_some() && kind.rate.is_none());
        assert!(kind.text.contains("too few readings"), "{}", kind.text);
    }
    assert!(lash(&report).next.is_none());
}

#[test]
fn bedding_in_and_what_was_not_read_since_are_told_apart() {
    let at = |service: usize, valve: usize, field: &str| {
        format!("/history/services/{service}/lash/{valve}/{field}")
    };
    let mut document = example(FILE);
    document
        .as_object_mut()
        .expect("an object")
        .remove("clearance");
    put(&mut document, &at(3, 1, "done"), json!("renewed"));
    put(
        &mut document,
        &at(3, 1, "left"),
        json!({ "lash": "0.30 mm" }),
    );
    put(&mut document, &at(3, 3, "done"), json!("set"));
    let report = run(&document);
    let why = |name| valve(&report, name).not_known;
    assert_eq!(why("cylinder 1 exhaust"), Some(NotKnown::BeddingIn));
    assert_eq!(why("cylinder 2 exhaust"), Some(NotKnown::NotRead));
    assert_eq!(why("cylinder 4 exhaust"), None);
    // Without a book nothing is said of when.
    assert!(valve(&report, "cylinder 4 exhaust").looks.is_empty());
}

/// A reading taken warm is not held beside the cold ones; it is not corrected by guess.
#[test]
fn a_warm_service_does_not_count() {
    let mut document = example(FILE);
    put(
        &mut document,
        "/history/services/3/temperature",
        json!("85 C"),
    );
    let report = run(&document);
    let told = report
        .assumptions
        .iter()
        .find(|one| one.code == "history.not-as-warm");
    assert!(told.expect("told").text.contains("service 4"));
    let four = run(&example(FILE));
    let rate = |report: &Report| valve(report, "cylinder 1 exhaust").rate.expect("fitted");
    assert!(rate(&report).value.to_bits() != rate(&four).value.to_bits());
}

#[test]
fn lead_is_a_hypothesis() {
    let report = run(&example(FILE));
    let found = section(&report).recession.as_ref().expect("they close");
    assert!(found.text.contains("does not rule it out"), "{found:?}");
    assert!(
        found
            .against_text
            .iter()
            .any(|text| text.contains("one moves unlike"))
    );
    assert!(found.not_known_text.contains(&"what the seats are made of"));
    assert!(!found.published.is_empty());
}

#[test]
fn what_cannot_be_is_refused_at_its_field() {
    let refused = |edits: &[(&str, Value)], place: &str, code: &str| {
        let document = with(example(FILE), edits);
        only(document.to_string().as_bytes(), place, code)
    };
    let service = |rest: &str| format!("/history/services/2{rest}");
    let back = (service("/distance"), json!("45000 km"));
    refused(&[(&back.0, back.1)], &service(""), "history.time-backwards");
    let other = (service("/engine"), json!("another engine"));
    let problem = refused(
        &[(&other.0, other.1)],
        &service("/engine"),
        "history.other-engine",
    );
    assert!(problem.hint.contains("one record for each engine"));
    let (left, left_at) = (service("/lash/1/left"), service("/lash/1/left_at"));
    let early = [
        (left.as_str(), json!({ "lash": "0.30 mm" })),
        (left_at.as_str(), json!({ "distance": "49000 km" })),
    ];
    refused(&early, &left_at, "history.read-before-reset");
    let twice = (
        service("/lash/1"),
        example(FILE)["history"]["services"][2]["lash"][0].clone(),
    );
    refused(
        &[(&twice.0, twice.1)],
        &service("/lash/1"),
        "history.twice-in-service",
    );
    let day = (service("/date"), json!("2.5.2020"));
    refused(&[(&day.0, day.1)], &service("/date"), "history.day");
    let meter = (service("/distance"), json!("49100"));
    refused(
        &[(&meter.0, meter.1)],
        &service("/distance"),
        "history.meter",
    );
    let number = (service("/lash/1/number"), json!(2));
    refused(
        &[(&number.0, number.1)],
        &number_place(),
        "job.no-such-valve",
    );
    let present = [("/record/distance", json!("50000 km"))];
    refused(&present, "/record", "history.time-backwards");
    let hours = [("/history/counted_by", json!("hours"))];
    refused(&hours, "/history/services/0", "history.not-counted");
    let length = [("/history/bedding_in", json!("20 h"))];
    refused(&length, "/history/bedding_in", "history.bedding-in-count");
}

fn number_place() -> String {
    "/history/services/2/lash/1/number".into()
}

/// What a page draws is there as numbers: each reading, the line through them and on ahead, its limits.
#[test]
fn a_chart_needs_no_arithmetic() {
    let report = run(&example(FILE));
    let mate = valve(&report, "cylinder 1 exhaust");
    let read: Vec<f64> = mate.chart.readings.iter().map(|one| one.at).collect();
    assert_eq!(read, [41_200.0, 45_300.0, 49_100.0, 53_400.0, 58_000.0]);
    // A number of 0.31 mm with 0.008 mm, then leaves.
    let first = mate.chart.readings[0];
    assert_eq!((first.low, first.high), (Some(0.31), Some(0.31)));
    let (from, to) = (first.from.expect("known"), first.to.expect("known"));
    assert!((to - 0.31 - 1.96 * 0.008).abs() < 1e-9 && (0.31 - from - (to - 0.31)).abs() < 1e-9);
    assert_eq!(mate.chart.limits, [0.13, 0.36]);
    let units = (mate.chart.value_unit, mate.chart.time_unit);
    assert_eq!(units, ("mm", "km"));
    let [line] = mate.chart.lines.as_slice() else {
        panic!("it was never set: one line");
    };
    let ends = [line[0].at, line[line.len() - 1].at];
    assert_eq!(
        ends.map(f64::to_bits),
        [41_200.0_f64, 66_400.0].map(f64::to_bits)
    );
    // The made-up line: 0.310 mm, closing by 0.003 mm in 1000 km.
    for point in line {
        let made = 0.310 - 0.003 * (point.at - 41_200.0) / 1000.0;
        assert!(
            point.found.low < made && made < point.found.high,
            "{point:?}"
        );
        assert!(point.line.low > point.found.low && point.line.high < point.found.high);
    }
    assert!(line.windows(2).all(|pair| pair[0].at < pair[1].at));
    // A fan: the band widens ahead, and the forecast in words lies on it.
    let width = |at: usize| line[at].line.high - line[at].line.low;
    assert!(width(line.len() - 1) > 1.5 * width(line.len() / 2));
    let foreseen = mate.forecast.expect("fitted");
    assert_eq!(foreseen.at.to_bits(), 62_200.0_f64.to_bits());
    assert!(line.contains(&foreseen), "{foreseen:?}");
    // One that was set has a line a stretch, each where its readings are.
    let set = valve(&report, "cylinder 4 intake");
    assert_eq!(set.chart.lines.len(), 2);
    let left = set.chart.readings.iter().filter(|one| one.is_left).count();
    assert_eq!((set.chart.readings.len(), left), (6, 1));
    assert!(
        set.chart.lines[0].last().map(|point| point.at)
            <= set.chart.lines[1].first().map(|point| point.at)
    );
    // With too few readings for a line they are still drawn.
    let mut document = example(FILE);
    let first = document["history"]["services"][0].clone();
    put(&mut document, "/history/services", json!([first]));
    document
        .as_object_mut()
        .expect("an object")
        .remove("clearance");
    let report = run(&document);
    let few = valve(&report, "cylinder 1 exhaust");
    assert_eq!((few.chart.readings.len(), few.chart.lines.len()), (1, 0));
}

/// The services are of 41200 km to 58000 km: 16800 km ahead of the last are 74800 km.
#[test]
fn nothing_is_foretold_further_ahead_than_the_record_reaches_back() {
    let report = run(&example(FILE));
    let sound = valve(&report, "cylinder 1 intake");
    let due = sound.looks.iter().find_map(|one| match one.look {
        Look::At(due) => Some(due.at),
        _ => None,
    });
    assert!(due.expect("forecast") > 74_800.0, "{sound:?}");
    let text = sound.advice.lines().join(" ");
    assert!(text.contains("by 74800 km"), "{text}");
    assert!(
        text.contains("as far ahead as the record reaches back"),
        "{text}"
    );
    let odd = valve(&report, "cylinder 3 exhaust");
    let text = odd.advice.lines().join(" ");
    assert!(text.contains("by 59700 km"), "{text}");
}
