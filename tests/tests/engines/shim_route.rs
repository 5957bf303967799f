//! The way round the valves whose shims are changed, against every way there is on small engines.
//!
//! The trial knows no chains and no beginnings. It knows what each valve holds, what may be done to the
//! valves that a place serves, and that nothing may be missing when the crank is turned; and it looks
//! for the least turning among everything that can follow (Dijkstra's search).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::engine::{Engine, Intervals};
use lashwork::quantity::CyclePosition;
use lashwork::valve::{CamEvents, ShimGroup, ShimRoute, ShimWork, ValveId, ValveTrain};
use lashwork_tests::every_plan::{at, engine};
use lashwork_tests::values::deg;
use proptest::prelude::*;
use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};

/// What a valve holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Holds {
    Old,
    Spare,
    New,
}

/// A valve, and the one whose shim it gets; none if it gets a new one.
struct Slot {
    valve: ValveId,
    gets_from: Option<usize>,
}

fn slots(groups: &[ShimGroup]) -> Vec<Slot> {
    let mut all = Vec::new();
    for group in groups {
        let (begin, n) = (all.len(), group.valves.len());
        for (member, valve) in group.valves.iter().enumerate() {
            let gets_from = match member {
                0 => group.is_ring.then_some(begin + n - 1),
                _ => Some(begin + member - 1),
            };
            all.push(Slot {
                valve: *valve,
                gets_from,
            });
        }
    }
    all
}

/// Whether nothing is in two places, as the crank is turned on: what came out of another valve is out.
fn can_be(slots: &[Slot], holds: &[Holds]) -> bool {
    slots.iter().zip(holds).all(|(slot, here)| {
        let giver = slot.gets_from.map(|giver| holds[giver]);
        *here != Holds::New || giver != Some(Holds::Old)
    })
}

/// All that some valves can hold after a stop that serves them.
fn after(slots: &[Slot], holds: &[Holds], served: &[bool]) -> Vec<Vec<Holds>> {
    let mut all = vec![vec![]];
    for (is_served, now) in served.iter().zip(holds) {
        let then = [Holds::Old, Holds::Spare, Holds::New];
        let then = then
            .iter()
            .filter(|then| *then == now || (*is_served && *then > now));
        all = then
            .flat_map(|then| all.iter().map(|known| [&known[..], &[*then]].concat()))
            .collect();
    }
    all.retain(|holds| can_be(slots, holds));
    all
}

/// Spare shims put in and thousandths of a degree turned, both the least there are, where one may stop so
/// many degrees inside an arc. Where the crank stands, before it is turned, five do.
fn least(
    train: &ValveTrain,
    groups: &[ShimGroup],
    from: Option<CyclePosition>,
    (places, room): (&[CyclePosition], f64),
) -> Option<(usize, u64)> {
    let slots = slots(groups);
    let mut places = places.to_vec();
    places.sort_by(|a, b| a.degrees().total_cmp(&b.degrees()));
    let thousandths = |a: CyclePosition, b| (a.forward_to(b).degrees() * 1000.0).round() as u64;
    let served_at = |place: CyclePosition, room: f64| -> Vec<bool> {
        let inside = |slot: &Slot| {
            let arcs = train.shim_arcs(slot.valve);
            let margins = arcs.iter().filter_map(|arc| arc.margin(place));
            margins
                .map(lashwork::quantity::CrankAngle::degrees)
                .any(|m| m >= room)
        };
        slots.iter().map(inside).collect()
    };
    let mut served: Vec<Vec<bool>> = places.iter().map(|p| served_at(*p, room)).collect();
    // From each place the next one, and how far that is.
    let n = places.len();
    let mut next: Vec<(usize, u64)> = (0..n)
        .map(|i| ((i + 1) % n, thousandths(places[i], places[(i + 1) % n])))
        .collect();
    let mut begin: Vec<usize> = (0..n).collect();
    if let Some(from) = from {
        let first = (0..n)
            .min_by_key(|i| thousandths(from, places[*i]))
            .unwrap();
        next.push((first, thousandths(from, places[first])));
        served.push(served_at(from, 5.0));
        begin = vec![n];
    }
    let start = vec![Holds::Old; slots.len()];
    let mut open: BinaryHeap<_> = begin
        .into_iter()
        .map(|i| Reverse((0_usize, 0_u64, i, start.clone())))
        .collect();
    let mut known = BTreeSet::new();
    while let Some(Reverse((spares, turned, i, holds))) = open.pop() {
        if holds.iter().all(|h| *h == Holds::New) {
            return Some((spares, turned));
        }
        if !known.insert((i, holds.clone())) {
            continue;
        }
        let (on, by) = next[i];
        open.push(Reverse((spares, turned + by, on, holds.clone())));
        for then in after(&slots, &holds, &served[i]) {
            let put_in = then
                .iter()
                .zip(&holds)
                .filter(|(t, h)| **t == Holds::Spare && t != h);
            let spares = spares + put_in.count();
            open.push(Reverse((spares, turned, i, then)));
        }
    }
    None
}

/// The route is possible, stop by stop, and says where it goes.
fn sound(train: &ValveTrain, groups: &[ShimGroup], route: &ShimRoute) -> Result<(), TestCaseError> {
    let slots = slots(groups);
    let mut holds = vec![Holds::Old; slots.len()];
    for stop in &route.stops {
        for visit in &stop.visits {
            let before: usize = groups
                .iter()
                .take(visit.group)
                .map(|g| g.valves.len())
                .sum();
            let slot = before + visit.member;
            let (was, is) = match visit.work {
                ShimWork::PutSpareIn => (Holds::Old, Holds::Spare),
                ShimWork::Exchange => (Holds::Old, Holds::New),
                ShimWork::TakeSpareOut => (Holds::Spare, Holds::New),
            };
            prop_assert_eq!(holds[slot], was);
            holds[slot] = is;
            let arcs = train.shim_arcs(slots[slot].valve);
            let margins = arcs.iter().filter_map(|arc| arc.margin(stop.position));
            prop_assert!(margins.into_iter().any(|m| m == visit.margin));
        }
        prop_assert!(can_be(&slots, &holds), "{:?} after {:?}", holds, stop);
    }
    prop_assert!(holds.iter().all(|h| *h == Holds::New));
    Ok(())
}

fn spares(route: &ShimRoute) -> usize {
    let works = route.stops.iter().flat_map(|s| &s.visits);
    works.filter(|v| v.work == ShimWork::PutSpareIn).count()
}

fn turned(route: &ShimRoute) -> f64 {
    route.stops.iter().map(|s| s.turn.degrees()).sum()
}

/// The middles of all arcs, each once.
fn middles(train: &ValveTrain, groups: &[ShimGroup]) -> Vec<CyclePosition> {
    let mut all: Vec<CyclePosition> = Vec::new();
    for valve in groups.iter().flat_map(|g| &g.valves) {
        for arc in train.shim_arcs(*valve) {
            let middle = arc.from.turned(deg(arc.length.degrees() / 2.0));
            let apart = |p: &CyclePosition| {
                p.forward_to(middle)
                    .degrees()
                    .min(middle.forward_to(*p).degrees())
            };
            if all.iter().all(|p| apart(p) > 0.5) {
                all.push(middle);
            }
        }
    }
    all
}

/// Even firing; the valves of a cylinder are closed with its piston away from 60 to so many degrees on
/// either side of its firing top dead centre.
fn train(engine: &Engine, to: f64) -> ValveTrain<'_> {
    let late = deg(160.0 - to);
    let events = CamEvents::new(deg(10.0), late, late, deg(10.0)).unwrap();
    ValveTrain::new(engine, &events, deg(20.0), 1, 1).unwrap()
}

fn even(n: usize) -> Engine {
    let order: Vec<usize> = (1..=n).collect();
    engine(&order, &vec![0; n], Intervals::Even)
}

/// Valves of an engine in groups of up to four, some of them rings; where the crank stands, if it is known.
type Case = (usize, Vec<usize>, Vec<(usize, bool)>, Option<f64>);

fn cases(most: usize) -> impl Strategy<Value = Case> {
    prop_oneof![Just(2_usize), Just(4), Just(6), Just(8)].prop_flat_map(move |n| {
        let valves: Vec<usize> = (0..2 * n).collect();
        (
            Just(n),
            Just(valves).prop_shuffle(),
            prop::collection::vec((1_usize..=most, any::<bool>()), 1..=2),
            prop::option::of((0..720).prop_map(f64::from)),
        )
    })
}

fn groups(
    train: &ValveTrain,
    valves: &[usize],
    sizes: &[(usize, bool)],
    most: usize,
) -> Vec<ShimGroup> {
    let all = train.valves();
    let mut left = valves.iter().take(most).map(|v| all[*v]);
    sizes
        .iter()
        .map(|(size, is_ring)| {
            let valves: Vec<ValveId> = left.by_ref().take(*size).collect();
            let is_ring = *is_ring && valves.len() > 1;
            ShimGroup { valves, is_ring }
        })
        .filter(|group| !group.valves.is_empty())
        .collect()
}

proptest! {
    /// Arcs of 60 degrees round a quarter turn, so that on all these engines two are the same or apart:
    /// the middles are all the places there are.
    #[test]
    fn no_way_round_turns_less((n, valves, sizes, from) in cases(4)) {
        let engine = even(n);
        let train = train(&engine, 120.0);
        let groups = groups(&train, &valves, &sizes, 6);
        let from = from.map(at);
        let route = train.shim_route(&groups, from);
        sound(&train, &groups, &route)?;
        let places = middles(&train, &groups);
        let (spare, turning) = least(&train, &groups, from, (&places, 25.0)).unwrap();
        prop_assert_eq!(spares(&route), spare);
        prop_assert!(
            (turned(&route) - turning as f64 / 1000.0).abs() < 0.01,
            "{route:?} could turn {turning}"
        );
    }

    /// Arcs that overlap in part, with stops anywhere 5 degrees inside: going to the very end of an arc
    /// saves no more than the way from there to its middle, first and last.
    #[test]
    fn stops_in_the_middle_cost_no_more_than_the_way_to_the_middle(
        (n, valves, sizes, from) in cases(2),
        to in 75_u32..=110,
    ) {
        let to = f64::from(to / 5 * 5);
        let engine = even(n);
        let train = train(&engine, to);
        let groups = groups(&train, &valves, &sizes, 4);
        let from = from.map(|f| at((f / 5.0).floor() * 5.0));
        let route = train.shim_route(&groups, from);
        sound(&train, &groups, &route)?;
        let places: Vec<CyclePosition> = (0..144).map(|i| at(f64::from(i) * 5.0)).collect();
        let (spare, turning) = least(&train, &groups, from, (&places, 5.0)).unwrap();
        let to_middle = 0.5 * (to - 60.0) - 5.0;
        prop_assert!(spares(&route) <= spare);
        prop_assert!(turned(&route) >= turning as f64 / 1000.0 - 0.01);
        prop_assert!(
            turned(&route) <= turning as f64 / 1000.0 + 2.0 * to_middle + 0.01,
            "{route:?} could turn {turning}"
        );
    }
}

/// Five valves of three cylinders of a V-eight that hand shims on, each to the next: nearly four turns, and
/// no way is shorter.
#[test]
fn a_long_row_in_an_awkward_order_has_no_shorter_way() {
    let engine = engine(&[1, 8, 4, 3, 6, 5, 7, 2], &[0; 8], Intervals::Even);
    let train = train(&engine, 76.0);
    let all = train.valves();
    let row = [(7, 1), (3, 0), (2, 0), (3, 1), (2, 1)];
    let row = ShimGroup {
        valves: row
            .iter()
            .map(|(c, kind)| all[2 * (c - 1) + kind])
            .collect(),
        is_ring: false,
    };
    let groups = [row];
    let route = train.shim_route(&groups, None);
    let places = middles(&train, &groups);
    let (spare, turning) = least(&train, &groups, None, (&places, 7.0)).unwrap();
    assert_eq!((spare, spares(&route)), (0, 0));
    // By hand: 68 past 7 at 608, 3 by 1058, 2 by 1418, 3 at 1642, 2 at 2002.
    assert_eq!(turning, 1_394_000);
    assert!((turned(&route) - 1394.0).abs() < 0.01);
}

/// Of a ring any valve can be the one with the spare: where the crank stands makes the difference.
#[test]
fn a_ring_begins_with_the_valve_that_comes_next() {
    let engine = even(4);
    let train = train(&engine, 100.0);
    let valves = train.valves();
    // The intakes of 1 and 3 fire a turn apart; 3 has places at 280 and 440.
    let ring = ShimGroup {
        valves: vec![valves[0], valves[4]],
        is_ring: true,
    };
    let route = train.shim_route(&[ring], Some(at(270.0)));
    let members: Vec<usize> = route.stops.iter().map(|s| s.visits[0].member).collect();
    assert_eq!(members, [1, 0, 1]);
    // From 270 on to 3 at 440, 1 at 640 and 3 at 1000.
    assert!((turned(&route) - 730.0).abs() < 0.01, "{route:?}");
}

/// Where the crank stands the first of two valves can be changed, but a later stop serves both; with the
/// other one alone to come there is no need to turn for it.
#[test]
fn where_the_crank_stands_is_a_stop_if_that_saves_turning() {
    let engine = even(4);
    let train = train(&engine, 120.0);
    let valves = train.valves();
    let alone = |valve| ShimGroup {
        valves: vec![valve],
        is_ring: false,
    };
    // 1 has places from 60 to 120 and from 600 to 660, 3 from 240 to 300 and from 420 to 480, 2 from 60 to
    // 120 and from 240 to 300.
    let one = train.shim_route(&[alone(valves[0])], Some(at(110.0)));
    assert_eq!((one.stops.len(), turned(&one)), (1, 0.0));
    let both = [alone(valves[2]), alone(valves[4])];
    let one_stop = train.shim_route(&both, Some(at(110.0)));
    assert_eq!(one_stop.stops.len(), 1, "{one_stop:?}");
    assert!((turned(&one_stop) - 160.0).abs() < 0.01);
    let close = train.shim_route(&[alone(valves[0])], Some(at(118.0)));
    assert!((turned(&close) - 512.0).abs() < 0.01, "{close:?}");
}
