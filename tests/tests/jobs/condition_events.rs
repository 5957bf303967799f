//! Valve events at the lash that was read, in a document: ramps, harmonic lift, and what compression follows.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::condition_read::{compression, dry, section};
use super::ignition_four::{assumed, run};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use lashwork::job::Report;
use lashwork::job::condition::{EventsAtLashReport, EventsReport};
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

const ROCKER: f64 = 1.45;
/// At the follower, in millimetres a cam degree.
const RISE: f64 = 0.02;
/// The lash at which the events of the document hold, and what they are printed as.
const HOLDS_AT: f64 = 0.20;
const OPENS: f64 = 14.0;
const CLOSES: f64 = 52.0;
const EXHAUST_CLOSES: f64 = 12.0;

/// The four with screw adjusters, its events printed for 0.20 mm, with ratio and compression.
fn four(events: &Value) -> Value {
    let mut document = example("inline-four.json");
    document["clearance"]["valves"]["events"]["at"] = json!({"lash": "0.20 mm"});
    document["condition"] = json!({
        "compression_ratio": 8.5, "air": {"altitude": "0 m"},
        "compression": {"readings": dry(&[150.0, 149.0, 151.0, 150.0])},
        "events": events
    });
    document
}

fn ramps(height: &str) -> Value {
    let ramp = json!({"ramp": {"height": height, "rise_per_cam_degree": "0.02 mm"}});
    json!({"intake": ramp, "exhaust": ramp})
}

fn found(report: &Report) -> &EventsReport {
    section(report).events.as_ref().expect("asked for")
}

/// An event as it is, if both of its ends are known.
fn at(told: &EventsAtLashReport, event: usize) -> f64 {
    let event = &told.events[event];
    let (from, to) = event.from.zip(event.to).expect("both ends");
    0.5 * (from.degrees() + to.degrees())
}

fn lash(told: &EventsAtLashReport) -> (f64, f64) {
    let both = told.intake_lash.zip(told.exhaust_lash).expect("both ends");
    (both.0.mm(), both.1.mm())
}

/// Crank degrees that lash takes off an event on the ramp: two of the crank for one of the cam.
fn taken(mm: f64) -> f64 {
    2.0 * (mm - HOLDS_AT) / ROCKER / RISE
}

/// Volume over the piston over that at the top, when the intake closes so late; crank and rod as 1 to 3.5.
fn effective(ratio: f64, abdc: f64) -> f64 {
    let turned = (180.0 - abdc).to_radians();
    let (throw, rod) = (1.0, 3.5);
    let height = throw * turned.cos() + (rod * rod - (throw * turned.sin()).powi(2)).sqrt();
    let down = throw + rod - height;
    1.0 + (ratio - 1.0) * down / (2.0 * throw)
}

/// By the slope of the ramp: 0.02 mm a cam degree with a rocker of 1.45. What is out of band moves back when it is
/// set: 0.20 mm is where the events are printed for.
#[test]
fn events_follow_the_lash_along_the_ramp() {
    let report = run(&four(&ramps("0.5 mm")));
    let found = found(&report);
    assert_eq!(found.cylinders.len(), 3);
    for one in &found.cylinders {
        let (intake, exhaust) = lash(&one.now);
        assert_abs_diff_eq!(at(&one.now, 0), OPENS - taken(intake), epsilon = 1e-9);
        assert_abs_diff_eq!(at(&one.now, 1), CLOSES - taken(intake), epsilon = 1e-9);
        assert_abs_diff_eq!(
            at(&one.now, 3),
            EXHAUST_CLOSES - taken(exhaust),
            epsilon = 1e-9
        );
        let overlap = one.now.overlap_from.expect("both ends").degrees();
        assert_abs_diff_eq!(overlap, at(&one.now, 0) + at(&one.now, 3), epsilon = 1e-9);
        assert_relative_eq!(
            one.now.effective_ratio.expect("ratio stated"),
            effective(8.5, at(&one.now, 1)),
            epsilon = 1e-12
        );
    }
    // Cylinder 2 is tight on both, between 0.12 and 0.15 and between 0.22 and 0.25 mm; the book sets 0.20 and 0.30.
    let second = &found.cylinders[1];
    let (intake, exhaust) = lash(&second.now);
    assert!((0.12..0.16).contains(&intake) && (0.21..0.26).contains(&exhaust));
    assert!(at(&second.now, 1) > CLOSES);
    let set = second.set.as_ref().expect("out of band");
    assert_abs_diff_eq!(at(set, 1), CLOSES, epsilon = 1e-9);
    assert_abs_diff_eq!(at(set, 3), EXHAUST_CLOSES - taken(0.30), epsilon = 1e-9);
    assert!(
        second
            .set_text
            .as_ref()
            .expect("told")
            .contains("as the book sets it")
    );
    assert!(found.cylinders[0].set.is_none());
    // By its lash alone a tight intake, which closes late, shows less; polytropic, 1.15 to 1.30.
    let shown = |closes: f64| {
        let ratio = effective(8.5, closes);
        0.5 * (ratio.powf(1.15) + ratio.powf(1.30)) - 1.0
    };
    let mean = found.intake_closes.expect("told").degrees();
    let less = second.compression_over_mean_percent.expect("ratio stated");
    let by_hand = 100.0 * (shown(at(&second.now, 1)) / shown(mean) - 1.0);
    assert_abs_diff_eq!(less, by_hand, epsilon = 1e-6);
    assert!(less < -1.0 && second.text.contains("% less than at the mean closing"));
    // The exhaust of cylinder 4 was read with one leaf that goes.
    assert!(found.not_told[0].starts_with("cylinder 4: a reading with one end"));
}

/// CALC: 0.10 mm more: 6.897 degrees of the crank on each side, twice that of overlap; compression by the
/// polytropic law.
#[test]
fn a_tenth_more_is_told() {
    let report = run(&four(&ramps("0.5 mm")));
    let more = found(&report).more.as_ref().expect("on the ramp");
    let moved = 2.0 * 0.10 / ROCKER / RISE;
    assert_abs_diff_eq!(more.intake_closes_earlier.degrees(), moved, epsilon = 1e-9);
    assert_abs_diff_eq!(more.overlap_less.degrees(), 2.0 * moved, epsilon = 1e-9);
    let mean = found(&report).intake_closes.expect("told").degrees();
    let (now, then) = (effective(8.5, mean), effective(8.5, mean - moved));
    assert_abs_diff_eq!(
        more.effective_ratio_more.expect("ratio stated"),
        then - now,
        epsilon = 1e-9
    );
    let shown = |ratio: f64| 0.5 * (ratio.powf(1.15) + ratio.powf(1.30)) - 1.0;
    assert_abs_diff_eq!(
        more.compression_more_percent.expect("ratio stated"),
        100.0 * (shown(then) / shown(now) - 1.0),
        epsilon = 1e-6
    );
    assert!(
        more.text
            .starts_with("0.10 mm more on every valve: the intake closes 6.9 deg earlier"),
        "{}",
        more.text
    );
    assert!(report.sheet().contains("0.10 mm more on every valve"));
}

/// What the gauge should show goes by the running lash: the same as with that closing stated, and other than with
/// the printed one. A stated closing goes before both.
#[test]
fn expected_compression_follows_the_lash() {
    let expected = |document: &Value| {
        let report = run(document);
        let level = compression(&report).level.clone().expect("ratio stated");
        (level.expected_from.expect("two ends").kilopascals(), report)
    };
    let (by_lash, report) = expected(&four(&ramps("0.5 mm")));
    assert!(assumed(&report, "condition.closing-running"));
    assert!(!assumed(&report, "condition.closing-printed"));
    let closes = found(&report).intake_closes.expect("told").degrees();
    let mut stated = four(&ramps("0.5 mm"));
    stated["condition"]["intake_closes_abdc"] = json!(format!("{closes:.9} deg"));
    let (by_statement, stated) = expected(&stated);
    assert_relative_eq!(by_lash, by_statement, epsilon = 1e-8);
    assert!(!assumed(&stated, "condition.closing-running"));
    let mut printed = four(&ramps("0.5 mm"));
    printed["condition"]
        .as_object_mut()
        .expect("an object")
        .remove("events");
    let (by_print, printed) = expected(&printed);
    assert!(assumed(&printed, "condition.closing-printed"));
    // Two of three cylinders are at or under the printed lash, one is over it.
    assert!((by_lash - by_print).abs() > 0.5, "{by_lash} {by_print}");
    // Wider on every intake: it closes earlier, and compression should be higher.
    let mut wide = four(&ramps("0.5 mm"));
    for reading in wide["clearance"]["readings"]
        .as_array_mut()
        .expect("a list")
    {
        if reading["valve"] == "intake" {
            *reading = json!({"cylinder": reading["cylinder"], "valve": "intake", "goes": ["0.35 mm"], "refuses": ["0.40 mm"]});
        }
    }
    assert!(expected(&wide).0 > by_lash + 5.0);
}

/// Without a ramp the lift is taken as harmonic: span and place by its formula, movement a least.
#[test]
fn without_a_ramp_lift_is_harmonic() {
    let report = run(&four(&json!({})));
    assert!(assumed(&report, "condition.events-harmonic"));
    let one = &found(&report).cylinders[1].now;
    let (intake, _) = lash(one);
    let part = |mm: f64| (mm / 8.0_f64).sqrt().asin() / std::f64::consts::PI;
    let span = (OPENS + 180.0 + CLOSES) / (1.0 - 2.0 * part(HOLDS_AT));
    let by_hand = CLOSES - span * (part(intake) - part(HOLDS_AT));
    assert_abs_diff_eq!(at(one, 1), by_hand, epsilon = 1e-9);
    let more = &found(&report).more.as_ref().expect("told").text;
    assert!(more.contains("at least"), "{more}");
}

/// Printed at a lift of 1 mm, the seat is left earlier and reached later, by the harmonic span; the span is that of
/// the book's lash.
#[test]
fn events_at_a_lift_are_carried_to_the_seat() {
    let mut document = four(&json!({}));
    document["clearance"]["valves"]["events"]["at"] = json!({"lift": "1 mm"});
    document["clearance"]["valves"]["events"]["greatest_lift"] = json!("9 mm");
    let report = run(&document);
    let one = &found(&report).cylinders[1].now;
    let (intake, _) = lash(one);
    let part = |mm: f64| (mm / 9.0_f64).sqrt().asin() / std::f64::consts::PI;
    let span = (OPENS + 180.0 + CLOSES) / (1.0 - 2.0 * part(0.20 + 1.0));
    let by_hand = CLOSES - span * (part(intake) - part(intake + 1.0));
    assert!(by_hand > CLOSES + 10.0);
    assert_abs_diff_eq!(at(one, 1), by_hand, epsilon = 1e-9);
}

/// A side that closes on another flank than it opens on goes by its own: twice as steep, half as far.
#[test]
fn closing_goes_by_its_own_flank() {
    let mut events = ramps("0.5 mm");
    events["intake_closing"] =
        json!({"ramp": {"height": "0.5 mm", "rise_per_cam_degree": "0.04 mm"}});
    let report = run(&four(&events));
    let one = &found(&report).cylinders[2].now;
    let (intake, _) = lash(one);
    assert_abs_diff_eq!(at(one, 0), OPENS - taken(intake), epsilon = 1e-9);
    assert_abs_diff_eq!(at(one, 1), CLOSES - 0.5 * taken(intake), epsilon = 1e-9);
}

/// Of two intake valves the one with less lash opens first and closes last.
#[test]
fn of_two_valves_the_tighter_counts() {
    let mut document = four(&ramps("0.5 mm"));
    document["clearance"]["valves"]["intake_per_cylinder"] = json!(2);
    document["clearance"]["readings"] = json!([
        {"cylinder": "1", "valve": "intake", "number": 1, "goes": ["0.25 mm"], "refuses": ["0.28 mm"]},
        {"cylinder": "1", "valve": "intake", "number": 2, "goes": ["0.18 mm"], "refuses": ["0.20 mm"]},
        {"cylinder": "1", "valve": "exhaust", "goes": ["0.30 mm"], "refuses": ["0.32 mm"]}
    ]);
    let report = run(&document);
    assert!(lash(&found(&report).cylinders[0].now).0 < 0.21);
    assert!(assumed(&report, "condition.events-first-valve"));
    assert!(found(&report).not_told[0].contains("not both of its valves were read"));
}

/// A lash beyond the ramp: how far the event moves has one end, nothing is expected by it, and the sheet says so.
#[test]
fn beyond_the_ramp_one_end_is_known() {
    let report = run(&four(&ramps("0.15 mm")));
    // 0.15 mm at the follower are 0.2175 mm at the valve: the third intake lies beyond.
    let third = &found(&report).cylinders[2];
    let closes = &third.now.events[1];
    assert!(closes.from.is_none());
    assert_abs_diff_eq!(
        closes.to.expect("at most").degrees(),
        CLOSES - taken(0.15 * ROCKER),
        epsilon = 1e-9
    );
    assert!(
        third.text.contains("closes at most 51 ABDC"),
        "{}",
        third.text
    );
    assert!(found(&report).intake_closes.is_none());
    assert!(
        found(&report)
            .verdict_text
            .contains("more than a ramp takes up")
    );
    assert!(assumed(&report, "condition.closing-printed"));
}

/// Head bolts that were tightened since take the clearances back, and with them what follows.
#[test]
fn stale_clearances_give_no_closing() {
    let mut document = four(&ramps("0.5 mm"));
    document["condition"]["head"] = json!({"bolts_are": "tightened_since"});
    let mut logged = four(&ramps("0.5 mm"));
    logged["log"] = json!([{"step": "valves", "did": "read"}, {"step": "head", "did": "set"}]);
    for (document, why) in [
        (document, "tightened since"),
        (logged, "read the valve clearances again"),
    ] {
        let report = run(&document);
        let text = found(&report).provisional.as_ref().expect("told");
        assert!(text.contains(why), "{text}");
        assert!(!assumed(&report, "condition.closing-running"));
        assert!(assumed(&report, "condition.closing-printed"));
    }
}

/// What was left counts, where it was read after setting.
#[test]
fn what_was_left_goes_before_what_was_found() {
    let mut document = four(&ramps("0.5 mm"));
    let tight = &mut document["clearance"]["readings"][2];
    tight["left"] = json!({"goes": ["0.18 mm"], "refuses": ["0.20 mm"]});
    let (before, after) = (run(&four(&ramps("0.5 mm"))), run(&document));
    let intake = |report: &Report| lash(&found(report).cylinders[1].now).0;
    assert!(intake(&before) < 0.16 && intake(&after) > 0.17);
}

#[track_caller]
fn refused(place: &str, code: &str, document: &Value) {
    let problems = lashwork_wire::report(document.to_string().as_bytes());
    let problems = problems.expect_err("refused");
    let first = problems.first().expect("one");
    assert_eq!((first.place.as_str(), first.code.as_str()), (place, code));
    assert!(!first.hint.is_empty());
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let at = |field: &str| format!("/condition/events{field}");
    let mut bare = four(&json!({}));
    let printed = bare["clearance"]["valves"]["events"].as_object_mut();
    printed.expect("an object").remove("at");
    refused(&at(""), "condition.events-not-printed", &bare);
    let valves = bare["clearance"]["valves"].as_object_mut();
    valves.expect("an object").remove("events");
    refused(&at(""), "condition.events-not-printed", &bare);
    let mut unread = four(&json!({}));
    unread["clearance"]["readings"] = json!([]);
    refused(&at(""), "condition.events-no-lash", &unread);
    let flank = |flank: Value| four(&json!({"exhaust_closing": flank}));
    refused(
        &at("/exhaust_closing"),
        "condition.events-one-flank",
        &flank(json!({})),
    );
    let leaves = json!({"thin": "0.20 mm", "thick": "0.20 mm", "apart": "8 deg"});
    refused(
        &at("/exhaust_closing/measured"),
        "events.leaves",
        &flank(json!({"measured": leaves})),
    );
    let ramp = |ramp: Value| flank(json!({"ramp": ramp}));
    let high = ramp(json!({"height": "5 mm", "rise_per_cam_degree": "0.01 mm"}));
    refused(&at("/exhaust_closing/ramp"), "events.ramp-height", &high);
    let flat = ramp(json!({
        "height": "0.3 mm", "rise_per_cam_degree": "0.02 mm", "beyond_per_cam_degree": "0.01 mm"
    }));
    refused(
        &at("/exhaust_closing/ramp/beyond_per_cam_degree"),
        "events.flank-under-ramp",
        &flat,
    );
    // Printed for 0.20 mm and read wider, with a ramp that ends under both.
    refused(&at("/intake"), "events.both-beyond-ramp", &{
        let mut low = four(&ramps("0.10 mm"));
        low["clearance"]["readings"] = json!([
            {"cylinder": "1", "valve": "intake", "goes": ["0.22 mm"], "refuses": ["0.25 mm"]},
            {"cylinder": "1", "valve": "exhaust", "goes": ["0.30 mm"], "refuses": ["0.32 mm"]}
        ]);
        low
    });
}
