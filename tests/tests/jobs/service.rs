//! The whole service over the sections of a document: what is done, provisional, to be read again, and next.
#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::run;
use lashwork::job::{Report, ServiceReport, ServiceState, ServiceStepReport, WorkAdvice, WorkStep};
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

const IGNITION: &str = "opposed-four-ignition.json";
const MIXTURE: &str = "four-carburettors-at-altitude.json";

fn service(report: &Report) -> &ServiceReport {
    report.service.as_ref().expect("more than one step")
}

fn at(report: &Report, step: WorkStep) -> &ServiceStepReport {
    let steps = &service(report).steps;
    steps
        .iter()
        .find(|one| one.step == step)
        .expect("a step of the document")
}

fn logged(name: &str, log: Value) -> Report {
    let mut document = example(name);
    document["log"] = log;
    run(&document)
}

/// One degree more dwell is one crank degree later on a cam at half speed with like flanks: half of it on the
/// opening side, and the crank turns twice (makers' manuals, named in the tests of the contacts).
#[test]
fn contacts_set_after_the_timing_take_the_timing_back_and_say_how_far_it_moves() {
    for (dwell, words) in [
        (
            "1 deg",
            "1.0 deg more dwell: the spark comes 1.0 crank deg later",
        ),
        (
            "-2.5 deg",
            "2.5 deg less dwell: the spark comes 2.5 crank deg earlier",
        ),
    ] {
        let report = logged(
            IGNITION,
            json!([
                { "step": "timing", "did": "set", "spark": "2 deg" },
                { "step": "contacts", "did": "set", "dwell": dwell },
            ]),
        );
        let timing = at(&report, WorkStep::Timing);
        assert_eq!(timing.state, ServiceState::Stale);
        assert!(timing.text.contains(words), "{}", timing.text);
        let found = report.ignition.as_ref().expect("asked for");
        let advice = &found.timing.as_ref().expect("asked for").advice;
        let WorkAdvice::SettleFirst { text, .. } = advice else {
            panic!("an amount is given on what is to be read again: {advice:?}");
        };
        assert!(text.contains("read the timing again"), "{text}");
    }
}

#[test]
fn what_was_only_read_or_done_before_takes_nothing_back() {
    for log in [
        json!([{ "step": "timing", "did": "read" }, { "step": "contacts", "did": "read" }]),
        json!([{ "step": "contacts", "did": "set" }, { "step": "timing", "did": "read" }]),
        json!([{ "step": "contacts", "did": "set" }]),
        json!([]),
    ] {
        let report = logged(IGNITION, log.clone());
        let steps = &service(&report).steps;
        assert!(
            steps.iter().all(|one| one.state != ServiceState::Stale),
            "{log}"
        );
        let plain = run(&example(IGNITION));
        assert_eq!(&service(&plain).steps, steps, "{log}");
        assert_eq!(service(&plain).next, service(&report).next, "{log}");
    }
}

/// Compression, leaks, the advance of the governor, how evenly the sparks come and the vacuum are seen, and what is
/// then set is something else: common practice, no source.
#[test]
fn what_is_only_read_offers_nothing_to_set() {
    let report = run(&json!({
        "engine": example(MIXTURE)["engine"], "condition": {}, "ignition": {}, "mixture": {}, "lashwork": 1,
    }));
    let only_read = [
        WorkStep::Compression,
        WorkStep::Leak,
        WorkStep::Advance,
        WorkStep::Evenness,
        WorkStep::Gauge,
    ];
    let steps = &service(&report).steps;
    for one in steps {
        assert_eq!(
            one.can_be_set,
            !only_read.contains(&one.step),
            "{}",
            one.name
        );
    }
    let report = run(&example("inline-four-condition.json"));
    assert!(!at(&report, WorkStep::Compression).can_be_set);
    assert!(!at(&report, WorkStep::Leak).can_be_set);
    assert!(at(&report, WorkStep::Head).can_be_set);
}

/// The head first, then the valves: common practice, no source.
#[test]
fn head_bolts_after_the_valves_take_the_clearances_back_and_make_the_rest_provisional() {
    let report = logged(
        MIXTURE,
        json!([{ "step": "valves", "did": "set", "lash": "0.05 mm" }, { "step": "head", "did": "set" }]),
    );
    let valves = at(&report, WorkStep::Valves);
    assert_eq!(valves.state, ServiceState::Stale);
    assert!(
        valves
            .text
            .contains("the head bolts came after it and moved"),
        "{}",
        valves.text
    );
    assert_eq!(
        service(&report).next.as_ref().map(|next| next.step),
        Some(WorkStep::Valves)
    );
    let balance = at(&report, WorkStep::Balance);
    assert_eq!(balance.state, ServiceState::Provisional);
    assert!(balance.stands_on.contains(&WorkStep::Valves));
    assert!(
        balance
            .text
            .contains("it stands on the valve clearances: to be read again"),
        "{}",
        balance.text
    );
    let sheet = report.sheet();
    assert!(
        sheet.starts_with("NEXT: valve clearances: read the valve clearances again"),
        "{sheet}"
    );
}

/// The ramp of the example takes up so much lash a degree; what the events question says of it stands here too.
#[test]
fn valves_set_after_the_compression_was_read_take_it_back_and_say_how_far_lash_moves_it() {
    let report = logged(
        "upright-twin-events.json",
        json!([
            { "step": "compression", "did": "read" },
            { "step": "valves", "did": "set", "lash": "0.10 mm" },
        ]),
    );
    let compression = at(&report, WorkStep::Compression);
    assert_eq!(compression.state, ServiceState::Stale);
    let condition = report.condition.as_ref().expect("asked for");
    let events = condition.events.as_ref().expect("asked for");
    let more = events.more.as_ref().expect("on the ramp");
    assert!(more.text.contains("the intake closes"), "{}", more.text);
    let words = format!("lash 0.10 mm wider; {}", more.text);
    assert!(compression.text.contains(&words), "{}", compression.text);
}

/// Overlap lets exhaust into the manifold: that moves the vacuum (published), by how much is published nowhere; a
/// gauge that was read before is no evidence, though it waits for nothing.
#[test]
fn valves_set_after_the_vacuum_gauge_take_it_back_and_the_amount_is_said_to_be_unknown() {
    let mut document = example("upright-twin-events.json");
    document["mixture"] = json!({ "gauge": { "level": "15 inHg", "movement": "steady" } });
    let gauge = |log: Value| {
        let mut document = document.clone();
        document["log"] = log;
        at(&run(&document), WorkStep::Gauge).clone()
    };
    let moved = gauge(json!([
        { "step": "gauge", "did": "read" },
        { "step": "valves", "did": "set", "lash": "0.10 mm" },
    ]));
    assert_eq!(moved.state, ServiceState::Stale);
    for words in [
        "lash 0.10 mm wider",
        "overlap",
        "how far that moves the vacuum is not known",
    ] {
        assert!(moved.text.contains(words), "{}", moved.text);
    }
    assert!(!moved.text.contains("compression"), "{}", moved.text);
    assert!(moved.stands_on.is_empty());
    let before = gauge(json!([
        { "step": "valves", "did": "set" },
        { "step": "gauge", "did": "read" },
    ]));
    assert!(before.state != ServiceState::Stale);
}

/// Bolts that were tightened since take the clearances back in one way, whether the log says so or the section does.
#[test]
fn clearances_taken_back_are_to_be_read_again_whoever_says_so() {
    let mut stated = example("upright-twin-events.json");
    stated["condition"]["head"] = json!({ "bolts_are": "tightened_since" });
    let logged = logged(
        "upright-twin-events.json",
        json!([{ "step": "valves", "did": "read" }, { "step": "head", "did": "set" }]),
    );
    for report in [&run(&stated), &logged] {
        assert_eq!(at(report, WorkStep::Valves).state, ServiceState::Stale);
        let condition = report.condition.as_ref().expect("asked for");
        let compression = condition.compression.as_ref().expect("asked for");
        assert!(compression.provisional.is_some());
        let clearance = report.clearance.as_ref().expect("asked for");
        assert!(!clearance.stop_work.is_empty());
    }
}

/// What is not in the log is named, with how it counts; without a log there is nothing to say.
#[test]
fn what_is_not_in_the_log_is_told() {
    let report = logged(MIXTURE, json!([{ "step": "timing", "did": "set" }]));
    let service = service(&report);
    assert!(service.unlogged.contains(&WorkStep::Balance));
    assert!(!service.unlogged.contains(&WorkStep::Timing));
    // Nothing was read of these.
    assert!(!service.unlogged.contains(&WorkStep::Gauge));
    let text = service.unlogged_text.as_ref().expect("there is a log");
    assert!(
        text.starts_with("not in the log: ") && text.contains("balance"),
        "{text}"
    );
    assert!(text.contains("counts as read after what it has"), "{text}");
    let sheet = report.full_sheet();
    let sheet = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(sheet.contains("not in the log: "));
    let plain = run(&example(MIXTURE));
    let plain = plain.service.expect("more than one step");
    assert!(plain.unlogged_text.is_none());
    assert!(plain.unlogged.contains(&WorkStep::Timing));
}

/// The full sheet has the pages before it: what is next stands there, and the steps once behind it.
#[test]
fn the_full_sheet_says_the_service_once() {
    let report = run(&example(MIXTURE));
    for sheet in [report.sheet(), report.full_sheet()] {
        assert_eq!(sheet.matches("NEXT: ").count(), 1, "{sheet}");
        assert_eq!(sheet.matches("\nService: ").count(), 1, "{sheet}");
    }
    assert!(report.full_sheet().contains("The whole service"));
}

/// A step that is done stands on done ones alone; one that stands on another comes after it.
#[test]
fn states_follow_from_what_each_step_stands_on() {
    let report = run(&example(MIXTURE));
    for (step, state) in [
        (WorkStep::Timing, ServiceState::Done),
        (WorkStep::Balance, ServiceState::Open),
        (WorkStep::Idle, ServiceState::Provisional),
        (WorkStep::Gauge, ServiceState::NotKnown),
    ] {
        assert_eq!(at(&report, step).state, state, "{step:?}");
    }
    let leads = example(IGNITION);
    assert_eq!(
        at(&run(&leads), WorkStep::Leads).state,
        ServiceState::NotBegun
    );
    for name in [IGNITION, MIXTURE] {
        let report = run(&example(name));
        let steps = &service(&report).steps;
        for (i, one) in steps.iter().enumerate() {
            for on in &one.stands_on {
                let before = steps[..i].iter().find(|told| told.step == *on);
                let before = before.expect("comes before");
                if one.state == ServiceState::Done {
                    assert_eq!(before.state, ServiceState::Done, "{name}: {one:?}");
                }
            }
        }
        let next = service(&report).next.as_ref().expect("something is left");
        assert!(
            report
                .sheet()
                .starts_with(&format!("NEXT: {}: ", next.name)),
            "{name}"
        );
    }
}

#[test]
fn an_amount_at_a_step_that_it_does_not_move_is_refused_where_it_stands() {
    for (entry, place) in [
        (
            json!({ "step": "timing", "did": "set", "dwell": "1 deg" }),
            "/log/0/dwell",
        ),
        (
            json!({ "step": "valves", "did": "read", "lash": "0.1 mm" }),
            "/log/0/lash",
        ),
        (json!({ "step": "valve", "did": "read" }), "/log/0/step"),
        (json!({ "step": "valves" }), "/log/0"),
        (
            json!({ "step": "contacts", "did": "set", "dwell": "1 mm" }),
            "/log/0/dwell",
        ),
    ] {
        let mut document = example(IGNITION);
        document["log"] = json!([entry]);
        let problems = lashwork_wire::report(document.to_string().as_bytes()).expect_err("refused");
        assert!(
            problems.iter().any(|problem| problem.place == place),
            "{entry}: {problems:?}"
        );
    }
}
