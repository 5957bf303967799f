//! Every stop plan of a small engine, tried one after the other, to hold the kernel's against.
//!
//! The trial shares no step with the kernel: it stops at every set of places, walks them in every
//! order of sides, and keeps the best.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::missing_panics_doc,
    reason = "a test helper that cannot go on fails the test"
)]

use crate::engines::four_stroke;
use crate::values::deg;
use lashwork::engine::{Engine, Intervals, layout};
use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
use lashwork::valve::{StopPlan, ValveTrain};

/// Amounts of turning no farther apart are equal: the kernel's own hundredth of a degree.
pub const SAME: f64 = 0.01;

/// Margins no farther apart are equal: the last bits of sums of sevenths of a cycle, in degrees.
const ROUNDING: f64 = 1e-7;

/// A position of a four-stroke cycle.
#[must_use]
pub fn at(degrees: f64) -> CyclePosition {
    CyclePosition::new(Cycle::FourStroke, deg(degrees))
}

/// An engine of one row whose cylinders are reached from sides 1 to 3, or from any (0).
#[must_use]
pub fn engine(order: &[usize], sides: &[usize], intervals: Intervals) -> Engine {
    let names = ["left", "right", "top"];
    let cylinders = layout::inline(order.len(), &[])
        .into_iter()
        .zip(sides)
        .map(|(cylinder, side)| match side.checked_sub(1) {
            Some(side) => cylinder.on_side(names[side]),
            None => cylinder,
        })
        .collect();
    four_stroke(cylinders, order, intervals)
}

/// Stops, turning, walks, smallest margin.
#[derive(Clone, Copy, Debug)]
pub struct Cost {
    /// How many stops.
    pub stops: usize,
    /// Forward turning in crank degrees.
    pub turning: f64,
    /// Changes of side.
    pub walks: usize,
    /// Smallest margin in crank degrees.
    pub margin: f64,
}

impl Cost {
    /// What a plan says it costs.
    #[must_use]
    pub fn of(plan: &StopPlan) -> Self {
        Self {
            stops: plan.stops.len(),
            turning: plan.total_turn.degrees(),
            walks: plan.walks,
            margin: plan.smallest_margin.map_or(0.0, CrankAngle::degrees),
        }
    }
}

/// One window: margins at each place (negative outside) and the side, 0 for any.
struct Target {
    margins: Vec<f64>,
    side: usize,
}

/// The best of all plans. `places` are all positions at which one may stop; none if no valve can be
/// checked there.
#[must_use]
pub fn best_of_all(
    train: &ValveTrain,
    places: &[CyclePosition],
    from: Option<CyclePosition>,
    sides: &[usize],
) -> Option<Cost> {
    let targets: Vec<Target> = train
        .valves()
        .into_iter()
        .map(|v| Target {
            margins: places
                .iter()
                .map(|p| train.margin(v, *p).map_or(-1.0, CrankAngle::degrees))
                .collect(),
            side: sides[v.cylinder.get()],
        })
        .filter(|t| t.margins.iter().any(|m| *m >= 0.0))
        .collect();
    if targets.is_empty() {
        return None;
    }
    let used: Vec<usize> = (1..=3)
        .filter(|s| targets.iter().any(|t| t.side == *s))
        .collect();
    for stops in 1..=places.len() {
        let mut walks: Vec<Walk> = Vec::new();
        for set in sets(places.len(), stops) {
            // No order of sides can do better than one that visits every side at every stop.
            let Some(most) = margin(&targets, &set, &vec![used.clone(); stops]) else {
                continue;
            };
            // Every place of the set may come first.
            for first in &set {
                let origin = from.unwrap_or(places[*first]);
                let mut places_in_turn = set.clone();
                let ahead = |p: &usize| origin.forward_to(places[*p]).degrees();
                places_in_turn.sort_by(|a, b| ahead(a).total_cmp(&ahead(b)));
                walks.push(Walk {
                    margin: comfortable(most),
                    turning: ahead(places_in_turn.last().unwrap()),
                    places: places_in_turn,
                });
            }
        }
        let Some(most) = walks.iter().map(|w| w.margin).reduce(f64::max) else {
            continue;
        };
        walks.retain(|w| w.margin >= most - ROUNDING);
        let least = walks
            .iter()
            .map(|w| w.turning)
            .fold(f64::INFINITY, f64::min);
        walks.retain(|w| w.turning <= least + SAME);
        let mut best: Option<Cost> = None;
        for walk in &walks {
            for schedule in schedules(&used, walk.places.len()) {
                let Some(margin) = margin(&targets, &walk.places, &schedule) else {
                    continue;
                };
                if comfortable(margin) < most - ROUNDING {
                    continue;
                }
                let order: Vec<usize> = schedule.iter().flatten().copied().collect();
                let changes = order.windows(2).filter(|p| p[0] != p[1]).count();
                let better = best
                    .is_none_or(|b| changes < b.walks || (changes == b.walks && margin > b.margin));
                if better {
                    best = Some(Cost {
                        stops,
                        turning: walk.turning,
                        walks: changes,
                        margin,
                    });
                }
            }
        }
        return best;
    }
    None
}

/// Places in the order in which they are reached.
struct Walk {
    places: Vec<usize>,
    turning: f64,
    /// The most any order of sides leaves, as far as it counts.
    margin: f64,
}

/// As much of a margin as counts before the turning does: an hour of the clock.
fn comfortable(margin: f64) -> f64 {
    margin.min(30.0)
}

/// The smallest margin if every target is served: by a stop that holds it while its side is visited.
fn margin(targets: &[Target], turn: &[usize], schedule: &[Vec<usize>]) -> Option<f64> {
    targets
        .iter()
        .map(|t| {
            let serving = turn.iter().zip(schedule);
            let serving = serving.filter(|(_, sides)| t.side == 0 || sides.contains(&t.side));
            let best = serving.map(|(p, _)| t.margins[*p]).fold(-1.0, f64::max);
            (best >= 0.0).then_some(best)
        })
        .try_fold(f64::INFINITY, |least, m| m.map(|m| least.min(m)))
}

/// All sets of so many of the first `n` numbers.
fn sets(n: usize, size: usize) -> Vec<Vec<usize>> {
    if size == 0 {
        return vec![vec![]];
    }
    let mut all = Vec::new();
    for last in size - 1..n {
        for mut set in sets(last, size - 1) {
            set.push(last);
            all.push(set);
        }
    }
    all
}

/// All ways to visit sides at each of so many stops: any of them, in any order, none twice.
fn schedules(sides: &[usize], stops: usize) -> Vec<Vec<Vec<usize>>> {
    let mut visits: Vec<Vec<usize>> = vec![vec![]];
    let mut grown = visits.clone();
    while !grown.is_empty() {
        grown = grown
            .iter()
            .flat_map(|v| {
                let free = sides.iter().filter(|s| !v.contains(s));
                free.map(|s| [&v[..], &[*s]].concat()).collect::<Vec<_>>()
            })
            .collect();
        visits.extend(grown.iter().cloned());
    }
    let mut all: Vec<Vec<Vec<usize>>> = vec![vec![]];
    for _ in 0..stops {
        all = all
            .iter()
            .flat_map(|s| {
                visits
                    .iter()
                    .map(|v| [&s[..], std::slice::from_ref(v)].concat())
            })
            .collect();
    }
    all
}
