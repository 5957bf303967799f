//! The findable places numbered round the cycle, and the valves' windows as runs of those numbers.
//!
//! Uses `quantity` and `engine`.

use super::super::plan::{Unreachable, Unreached};
use super::super::{ValveId, ValveKind, ValveTrain};
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;

/// A margin this little short is kept, in degrees: the last bits of sums of places.
const ROUNDING: f64 = 1e-9;

/// No arc ends before the whole round is done.
pub(super) const NEVER: usize = usize::MAX / 4;

/// The window of all valves of one kind in a cylinder, shortened by the margin that is to be kept.
#[derive(Debug)]
pub(super) struct Arc {
    /// The first valve of the kind there.
    pub(super) of: ValveId,
    /// 0 if it is reached from any side.
    pub(super) side: usize,
    /// The first place in it, and how many there are.
    pub(super) begin: usize,
    pub(super) count: usize,
    /// The first place at or after its middle.
    pub(super) after_middle: usize,
    /// The margin at each place, negative outside.
    margins: Vec<f64>,
}

impl Arc {
    pub(super) fn margin(&self, place: usize) -> f64 {
        self.margins.get(place).copied().unwrap_or(-1.0)
    }

    /// The margins at all places, negative outside.
    pub(super) fn margins(&self) -> &[f64] {
        &self.margins
    }
}

/// Places and arcs, in each of which a place keeps the margin that is asked for. Place 0 is the first at or after where the crank stands, if that is given.
#[derive(Debug)]
pub(super) struct Circle {
    at: Vec<CyclePosition>,
    from: Option<CyclePosition>,
    origin: CyclePosition,
    pub(super) arcs: Vec<Arc>,
    /// How many sides are named.
    pub(super) sides: usize,
    /// For each side, and last for all arcs together: from each place, how many places on the
    /// first arc ends that does not hold the place.
    reach: Vec<Vec<usize>>,
    pub(super) unreachable: Vec<Unreachable>,
}

impl Circle {
    pub(super) fn new(
        train: &ValveTrain<'_>,
        mut at: Vec<CyclePosition>,
        from: Option<CyclePosition>,
        least: f64,
    ) -> Self {
        let engine = train.engine();
        let origin = from.unwrap_or_else(|| CyclePosition::new(engine.cycle(), CrankAngle::ZERO));
        let ahead = |p: &CyclePosition| origin.forward_to(*p).degrees();
        at.sort_by(|a, b| ahead(a).total_cmp(&ahead(b)));
        let mut names: Vec<&str> = Vec::new();
        let (mut arcs, mut unreachable) = (Vec::new(), Vec::new());
        for cylinder in engine.indices() {
            for kind in [ValveKind::Intake, ValveKind::Exhaust] {
                let valve = |number| ValveId {
                    cylinder,
                    kind,
                    number,
                };
                let made = arc(train, valve(1), &at, least);
                match made {
                    Ok(mut arc) => {
                        if let Some(side) = train.side(arc.of) {
                            let known = names.iter().position(|name| *name == side);
                            let at = known.unwrap_or(names.len());
                            if known.is_none() {
                                names.push(side);
                            }
                            arc.side = at + 1;
                        }
                        arcs.push(arc);
                    }
                    Err(why) => unreachable.extend((1..=train.count(kind)).map(|n| Unreachable {
                        valve: valve(n),
                        why,
                    })),
                }
            }
        }
        let mut circle = Self {
            at,
            from,
            origin,
            arcs,
            sides: names.len(),
            reach: Vec::new(),
            unreachable,
        };
        let one_side = (0..=circle.sides).map(Some);
        circle.reach = one_side
            .chain(core::iter::once(None))
            .map(|side| circle.reach_of(side))
            .collect();
        circle
    }

    fn reach_of(&self, side: Option<usize>) -> Vec<usize> {
        let arcs = || {
            self.arcs
                .iter()
                .filter(|a| side.is_none_or(|s| s == a.side))
        };
        let from = |place: usize| {
            let ends = arcs().filter(|arc| !self.holds(arc, place));
            let ends = ends.map(|arc| self.steps(place, arc.begin) + arc.count - 1);
            ends.min().unwrap_or(NEVER)
        };
        (0..self.len()).map(from).collect()
    }

    /// How many places there are.
    pub(super) fn len(&self) -> usize {
        self.at.len()
    }

    /// Where a place is; places may be counted on beyond a whole round.
    pub(super) fn at(&self, place: usize) -> CyclePosition {
        let found = self.at.get(self.wrapped(place)).copied();
        found.unwrap_or(self.origin)
    }

    /// Where the crank stands, or the head of the firing order.
    pub(super) const fn origin(&self) -> CyclePosition {
        self.origin
    }

    /// Whether the turning counts from the first stop.
    pub(super) const fn is_free(&self) -> bool {
        self.from.is_none()
    }

    /// A place counted within the round.
    pub(super) fn wrapped(&self, place: usize) -> usize {
        place.checked_rem(self.len()).unwrap_or(0)
    }

    /// Places to go forward from one to another, less than a round.
    pub(super) fn steps(&self, from: usize, to: usize) -> usize {
        self.wrapped(to + self.len() - self.wrapped(from))
    }

    pub(super) fn holds(&self, arc: &Arc, place: usize) -> bool {
        self.steps(arc.begin, place) < arc.count
    }

    /// From a place, how many places on the first arc of a side ends that does not hold the place.
    pub(super) fn reach(&self, side: usize, place: usize) -> usize {
        self.reached(self.reach.get(side), place)
    }

    /// The same for the arcs of all sides.
    pub(super) fn reach_all(&self, place: usize) -> usize {
        self.reached(self.reach.last(), place)
    }

    fn reached(&self, table: Option<&Vec<usize>>, place: usize) -> usize {
        let found = table.and_then(|t| t.get(self.wrapped(place)));
        found.copied().unwrap_or(NEVER)
    }

    /// How many places after `first` may still be stopped at in the same round: all but `first`
    /// itself, or those before the crank is back where it stood.
    pub(super) fn rest(&self, first: usize) -> usize {
        let used = if self.from.is_some() { first } else { 0 };
        self.len().saturating_sub(1 + used)
    }

    /// Forward turning from where it counts, for a first stop and a last one some places on.
    pub(super) fn turning(&self, first: usize, on: usize) -> f64 {
        let counted_from = self.from.unwrap_or_else(|| self.at(first));
        counted_from.forward_to(self.at(first + on)).degrees()
    }
}

/// The arc of a kind of valve in a cylinder among some places, where it keeps a margin.
fn arc(
    train: &ValveTrain<'_>,
    of: ValveId,
    at: &[CyclePosition],
    least: f64,
) -> Result<Arc, Unreached> {
    let window = train.window(of.kind).ok_or(Unreached::NoWindow)?;
    let margins: Vec<f64> = at
        .iter()
        .map(|p| train.margin(of, *p).map_or(-1.0, CrankAngle::degrees))
        .collect();
    let least = (least - ROUNDING).max(0.0);
    let count = margins.iter().filter(|m| **m >= least).count();
    if count == 0 {
        return Err(Unreached::NoPlaceInWindow);
    }
    let before = margins.iter().cycle().skip(margins.len() - 1);
    let begins = margins
        .iter()
        .zip(before)
        .position(|(m, b)| *m >= least && *b < least);
    let middle = train.engine().crank_at(of.cylinder, window.middle());
    let ahead = |p: &CyclePosition| middle.forward_to(*p).degrees();
    let after_middle = at
        .iter()
        .enumerate()
        .min_by(|a, b| ahead(a.1).total_cmp(&ahead(b.1)));
    Ok(Arc {
        of,
        side: 0,
        begin: begins.unwrap_or(0),
        count,
        after_middle: after_middle.map_or(0, |(i, _)| i),
        margins,
    })
}
