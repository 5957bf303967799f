//! The fewest walks between sides, and the largest smallest margin with so few, among the plans of
//! fewest stops and least turning.
//!
//! Uses nothing but the circle.

use super::circle::{Circle, NEVER};
use super::rounds::{Round, Sides, rounds};
use super::stab::{Fewest, First, still_needed};
use super::state::{Layer, MAX_SIDES, Mark, State, Step, Visit, Way};
use alloc::vec::Vec;

/// Most work that is done, far above any engine's need: a bound for made-up documents. A state that is
/// looked at counts [`ONE_STATE`], each state it is held against counts one.
const MAX_WORK: usize = 4_000_000;
const ONE_STATE: usize = 16;

/// The work is done before the search is.
struct TooLong;

struct Search<'c> {
    circle: &'c Circle,
    stops: usize,
    with_margins: bool,
    /// The rounds at the first stop, then those for each side one may arrive from.
    rounds: &'c [Vec<Round>],
    steps: Vec<Step>,
    work: usize,
    /// A plan that serves every side at every stop needs so many.
    most: usize,
    best: Option<Way>,
}

/// The stops of the best plan, in the order in which they are reached, and whether the search came to
/// its end. If it did not they are the best found, or those that serve every side at every stop.
pub(super) fn fewest_walks(
    circle: &Circle,
    fewest: &Fewest,
    with_margins: bool,
) -> (Vec<Visit>, bool) {
    if circle.sides > MAX_SIDES {
        return (every_side(circle, fewest), false);
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
        most: fewest.stops * circle.sides.saturating_sub(1),
        best: None,
    };
    let ended = fewest
        .firsts
        .iter()
        .all(|first| search.from(*first).is_ok());
    let mut out = Vec::new();
    let mut at = search.best.map(|way| way.step);
    while let Some(step) = at.and_then(|i| search.steps.get(i)) {
        out.push(step.visit);
        at = step.before;
    }
    out.reverse();
    if out.is_empty() {
        out = every_side(circle, fewest);
    }
    (out, ended)
}

/// As many stops and as much turning, with every side served at each: from the first stop on to the
/// last place before some arc ends unserved.
fn every_side(circle: &Circle, fewest: &Fewest) -> Vec<Visit> {
    let mut out = Vec::new();
    let Some(first) = fewest.firsts.first() else {
        return out;
    };
    let mut on = 0;
    for _ in 0..fewest.stops {
        let index = circle.wrapped(first.place + on);
        out.push(Visit { index, sides: None });
        on = (on + circle.reach_all(first.place + on)).min(first.last);
    }
    out
}

impl Search<'_> {
    /// Looks at all plans with a given first stop.
    fn from(&mut self, first: First) -> Result<(), TooLong> {
        let needed = still_needed(self.circle, first.place);
        let mut layer = Layer::new();
        let start = State {
            on: 0,
            stands: 0,
            served: [(None, None); MAX_SIDES],
        };
        self.stop_at(&mut layer, first.place, start, (0, self.stops == 1), None)?;
        for stop in 2..=self.stops {
            let mut next = Layer::new();
            for (state, way) in layer.iter().flat_map(|(_, states)| states) {
                let on = usize::from(state.on);
                let reach = on + self.circle.reach_all(first.place + on);
                for to in on + 1..=reach.min(first.last) {
                    let need = needed.get(to).copied().unwrap_or(NEVER);
                    if stop + need <= self.stops {
                        let at = (to, stop == self.stops);
                        self.stop_at(&mut next, first.place, *state, at, Some(*way))?;
                    }
                }
            }
            layer = next;
        }
        for (state, way) in layer.into_iter().flat_map(|(_, states)| states) {
            self.settle(first.place, &state, way);
        }
        Ok(())
    }

    /// Adds every state in which a stop can be left; at the last one only what is still open is served.
    fn stop_at(
        &mut self,
        layer: &mut Layer,
        first: usize,
        state: State,
        (to, is_last): (usize, bool),
        way: Option<Way>,
    ) -> Result<(), TooLong> {
        let Ok(on) = u16::try_from(to) else {
            return Ok(());
        };
        let Some((due, open)) = self.open(first, &state, to) else {
            return Ok(());
        };
        let must = if is_last { open } else { due };
        let (walked, margin) = way.map_or((0, f64::INFINITY), |w| (w.walks, w.margin));
        // Valves reached from any side are served at every stop.
        let from = usize::from(state.on);
        let margin = match way {
            Some(_) => margin.min(self.margin(0, first + from, to - from)),
            None => margin,
        };
        let at = layer.binary_search_by_key(&on, |(on, _)| *on);
        let at = at.unwrap_or_else(|at| {
            layer.insert(at, (on, Vec::new()));
            at
        });
        let Some((_, known)) = layer.get_mut(at) else {
            return Ok(());
        };
        let rounds = self.rounds.get(state.stands);
        for round in rounds.into_iter().flatten() {
            let needless = round.sides.without(open).without(Sides::only(state.stands));
            if must.without(round.sides).count() > 0 || (is_last && needless.count() > 0) {
                continue;
            }
            let walks = walked + round.walks;
            self.work += ONE_STATE + known.len();
            if self.work > MAX_WORK {
                return Err(TooLong);
            }
            let (served, margin) = self.served(first, &state, on, round.sides, margin);
            // One walk at least to every other side that will have to be served.
            let left = self.still_open(first, &served);
            let least = walks + left.without(Sides::only(round.stands)).count();
            if least > self.most || self.best.is_some_and(|b| b.beats(least, margin)) {
                continue;
            }
            let to_state = State {
                on,
                // After the last stop all sides are alike.
                stands: if is_last { 0 } else { round.stands },
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
                    sides: Some(round.sides),
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

    /// The sides that must be served at a stop, and all that must be served there or later; none if an
    /// arc has been passed.
    fn open(&self, first: usize, state: &State, to: usize) -> Option<(Sides, Sides)> {
        let mut due = Sides(0);
        for (side, marks) in (1..=self.circle.sides).zip(&state.served) {
            let latest = marks.1.map_or(0, usize::from);
            // The place at which an arc of this side ends that no stop has served.
            let ends = latest + self.circle.reach(side, first + latest);
            if ends < to {
                return None;
            }
            if ends == to {
                due.0 |= Sides::only(side).0;
            }
        }
        Some((due, self.still_open(first, &state.served)))
    }

    /// The sides with an arc that no stop has served yet.
    fn still_open(&self, first: usize, served: &[(Mark, Mark); MAX_SIDES]) -> Sides {
        let mut open = Sides(0);
        for (side, marks) in (1..=self.circle.sides).zip(served) {
            let closed = self.around(*marks).is_some_and(|(latest, to_begin)| {
                self.circle.reach(side, first + latest) >= to_begin
            });
            if !closed {
                open.0 |= Sides::only(side).0;
            }
        }
        open
    }

    /// The latest stop of a side, and from it to its first one in the next cycle.
    fn around(&self, (begin, latest): (Mark, Mark)) -> Option<(usize, usize)> {
        let (begin, latest) = (usize::from(begin?), usize::from(latest?));
        Some((latest, begin + self.circle.len() - latest))
    }

    /// What has been served after serving some sides at a stop, and the margin so far.
    fn served(
        &self,
        first: usize,
        state: &State,
        on: u16,
        sides: Sides,
        mut margin: f64,
    ) -> ([(Mark, Mark); MAX_SIDES], f64) {
        let mut served = state.served;
        let to = usize::from(on);
        for (side, marks) in (1..=self.circle.sides).zip(&mut served) {
            if sides.has(side) {
                if let Some(latest) = marks.1.map(usize::from) {
                    margin = margin.min(self.margin(side, first + latest, to - latest));
                }
                *marks = (marks.0.or(Some(on)), Some(on));
            }
        }
        (served, margin)
    }

    /// Closes the round from the last stop to the first of the next cycle.
    fn settle(&mut self, first: usize, state: &State, way: Way) {
        if self.still_open(first, &state.served).count() > 0 {
            return;
        }
        let mut margin = way.margin;
        for (side, marks) in (1..=self.circle.sides).zip(state.served) {
            if let Some((latest, to_begin)) = self.around(marks) {
                margin = margin.min(self.margin(side, first + latest, to_begin));
            }
        }
        let on = usize::from(state.on);
        margin = margin.min(self.margin(0, first + on, self.circle.len() - on));
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
