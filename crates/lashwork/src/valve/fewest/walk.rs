//! The fewest walks between sides, and the largest smallest margin with so few, among the plans of
//! fewest stops and least turning.
//!
//! Uses nothing but the circle.

use super::super::ValveError;
use super::circle::{Circle, NEVER};
use super::stab::{Fewest, First, still_needed};
use alloc::collections::BTreeMap;
use alloc::vec::Vec;

/// Most named sides; the states of the search grow with their number. An engine has two or four.
const MAX_SIDES: usize = 6;
/// Most work that is done, far above any engine's need: a bound for made-up documents. A state that is
/// looked at counts [`ONE_STATE`], each state it is held against counts one.
const MAX_WORK: usize = 4_000_000;
const ONE_STATE: usize = 16;
/// Margins no farther apart are equal: rounding, in degrees.
const ROUNDING: f64 = 1e-9;

/// A stop and the sides that are served there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Visit {
    pub(super) index: usize,
    sides: Sides,
}

impl Visit {
    /// Whether valves of a side are served here; side 0 is reached from any.
    pub(super) const fn serves(&self, side: usize) -> bool {
        side == 0 || self.sides.has(side)
    }
}

/// A set of sides, numbered from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Sides(u8);

impl Sides {
    const fn has(self, side: usize) -> bool {
        self.0 >> (side - 1) & 1 == 1
    }
}

/// How far along, places counted from the first stop: none if a side has not been served yet.
type Mark = Option<u16>;

/// All that bears on the rest of a plan.
#[derive(Clone, Copy, Debug)]
struct State {
    on: u16,
    /// The side one stands on; 0 if no side is named.
    stands: usize,
    /// For each side its first and its latest stop.
    served: [(Mark, Mark); MAX_SIDES],
}

/// The best way found to a state.
#[derive(Clone, Copy, Debug)]
struct Way {
    walks: usize,
    margin: f64,
    /// Where in the list of steps it ends.
    step: usize,
}

/// The states in which a number of stops can be left, by the place of the last one.
type Layer = BTreeMap<u16, Vec<(State, Way)>>;

impl State {
    /// Whether whatever can follow the other state can follow this one, and serves no valve worse: no
    /// side was first served later, none was last served earlier.
    fn leaves_no_less(&self, other: &Self) -> bool {
        let mut sides = self.served.iter().zip(&other.served);
        sides.all(|(own, theirs)| {
            let first = theirs.0.is_none_or(|t| own.0.is_some_and(|o| o <= t));
            first && own.1 >= theirs.1
        })
    }

    /// Whether this state with its way makes the other needless. From another side one walk leads to
    /// where the other stands.
    fn makes_needless(&self, way: &Way, other: &Self, walks: usize, margin: f64) -> bool {
        let over = usize::from(self.stands != other.stands);
        let way = Way {
            walks: way.walks + over,
            ..*way
        };
        way.beats(walks, margin) && self.leaves_no_less(other)
    }
}

impl Way {
    fn beats(&self, walks: usize, margin: f64) -> bool {
        self.walks < walks || (self.walks == walks && self.margin >= margin - ROUNDING)
    }
}

/// One stop of a way, and the step before it.
#[derive(Clone, Copy, Debug)]
struct Step {
    visit: Visit,
    before: Option<usize>,
}

/// Serving some sides at a stop: which, the side one then stands on, the walks it takes.
#[derive(Clone, Copy, Debug)]
struct Round {
    sides: Sides,
    stands: usize,
    walks: usize,
}

struct Search<'c> {
    circle: &'c Circle,
    stops: usize,
    with_margins: bool,
    /// The rounds at the first stop, then those for each side one may arrive from.
    rounds: &'c [Vec<Round>],
    steps: Vec<Step>,
    work: usize,
    best: Option<Way>,
}

/// The stops of the best plan, in the order in which they are reached.
pub(super) fn fewest_walks(
    circle: &Circle,
    fewest: &Fewest,
    with_margins: bool,
) -> Result<Vec<Visit>, ValveError> {
    if circle.sides > MAX_SIDES {
        let (got, max) = (circle.sides, MAX_SIDES);
        return Err(ValveError::TooManySides { got, max });
    }
    let rounds: Vec<Vec<Round>> = (0..=circle.sides)
        .map(|stands| rounds(circle.sides, stands))
        .collect();
    let mut search = Search {
        circle,
        stops: fewest.stops,
        with_margins,
        rounds: &rounds,
        steps: Vec::new(),
        work: 0,
        best: None,
    };
    for first in &fewest.firsts {
        search.from(*first)?;
    }
    let mut out = Vec::new();
    let mut at = search.best.map(|way| way.step);
    while let Some(step) = at.and_then(|i| search.steps.get(i)) {
        out.push(step.visit);
        at = step.before;
    }
    out.reverse();
    Ok(out)
}

/// Every way to serve sides at a stop: the side one stands on always, as it costs nothing. Coming
/// back to it is left to the next stop, where it costs no more. Standing on side 0 is the first stop.
fn rounds(sides: usize, stands: usize) -> Vec<Round> {
    let mut all = Vec::new();
    let here = if stands == 0 { 0_u8 } else { 1 << (stands - 1) };
    for others in 0_u8..1 << sides {
        if others & here != 0 {
            continue;
        }
        let set = Sides(others | here);
        let count = others.count_ones() as usize;
        if others == 0 {
            // Without named sides one stands on none, and serves every valve.
            if stands > 0 || sides == 0 {
                all.push(Round {
                    sides: set,
                    stands,
                    walks: 0,
                });
            }
            continue;
        }
        let walks = count - usize::from(stands == 0);
        let ends = (1..=sides).filter(|s| Sides(others).has(*s));
        all.extend(ends.map(|end| Round {
            sides: set,
            stands: end,
            walks,
        }));
    }
    all
}

impl Search<'_> {
    /// Looks at all plans with a given first stop.
    fn from(&mut self, first: First) -> Result<(), ValveError> {
        let needed = still_needed(self.circle, first.place);
        let mut layer = Layer::new();
        let start = State {
            on: 0,
            stands: 0,
            served: [(None, None); MAX_SIDES],
        };
        self.stop_at(&mut layer, first.place, start, 0, None)?;
        for stop in 2..=self.stops {
            let mut next = Layer::new();
            for (state, way) in layer.values().flatten() {
                let on = usize::from(state.on);
                let reach = on + self.circle.reach_all(first.place + on);
                for to in on + 1..=reach.min(first.last) {
                    let need = needed.get(to).copied().unwrap_or(NEVER);
                    if stop + need <= self.stops {
                        self.stop_at(&mut next, first.place, *state, to, Some(*way))?;
                    }
                }
            }
            layer = next;
        }
        for (state, way) in layer.into_values().flatten() {
            self.settle(first.place, &state, way);
        }
        Ok(())
    }

    /// Adds every state in which a stop can be left.
    fn stop_at(
        &mut self,
        layer: &mut Layer,
        first: usize,
        state: State,
        to: usize,
        way: Option<Way>,
    ) -> Result<(), ValveError> {
        let Ok(on) = u16::try_from(to) else {
            return Ok(());
        };
        let (walked, margin) = way.map_or((0, f64::INFINITY), |w| (w.walks, w.margin));
        // Valves reached from any side are served at every stop.
        let from = usize::from(state.on);
        let margin = match way {
            Some(_) => margin.min(self.margin(0, first + from, to - from)),
            None => margin,
        };
        let rounds = self.rounds.get(state.stands);
        for round in rounds.into_iter().flatten() {
            let walks = walked + round.walks;
            let known = layer.entry(on).or_default();
            self.work += ONE_STATE + known.len();
            if self.work > MAX_WORK {
                return Err(ValveError::SearchTooLong { steps: MAX_WORK });
            }
            let Some((served, margin)) = self.served(first, &state, on, round.sides, margin) else {
                continue;
            };
            let unserved = served
                .iter()
                .take(self.circle.sides)
                .filter(|s| s.0.is_none())
                .count();
            if self.best.is_some_and(|b| b.beats(walks + unserved, margin)) {
                continue;
            }
            let to_state = State {
                on,
                stands: round.stands,
                served,
            };
            let needless =
                |(state, way): &(State, Way)| state.makes_needless(way, &to_state, walks, margin);
            if known.iter().any(needless) {
                continue;
            }
            let step = self.steps.len();
            self.steps.push(Step {
                visit: Visit {
                    index: self.circle.wrapped(first + to),
                    sides: round.sides,
                },
                before: way.map(|w| w.step),
            });
            let way = Way {
                walks,
                margin,
                step,
            };
            known.retain(|(s, w)| !to_state.makes_needless(&way, s, w.walks, w.margin));
            known.push((to_state, way));
        }
        Ok(())
    }

    /// What has been served after serving some sides at a stop, and the margin so far; none if an
    /// arc has been passed.
    fn served(
        &self,
        first: usize,
        state: &State,
        on: u16,
        sides: Sides,
        mut margin: f64,
    ) -> Option<([(Mark, Mark); MAX_SIDES], f64)> {
        let mut served = state.served;
        let to = usize::from(on);
        for (side, marks) in (1..=self.circle.sides).zip(&mut served) {
            let latest = marks.1.map(usize::from);
            // The place at which an arc of this side ends that no stop has served.
            let due = latest.unwrap_or(0) + self.circle.reach(side, first + latest.unwrap_or(0));
            if sides.has(side) {
                if due < to {
                    return None;
                }
                if let Some(latest) = latest {
                    margin = margin.min(self.margin(side, first + latest, to - latest));
                }
                *marks = (marks.0.or(Some(on)), Some(on));
            } else if due <= to {
                return None;
            }
        }
        Some((served, margin))
    }

    /// Closes the round from the last stop to the first of the next cycle.
    fn settle(&mut self, first: usize, state: &State, way: Way) {
        let round = self.circle.len();
        let mut margin = way.margin;
        for (side, marks) in (1..=self.circle.sides).zip(state.served) {
            let (Some(begin), Some(latest)) = marks else {
                return;
            };
            let (begin, latest) = (usize::from(begin), usize::from(latest));
            let to_begin = begin + round - latest;
            if self.circle.reach(side, first + latest) < to_begin {
                return;
            }
            margin = margin.min(self.margin(side, first + latest, to_begin));
        }
        let on = usize::from(state.on);
        margin = margin.min(self.margin(0, first + on, round - on));
        if !self.best.is_some_and(|b| b.beats(way.walks, margin)) {
            self.best = Some(Way { margin, ..way });
        }
    }

    /// The least margin of the arcs of a side whose middle lies between two stops that serve it, the
    /// second so many places on; each arc counts with the stop that serves it better.
    fn margin(&self, side: usize, place: usize, on: usize) -> f64 {
        if !self.with_margins {
            return 0.0;
        }
        let circle = self.circle;
        let (here, there) = (circle.wrapped(place), circle.wrapped(place + on));
        let arcs = circle.arcs.iter().filter(|arc| arc.side == side);
        let between = arcs.filter(|arc| {
            let to_middle = circle.steps(here, arc.after_middle);
            (if to_middle == 0 {
                circle.len()
            } else {
                to_middle
            }) <= on
        });
        let best = between.map(|arc| arc.margin(here).max(arc.margin(there)));
        best.fold(f64::INFINITY, f64::min)
    }
}
