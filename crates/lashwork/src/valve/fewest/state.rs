//! What a way along the stops has come to, and when one makes another needless.
//!
//! Uses nothing but the circle's sides.

use super::rounds::Sides;
use alloc::vec::Vec;

/// Most named sides the search tells apart; its states grow with their number. An engine has two or
/// four.
pub(super) const MAX_SIDES: usize = 6;
/// Margins no farther apart are equal: rounding, in degrees.
const ROUNDING: f64 = 1e-9;

/// A stop and the sides that are served there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Visit {
    pub(super) index: usize,
    /// None if every side is served.
    pub(super) sides: Option<Sides>,
}

impl Visit {
    /// Whether valves of a side are served here; side 0 is reached from any.
    pub(super) fn serves(&self, side: usize) -> bool {
        side == 0 || self.sides.is_none_or(|sides| sides.has(side))
    }
}

/// How far along, places counted from the first stop: none if a side has not been served yet.
pub(super) type Mark = Option<u16>;

/// All that bears on the rest of a plan.
#[derive(Clone, Copy, Debug)]
pub(super) struct State {
    pub(super) on: u16,
    /// The side one stands on; 0 if no side is named.
    pub(super) stands: usize,
    /// For each side its first and its latest stop.
    pub(super) served: [(Mark, Mark); MAX_SIDES],
}

/// The best way found to a state.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    pub(super) walks: usize,
    pub(super) margin: f64,
    /// Where in the list of steps it ends.
    pub(super) step: usize,
}

/// The states in which a number of stops can be left, in the order of the place of the last one.
pub(super) type Layer = Vec<(u16, Vec<(State, Way)>)>;

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
    pub(super) fn makes_needless(
        &self,
        way: &Way,
        other: &Self,
        walks: usize,
        margin: f64,
    ) -> bool {
        let over = usize::from(self.stands != other.stands);
        let way = Way {
            walks: way.walks + over,
            ..*way
        };
        way.beats(walks, margin) && self.leaves_no_less(other)
    }
}

impl Way {
    pub(super) fn beats(&self, walks: usize, margin: f64) -> bool {
        self.walks < walks || (self.walks == walks && self.margin >= margin - ROUNDING)
    }
}

/// One stop of a way, and the step before it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    pub(super) visit: Visit,
    pub(super) before: Option<usize>,
}
