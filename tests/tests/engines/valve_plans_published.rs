//! Stop plans against published tables and rules.
//!
//! Each check names where its figure is from. SEEN: read in a copy of the named source. DERIVED:
//! worked out from seen inputs by the stated rule.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::abs_diff_eq;
use lashwork::engine::{CylinderLabel, Engine, Intervals};
use lashwork::valve::{CamEvents, StopPlan, StoppingPoints, ValveId, ValveKind, ValveTrain};
use lashwork_tests::every_plan::{at, engine};
use lashwork_tests::values::deg;

use ValveKind::{Exhaust, Intake};

/// Events whose lobe centres are intake 471 and exhaust 249, own-cylinder phase.
fn events() -> CamEvents {
    CamEvents::new(deg(15.0), deg(57.0), deg(57.0), deg(15.0)).unwrap()
}

fn even(order: &[usize]) -> Engine {
    engine(order, &vec![0; order.len()], Intervals::Even)
}

fn train(engine: &Engine) -> ValveTrain<'_> {
    ValveTrain::new(engine, &events(), deg(20.0), 1, 1).unwrap()
}

fn valve(engine: &Engine, cylinder: usize, kind: ValveKind) -> ValveId {
    ValveId {
        cylinder: engine.index_of(&CylinderLabel::numbered(cylinder)).unwrap(),
        kind,
        number: 1,
    }
}

fn checked_at(plan: &StopPlan, stop: usize) -> Vec<ValveId> {
    let mut all: Vec<ValveId> = plan.stops[stop].checks.iter().map(|c| c.valve).collect();
    all.sort_unstable();
    all
}

#[test]
fn the_fewest_stops_of_a_four_are_the_printed_table() {
    // V1, S27 Caterpillar 3114, TM 5-3895-383-24 p. 6-60. SEEN: No. 1 firing I 1, 2, E 1, 3.
    let engine = even(&[1, 3, 4, 2]);
    let plan = train(&engine).fewest_stops(&StoppingPoints::DeadCentres, Some(at(0.0)));
    assert_eq!(plan.stops.len(), 2);
    let first = [(1, Intake), (1, Exhaust), (2, Intake), (3, Exhaust)];
    let mut wanted: Vec<_> = first.map(|(c, k)| valve(&engine, c, k)).to_vec();
    wanted.sort_unstable();
    assert_eq!(checked_at(&plan, 0), wanted);
}

#[test]
fn printed_two_position_tables_never_beat_the_fewest_stops() {
    // V1 S27, V2 S40, V3 S17, V8 S8: each prints two positions. SEEN.
    let orders: [&[usize]; 4] = [
        &[1, 3, 4, 2],
        &[1, 5, 3, 6, 2, 4],
        &[1, 8, 4, 3, 6, 5, 7, 2],
        &[1, 3, 2],
    ];
    for order in orders {
        let engine = even(order);
        let train = train(&engine);
        let table = train.two_position(engine.order()[0]).unwrap();
        let fewest = train.fewest_stops(&StoppingPoints::DeadCentres, None);
        assert_eq!((table.stops.len(), fewest.stops.len()), (2, 2));
        assert!(fewest.total_turn <= table.total_turn);
    }
}

#[test]
fn overlap_on_one_is_firing_tdc_of_its_companion() {
    // V15, S30 Volvo DH10A p. 39: overlap on 6 -> set 1, 2 -> 5, 4 -> 3, 1 -> 6, 5 -> 2, 3 -> 4. SEEN.
    let engine = even(&[1, 5, 3, 6, 2, 4]);
    let plan = train(&engine).cylinder_by_cylinder(None);
    let label = |index| engine.cylinder(index).unwrap().label.as_str().to_owned();
    let pairs: Vec<(String, String)> = plan
        .stops
        .iter()
        .map(|s| (label(s.overlap_tdc.unwrap()), label(s.firing_tdc.unwrap())))
        .collect();
    for (overlap, set) in [(6, 1), (2, 5), (4, 3), (1, 6), (5, 2), (3, 4)] {
        assert!(pairs.contains(&(overlap.to_string(), set.to_string())));
    }
    assert_eq!(pairs.len(), 6);
}

#[test]
fn the_opposite_valve_sets_each_valve_once_at_its_printed_event() {
    // V17, S57 southeastrt.net page 10825, S58 carcraft.com: exhaust opening -> set intake; intake
    // closing -> set exhaust, same cylinder. SEEN.
    for order in [&[1, 3, 4, 2][..], &[1, 5, 3, 6, 2, 4]] {
        let engine = even(order);
        let plan = train(&engine).opposite_valve(None, None);
        let mut all: Vec<ValveId> = Vec::new();
        for stop in &plan.stops {
            for check in &stop.checks {
                let phase = engine
                    .own_phase(check.valve.cylinder, stop.position)
                    .degrees();
                // Exhaust opens 57 BBDC = 123, intake closes 57 ABDC = 597.
                let event = if check.valve.kind == Intake {
                    123.0
                } else {
                    597.0
                };
                assert!(
                    abs_diff_eq!(phase, event, epsilon = 1e-6),
                    "{:?} at {phase}",
                    check.valve
                );
                all.push(check.valve);
            }
        }
        all.sort_unstable();
        assert_eq!(all, train(&engine).valves());
        assert!(plan.unreachable.is_empty());
    }
}

/// The valves of a row numbered from one end, as the pairs (watched, checked) in the order in which a crank
/// that turns forward brings them.
fn open_pairs(engine: &Engine, kinds: &[ValveKind]) -> Vec<(usize, usize)> {
    let place = |cylinder: usize, kind: ValveKind| {
        let own = [2 * cylinder + 1, 2 * cylinder + 2];
        own.into_iter().find(|k| kinds[k - 1] == kind).unwrap()
    };
    let plan = train(engine).fully_open_valve(None, None);
    assert!(plan.unreachable.is_empty());
    plan.stops
        .iter()
        .flat_map(|s| &s.signs)
        .map(|sign| {
            (
                place(sign.cylinder.get(), sign.kind),
                place(sign.sets.get(), sign.sets_kind),
            )
        })
        .collect()
}

/// Kinds in a row in which every cylinder's pair mirrors its neighbour's: exhaust, intake, intake,
/// exhaust, and so on.
fn mirrored(cylinders: usize) -> Vec<ValveKind> {
    [Exhaust, Intake, Intake, Exhaust]
        .into_iter()
        .cycle()
        .take(2 * cylinders)
        .collect()
}

#[test]
fn the_fully_open_valve_of_a_four_tells_the_printed_one() {
    // V13, S52 opelgt.com thread 3892 (8 sets 1, 6 sets 3, 4 sets 5, 7 sets 2 and back), S53 (E = 1, 4, 5,
    // 8, I = 2, 3, 6, 7), S54 (4 + 5, 1 + 8). SEEN.
    let engine = even(&[1, 3, 4, 2]);
    let pairs = open_pairs(&engine, &mirrored(4));
    let printed = [
        (8, 1),
        (6, 3),
        (4, 5),
        (7, 2),
        (1, 8),
        (3, 6),
        (5, 4),
        (2, 7),
    ];
    let at = pairs.iter().position(|p| *p == printed[0]).unwrap();
    let mut found = pairs;
    found.rotate_left(at);
    assert_eq!(found, printed);
    // Each lies in the middle of its base circle: whatever the events are, the rest is half of it.
    for stop in &train(&engine).fully_open_valve(None, None).stops {
        let off = stop.may_be_off;
        assert!((off.before - off.after).degrees().abs() < 1e-9);
        // Base circle 468 of 720, less a guard of 20 at both ends.
        assert!((off.before.degrees() - 214.0).abs() < 1e-9);
    }
}

#[test]
fn numbers_of_the_watched_and_the_checked_valve_add_up() {
    // V16, S56: 9 for four cylinders, 13 for six. SEEN. 17 for a straight eight. MEM.
    let orders: [&[usize]; 3] = [
        &[1, 3, 4, 2],
        &[1, 5, 3, 6, 2, 4],
        &[1, 6, 2, 5, 8, 3, 7, 4],
    ];
    for order in orders {
        let pairs = open_pairs(&even(order), &mirrored(order.len()));
        assert_eq!(pairs.len(), 2 * order.len());
        for (watched, checked) in pairs {
            assert_eq!(watched + checked, 2 * order.len() + 1);
        }
    }
}

#[test]
fn an_uneven_engine_watches_the_valve_that_comes_nearest() {
    // A twin on one crankpin, 45 degrees between its banks, fires at 0 and 315 (S5, S6. SEEN): the other
    // cylinder's valve is fully open 45 degrees from the middle of the base circle. DERIVED.
    let listed = Intervals::Listed(vec![deg(315.0), deg(405.0)]);
    let engine = engine(&[1, 2], &[0, 0], listed);
    let plan = train(&engine).fully_open_valve(None, None);
    assert_eq!(plan.stops.len(), 4);
    for stop in &plan.stops {
        let sign = stop.signs[0];
        assert!(sign.kind == sign.sets_kind && sign.cylinder != sign.sets);
        assert!((stop.checks[0].margin.degrees() - (214.0 - 45.0)).abs() < 1e-9);
    }
}

#[test]
fn a_single_cylinder_is_checked_by_its_other_valve_only_well_inside() {
    // Exhaust fully open at 249: the intake opens at 345 and closed at 597. DERIVED: 96 - 20 left.
    let engine = even(&[1]);
    let plan = train(&engine).fully_open_valve(None, None);
    let intake = plan
        .stops
        .iter()
        .find(|s| s.signs[0].kind == Exhaust)
        .unwrap();
    assert_eq!(intake.checks[0].valve.kind, Intake);
    assert!((intake.checks[0].margin.degrees() - 76.0).abs() < 1e-9);
    // With a guard of 70 only 26 are left: nothing is offered.
    let narrow = ValveTrain::new(&engine, &events(), deg(70.0), 1, 1).unwrap();
    assert!(narrow.fully_open_valve(None, None).stops.is_empty());
}
