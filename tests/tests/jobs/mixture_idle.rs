//! The idle in a document: where the screw is best, and what to turn next.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::assumed;
use super::mixture_read::{refused_with, report, section, step};
use approx::assert_abs_diff_eq;
use lashwork::job::mixture::IdleReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::quantity::CrankSpeed;
use lashwork::tolerance::Verdict;
use serde_json::{Value, json};

/// 900 rpm at 1.5 turns, 80 rpm less half a turn to either side.
fn readings() -> Value {
    let all = [(0.5, 580), (1.0, 820), (1.5, 900), (2.0, 820), (2.25, 720)];
    let all = all.map(|(turns, rpm)| json!({"out": {"turns": turns}, "speed": {"rpm": rpm}}));
    json!(all)
}

fn asked(turns: f64, rpm: f64) -> Value {
    json!({
        "screw": "fuel",
        "wanted": {"from": "800 rpm", "to": "900 rpm"},
        "uncertainty": "5 rpm",
        "readings": readings(),
        "now": {"out": {"turns": turns}, "speed": {"rpm": rpm}}
    })
}

fn settled(idle: &Value) -> Value {
    json!({"valves": "settled", "timing": "settled", "idle": idle})
}

fn found(report: &Report) -> &IdleReport {
    section(report).idle.as_ref().expect("asked for")
}

/// By hand: from two turns out to one and a half is half a turn in.
#[test]
fn the_screw_goes_to_the_crown() {
    let report = report(&settled(&asked(2.0, 850.0)));
    let found = found(&report);
    let crown = found.crown.as_ref().expect("seen");
    assert_abs_diff_eq!(crown.best_turns, 1.5, epsilon = 1e-9);
    assert!(crown.from_turns < 1.5 && crown.to_turns > 1.5);
    assert_abs_diff_eq!(crown.rpm, 900.0, epsilon = 1e-6);
    assert_abs_diff_eq!(found.turn.expect("a turn").degrees(), 180.0, epsilon = 1e-6);
    assert_eq!(found.points.len(), 33);
    let drawn = found.readings.iter().map(|one| (one.turns, one.rpm));
    let drawn: Vec<(f64, f64)> = drawn.collect();
    assert_eq!((drawn.len(), drawn[1]), (5, (1.0, 820.0)));
    assert_eq!(
        found.now.map(|now| (now.turns, now.rpm)),
        Some((2.0, 850.0))
    );
    assert_eq!(found.wanted_from.map(CrankSpeed::rpm), Some(800.0));
    assert_abs_diff_eq!(found.wanted_turns.expect("seen"), 1.5, epsilon = 1e-9);
    assert!(
        found
            .points
            .iter()
            .all(|p| p.low_rpm <= p.rpm && p.rpm <= p.high_rpm)
    );
    let WorkAdvice::Set { first, text, .. } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(text.contains("0.50 turn in"), "{text}");
    assert!(
        first.iter().any(|one| one.contains("the choke is off")),
        "{first:?}"
    );
    assert!(
        !first.iter().any(|one| one.contains("lopsided")),
        "{first:?}"
    );
    assert_eq!(step(&report, WorkStep::Idle), Standing::NotSettled);
}

/// By hand: 20 rpm are a quarter turn off the crown, on the lean side of a fuel screw a quarter turn in.
#[test]
fn a_lean_drop_is_on_the_lean_side() {
    let mut idle = asked(2.0, 850.0);
    idle["beside"] = json!({"side": "lean", "drop": "20 rpm"});
    let report = report(&settled(&idle));
    let turn = found(&report).turn.expect("a turn");
    assert_abs_diff_eq!(turn.degrees(), 270.0, epsilon = 1e-6);
    let wanted = found(&report).wanted_turns.expect("seen");
    assert_abs_diff_eq!(wanted, 1.25, epsilon = 1e-9);
}

#[test]
fn speed_comes_before_mixture() {
    let report = report(&settled(&asked(2.0, 700.0)));
    let found = found(&report);
    let WorkAdvice::Set {
        text, then_reads, ..
    } = &found.advice
    else {
        panic!("{:?}", found.advice);
    };
    assert!(text.contains("further open"), "{text}");
    assert_eq!(then_reads, "850 rpm");
    assert!(found.turn.is_none());
}

#[test]
fn at_the_crown_and_at_speed_all_is_left() {
    let report = report(&settled(&asked(1.5, 850.0)));
    assert!(matches!(found(&report).advice, WorkAdvice::Leave { .. }));
    assert_eq!(step(&report, WorkStep::Idle), Standing::Settled);
}

/// The readings lie on one parabola, so their scatter is nothing.
#[test]
fn readings_that_hardly_scatter_are_not_said_to_be_without_doubt() {
    let mut idle = asked(2.0, 850.0);
    idle["uncertainty"] = Value::Null;
    let report = report(&settled(&idle));
    let found = found(&report);
    assert!(
        found
            .crown
            .as_ref()
            .is_some_and(|top| top.best_turns_u < 1e-6)
    );
    let said = &found.verdict_text;
    assert!(!said.contains("u 0.00"), "{said}");
    assert!(
        said.contains("u under 0.01: these readings hardly scatter") && said.contains("how finely"),
        "{said}"
    );
    let WorkAdvice::Set { text, .. } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(text.contains("u under 1 deg"), "{text}");
}

/// A stated place is not taken for granted; against a gas in its band it is told with it, as one beside is.
#[test]
fn a_book_may_say_the_highest_speed() {
    let gas = json!({"co": "3.5 %", "co2": "12.5 %", "o2": "0.6 %", "hc": {"read": "250 ppm"}, "class": "0",
        "read_at": "idle", "warm": true, "probe_deep": true, "air_injection_off": true,
        "limits": {"co": {"from": "3 %", "to": "4 %"}}});
    let told = |set_to: Value| {
        let mut idle = asked(2.0, 850.0);
        idle["set_to"] = set_to;
        let mut mixture = settled(&idle);
        mixture["fuel"] = json!("E0");
        mixture["gas"] = gas.clone();
        report(&mixture)
    };
    let code = "mixture.idle-rule-assumed";
    let (open, stated) = (told(Value::Null), told(json!("highest_speed")));
    assert!(assumed(&open, code) && !assumed(&stated, code));
    assert!(found(&open).is_by_gas && found(&stated).is_by_gas);
    let leave = |report: &Report| match &found(report).advice {
        WorkAdvice::Leave { text } => text.clone(),
        other => panic!("{other:?}"),
    };
    assert!(
        leave(&open).contains("is not asked again"),
        "{}",
        leave(&open)
    );
    let both = leave(&stated);
    assert!(
        both.contains("by the speed the book wants it 0.50 turn in")
            && both.contains("The gas goes first"),
        "{both}"
    );
    let wanted = found(&stated).wanted_turns.expect("stated");
    assert_abs_diff_eq!(wanted, 1.5, epsilon = 1e-9);
    assert!(found(&open).wanted_turns.is_none());
    let mut two = asked(2.0, 850.0);
    two["set_to"] = json!("highest_speed");
    two["beside"] = json!({"side": "lean", "drop": "20 rpm"});
    refused_with(
        "/mixture/idle/set_to",
        "mixture.two-idle-places",
        &settled(&two),
    );
}

#[test]
fn no_amount_is_given_before_the_valves_are_settled() {
    let report = report(&json!({"valves": "not_settled", "idle": asked(2.0, 850.0)}));
    let found = found(&report);
    assert!(matches!(found.advice, WorkAdvice::SettleFirst { .. }));
    assert!(found.turn.is_none() && found.wanted_turns.is_none());
}

#[test]
fn too_few_readings_ask_for_more() {
    let mut idle = asked(2.0, 850.0);
    idle["readings"] = json!([]);
    let report = report(&settled(&idle));
    let found = found(&report);
    assert!(matches!(found.advice, WorkAdvice::Measure { .. }));
    assert!(found.points.is_empty() && found.crown.is_none());
}

/// A line that rises as a fuel screw goes out still rises toward rich: further out.
#[test]
fn a_curve_without_a_crown_is_read_further() {
    let mut idle = asked(2.0, 850.0);
    let all = [(1.0, 700), (1.5, 750), (2.0, 800), (2.5, 850)];
    idle["readings"] =
        json!(all.map(|(turns, rpm)| json!({"out": {"turns": turns}, "speed": {"rpm": rpm}})));
    let report = report(&settled(&idle));
    let WorkAdvice::Measure { text } = &found(&report).advice else {
        panic!("{:?}", found(&report).advice);
    };
    assert!(
        text.contains("toward rich") && text.contains("the screw out"),
        "{text}"
    );
}

#[test]
fn an_engine_that_stands_still_is_refused_where_it_stands() {
    let mut idle = asked(2.0, 850.0);
    idle["readings"][1]["speed"] = json!("0 rpm");
    let problems = lashwork_wire::report(
        super::mixture_read::document(&json!({"idle": idle}))
            .to_string()
            .as_bytes(),
    );
    assert_eq!(
        problems.expect_err("refused")[0].place,
        "/mixture/idle/readings/1"
    );
    let mut idle = asked(2.0, 850.0);
    idle["wanted"] = json!({});
    refused_with(
        "/mixture/idle/wanted",
        "tolerance.empty-band",
        &json!({"idle": idle}),
    );
}

/// The three rules as printed: 25 to 50, about 10 to 50, and 75 at sea level falling to 20 to 25 rpm at
/// 4000 ft. 22 rpm at 1219.2 m is too little for the first and right for the two others.
#[test]
fn the_published_rules_stand_side_by_side() {
    let mut idle = asked(2.0, 850.0);
    idle["rise"] = json!({"reads": "22 rpm", "uncertainty": "0.5 rpm"});
    let mut mixture = settled(&idle);
    mixture["air"] = json!({"altitude": "4000 ft"});
    let high = report(&mixture);
    let rise = found(&high).rise.as_ref().expect("asked for");
    let verdicts = rise
        .by_rules
        .iter()
        .map(|one| one.judged.as_ref().expect("says something").verdict);
    let verdicts: Vec<Verdict> = verdicts.collect();
    assert_eq!(verdicts, [Verdict::Below, Verdict::InBand, Verdict::InBand]);
    assert!(rise.text.contains("do not agree"), "{}", rise.text);
    assert!(!assumed(&high, "mixture.idle-rise-at-sea-level"));
    // Above the last printed height the page says nothing, and nothing is made up.
    mixture["air"] = json!({"altitude": "1800 m"});
    let higher = report(&mixture);
    let page = &found(&higher).rise.as_ref().expect("asked for").by_rules[2];
    assert!(page.judged.is_none() && page.least.is_none());
    assert!(page.text.contains("says nothing"), "{}", page.text);
    assert!(higher.sheet().contains("handbook"));
}

/// By hand: half a turn beside the crown on the rich side the curve is 80 rpm under it.
#[test]
fn the_rise_comes_from_the_curve_on_the_rich_side_only() {
    let rise = |turns: f64| {
        let mut idle = asked(turns, 850.0);
        idle["rise"] = json!({});
        let report = report(&settled(&idle));
        assert!(assumed(&report, "mixture.idle-rise-at-sea-level"));
        found(&report).rise.clone().expect("asked for")
    };
    let rich = rise(2.0);
    assert_abs_diff_eq!(rich.rise.expect("seen").rpm(), 80.0, epsilon = 1e-6);
    assert!(rich.by_rules.iter().all(|one| {
        one.judged
            .as_ref()
            .is_some_and(|judged| judged.verdict == Verdict::Above)
            || one.text.contains("service page")
    }));
    let lean = rise(1.0);
    assert!(
        lean.rise.is_none() && lean.text.contains("lean side"),
        "{}",
        lean.text
    );
}

#[test]
fn what_was_read_is_there_to_be_drawn() {
    let report = report(&settled(&asked(2.0, 850.0)));
    let drawn = &found(&report).readings;
    assert_eq!(drawn.len(), 5);
    assert_abs_diff_eq!(drawn[1].turns, 1.0, epsilon = 1e-12);
    assert_abs_diff_eq!(drawn[1].rpm, 820.0, epsilon = 1e-12);
}

/// A speed that falls off faster on one side than a parabola: the place of its top is to be read closer.
#[test]
fn a_lopsided_curve_is_read_closer_before_the_screw_is_turned() {
    let mut idle = asked(2.75, 850.0);
    let all = [0.5_f64, 1.0, 1.5, 2.0, 2.5, 3.0].map(|turns| {
        let beside = turns - 1.75;
        let rpm = 850.0 - 80.0 * beside.powi(2) - 40.0 * beside.powi(3);
        json!({"out": {"turns": turns}, "speed": {"rpm": rpm}})
    });
    idle["readings"] = json!(all);
    idle["uncertainty"] = json!("2 rpm");
    let report = report(&settled(&idle));
    assert!(found(&report).is_lopsided);
    let WorkAdvice::Set { first, .. } = &found(&report).advice else {
        panic!("{:?}", found(&report).advice);
    };
    assert!(
        first.iter().any(|one| one.contains("more lopsided")),
        "{first:?}"
    );
}

#[test]
fn an_idle_that_is_not_read_now_is_not_settled_either_way() {
    let mut idle = asked(1.5, 850.0);
    idle.as_object_mut().expect("an object").remove("now");
    let report = report(&settled(&idle));
    let WorkAdvice::Measure { text } = &found(&report).advice else {
        panic!("{:?}", found(&report).advice);
    };
    assert!(text.contains("where the mixture screw stands"), "{text}");
    assert_eq!(step(&report, WorkStep::Idle), Standing::NotKnown);
}

/// By hand: a rise is one speed less another, so of 5 rpm each it has the root of 50.
#[test]
fn a_rise_has_the_doubt_of_two_speeds() {
    let mut idle = asked(1.5, 850.0);
    idle["rise"] = json!({"reads": "22 rpm"});
    let report = report(&settled(&idle));
    let rise = found(&report).rise.as_ref().expect("asked for");
    assert_abs_diff_eq!(rise.rise_u.expect("read"), 50_f64.sqrt(), epsilon = 1e-9);
}
