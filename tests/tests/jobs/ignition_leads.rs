//! The leads in a document: what was found, what is most probable, and what to move.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{four, run, section};
use approx::assert_abs_diff_eq;
use lashwork::ignition::leads::{LeadFault, LeadVerdict};
use lashwork::job::ignition::LeadsReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use serde_json::{Value, json};

/// An invented four with these leads.
fn document(leads: &Value) -> Value {
    four(&json!({
        "valves": "settled",
        "distributor": {"rotor": "clockwise"},
        "leads": leads
    }))
}

fn leads(report: &Report) -> &LeadsReport {
    section(report).leads.as_ref().expect("asked for")
}

fn step(report: &Report) -> Standing {
    let steps = &section(report).steps;
    let found = steps.iter().find(|s| s.step == WorkStep::Leads);
    found.expect("told").standing
}

#[track_caller]
fn refused_with(place: &str, code: &str, leads: &Value) {
    let problems = lashwork_wire::report(document(leads).to_string().as_bytes());
    let problems = problems.expect_err("refused");
    let first = problems.first().expect("one");
    assert_eq!((first.place.as_str(), first.code.as_str()), (place, code));
    assert!(!first.hint.is_empty());
}

fn lead(tower_of: &str, goes_to: &str) -> Value {
    json!({"lead": {"tower_of": tower_of, "goes_to": goes_to}})
}

fn rotor(points_to: &str) -> Value {
    json!({"rotor": {"at_tdc_of": "1", "stroke_checked": true, "points_to": points_to}})
}

/// The sheet on one line.
fn sheet(report: &Report) -> String {
    let sheet = report.sheet();
    assert!(
        sheet.lines().all(|line| line.chars().count() <= 100),
        "{sheet}"
    );
    sheet.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn nothing_looked_at_names_the_first_look() {
    let report = run(&document(&json!({})));
    let found = leads(&report);
    assert_eq!(found.verdict, LeadVerdict::NothingSeen);
    assert_eq!(step(&report), Standing::NotKnown);
    let WorkAdvice::Measure { text } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    let next = found.next.as_ref().expect("a look");
    assert!(text.ends_with(&next.text) && next.bits > 0.0, "{text}");
    for code in [
        "ignition.delivery",
        "ignition.teeth-not-stated",
        "ignition.misread-assumed",
        "ignition.priors-assumed",
    ] {
        assert!(report.assumptions.iter().any(|a| a.code == code), "{code}");
    }
}

#[test]
fn leads_as_they_should_be_are_left() {
    let looks = [
        json!({"rotor": {"at_tdc_of": "1", "stroke_checked": true, "points_at": "2 deg"}}),
        lead("1", "1"),
        lead("3", "3"),
        lead("4", "4"),
        lead("2", "2"),
    ];
    let report = run(&document(&json!({"teeth": 13, "looks": looks})));
    let found = leads(&report);
    assert_eq!(found.explanations[0].states[0].fault, LeadFault::AsItShould);
    assert!(matches!(found.advice, WorkAdvice::Leave { .. }));
    assert_eq!(step(&report), Standing::Settled);
}

/// Two leads seen exchanged. By hand: the two looks are right with 0.97 each, of ten hundredths shared by
/// six pairs, and of the other states one of them at least must be misread, 0.01 each.
#[test]
fn two_exchanged_leads_are_exchanged_back() {
    let looks = [lead("3", "4"), lead("4", "3"), lead("1", "1"), rotor("1")];
    let report = run(&document(
        &json!({"delivery": "distributor", "teeth": 13, "looks": looks}),
    ));
    let found = leads(&report);
    let likely = &found.explanations[0];
    assert_eq!(likely.states[0].fault, LeadFault::TwoExchanged);
    assert_eq!(found.verdict, LeadVerdict::Settled, "{found:?}");
    assert_eq!(
        likely.wrong_sparks.as_deref(),
        Some(&["3".into(), "4".into()][..])
    );
    let WorkAdvice::Set {
        first,
        text,
        then_reads,
    } = &found.advice
    else {
        panic!("{:?}", found.advice);
    };
    assert!(
        text.contains("exchange the leads of cylinders 3 and 4"),
        "{text}"
    );
    assert!(
        first
            .iter()
            .any(|sure| sure.contains("marked as it stands"))
    );
    assert!(then_reads.contains("cylinder 1 at firing top dead centre"));
    assert_eq!(step(&report), Standing::NotSettled);
    let sheet = sheet(&report);
    assert!(
        sheet.contains("Leads and distributor drive: the leads of cylinders 3 and 4"),
        "{sheet}"
    );
    assert!(sheet.contains("wrong spark: 3, 4"), "{sheet}");
}

/// One look at one lead, all looks of the model by hand: Bayes' rule with the listed shares.
#[test]
fn one_lead_leaves_it_open_by_hand_computation() {
    let report = run(&document(&json!({"looks": [lead("1", "1")]})));
    let found = leads(&report);
    // Shares in per cent with no teeth and no other order: those states do not exist. Tower 1 carries its
    // own lead in 'as it should', half a turn out, against the rotor, and three of the six exchanges;
    // not in a shift; in moved-to-suit the lead is another's.
    let (p, wrong, any) = (0.97, 0.03 / 3.0, 0.25);
    let right = 55.0 * p;
    let half = 10.0 * p;
    let exchanged = 10.0 * (0.5 * p + 0.5 * wrong);
    let shifted = 5.0 * wrong;
    let against = 3.0 * p;
    let moved = 3.0 * wrong;
    let other = 2.0 * any;
    let all = right + half + exchanged + shifted + against + moved + other;
    let told = &found.explanations[0];
    assert_eq!(told.states[0].fault, LeadFault::AsItShould);
    assert_abs_diff_eq!(told.probability, right / all, epsilon = 1e-9);
    assert_eq!(found.verdict, LeadVerdict::Open);
    assert!(matches!(found.advice, WorkAdvice::Measure { .. }));
    assert_eq!(step(&report), Standing::NotSettled);
}

#[test]
fn half_a_turn_out_comes_with_its_dead_centre() {
    // Across the cap at two dead centres.
    let across = |of: &str, points_at: &str| json!({"rotor": {"at_tdc_of": of, "stroke_checked": true, "points_at": points_at}});
    let looks = [
        across("1", "181 deg"),
        across("3", "269 deg"),
        lead("1", "1"),
        lead("3", "3"),
    ];
    let report = run(&document(&json!({"teeth": 13, "looks": looks})));
    let found = leads(&report);
    assert_eq!(
        found.explanations[0].states[0].fault,
        LeadFault::HalfTurnOut,
        "{found:?}"
    );
    assert_eq!(
        found.explanations[0].wrong_sparks.as_ref().map(Vec::len),
        Some(4)
    );
    let WorkAdvice::Set { first, text, .. } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(text.contains("half a turn"), "{text}");
    assert!(
        first.iter().any(|sure| sure.contains("not of its overlap")),
        "{first:?}"
    );
}

/// A rotor two of twelve teeth (60 degrees) ahead goes back against its sense; with the sense stated, as
/// seen from the cap.
#[test]
fn teeth_out_go_back_the_right_way() {
    let at = |degrees: &str| json!({"rotor": {"at_tdc_of": "1", "stroke_checked": true, "points_at": degrees}});
    let spark = |comes: &str| json!({"spark": {"cylinder": "1", "comes": comes, "tdc_of": "1", "stroke_checked": true}});
    let leads_right = [lead("1", "1"), lead("3", "3"), lead("4", "4")];
    let run_with = |rotor: Value, spark: Value| {
        let mut looks = Vec::from(leads_right.clone());
        looks.extend([rotor, spark]);
        run(&document(&json!({"teeth": 12, "looks": looks})))
    };
    // 60 degrees of the distributor ahead are 120 of the crank early, beside the 10 of any engine.
    let report = run_with(at("60 deg"), spark("130 deg BTDC"));
    let WorkAdvice::Set { text, .. } = &leads(&report).advice else {
        panic!("{:?}", leads(&report));
    };
    assert!(
        text.contains("2 teeth further against the way the rotor turns (anticlockwise"),
        "{text}"
    );
    // Behind: the other way.
    let report = run_with(at("300 deg"), spark("110 deg ATDC"));
    let WorkAdvice::Set { text, .. } = &leads(&report).advice else {
        panic!("{:?}", leads(&report));
    };
    assert!(
        text.contains("2 teeth further the way the rotor turns (clockwise"),
        "{text}"
    );
}

#[test]
fn a_running_engine_and_stated_shares_are_weighed() {
    let runs = |cylinder: &str, does: &str| json!({"runs": {"cylinder": cylinder, "does": does}});
    let looks = [
        runs("1", "fires"),
        runs("2", "fires"),
        runs("3", "dead"),
        runs("4", "dead"),
    ];
    let with = |percent: f64| {
        let priors = json!([{"fault": "two_exchanged", "percent": percent}]);
        let report = run(&document(&json!({"looks": looks, "priors": priors})));
        let groups = &leads(&report).explanations;
        let exchanged = |g: &&lashwork::job::ignition::LeadGroupReport| {
            g.states[0].fault == LeadFault::TwoExchanged
        };
        let p = groups
            .iter()
            .filter(exchanged)
            .map(|g| g.probability)
            .sum::<f64>();
        assert!(
            !report
                .assumptions
                .iter()
                .any(|a| a.code == "ignition.priors-assumed")
        );
        p
    };
    assert!(with(40.0) > with(1.0));
}

#[test]
fn leads_are_settled_before_contacts_and_timing() {
    let timing = json!({"limits": {"from": "4 deg BTDC", "to": "8 deg BTDC"},
                        "reading": {"read": "20 deg BTDC", "uncertainty": "0.5 deg"}});
    let mut wrong =
        document(&json!({"looks": [lead("3", "4"), lead("4", "3"), lead("1", "1"), rotor("1")]}));
    wrong["ignition"]["timing"] = timing;
    let report = run(&wrong);
    let found = section(&report).timing.as_ref().expect("asked for");
    let WorkAdvice::SettleFirst { text } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(
        text.contains("settle the leads and distributor drive first"),
        "{text}"
    );
    assert!(found.turn.is_none());
    let stops = &section(&report).stop_work;
    assert!(
        stops.iter().any(|s| s.concerns.contains(&WorkStep::Timing)),
        "{stops:?}"
    );
}

#[test]
fn valves_that_are_not_settled_come_first() {
    let mut document = document(&json!({"looks": [lead("3", "4"), lead("4", "3")]}));
    document["ignition"]["valves"] = json!("not_settled");
    let report = run(&document);
    assert!(matches!(
        leads(&report).advice,
        WorkAdvice::SettleFirst { .. }
    ));
}

#[test]
fn more_towers_than_any_cap_has_are_refused_and_the_most_are_answered() {
    let of = |count: usize| {
        let mut asked = document(&json!({"teeth": 13, "looks": [lead("1", "2")]}));
        let labels: Vec<String> = (1..=count).map(|n| n.to_string()).collect();
        let cylinders: Vec<Value> = labels.iter().map(|label| json!({"label": label})).collect();
        asked["engine"]["cylinders"] = json!(cylinders);
        asked["engine"]["firing_order"] = json!(labels);
        lashwork_wire::report(asked.to_string().as_bytes())
    };
    assert!(of(28).is_ok());
    let problems = of(29).expect_err("refused");
    let told = (problems[0].place.as_str(), problems[0].code.as_str());
    assert_eq!(told, ("/ignition/leads", "ignition.too-many-towers"));
}

#[test]
fn looks_that_cannot_be_are_refused_in_place() {
    refused_with(
        "/ignition/leads/looks/1",
        "ignition.lead-twice",
        &json!({"looks": [lead("1", "1"), lead("3", "1")]}),
    );
    refused_with(
        "/ignition/leads/looks/0",
        "ignition.one-look",
        &json!({"looks": [{}]}),
    );
    refused_with(
        "/ignition/leads/looks/0/rotor",
        "ignition.rotor-points",
        &json!({"looks": [{"rotor": {"at_tdc_of": "1", "stroke_checked": true}}]}),
    );
    refused_with(
        "/ignition/leads/looks/0",
        "ignition.no-rotor",
        &json!({"delivery": "double_ended_coils", "looks": [rotor("1")]}),
    );
    refused_with(
        "/ignition/leads/teeth",
        "ignition.teeth-without-distributor",
        &json!({"delivery": "double_ended_coils", "teeth": 13}),
    );
    refused_with(
        "/ignition/leads/teeth",
        "ignition.teeth",
        &json!({"teeth": 2}),
    );
    refused_with(
        "/ignition/leads/wrong_look",
        "ignition.misread",
        &json!({"wrong_look": 0.5}),
    );
    refused_with(
        "/ignition/leads/priors/0",
        "ignition.prior",
        &json!({"priors": [{"fault": "teeth_out", "percent": -1.0}]}),
    );
    refused_with(
        "/ignition/leads/also_orders/0",
        "ignition.same-order",
        &json!({"also_orders": [["3", "4", "2", "1"]]}),
    );
    refused_with(
        "/ignition/leads/also_orders/0",
        "ignition.other-order",
        &json!({"also_orders": [["1", "2"]]}),
    );
    let unknown = json!({"looks": [lead("1", "7")]});
    let problems = lashwork_wire::report(document(&unknown).to_string().as_bytes());
    let problems = problems.expect_err("refused");
    assert_eq!(problems[0].place, "/ignition/leads/looks/0/lead/goes_to");
}
