//! Where the job says to stop the crank: margins, what is recommended, rim marks and what to watch.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops with the reason at the first thing it does not expect"
)]

use lashwork::job::clearance::{ClearanceReport, PlanReport};
use lashwork::quantity::CrankAngle;
use lashwork::valve::Method;
use lashwork_tests::{clearance, examples};
use serde_json::{Value, json};

fn example(name: &str) -> Value {
    let all = examples();
    let (_, bytes) = all.iter().find(|(known, _)| known == name).expect(name);
    serde_json::from_slice(bytes).expect("JSON")
}

/// An invented engine with usual valves, and nothing said that is not needed.
fn engine(labels: &[&str], order: &[&str], guard: &str) -> Value {
    let cylinders: Vec<Value> = labels.iter().map(|l| json!({ "label": l })).collect();
    let limits = |set: &str, from: &str, to: &str| json!({ "set_to": set, "set": { "from": from, "to": to } });
    json!({
        "lashwork": 1,
        "title": "Invented engine",
        "engine": {
            "cycle": "four_stroke",
            "cylinders": cylinders,
            "firing_order": order,
            "firing": "even",
            "rotation": { "sense": "clockwise", "seen_from": "free_end" },
            "numbering": "free_end"
        },
        "clearance": {
            "valves": {
                "intake_per_cylinder": 1,
                "exhaust_per_cylinder": 1,
                "events": events([20, 60, 60, 20]),
                "guard": guard
            },
            "specifications": [{
                "id": "book", "document": "Invented book", "condition": "cold",
                "intake": limits("0.20 mm", "0.15 mm", "0.25 mm"),
                "exhaust": limits("0.30 mm", "0.25 mm", "0.35 mm")
            }],
            "gauge": { "leaves": ["0.20 mm", "0.30 mm"], "tolerance": "0 mm", "stack_tolerance": "worst_case" },
            "readings": []
        }
    })
}

/// Events at the lash of the book, so that nothing is added to the guard.
fn events([opens, closes, exhaust_opens, exhaust_closes]: [i32; 4]) -> Value {
    json!({
        "intake_opens_btdc": { "deg": opens },
        "intake_closes_abdc": { "deg": closes },
        "exhaust_opens_bbdc": { "deg": exhaust_opens },
        "exhaust_closes_atdc": { "deg": exhaust_closes },
        "at": { "lash": "0.20 mm" }
    })
}

fn four() -> Value {
    engine(&["1", "2", "3", "4"], &["1", "3", "4", "2"], "20 deg")
}

fn put(document: &mut Value, place: &str, value: Value) {
    let (parent, field) = place.rsplit_once('/').unwrap();
    let parent = document.pointer_mut(parent).expect(place);
    parent.as_object_mut().unwrap().insert(field.into(), value);
}

fn report(document: &Value) -> lashwork::job::Report {
    lashwork_wire::report(document.to_string().as_bytes())
        .unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn sheet(document: &Value) -> String {
    lashwork_wire::full_sheet(document.to_string().as_bytes()).unwrap()
}

fn plan(report: &ClearanceReport, method: Method) -> &PlanReport {
    let mut plans = report.stops.plans.iter();
    plans.find(|p| p.method == method).expect("the plan")
}

fn recommended(report: &ClearanceReport) -> &PlanReport {
    let chosen = report.stops.recommended.as_ref().expect("a recommendation");
    &report.stops.plans[chosen.plan]
}

fn margin(plan: &PlanReport) -> f64 {
    plan.smallest_margin.map_or(0.0, CrankAngle::degrees)
}

fn assumed(report: &lashwork::job::Report, code: &str) -> Option<String> {
    let mut all = report.assumptions.iter();
    all.find(|a| a.code == code).map(|a| a.text.clone())
}

#[test]
fn events_of_which_nothing_is_said_narrow_every_window_and_are_listed() {
    let mut unsaid = four();
    unsaid
        .pointer_mut("/clearance/valves/events")
        .and_then(Value::as_object_mut)
        .unwrap()
        .remove("at");
    let (said, unsaid) = (report(&four()), report(&unsaid));
    for method in [Method::CylinderByCylinder, Method::TwoPosition] {
        let of = |r| margin(plan(clearance(r), method));
        assert!((of(&said) - of(&unsaid) - 25.0).abs() < 1e-9);
    }
    assert_eq!(assumed(&said, "valve.events-at"), None);
    let text = assumed(&unsaid, "valve.events-at").unwrap();
    assert!(
        text.contains("not stated") && text.contains("25 deg"),
        "{text}"
    );
}

#[test]
fn events_at_a_larger_lash_are_corrected_with_the_size_listed() {
    let mut document = four();
    put(
        &mut document,
        "/clearance/valves/events/at",
        json!({ "lash": "1.00 mm" }),
    );
    let corrected = report(&document);
    let text = assumed(&corrected, "valve.events-at").unwrap();
    assert!(text.contains("8 mm taken"), "{text}");
    let of = |r| margin(plan(clearance(r), Method::CylinderByCylinder));
    // The intake closes last before firing TDC: 1.00 down to 0.20 mm of harmonic lift to 8 mm, open for
    // 260 deg. asin(sqrt(1/8)) = 0.1150 of pi, asin(sqrt(0.2/8)) = 0.0505: span 337.7 deg, 21.8 deg.
    let less = of(&report(&four())) - of(&corrected);
    assert!((less - 21.8).abs() < 0.05, "{less}");
    for (at, place) in [
        (json!({}), "/clearance/valves/events/at"),
        (
            json!({ "lash": "1 mm", "lift": "1 mm" }),
            "/clearance/valves/events/at",
        ),
        (json!({ "lift": "3 mm" }), "/clearance/valves/events/at"),
    ] {
        put(&mut document, "/clearance/valves/events/at", at);
        let problems = lashwork_wire::report(document.to_string().as_bytes()).unwrap_err();
        let places: Vec<&str> = problems.iter().map(|p| p.place.as_str()).collect();
        assert_eq!(places, [place]);
    }
}

/// A quarter turn of the spanner is no reason to give up 40 degrees of safety.
#[test]
fn of_plans_with_as_many_stops_the_one_that_may_be_off_most_is_recommended() {
    for name in [
        "v-eight-marks.json",
        "v-eight-shims.json",
        "inline-four.json",
    ] {
        let report = report(&example(name));
        let report = clearance(&report);
        let chosen = recommended(report);
        assert!(margin(chosen) >= 15.0, "{name}");
        for other in report.stops.plans.iter().filter(|p| {
            p.stops.len() == chosen.stops.len() && p.unreachable.len() == chosen.unreachable.len()
        }) {
            assert!(
                margin(other) <= margin(chosen) + 0.01,
                "{name}: {:?}",
                other.method
            );
        }
    }
}

#[test]
fn a_plan_that_leaves_less_than_15_deg_is_not_recommended_and_says_why() {
    // At firing TDC the exhaust is 120 deg from opening and the intake as far from closing: a guard of 106
    // leaves 14, one of 105 leaves 15.
    let mut document = engine(&["1"], &["1"], "106 deg");
    put(&mut document, "/clearance/plan", json!({ "places": "tdc" }));
    let found = report(&document);
    let section = clearance(&found);
    assert_eq!(recommended(section).method, Method::OppositeValve);
    let walk = plan(section, Method::CylinderByCylinder);
    assert!((margin(walk) - 14.0).abs() < 1e-9);
    assert_eq!(walk.against[0].code, "job.small-margin");
    assert!(
        walk.against[0].text.contains("14 deg"),
        "{:?}",
        walk.against
    );
    put(&mut document, "/clearance/valves/guard", json!("105 deg"));
    let found = report(&document);
    assert_eq!(
        recommended(clearance(&found)).method,
        Method::CylinderByCylinder
    );
    // Where no plan has so much, none is recommended.
    put(
        &mut document,
        "/clearance/valves/events",
        events([90, 100, 100, 90]),
    );
    put(&mut document, "/clearance/valves/guard", json!("170 deg"));
    let found = report(&document);
    let section = clearance(&found);
    assert_eq!(section.stops.recommended, None);
    let text = section.stops.none_recommended.as_ref().unwrap();
    assert!(text.contains("15 deg"), "{text}");
    assert!(sheet(&document).contains("NO PLAN IS RECOMMENDED"));
}

/// A ring on its spigot is pushed aside by the springs of open valves (Aircraft Engine Historical Society,
/// page on valve adjustment): each cylinder where its own lobes are away.
#[test]
fn a_radial_goes_cylinder_by_cylinder_unless_its_ring_is_said_not_to_float() {
    let mut nine = example("radial-nine.json");
    let found = report(&nine);
    let section = clearance(&found);
    assert_eq!(recommended(section).method, Method::CylinderByCylinder);
    for other in &section.stops.plans {
        let marked = other
            .against
            .iter()
            .any(|a| a.text.contains("the book says"));
        assert_eq!(
            marked,
            other.method != Method::CylinderByCylinder,
            "{:?}",
            other.method
        );
    }
    assert!(assumed(&found, "valve.ring-floats").is_some());
    put(
        &mut nine,
        "/clearance/plan",
        json!({ "ring_floats": false }),
    );
    // The book's events as they hold when it runs, and little guard: two positions have room enough.
    put(
        &mut nine,
        "/clearance/valves/events/at",
        json!({ "lash": "0.002 in" }),
    );
    put(&mut nine, "/clearance/valves/guard", json!("10 deg"));
    let fixed = report(&nine);
    let section = clearance(&fixed);
    assert_ne!(recommended(section).method, Method::CylinderByCylinder);
    assert_eq!(assumed(&fixed, "valve.ring-floats"), None);
    // A layout alone tells a radial, too; opposed banks do not make one.
    for (banks, radial) in [([0, 120, 240], true), ([0, 0, 180], false)] {
        let mut three = engine(&["1", "2", "3"], &["1", "3", "2"], "20 deg");
        for (i, bank) in banks.into_iter().enumerate() {
            put(
                &mut three,
                &format!("/engine/cylinders/{i}/bank"),
                json!({ "deg": bank }),
            );
            put(
                &mut three,
                &format!("/engine/cylinders/{i}/crankpin"),
                json!({ "deg": 0 }),
            );
        }
        put(&mut three, "/engine/firing", json!("listed"));
        let intervals = if radial {
            [240, 240, 240]
        } else {
            [180, 180, 360]
        };
        let intervals = intervals.map(|d| json!({ "deg": d }));
        put(&mut three, "/engine/intervals", json!(intervals));
        let answer = report(&three);
        assert_eq!(
            assumed(&answer, "valve.ring-floats").is_some(),
            radial,
            "{banks:?}"
        );
    }
}

/// Some cams may only be set where the book says (a maker's handbook gives the opposite valve for its
/// exhausts and warns of burnt valves anywhere else).
#[test]
fn what_the_book_prescribes_is_the_plan() {
    let mut document = four();
    put(
        &mut document,
        "/clearance/plan",
        json!({ "prescribed": "opposite_valve" }),
    );
    let found = report(&document);
    let section = clearance(&found);
    assert_eq!(recommended(section).method, Method::OppositeValve);
    assert!(sheet(&document).contains("why: the book prescribes it"));
    let mut single = engine(&["1"], &["1"], "20 deg");
    put(
        &mut single,
        "/clearance/plan",
        json!({ "prescribed": "two_position" }),
    );
    let found = report(&single);
    let section = clearance(&found);
    assert_eq!(section.stops.recommended, None);
    let why = section.stops.none_recommended.as_ref().unwrap();
    assert!(
        why.starts_with("the book prescribes two positions"),
        "{why}"
    );
}

/// Geometry of a wheel: on one that turns clockwise, what comes to the pointer after the TDC mark lies
/// anticlockwise of it.
#[test]
fn rim_marks_are_told_on_the_side_on_which_they_come_to_the_pointer() {
    for (sense, end, side) in [
        (
            "clockwise",
            "free_end",
            "(anticlockwise of it, seen from the free end",
        ),
        (
            "anticlockwise",
            "free_end",
            "(clockwise of it, seen from the free end",
        ),
        (
            "clockwise",
            "output_end",
            "(anticlockwise of it, seen from the output end",
        ),
    ] {
        let mut document = four();
        put(
            &mut document,
            "/engine/rotation",
            json!({ "sense": sense, "seen_from": end }),
        );
        put(&mut document, "/engine/pulley_diameter", json!("180 mm"));
        put(
            &mut document,
            "/clearance/plan",
            json!({ "places": "marks", "marks": [{ "label": "A", "at": "90 deg" }] }),
        );
        let found = report(&document);
        let words = clearance(&found).stops.pulley_marks.clone().unwrap();
        assert!(words.contains(side) && words.contains("behind"), "{words}");
        assert_eq!(found.engine.pulley_marks, Some(words.clone()));
        // Clockwise positive: the TDC mark has turned to +90 with the rim; the pointer stands at 0. The
        // mark painted for 90 deg, 141 mm behind, is a quarter turn back from the TDC mark: at the pointer.
        let way = if sense == "clockwise" { 1.0 } else { -1.0 };
        let stop = &recommended(clearance(&found)).stops[0];
        let tdc_mark = way * stop.position.degrees();
        let behind = stop.pulley_mark_mm.unwrap() / (std::f64::consts::PI * 180.0) * 360.0;
        let painted = if words.contains("anticlockwise") {
            tdc_mark - behind
        } else {
            tdc_mark + behind
        };
        assert!((painted.rem_euclid(360.0)).min((-painted).rem_euclid(360.0)) < 1e-9);
        let sheet = sheet(&document);
        assert!(sheet.contains("rim mark 141 mm behind TDC"), "{sheet}");
        assert!(!sheet.contains("past its TDC mark"));
    }
}

#[test]
fn a_crank_found_elsewhere_is_turned_from_there() {
    let mut document = engine(
        &["1", "2", "3", "4", "5", "6"],
        &["1", "5", "3", "6", "2", "4"],
        "20 deg",
    );
    put(
        &mut document,
        "/clearance/plan",
        json!({ "from": "360 deg" }),
    );
    let found = report(&document);
    let table = plan(clearance(&found), Method::TwoPosition);
    let turns: Vec<f64> = table.stops.iter().map(|s| s.turn.degrees()).collect();
    assert_eq!(turns, [0.0, 360.0]);
    assert_eq!(table.stops[0].firing_tdc.as_deref(), Some("6"));
}

/// The rockers of the invented six show that it stands at firing TDC of 6, not of 1: what comes first there is
/// checked first, whatever cylinder was to be started with.
#[test]
fn a_crank_that_its_rockers_show_elsewhere_is_turned_from_where_it_is() {
    let mut six = example("inline-six-one-turn-out.json");
    put(&mut six, "/clearance/start", json!("1"));
    let found = report(&six);
    let first = &recommended(clearance(&found)).stops[0];
    assert_eq!(first.firing_tdc.as_deref(), Some("6"));
    assert!(first.turn.degrees().abs() < 1e-9);
}

/// One cylinder, one mark at 240, start given: the plans are compared from one place.
#[test]
fn turning_is_counted_from_one_place_when_a_start_is_given() {
    let mut document = engine(&["1"], &["1"], "60 deg");
    put(
        &mut document,
        "/clearance/valves/events",
        events([-18, 69, 18, 20]),
    );
    put(&mut document, "/clearance/start", json!("1"));
    put(
        &mut document,
        "/clearance/plan",
        json!({ "places": "marks", "marks": [{ "label": "A", "at": "240 deg" }] }),
    );
    let found = report(&document);
    let section = clearance(&found);
    let turning = |method| plan(section, method).total_turn.degrees();
    assert!((turning(Method::OppositeValve) - 609.0).abs() < 1e-9);
    assert!((turning(Method::FewestStops) - 600.0).abs() < 1e-9);
}

/// An uneven twin without a start: the positions begin at the first of the order, and that the walk begins
/// at the other, from which it is shorter, is listed.
#[test]
fn a_start_that_was_chosen_is_listed() {
    let mut twin = engine(&["1", "2"], &["1", "2"], "0 deg");
    put(&mut twin, "/engine/firing", json!("listed"));
    put(
        &mut twin,
        "/engine/intervals",
        json!([{ "deg": 405 }, { "deg": 315 }]),
    );
    let found = report(&twin);
    let section = clearance(&found);
    let first = |method| plan(section, method).stops[0].firing_tdc.clone();
    assert_eq!(first(Method::TwoPosition).as_deref(), Some("1"));
    assert_eq!(first(Method::CylinderByCylinder).as_deref(), Some("2"));
    let text = assumed(&found, "valve.start").unwrap();
    assert!(
        text.contains("begins with 2, 90 deg less turning than from 1"),
        "{text}"
    );
}

/// Opposed banks: two positions turn the crank as far from 1 as from 4.
#[test]
fn two_positions_begin_at_the_first_of_the_order_whatever_saves_a_walk_elsewhere() {
    let mut flat = engine(&["1", "2", "3", "4"], &["1", "4", "3", "2"], "20 deg");
    for (i, side) in ["right", "right", "left", "left"].into_iter().enumerate() {
        put(
            &mut flat,
            &format!("/engine/cylinders/{i}/side"),
            json!(side),
        );
    }
    let found = report(&flat);
    let section = clearance(&found);
    let first = plan(section, Method::TwoPosition).stops[0]
        .firing_tdc
        .clone();
    assert_eq!(first.as_deref(), Some("1"));
}

#[test]
fn a_stop_at_top_dead_centre_names_what_rocks_and_how_far_off_it_may_be() {
    let document = four();
    let found = report(&document);
    let stop = &recommended(clearance(&found)).stops[0];
    assert_eq!(stop.firing_tdc.as_deref(), Some("1"));
    assert_eq!(stop.overlap_tdc.as_deref(), Some("4"));
    // Of I 1, E 1, I 2, E 3 the exhaust of 1 opens first, at 120 less a guard of 20; the intake of 1 closed
    // last, at 600 of the cycle before, 120 before firing TDC.
    let off = stop.may_be_off;
    assert!((off.after.degrees() - 100.0).abs() < 1e-9, "{off:?}");
    assert!((off.before.degrees() - 100.0).abs() < 1e-9, "{off:?}");
    let sheet = sheet(&document);
    let line = "both valves of 1 shut, those of 4 rock; good from 100 deg before to 100 deg after";
    assert!(sheet.contains(line), "{sheet}");
}

#[test]
fn ways_by_watching_valves_say_what_to_watch_and_what_to_check() {
    let sheet = sheet(&four());
    for pair in [
        "1 exhaust -> 1 intake",
        "1 intake -> 1 exhaust",
        "4 exhaust -> 1 exhaust",
    ] {
        assert!(sheet.contains(pair), "{pair}: {sheet}");
    }
    // All margins are counted to where the guard begins: exhaust opening at 120 is 240 after intake
    // closing and 220 before its opening.
    let found = report(&four());
    let opposite = plan(clearance(&found), Method::OppositeValve);
    assert!((margin(opposite) - 200.0).abs() < 1e-9);
    let open = plan(clearance(&found), Method::FullyOpenValve);
    assert_eq!(open.stops.len(), 8);
    let watch = &open.stops[0].watch[0];
    assert!(watch.text.ends_with("is fully open"), "{watch:?}");
    assert_eq!(watch.check.len(), 1);
}

/// No eye sets a hundredth of a degree.
#[test]
fn stops_are_told_in_whole_degrees_and_millimetres() {
    let mut nine = example("radial-nine.json");
    put(&mut nine, "/engine/pulley_diameter", json!("200 mm"));
    let sheet = sheet(&nine);
    let from = sheet.find("Recommended:").unwrap();
    let to = from + sheet[from..].find("\nMetal temperature").unwrap();
    let stops = &sheet[from..to];
    assert!(stops.contains("rim mark"), "{stops}");
    for line in stops
        .lines()
        .filter(|l| l.contains(" deg") || l.contains(" mm"))
    {
        let digits: Vec<char> = line.chars().collect();
        let fraction = digits
            .windows(3)
            .any(|w| w[0].is_ascii_digit() && w[1] == '.' && w[2].is_ascii_digit());
        assert!(!fraction, "{line}");
    }
}

/// The V-eight, its events held at the lash it runs with and 5 deg kept clear: with a degree wheel the
/// fewest stops turn less than two positions a turn apart and still leave an hour of the clock, but may be
/// off by less.
#[test]
fn a_plan_that_may_be_off_more_wins_over_one_that_turns_less() {
    let mut document = example("v-eight-shims.json");
    put(&mut document, "/clearance/readings", json!([]));
    put(&mut document, "/clearance/valves/guard", json!("5 deg"));
    put(
        &mut document,
        "/clearance/valves/events/at",
        json!({ "lash": "0.10 mm" }),
    );
    put(
        &mut document,
        "/clearance/plan",
        json!({ "places": "any_angle" }),
    );
    let report = report(&document);
    let section = clearance(&report);
    let fewest = plan(section, Method::FewestStops);
    let chosen = recommended(section);
    assert_eq!(chosen.method, Method::TwoPosition);
    assert_eq!(chosen.stops.len(), fewest.stops.len());
    assert!(chosen.total_turn > fewest.total_turn);
    assert!(margin(fewest) >= 29.99 && margin(chosen) > margin(fewest) + 15.0);
}

/// Of several books the least lash counts: a valve set tighter leaves its base circle earlier.
#[test]
fn events_are_corrected_to_the_least_lash_of_any_book() {
    let with_books = |set: &[(&str, &str, &str)]| {
        let mut document = four();
        let at = json!({ "lash": "1.00 mm" });
        put(&mut document, "/clearance/valves/events/at", at);
        let book = document["clearance"]["specifications"][0].clone();
        let books: Vec<Value> = set
            .iter()
            .map(|(set_to, from, to)| {
                let mut one = book.clone();
                one["id"] = json!(set_to);
                one["intake"] = json!({ "set_to": set_to, "set": { "from": from, "to": to } });
                one
            })
            .collect();
        put(&mut document, "/clearance/specifications", json!(books));
        assumed(&report(&document), "valve.events-at").unwrap()
    };
    let (usual, tight) = (
        ("0.20 mm", "0.15 mm", "0.25 mm"),
        ("0.05 mm", "0.03 mm", "0.07 mm"),
    );
    let least = with_books(&[tight]);
    assert_eq!(with_books(&[usual, tight]), least);
    assert_eq!(with_books(&[tight, usual]), least);
    assert_ne!(with_books(&[usual]), least);
}

/// A ring that is stated to float has every other way spoken against, with the reason.
#[test]
fn a_ring_that_is_said_to_float_leaves_cylinder_by_cylinder() {
    let mut document = example("radial-nine.json");
    let mut plan = document["clearance"]["plan"].clone();
    if plan.is_null() {
        plan = json!({});
    }
    plan["ring_floats"] = json!(true);
    put(&mut document, "/clearance/plan", plan);
    let report = report(&document);
    let section = clearance(&report);
    assert!(assumed(&report, "valve.ring-floats").is_none());
    assert_eq!(recommended(section).method, Method::CylinderByCylinder);
    for plan in &section.stops.plans {
        let floats = plan.against.iter().find(|a| a.code == "job.ring-floats");
        let is_other = plan.method != Method::CylinderByCylinder;
        assert_eq!(floats.is_some(), is_other, "{:?}", plan.method);
        assert!(floats.is_none_or(|a| a.text.contains("the cam ring floats")));
    }
}
