//! Ways to serve sides at one stop.
//!
//! Uses nothing.

use alloc::vec::Vec;

/// A set of sides, numbered from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Sides(pub(super) u8);

impl Sides {
    /// Just one side, or none for 0.
    pub(super) const fn only(side: usize) -> Self {
        Self(if side == 0 { 0 } else { 1 << (side - 1) })
    }

    pub(super) const fn has(self, side: usize) -> bool {
        self.0 & Self::only(side).0 != 0
    }

    /// Those that the other set lacks.
    pub(super) const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    pub(super) const fn count(self) -> usize {
        self.0.count_ones() as usize
    }
}

/// Serving some sides at a stop: which, the side one then stands on, the walks it takes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Round {
    pub(super) sides: Sides,
    pub(super) stands: usize,
    pub(super) walks: usize,
}

/// Every way to serve sides at a stop: the side one stands on always, as it costs nothing. Coming
/// back to it is left to the next stop, where it costs no more. Standing on side 0 is the first stop.
pub(super) fn rounds(sides: usize, stands: usize) -> Vec<Round> {
    let mut all = Vec::new();
    let here = Sides::only(stands).0;
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
