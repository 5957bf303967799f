//! Laws that hold for the stop plans of every four-stroke engine.
#![allow(
    clippy::unwrap_used,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::{abs_diff_eq, assert_abs_diff_eq};
use lashwork::engine::{Engine, Intervals, layout};
use lashwork::quantity::{CrankAngle, CyclePosition};
use lashwork::valve::{CamEvents, StopPlan, ValveId, ValveTrain};
use lashwork_tests::engines::four_stroke;
use lashwork_tests::values::deg;
use proptest::prelude::*;

/// Rounding of sums of sevenths and ninths of a cycle, in degrees.
const ROUNDING: f64 = 1e-8;

fn engine(order: &[usize], sides: &[u8], intervals: Intervals) -> Engine {
    let cylinders = layout::inline(order.len(), &[])
        .into_iter()
        .zip(sides)
        .map(|(cylinder, side)| match side {
            0 => cylinder,
            1 => cylinder.on_side("left"),
            _ => cylinder.on_side("right"),
        })
        .collect();
    four_stroke(cylinders, order, intervals)
}

fn even(order: &[usize]) -> Engine {
    engine(order, &vec![0; order.len()], Intervals::Even)
}

/// Any order of 1 to 18 cylinders, on one side, on two, or without sides; even or odd intervals.
fn engines() -> impl Strategy<Value = Engine> {
    (1_usize..=18).prop_flat_map(|n| {
        let order = Just((1..=n).collect::<Vec<_>>()).prop_shuffle();
        let sides = prop::collection::vec(0_u8..3, n);
        let weights = prop::option::of(prop::collection::vec(0.1_f64..1.0, n));
        (order, sides, weights).prop_map(|(order, sides, weights)| {
            let intervals = weights.map_or(Intervals::Even, |weights| {
                let sum: f64 = weights.iter().sum();
                Intervals::Listed(weights.iter().map(|w| deg(w / sum * 720.0)).collect())
            });
            engine(&order, &sides, intervals)
        })
    })
}

fn cams() -> impl Strategy<Value = CamEvents> {
    // Whole degrees too: there stops of different cylinders fall together.
    let any = || prop_oneof![-60.0_f64..=120.0, (-60_i32..=120).prop_map(f64::from)];
    [any(), any(), any(), any()]
        .prop_map(|[a, b, c, d]| CamEvents::new(deg(a), deg(b), deg(c), deg(d)).unwrap())
}

/// Guards up to 60, and some so large that windows miss firing TDC or vanish.
fn guards() -> impl Strategy<Value = CrankAngle> {
    prop_oneof![
        3 => (0.0_f64..=60.0).prop_map(deg),
        1 => (0_i32..=180).prop_map(|g| deg(f64::from(g))),
    ]
}

fn listed(plan: &StopPlan) -> Vec<ValveId> {
    let checked = plan.stops.iter().flat_map(|s| &s.checks).map(|c| c.valve);
    let mut all: Vec<_> = checked
        .chain(plan.unreachable.iter().map(|u| u.valve))
        .collect();
    all.sort_unstable();
    all
}

fn apart(a: CyclePosition, b: CyclePosition) -> f64 {
    a.forward_to(b).degrees().min(b.forward_to(a).degrees())
}

/// What holds for a plan of either method.
fn sound(train: &ValveTrain, engine: &Engine, plan: &StopPlan) -> Result<(), TestCaseError> {
    prop_assert_eq!(listed(plan), train.valves());
    for stop in &plan.stops {
        prop_assert!(stop.turn.degrees() >= 0.0);
        for check in &stop.checks {
            let valve = check.valve;
            let window = train.window(valve.kind).unwrap();
            prop_assert!(check.margin.degrees() >= 0.0);
            let from = window.from();
            let inside = from.forward_to(engine.own_phase(valve.cylinder, stop.position));
            let rest = (window.length() - inside).degrees();
            prop_assert!(rest >= -ROUNDING, "{:?} {}", stop, rest);
            let nearer = inside.degrees().min(rest.max(0.0));
            prop_assert!(abs_diff_eq!(
                check.margin.degrees(),
                nearer,
                epsilon = ROUNDING
            ));
        }
        // As far off as it may be, every check is still in its window; a little farther, one is not.
        for (off, sign) in [(stop.may_be_off.before, -1.0), (stop.may_be_off.after, 1.0)] {
            let all_in = |by: f64| {
                let there = stop.position.turned(deg(sign * by));
                let mut checks = stop.checks.iter();
                checks.all(|c| train.margin(c.valve, there).is_some())
            };
            let least = (off.degrees() - ROUNDING).max(0.0);
            prop_assert!(all_in(least));
            prop_assert!(!all_in(off.degrees() + 2.0 * ROUNDING));
        }
        if let Some(cylinder) = stop.firing_tdc {
            prop_assert!(apart(engine.firing_position(cylinder), stop.position) <= 0.01);
        }
    }
    for pair in plan.stops.windows(2) {
        if let [before, after] = pair {
            let turned = before.position.turned(after.turn);
            prop_assert!(apart(turned, after.position) < ROUNDING);
            prop_assert!(after.turn.degrees() > 0.0);
        }
    }
    let sum: f64 = plan.stops.iter().map(|s| s.turn.degrees()).sum();
    prop_assert!(abs_diff_eq!(
        plan.total_turn.degrees(),
        sum,
        epsilon = ROUNDING
    ));
    prop_assert!(plan.total_turn.degrees() < 720.0);
    let first = plan.stops.first().map_or(0.0, |s| s.turn.degrees());
    prop_assert!(abs_diff_eq!(first, 0.0, epsilon = ROUNDING));

    // Count the walks again, along the list of checks.
    let sides: Vec<&str> = plan
        .stops
        .iter()
        .flat_map(|s| &s.checks)
        .filter_map(|c| engine.cylinder(c.valve.cylinder)?.side.as_deref())
        .collect();
    let crossings = sides.windows(2).filter(|p| p.first() != p.last()).count();
    prop_assert_eq!(plan.walks, crossings);
    Ok(())
}

proptest! {
    #[test]
    fn cylinder_by_cylinder_is_sound(
        engine in engines(), cam in cams(), guard in guards(), i in 1_u8..=4, e in 1_u8..=4,
    ) {
        let train = ValveTrain::new(&engine, &cam, guard, i, e).unwrap();
        sound(&train, &engine, &train.cylinder_by_cylinder(None))?;
        for start in engine.indices() {
            sound(&train, &engine, &train.cylinder_by_cylinder(Some(start)))?;
        }
    }

    #[test]
    fn unreachable_are_the_valves_without_a_window(
        engine in engines(), cam in cams(), guard in guards(),
    ) {
        let train = ValveTrain::new(&engine, &cam, guard, 1, 1).unwrap();
        let plan = train.cylinder_by_cylinder(None);
        let mut got: Vec<_> = plan.unreachable.iter().map(|u| u.valve).collect();
        got.sort_unstable();
        let wanted: Vec<_> = train
            .valves()
            .into_iter()
            .filter(|v| train.window(v.kind).is_none())
            .collect();
        prop_assert_eq!(got, wanted);
    }

    #[test]
    fn no_start_needs_fewer_walks(engine in engines(), cam in cams(), guard in guards()) {
        let train = ValveTrain::new(&engine, &cam, guard, 1, 1).unwrap();
        let chosen = train.cylinder_by_cylinder(None);
        for start in engine.indices() {
            let other = train.cylinder_by_cylinder(Some(start));
            prop_assert!(chosen.walks <= other.walks);
            if chosen.walks == other.walks {
                let more = chosen.total_turn - other.total_turn;
                prop_assert!(more.degrees() <= 0.01 + ROUNDING);
            }
        }
    }

    #[test]
    fn start_is_honoured(engine in engines(), cam in cams(), guard in guards()) {
        let train = ValveTrain::new(&engine, &cam, guard, 1, 1).unwrap();
        let at_tdc = |valve: &ValveId| {
            train.margin(*valve, engine.firing_position(valve.cylinder)).is_some()
        };
        for start in engine.indices() {
            let plan = train.cylinder_by_cylinder(Some(start));
            let own = |v: &ValveId| v.cylinder == start;
            if train.valves().iter().filter(|v| own(v)).all(|v| plan.unreachable.iter().any(|u| u.valve == *v)) {
                continue;
            }
            let first = plan.stops.first().unwrap();
            prop_assert!(first.checks.iter().any(|c| own(&c.valve)));
            if train.valves().iter().filter(|v| own(v)).any(at_tdc) {
                prop_assert!(apart(first.position, engine.firing_position(start)) <= 0.01);
            }
        }
    }

    #[test]
    fn two_positions_cover_all_valves_a_turn_apart(
        engine in engines(), cam in cams(), guard in guards(),
    ) {
        let train = ValveTrain::new(&engine, &cam, guard, 2, 1).unwrap();
        for first in engine.indices() {
            let Some(plan) = train.two_position(first) else { continue };
            sound(&train, &engine, &plan)?;
            prop_assert!(plan.unreachable.is_empty());
            let turns: Vec<f64> = plan.stops.iter().map(|s| s.turn.degrees()).collect();
            prop_assert_eq!(turns.len(), 2);
            prop_assert!(plan.stops.iter().all(|s| !s.checks.is_empty()));
            prop_assert!(abs_diff_eq!(plan.total_turn.degrees(), 360.0, epsilon = ROUNDING));
            let start = plan.stops.first().unwrap();
            prop_assert!(apart(start.position, engine.firing_position(first)) < ROUNDING);
            prop_assert!(start.firing_tdc.is_some());
        }
    }

    /// Every valve once, well inside its base circle at both ends, while the one watched is at the top of
    /// its lift.
    #[test]
    fn the_fully_open_valve_checks_each_well_inside(
        engine in engines(), cam in cams(), guard in guards(), i in 1_u8..=4, e in 1_u8..=4,
    ) {
        let train = ValveTrain::new(&engine, &cam, guard, i, e).unwrap();
        let plan = train.fully_open_valve(None, None);
        prop_assert_eq!(listed(&plan), train.valves());
        for stop in &plan.stops {
            let sign = stop.signs.first().unwrap();
            let phase = engine.own_phase(sign.cylinder, stop.position);
            let since = cam.opens(sign.kind).forward_to(phase).degrees();
            let left = phase.forward_to(cam.closes(sign.kind)).degrees();
            prop_assert!(abs_diff_eq!(since, left, epsilon = ROUNDING));
            for check in &stop.checks {
                let room = train.room(check.valve, stop.position).unwrap();
                prop_assert!(abs_diff_eq!(room.before.degrees(), stop.may_be_off.before.degrees(), epsilon = ROUNDING));
                prop_assert!(abs_diff_eq!(room.after.degrees(), stop.may_be_off.after.degrees(), epsilon = ROUNDING));
                prop_assert!(room.nearer().degrees() >= 30.0 - ROUNDING);
            }
        }
    }

    /// Both valves at firing TDC: one stop for each cylinder, in firing order from the first.
    #[test]
    fn usual_cams_give_one_stop_for_each_cylinder(n in 1_usize..=28) {
        let order: Vec<usize> = (1..=n).collect();
        let engine = even(&order);
        let cam = CamEvents::assumed();
        let train = ValveTrain::new(&engine, &cam, deg(20.0), 1, 1).unwrap();
        let plan = train.cylinder_by_cylinder(None);
        let fired: Vec<_> = plan.stops.iter().map(|s| s.firing_tdc).collect();
        let wanted: Vec<_> = engine.order().iter().copied().map(Some).collect();
        prop_assert_eq!(fired, wanted);
    }
}

#[test]
fn stops_at_equal_places_are_one() {
    // Both windows miss firing TDC and their middles lie a whole number of firings away: the extra
    // stops fall on other cylinders' dead centres.
    let mut tried = 0;
    for n in 2_usize..=18 {
        for by in 1..n {
            let step = 720.0 / n as f64 * by as f64;
            // The intake's middle is 90 + half after firing TDC, the exhaust's as far before it.
            let half = step - 90.0;
            // Base circle 540 less two guards: 90 on either side of the middle.
            if half <= ROUNDING || half > 60.0 {
                continue;
            }
            tried += 1;
            let cam = CamEvents::new(deg(-half), deg(half), deg(half), deg(-half)).unwrap();
            let order: Vec<usize> = (1..=n).collect();
            let engine = even(&order);
            let train = ValveTrain::new(&engine, &cam, deg(180.0), 1, 1).unwrap();
            let plan = train.cylinder_by_cylinder(None);
            sound(&train, &engine, &plan).unwrap();
            assert_eq!(plan.stops.len(), n, "{n} cylinders, {step} deg");
            for stop in &plan.stops {
                assert!(stop.firing_tdc.is_some(), "{n} cylinders, {step} deg");
                assert_eq!(stop.checks.len(), 2);
            }
        }
    }
    assert!(tried >= 10);
}

#[test]
fn rounded_sevenths_do_not_split_a_stop() {
    // A seven-cylinder radial with intervals written to three decimals; the intake's middle lies one
    // firing after firing TDC, the exhaust's one before.
    let half = 720.0 / 7.0 - 90.0;
    let cam = CamEvents::new(deg(-half), deg(half), deg(half), deg(-half)).unwrap();
    let listed = Intervals::Listed(vec![deg(102.857); 7]);
    let engine = engine(&[1, 3, 5, 7, 2, 4, 6], &[0; 7], listed);
    let train = ValveTrain::new(&engine, &cam, deg(180.0), 1, 1).unwrap();
    let plan = train.cylinder_by_cylinder(None);
    sound(&train, &engine, &plan).unwrap();
    assert_eq!(plan.stops.len(), 7);
    assert!(plan.stops.iter().all(|s| s.firing_tdc.is_some()));
}

#[test]
fn one_position_that_serves_all_valves_makes_no_table() {
    let cam = CamEvents::assumed();
    let stops = |order: &[usize]| {
        let engine = even(order);
        let train = ValveTrain::new(&engine, &cam, deg(20.0), 1, 1).unwrap();
        let first = engine.indices().next().unwrap();
        train.two_position(first).map(|plan| plan.stops.len())
    };
    assert_eq!((stops(&[1]), stops(&[1, 2])), (None, Some(2)));
}

#[test]
fn an_extra_stop_where_a_window_misses_firing_tdc() {
    // Intake closes 660, guard 70: readable from 730, that is 10 after firing TDC, to 250; exhaust
    // from 470 to 30.
    let cam = CamEvents::new(deg(40.0), deg(120.0), deg(80.0), deg(40.0)).unwrap();
    let engine = even(&[1]);
    let train = ValveTrain::new(&engine, &cam, deg(70.0), 1, 1).unwrap();
    let plan = train.cylinder_by_cylinder(None);
    let stops: Vec<_> = plan
        .stops
        .iter()
        .map(|s| {
            (
                s.position.degrees(),
                s.turn.degrees(),
                s.firing_tdc.is_some(),
            )
        })
        .collect();
    assert_eq!(stops, [(0.0, 0.0, true), (130.0, 130.0, false)]);
}

#[test]
fn a_start_without_a_stop_at_its_dead_centre_counts_from_its_first_stop() {
    // Both windows miss firing TDC: intake readable from 100 to 150, exhaust from 570 to 620.
    let cam = CamEvents::new(deg(30.0), deg(100.0), deg(100.0), deg(30.0)).unwrap();
    let engine = even(&[1, 3, 4, 2]);
    let train = ValveTrain::new(&engine, &cam, deg(180.0), 1, 1).unwrap();
    for start in engine.indices() {
        let plan = train.cylinder_by_cylinder(Some(start));
        let first = plan.stops.first().unwrap();
        assert!(first.checks.iter().any(|c| c.valve.cylinder == start));
        assert_abs_diff_eq!(first.turn.degrees(), 0.0, epsilon = ROUNDING);
        let last = plan.stops.last().unwrap();
        let between = first.position.forward_to(last.position);
        assert_abs_diff_eq!(
            (plan.total_turn - between).degrees(),
            0.0,
            epsilon = ROUNDING
        );
    }
}
