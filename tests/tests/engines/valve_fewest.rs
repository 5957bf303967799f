//! The plan with the fewest stops against trying everything, on engines small enough for that.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::{abs_diff_eq, assert_abs_diff_eq};
use lashwork::engine::{Engine, Intervals, layout};
use lashwork::quantity::{CrankAngle, CyclePosition};
use lashwork::valve::{
    CamEvents, Mark, Marks, StopPlan, StoppingPoints, Unreached, ValveId, ValveKind, ValveTrain,
};
use lashwork_tests::engines::four_stroke;
use lashwork_tests::every_plan::{Cost, SAME, at, best_of_all, engine};
use lashwork_tests::values::deg;
use proptest::prelude::*;

/// Rounding of sums of sevenths of a cycle, in degrees.
const ROUNDING: f64 = 1e-7;

fn even(n: usize) -> Engine {
    let order: Vec<usize> = (1..=n).collect();
    engine(&order, &vec![0; n], Intervals::Even)
}

/// The plan is what it says it is: it turns forward, checks every valve once inside its window, and
/// its cost follows from its stops.
fn sound(train: &ValveTrain, plan: &StopPlan, sides: &[usize]) -> Result<(), TestCaseError> {
    let checked = plan.stops.iter().flat_map(|s| &s.checks).map(|c| c.valve);
    let left = plan.unreachable.iter().map(|u| u.valve);
    let mut all: Vec<ValveId> = checked.chain(left).collect();
    all.sort_unstable();
    prop_assert_eq!(all, train.valves());
    let mut here = plan.from;
    let mut visited: Vec<usize> = Vec::new();
    for stop in &plan.stops {
        let turned = here.map_or(0.0, |h| h.forward_to(stop.position).degrees());
        // A place that close is where the crank stands: nobody turns by less.
        let turned = if turned <= SAME { 0.0 } else { turned };
        prop_assert!(abs_diff_eq!(
            turned,
            stop.turn.degrees(),
            epsilon = ROUNDING
        ));
        here = Some(stop.position);
        for check in &stop.checks {
            let margin = train.margin(check.valve, stop.position).unwrap();
            prop_assert!(abs_diff_eq!(
                (margin - check.margin).degrees(),
                0.0,
                epsilon = ROUNDING
            ));
            let side = sides[check.valve.cylinder.get()];
            if side > 0 {
                visited.push(side);
            }
        }
        prop_assert!(!stop.checks.is_empty());
    }
    visited.dedup();
    prop_assert_eq!(plan.walks, visited.len().saturating_sub(1));
    let sum: f64 = plan.stops.iter().map(|s| s.turn.degrees()).sum();
    prop_assert!(abs_diff_eq!(
        plan.total_turn.degrees(),
        sum,
        epsilon = ROUNDING
    ));
    prop_assert!(sum < 720.0);
    Ok(())
}

fn agree(found: Cost, tried: Cost) -> Result<(), TestCaseError> {
    prop_assert_eq!(found.stops, tried.stops);
    prop_assert!(
        abs_diff_eq!(found.turning, tried.turning, epsilon = SAME + ROUNDING),
        "{found:?} {tried:?}"
    );
    prop_assert_eq!(found.walks, tried.walks, "{:?} {:?}", found, tried);
    prop_assert!(
        abs_diff_eq!(found.margin, tried.margin, epsilon = ROUNDING),
        "{found:?} {tried:?}"
    );
    Ok(())
}

#[derive(Clone, Debug)]
struct Case {
    order: Vec<usize>,
    sides: Vec<usize>,
    intervals: Intervals,
    events: [f64; 4],
    guard: f64,
    from: Option<f64>,
}

impl Case {
    fn engine(&self) -> Engine {
        engine(&self.order, &self.sides, self.intervals.clone())
    }

    fn train<'e>(&self, engine: &'e Engine) -> ValveTrain<'e> {
        let [a, b, c, d] = self.events.map(deg);
        let events = CamEvents::new(a, b, c, d).unwrap();
        ValveTrain::new(engine, &events, deg(self.guard), 1, 1).unwrap()
    }
}

/// Engines of 1 to `most` cylinders; every angle a whole multiple of `step`, 0 for any angle.
fn cases(most: usize, step: f64) -> impl Strategy<Value = Case> {
    let angle = move |low: f64, high: f64| {
        (low..=high).prop_map(move |a| {
            if step > 0.0 {
                (a / step).round() * step
            } else {
                a
            }
        })
    };
    (1..=most).prop_flat_map(move |n| {
        let odd = prop::collection::vec(1_u32..=6, n).prop_map(move |weights| {
            if step == 0.0 {
                let sum: f64 = weights.iter().copied().map(f64::from).sum();
                return Intervals::Listed(
                    weights
                        .iter()
                        .map(|w| deg(f64::from(*w) / sum * 720.0))
                        .collect(),
                );
            }
            // Whole steps that leave the last interval at least one.
            let mut left = 720.0;
            let mut all = Vec::new();
            for (i, w) in weights.iter().enumerate() {
                let more = (n - 1 - i) as f64 * step;
                let interval = if i + 1 == n {
                    left
                } else {
                    (f64::from(*w) * step * 2.0).min(left - more).max(step)
                };
                left -= interval;
                all.push(deg(interval));
            }
            Intervals::Listed(all)
        });
        let even = step == 0.0 || (720.0 / n as f64 / step).fract() == 0.0;
        let intervals = prop_oneof![
            1 => odd,
            u32::from(even) => Just(Intervals::Even),
        ];
        (
            Just((1..=n).collect::<Vec<_>>()).prop_shuffle(),
            prop::collection::vec(0_usize..=3, n),
            intervals,
            [
                angle(-60.0, 120.0),
                angle(-60.0, 120.0),
                angle(-60.0, 120.0),
                angle(-60.0, 120.0),
            ],
            prop_oneof![angle(0.0, 60.0), angle(90.0, 180.0)],
            prop::option::of(angle(0.0, 719.0)),
        )
            .prop_map(|(order, sides, intervals, events, guard, from)| Case {
                order,
                sides,
                intervals,
                events: events.map(|e| e.clamp(-60.0, 120.0)),
                guard: guard.clamp(0.0, 180.0),
                from: from.map(|f| f % 720.0),
            })
    })
}

/// Whether the ways to visit sides at all stops are few enough to try: 5 at a stop for two sides, 16
/// for three.
fn can_be_tried(plan: &StopPlan, sides: &[usize]) -> bool {
    let named = (1..=3).filter(|s| sides.contains(s)).count();
    let most = [20, 11, 4, 2];
    plan.stops.len() <= most[named]
}

fn compare(
    case: &Case,
    places: &StoppingPoints,
    tried_at: &[CyclePosition],
) -> Result<(), TestCaseError> {
    let engine = case.engine();
    let train = case.train(&engine);
    let from = case.from.map(at);
    let plan = train.fewest_stops(places, from);
    sound(&train, &plan, &case.sides)?;
    if !can_be_tried(&plan, &case.sides) {
        return Ok(());
    }
    if let Some(tried) = best_of_all(&train, tried_at, from, &case.sides) {
        agree(Cost::of(&plan), tried)
    } else {
        prop_assert!(plan.stops.is_empty());
        Ok(())
    }
}

/// Compares with all sets of at most so many stops on a grid that has every edge, and every half way
/// between two of them, on it.
fn any_angle_as_on_a_grid(case: &Case, steps: u32, most: usize) -> Result<(), TestCaseError> {
    let grid: Vec<CyclePosition> = (0..steps)
        .map(|i| at(f64::from(i) * 720.0 / f64::from(steps)))
        .collect();
    let engine = case.engine();
    let train = case.train(&engine);
    let from = case.from.map(at);
    let plan = train.fewest_stops(&StoppingPoints::AnyAngle, from);
    sound(&train, &plan, &case.sides)?;
    if plan.stops.len() <= most && can_be_tried(&plan, &case.sides) {
        match best_of_all(&train, &grid, from, &case.sides) {
            Some(tried) => agree(Cost::of(&plan), tried)?,
            None => prop_assert!(plan.stops.is_empty()),
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn dead_centres_as_if_everything_were_tried(case in cases(4, 0.0)) {
        let places = StoppingPoints::DeadCentres;
        compare(&case, &places, &places.positions(&case.engine()))?;
    }

    #[test]
    fn whole_degrees_too(case in cases(4, 30.0)) {
        let places = StoppingPoints::DeadCentres;
        compare(&case, &places, &places.positions(&case.engine()))?;
    }

    #[test]
    fn marks_as_if_everything_were_tried(
        case in cases(5, 0.0),
        marks in prop::collection::btree_set(0_u32..3600, 1..=4),
    ) {
        let marks = marks.iter().enumerate().map(|(i, m)| {
            Mark::new(format!("{i}"), at(0.0), deg(f64::from(*m) / 10.0)).unwrap()
        });
        let places = StoppingPoints::Marks(Marks::new(marks.collect()).unwrap());
        compare(&case, &places, &places.positions(&case.engine()))?;
    }

    /// All edges lie on steps of 60 degrees, so a margin is none or a comfortable one; half steps are
    /// tried as well.
    #[test]
    fn any_angle_as_if_every_half_step_were_tried(case in cases(4, 60.0)) {
        any_angle_as_on_a_grid(&case, 24, 3)?;
    }

    /// All edges lie on steps of 20 degrees, so that margins of 10 and 20 can be the most there are.
    #[test]
    fn any_angle_with_less_than_a_comfortable_margin_too(case in cases(4, 20.0)) {
        any_angle_as_on_a_grid(&case, 72, 2)?;
    }

    /// Any angle needs no more stops than dead centres, leaves no less margin with as many, up to a
    /// comfortable one, and turns no farther for as much.
    #[test]
    fn more_places_never_cost_more(case in cases(8, 0.0)) {
        let engine = case.engine();
        let train = case.train(&engine);
        let from = case.from.map(at);
        let few = train.fewest_stops(&StoppingPoints::DeadCentres, from);
        let any = train.fewest_stops(&StoppingPoints::AnyAngle, from);
        sound(&train, &few, &case.sides)?;
        sound(&train, &any, &case.sides)?;
        if few.unreachable.len() == any.unreachable.len() {
            prop_assert!(any.stops.len() <= few.stops.len());
            if any.stops.len() == few.stops.len() {
                let [more, less] = [&any, &few].map(|plan| Cost::of(plan).margin.min(30.0));
                prop_assert!(more >= less - ROUNDING);
                if more <= less + ROUNDING {
                    prop_assert!((any.total_turn - few.total_turn).degrees() <= SAME + ROUNDING);
                }
            }
        }
    }

    #[test]
    fn valves_left_out_have_no_window_or_no_place(case in cases(6, 0.0)) {
        let engine = case.engine();
        let train = case.train(&engine);
        let mark = Mark::new("T", at(0.0), CrankAngle::ZERO).unwrap();
        let places = StoppingPoints::Marks(Marks::new(vec![mark]).unwrap());
        let plan = train.fewest_stops(&places, None);
        for valve in train.valves() {
            let window = train.window(valve.kind).is_some();
            let met = [0.0, 360.0].iter().any(|p| train.margin(valve, at(*p)).is_some());
            let why = plan.unreachable.iter().find(|u| u.valve == valve).map(|u| u.why);
            let wanted = match (window, met) {
                (false, _) => Some(Unreached::NoWindow),
                (true, false) => Some(Unreached::NoPlaceInWindow),
                (true, true) => None,
            };
            prop_assert_eq!(why, wanted);
        }
    }
}

/// One stop that serves all is in the middle of what the windows share.
#[test]
fn one_stop_at_any_angle_is_centred() {
    let engine = even(1);
    let d = [20.0, 60.0, 60.0, 20.0].map(deg);
    let cam = CamEvents::new(d[0], d[1], d[2], d[3]).unwrap();
    // Intake readable from 620 to 320, exhaust from 400 to 100: shared from 620 to 100.
    let train = ValveTrain::new(&engine, &cam, deg(20.0), 1, 1).unwrap();
    let plan = train.fewest_stops(&StoppingPoints::AnyAngle, None);
    assert_eq!(plan.stops.len(), 1);
    assert_abs_diff_eq!(plan.stops[0].position.degrees(), 0.0, epsilon = ROUNDING);
    assert_abs_diff_eq!(
        plan.smallest_margin.unwrap().degrees(),
        100.0,
        epsilon = ROUNDING
    );
}

/// Of two stops in a four, each valve may be off by 80 at the dead centres, a turn apart. An hour of the
/// clock is enough: stopping 50 later first and 50 earlier then saves 100 of turning.
#[test]
fn at_any_angle_a_comfortable_margin_is_kept_and_turning_saved() {
    let engine = engine(&[1, 3, 4, 2], &[0; 4], Intervals::Even);
    let train = ValveTrain::new(&engine, &CamEvents::assumed(), deg(20.0), 1, 1).unwrap();
    let at_centres = train.fewest_stops(&StoppingPoints::DeadCentres, None);
    let anywhere = train.fewest_stops(&StoppingPoints::AnyAngle, None);
    for (plan, turning, margin) in [(at_centres, 360.0, 80.0), (anywhere, 260.0, 30.0)] {
        let cost = Cost::of(&plan);
        assert_eq!(cost.stops, 2);
        assert_abs_diff_eq!(cost.turning, turning, epsilon = ROUNDING);
        assert_abs_diff_eq!(cost.margin, margin, epsilon = ROUNDING);
    }
}

/// One stop serves both valves, and the mark that comes next leaves 5 degrees: too little to be sure of.
/// The other one leaves 20, and is worth turning on for; with 30 and 45 the next mark would do.
#[test]
fn the_larger_margin_goes_before_less_turning_as_far_as_it_is_of_use() {
    let engine = even(1);
    let d = [20.0, 60.0, 60.0, 20.0].map(deg);
    let cam = CamEvents::new(d[0], d[1], d[2], d[3]).unwrap();
    // With a guard of 20 the intake is readable from 620 to 320 and the exhaust from 400 to 100.
    for (guard, marks, chosen, margin) in [
        (100.0, [15.0, 0.0], 0.0, 20.0),
        (75.0, [15.0, 0.0], 15.0, 30.0),
    ] {
        let train = ValveTrain::new(&engine, &cam, deg(guard), 1, 1).unwrap();
        let marks = marks.map(|m| Mark::new(format!("{m}"), at(0.0), deg(m)).unwrap());
        let places = StoppingPoints::Marks(Marks::new(marks.to_vec()).unwrap());
        let plan = train.fewest_stops(&places, Some(at(10.0)));
        assert_eq!(plan.stops.len(), 1);
        assert_abs_diff_eq!(plan.stops[0].position.degrees(), chosen, epsilon = ROUNDING);
        assert_abs_diff_eq!(Cost::of(&plan).margin, margin, epsilon = ROUNDING);
    }
}

/// Twin-row radials fire evenly, odd numbers in front, even behind.
#[test]
fn twin_row_radials_to_28_cylinders() {
    let cam = CamEvents::assumed();
    for n in [14, 18, 22, 28] {
        let engine = even(n);
        let train = ValveTrain::new(&engine, &cam, deg(20.0), 1, 1).unwrap();
        for places in [StoppingPoints::DeadCentres, StoppingPoints::AnyAngle] {
            let plan = train.fewest_stops(&places, None);
            assert!(plan.unreachable.is_empty());
            let checks: usize = plan.stops.iter().map(|s| s.checks.len()).sum();
            assert_eq!(checks, 2 * n);
            // Two windows of 380 of 720 degrees cover the cycle from two places a turn apart.
            assert_eq!(plan.stops.len(), 2, "{n} cylinders, {places:?}");
        }
    }
}

/// An odd-fire V-six of 90 degrees on three common pins: 90 and 150 by turns (common knowledge).
#[test]
fn odd_fire_v_six() {
    let intervals = [90.0, 150.0].repeat(3).into_iter().map(deg).collect();
    let engine = engine(
        &[1, 6, 5, 4, 3, 2],
        &[1, 2, 1, 2, 1, 2],
        Intervals::Listed(intervals),
    );
    let train = ValveTrain::new(&engine, &CamEvents::assumed(), deg(20.0), 1, 1).unwrap();
    let places = StoppingPoints::DeadCentres;
    let plan = train.fewest_stops(&places, None);
    let sides = [1, 2, 1, 2, 1, 2];
    let tried = best_of_all(&train, &places.positions(&engine), None, &sides).unwrap();
    agree(Cost::of(&plan), tried).unwrap();
}

/// With more sides than the search tells apart the plan still has the fewest stops and the least turning,
/// and says that its changes of side may not be the fewest.
#[test]
fn more_sides_than_can_be_searched_still_give_stops_and_turning() {
    let order = [1, 2, 3, 4, 5, 6, 7];
    let cylinders: Vec<_> = layout::inline(7, &[])
        .into_iter()
        .enumerate()
        .map(|(i, c)| c.on_side(&format!("stand {i}")))
        .collect();
    let engine = four_stroke(cylinders, &order, Intervals::Even);
    let train = ValveTrain::new(&engine, &CamEvents::assumed(), deg(20.0), 1, 1).unwrap();
    let plan = train.fewest_stops(&StoppingPoints::DeadCentres, None);
    assert!(!plan.exact);
    as_far_and_as_often_as_without_sides(&plan, &order, 20.0);
}

/// Narrow windows and many sides, on no engine that was ever built: the search is cut short in time.
#[test]
fn a_search_without_end_still_gives_stops_and_turning() {
    let order: Vec<usize> = (1..=100).collect();
    let cylinders: Vec<_> = layout::inline(100, &[])
        .into_iter()
        .enumerate()
        .map(|(i, c)| c.on_side(["a", "b", "c", "d", "e", "f"][i * i % 11 % 6]))
        .collect();
    let engine = four_stroke(cylinders, &order, Intervals::Even);
    let train = ValveTrain::new(&engine, &CamEvents::assumed(), deg(150.0), 1, 1).unwrap();
    let plan = train.fewest_stops(&StoppingPoints::DeadCentres, None);
    assert!(!plan.exact);
    as_far_and_as_often_as_without_sides(&plan, &order, 150.0);
}

/// Sides bear on the changes of side only.
fn as_far_and_as_often_as_without_sides(plan: &StopPlan, order: &[usize], guard: f64) {
    let engine = engine(order, &vec![0; order.len()], Intervals::Even);
    let train = ValveTrain::new(&engine, &CamEvents::assumed(), deg(guard), 1, 1).unwrap();
    let other = train.fewest_stops(&StoppingPoints::DeadCentres, None);
    assert!(other.exact);
    assert_eq!(plan.stops.len(), other.stops.len());
    assert_abs_diff_eq!(
        plan.total_turn.degrees(),
        other.total_turn.degrees(),
        epsilon = SAME
    );
    let checks = |plan: &StopPlan| -> usize { plan.stops.iter().map(|s| s.checks.len()).sum() };
    assert_eq!(checks(plan), checks(&other));
    assert!(plan.stops.iter().all(|s| !s.checks.is_empty()));
}

/// Every valve of a cylinder is listed, intake valves first where both kinds share a stop.
#[test]
fn all_valves_of_a_kind_are_checked_together() {
    let engine = even(3);
    let train = ValveTrain::new(&engine, &CamEvents::assumed(), deg(20.0), 2, 3).unwrap();
    let plan = train.fewest_stops(&StoppingPoints::DeadCentres, None);
    sound(&train, &plan, &[0; 3]).unwrap();
    let intakes = plan.stops.iter().flat_map(|s| &s.checks);
    assert_eq!(
        intakes
            .filter(|c| c.valve.kind == ValveKind::Intake)
            .count(),
        6
    );
}
