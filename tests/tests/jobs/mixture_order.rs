//! The example of the mixture section, gone through in the order of work: each step done, the next one speaks.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::run;
use super::mixture_read::{section, step};
use approx::assert_abs_diff_eq;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::mixture::balance::{Matter, Way};
use lashwork::mixture::gauge::{GaugeCause, GaugeVerdict};
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

const EXAMPLE: &str = "four-carburettors-at-altitude.json";

/// The throttles all as the reference.
fn balanced() -> Value {
    let mut document = example(EXAMPLE);
    let balance = &mut document["mixture"]["balance"];
    balance
        .as_object_mut()
        .expect("an object")
        .remove("cylinders");
    let shows = json!(["337 mmHg", "342 mmHg", "339 mmHg", "343 mmHg"]);
    for throttle in 0..4 {
        balance["vacuum"]["readings"][throttle]["shows"] = shows.clone();
    }
    document
}

fn advice(report: &Report) -> [&WorkAdvice; 2] {
    let found = section(report);
    [
        &found.balance.as_ref().expect("asked for").advice,
        &found.idle.as_ref().expect("asked for").advice,
    ]
}

/// 612 mmHg at 24 C and 35 % are 0.9522 kg/m3 (CIPM-2007, tests/oracles/mixture_vectors.py).
#[test]
fn the_first_step_that_is_out_takes_the_others_back() {
    let report = run(&example(EXAMPLE));
    let found = section(&report);
    let air = found
        .air
        .as_ref()
        .and_then(|air| air.density)
        .expect("stated");
    assert_abs_diff_eq!(air.kilograms_per_cubic_metre(), 0.9522, epsilon = 0.0001);
    for (at, standing) in [
        (WorkStep::Valves, Standing::Settled),
        (WorkStep::Timing, Standing::Settled),
        (WorkStep::Balance, Standing::NotSettled),
        (WorkStep::Idle, Standing::NotSettled),
    ] {
        assert_eq!(step(&report, at), standing, "{at:?}");
    }
    // The screw that moves two comes first, then the one beyond it, which goes back.
    let balance = found.balance.as_ref().expect("asked for");
    let turns = balance
        .turns
        .iter()
        .map(|turn| (turn.moves.len(), turn.way, turn.clockwise));
    let expected = [(2, Way::Open, Some(true)), (1, Way::Close, Some(false))];
    assert_eq!(turns.collect::<Vec<_>>(), expected);
    assert!(balance.turns.iter().all(|turn| turn.degrees.is_some()));
    assert_eq!(balance.cylinders[2].matter, Matter::Throttle);
    let [balance, idle] = advice(&report);
    // Throttle 2 is not decided either, but nothing is turned that moves it.
    assert!(matches!(balance, WorkAdvice::Set { first, .. }
        if !first.iter().any(|one| one.contains("the readings do not decide"))));
    assert!(matches!(idle, WorkAdvice::SettleFirst { text } if text.contains("balance")));
    assert!(found.idle.as_ref().is_some_and(|idle| idle.turn.is_none()));
}

/// The crown is at 2.30 turns out, so from 3 turns it is 0.70 turn in (numpy, tests/oracles/mixture_vectors.py).
#[test]
fn with_the_throttles_even_the_mixture_screw_is_turned() {
    let report = run(&balanced());
    let [balance, idle] = advice(&report);
    assert!(matches!(balance, WorkAdvice::Leave { .. }), "{balance:?}");
    assert_eq!(step(&report, WorkStep::Balance), Standing::Settled);
    assert!(
        matches!(idle, WorkAdvice::Set { text, .. } if text.contains("turn in")),
        "{idle:?}"
    );
    let idle = section(&report).idle.as_ref().expect("asked for");
    assert_abs_diff_eq!(idle.turn.expect("a turn").degrees(), 251.03, epsilon = 0.01);
    assert!(
        idle.verdict_text.contains("the screw stands at 3.00"),
        "{}",
        idle.verdict_text
    );
}

#[test]
fn with_the_screw_at_the_crown_both_screws_are_left() {
    let mut document = balanced();
    document["mixture"]["idle"]["now"] = json!({"out": "2.3 turn", "speed": "1055 rpm"});
    let report = run(&document);
    let [_, idle] = advice(&report);
    assert!(matches!(idle, WorkAdvice::Leave { .. }), "{idle:?}");
    assert_eq!(step(&report, WorkStep::Idle), Standing::Settled);
}

/// A late spark, read in the ignition section, goes before all of it.
#[test]
fn a_late_spark_goes_before_any_screw_of_the_carburettors() {
    let mut document = example(EXAMPLE);
    document["ignition"] = json!({
        "valves": "settled",
        "distributor": {"rotor": "anticlockwise", "lobes": 4, "cam": "half_crank"},
        "timing": {
            "limits": {"from": "6 deg BTDC", "to": "9 deg BTDC"}, "reading": {"read": "1 deg BTDC"}
        }
    });
    let report = run(&document);
    for advice in advice(&report) {
        assert!(
            matches!(advice, WorkAdvice::SettleFirst { text } if text.contains("timing")),
            "{advice:?}"
        );
    }
    assert!(
        section(&report)
            .balance
            .as_ref()
            .is_some_and(|found| found.turns.is_empty())
    );
}

/// The gauge settles on a head gasket: neither a throttle nor the mixture screw is turned to hide it.
#[test]
fn a_fault_the_gauge_settled_on_goes_before_balance_and_idle() {
    let mut document = example(EXAMPLE);
    document["mixture"]["gauge"] = json!({"movement": "regular_drop", "drop": "10 inHg", "with_speed": "same",
        "compression": "neighbours_low", "level": "13 inHg"});
    let is_told = |advice: &WorkAdvice| matches!(advice, WorkAdvice::SettleFirst { text } if text.contains("vacuum gauge shows"));
    let report = run(&document);
    let [balance, _] = advice(&report);
    assert!(is_told(balance), "{balance:?}");
    // Once valves were set after it, it is read again before anything is set by it or without it.
    let mut moved = document.clone();
    moved["log"] = json!([{"step": "gauge", "did": "read"}, {"step": "valves", "did": "set"}]);
    let report = run(&moved);
    let [balance, _] = advice(&report);
    let WorkAdvice::SettleFirst { text } = balance else {
        panic!("{balance:?}");
    };
    assert!(
        text.starts_with("read the vacuum gauge again: ") && text.contains("it showed"),
        "{text}"
    );
    // Without the throttles, which would speak first.
    let fields = document["mixture"].as_object_mut().expect("an object");
    fields.remove("balance");
    let report = run(&document);
    let idle = section(&report).idle.as_ref().expect("asked for");
    assert!(is_told(&idle.advice), "{:?}", idle.advice);
}

#[test]
fn screws_that_are_left_are_not_turned_for_a_trial() {
    let mut unsettled = example(EXAMPLE);
    unsettled["mixture"]["valves"] = json!("not_settled");
    for document in [balanced(), unsettled] {
        let report = run(&document);
        let balance = section(&report).balance.as_ref().expect("asked for");
        assert!(balance.next.is_none(), "{:?}", balance.next);
    }
}

/// The crown is where the screw stands, and the carbon monoxide there is over the book's: the sheet says that
/// the two conflict.
#[test]
fn a_crown_against_the_books_gas_is_told() {
    let mut document = balanced();
    document["mixture"]["idle"]["now"] = json!({"out": "2.3 turn", "speed": "1055 rpm"});
    let conflict = |document: &Value| {
        let report = run(document);
        let gas = section(&report).gas.as_ref().expect("asked for");
        let WorkAdvice::Set { first, .. } = &gas.advice else {
            panic!("{:?}", gas.advice);
        };
        first.iter().any(|one| one.contains("both cannot be had"))
    };
    assert!(conflict(&document));
    let idle = document["mixture"].as_object_mut().expect("an object");
    idle.remove("idle");
    assert!(!conflict(&document));
}

/// At raised speed the idle circuit does not meter: the gas read there does not wait for the idle.
#[test]
fn gas_at_raised_speed_does_not_wait_for_the_idle() {
    let waits = |read_at: &str| {
        let mut document = balanced();
        document["mixture"]["gas"]["read_at"] = json!(read_at);
        let report = run(&document);
        assert_eq!(step(&report, WorkStep::Idle), Standing::NotSettled);
        let found = section(&report);
        let told = found
            .stop_work
            .iter()
            .any(|stop| stop.text.contains("idle speed") && stop.concerns.contains(&WorkStep::Gas));
        let gas = found.gas.as_ref().expect("asked for");
        (told, matches!(gas.advice, WorkAdvice::SettleFirst { .. }))
    };
    assert_eq!(waits("idle"), (true, true));
    assert_eq!(waits("raised_speed"), (false, false));
}

/// The screw, and the gas that is read there.
fn turned(out: &str, co: &str, co2: &str, o2: &str) -> Value {
    let mut document = balanced();
    let mixture = &mut document["mixture"];
    mixture["idle"]["now"] = json!({"out": out, "speed": "1055 rpm"});
    for (field, read) in [("co", co), ("co2", co2), ("o2", o2)] {
        mixture["gas"][field] = json!(read);
    }
    document
}

fn idle_and_gas(document: &Value) -> [WorkAdvice; 2] {
    let report = run(document);
    let found = section(&report);
    [
        found.idle.as_ref().expect("asked for").advice.clone(),
        found.gas.as_ref().expect("asked for").advice.clone(),
    ]
}

/// At the crown the gas is too rich and takes the screw off it, by steps; no document after that sends it back.
#[test]
fn the_gas_takes_the_screw_off_the_crown_and_it_is_not_sent_back() {
    let [idle, gas] = idle_and_gas(&turned("2.3 turn", "4.6 %", "11.9 %", "0.7 %"));
    assert!(matches!(idle, WorkAdvice::Leave { .. }), "{idle:?}");
    assert!(
        matches!(&gas, WorkAdvice::Set { text, .. } if text.contains("leaner")),
        "{gas:?}"
    );
    // Halfway: still too rich, and the crown the other way.
    let [idle, gas] = idle_and_gas(&turned("2.0 turn", "4.0 %", "12.2 %", "0.7 %"));
    let WorkAdvice::Leave { text } = &idle else {
        panic!("{idle:?}");
    };
    assert!(
        text.contains("wants it leaner") && text.contains("not asked again"),
        "{text}"
    );
    let WorkAdvice::Set { first, .. } = &gas else {
        panic!("{gas:?}");
    };
    assert!(first.iter().any(|one| one.contains("both cannot be had")));
    // As the book wants it.
    let last = turned("1.6 turn", "2.5 %", "13.2 %", "0.6 %");
    let report = run(&last);
    for at in [WorkStep::Idle, WorkStep::Gas] {
        assert_eq!(step(&report, at), Standing::Settled, "{at:?}");
    }
    let found = section(&report);
    assert!(found.stop_work.is_empty(), "{:?}", found.stop_work);
    let idle = found.idle.as_ref().expect("asked for");
    assert!(idle.is_by_gas && idle.turn.is_none() && idle.wanted_turns.is_none());
    let [idle, gas] = idle_and_gas(&last);
    assert!(
        matches!(&idle, WorkAdvice::Leave { text } if text.contains("is not asked again")),
        "{idle:?}"
    );
    assert!(matches!(gas, WorkAdvice::Leave { .. }), "{gas:?}");
    // The readings of the screw went with the throttle stop: they are not asked for once more.
    let mut unread = last;
    unread["mixture"]["idle"]["readings"] = json!([]);
    let [idle, _] = idle_and_gas(&unread);
    assert!(matches!(idle, WorkAdvice::Leave { .. }), "{idle:?}");
}

/// Where gas and speed want the same side, or the gas does not count, the crown comes first as before.
#[test]
fn gas_that_does_not_speak_of_the_idle_leaves_the_crown() {
    let set = |change: &Value| {
        let mut document = turned("1.6 turn", "2.5 %", "13.2 %", "0.6 %");
        let gas = document["mixture"]["gas"].as_object_mut();
        let gas = gas.expect("an object");
        for (field, value) in change.as_object().expect("an object") {
            gas.insert(field.clone(), value.clone());
        }
        let [idle, _] = idle_and_gas(&document);
        matches!(idle, WorkAdvice::Set { .. })
    };
    assert!(!set(&json!({})));
    for change in [
        json!({"read_at": "raised_speed"}),
        json!({"warm": false}),
        json!({"o2": "5 %", "co2": "9.5 %"}),
        json!({"limits": {}}),
        json!({"co": "1 %", "co2": "14.2 %"}),
    ] {
        assert!(set(&change), "{change}");
    }
}

/// The book states a place by the speed, and the gas is in its band beside it: both are told, and why the gas
/// goes first.
#[test]
fn a_stated_place_against_the_gas_is_told_with_both() {
    let mut document = turned("1.6 turn", "2.5 %", "13.2 %", "0.6 %");
    document["mixture"]["idle"]["beside"] = json!({"side": "lean", "drop": "5 rpm"});
    let [idle, gas] = idle_and_gas(&document);
    let WorkAdvice::Leave { text } = &idle else {
        panic!("{idle:?}");
    };
    for part in [
        "by the speed the book wants it",
        "turn out",
        "The gas goes first",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    assert!(matches!(gas, WorkAdvice::Leave { .. }), "{gas:?}");
    // At the stated place, and the gas out: told with the gas.
    let mut document = turned("1.88 turn", "4.6 %", "11.9 %", "0.7 %");
    document["mixture"]["idle"]["beside"] = json!({"side": "lean", "drop": "10 rpm"});
    let [_, gas] = idle_and_gas(&document);
    let WorkAdvice::Set { first, .. } = &gas else {
        panic!("{gas:?}");
    };
    assert!(first.iter().any(|one| one.contains("both cannot be had")));
}

/// The screw is left at the crown, so the sheet does not call it too lean there.
#[test]
fn the_crown_that_is_left_is_not_called_too_lean() {
    let mut document = turned("2.27 turn", "2.5 %", "13.2 %", "0.6 %");
    let text = |document: &Value| {
        let report = run(document);
        let idle = section(&report).idle.as_ref().expect("asked for");
        assert!(matches!(idle.advice, WorkAdvice::Leave { .. }));
        idle.rise.as_ref().expect("asked for").text.clone()
    };
    let at_crown = text(&document);
    assert!(
        !at_crown.contains("too lean") && at_crown.contains("at the crown"),
        "{at_crown}"
    );
    document["mixture"]["idle"]["beside"] = json!({"side": "lean", "drop": "10 rpm"});
    document["mixture"]["idle"]["now"]["out"] = json!("1.88 turn");
    let beside = text(&document);
    assert!(
        !beside.contains("too lean") && beside.contains("where the book of this engine wants it"),
        "{beside}"
    );
}

/// With one carburettor there is nothing to balance: what has to be sure says so.
#[test]
fn balance_is_to_be_sure_only_of_more_than_one() {
    let mut document = turned("3 turn", "4.6 %", "11.9 %", "0.7 %");
    let mixture = document["mixture"].as_object_mut().expect("an object");
    mixture.remove("balance");
    let [idle, _] = idle_and_gas(&document);
    let WorkAdvice::Set { first, .. } = &idle else {
        panic!("{idle:?}");
    };
    assert!(
        first
            .iter()
            .any(|one| one.contains("the balance is settled, where there is more than one")),
        "{first:?}"
    );
}

/// A mixture the gauge settled on is what balance and idle are for: it stops neither.
#[test]
fn a_wrong_mixture_at_the_gauge_stops_no_screw() {
    let mut document = example(EXAMPLE);
    document["mixture"]["gauge"] = json!({"movement": "slow_drift", "drop": "3.5 inHg", "level": "9.9 inHg",
        "compression": "even", "with_speed": "steadies", "cylinders": 4, "blip": {"opened": "0.5 inHg", "shut": "19 inHg"}});
    let report = run(&document);
    let gauge = section(&report).gauge.as_ref().expect("asked for");
    assert_eq!(gauge.verdict, GaugeVerdict::Settled);
    assert_eq!(gauge.causes[0].cause, GaugeCause::MixtureWrong);
    let [balance, _] = advice(&report);
    assert!(matches!(balance, WorkAdvice::Set { .. }), "{balance:?}");
}

/// Gas that was read with the throttles uneven sets no mixture: after the balance it is another.
#[test]
fn gas_read_before_the_balance_sets_no_mixture() {
    let even = turned("1.6 turn", "2.5 %", "13.2 %", "0.6 %");
    let mut uneven = example(EXAMPLE);
    for question in ["idle", "gas"] {
        uneven["mixture"][question] = even["mixture"][question].clone();
    }
    for (document, standing) in [(even, Standing::Settled), (uneven, Standing::NotSettled)] {
        let report = run(&document);
        assert_eq!(step(&report, WorkStep::Idle), standing);
        let idle = section(&report).idle.as_ref().expect("asked for");
        assert_eq!(idle.is_by_gas, standing == Standing::Settled);
    }
}
