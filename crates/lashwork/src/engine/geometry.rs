//! Firing positions from bank and crankpin angles.
//!
//! # Method
//! Relative to the first cylinder of the order a cylinder's top dead centre lies at
//! `r = (bank - crankpin) mod 360`. On a four-stroke engine it fires at `r` or at `r + 360`.
//! Positions must rise along the order, so the first turn holds a leading part of the order and the
//! second turn the rest: an engine of n cylinders has at most n ways, and all of them are tried.
//!
//! # Source
//! Geometry. The choice among several ways is this library's: widest least interval, then earliest.

use alloc::vec::Vec;

/// Differences of less than this are rounding, in degrees.
const ROUNDING: f64 = 1e-6;

/// One way of firing: positions along the order, in degrees, and the least interval.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Way {
    pub(super) positions: Vec<f64>,
    pub(super) least_interval: f64,
}

/// All ways in which the cylinders can fire in order, best first. `relative` holds the top dead
/// centres along the order, from 0 up to 360, the first of them 0.
pub(super) fn ways(relative: &[f64], cycle: f64) -> Vec<Way> {
    let turns = if cycle > 360.0 { relative.len() } else { 0 };
    // The most cylinders in the first turn come first: that is the earliest way.
    let mut found: Vec<Way> = (0..=turns)
        .map(|second| relative.len() - second)
        .filter(|in_first| *in_first > 0)
        .filter_map(|in_first| {
            let positions: Vec<f64> = relative
                .iter()
                .enumerate()
                .map(|(i, r)| if i < in_first { *r } else { *r + 360.0 })
                .collect();
            let least_interval = least_interval(&positions, cycle);
            (least_interval > ROUNDING).then_some(Way {
                positions,
                least_interval,
            })
        })
        .collect();
    // Stable, and equal up to rounding stays in place: the earliest of the widest is first.
    let widest = found.iter().map(|w| w.least_interval).fold(0.0, f64::max);
    if let Some(best) = found
        .iter()
        .position(|w| w.least_interval >= widest - ROUNDING)
    {
        let way = found.remove(best);
        found.insert(0, way);
    }
    found
}

/// The least interval between firings, the way back to the first included.
fn least_interval(positions: &[f64], cycle: f64) -> f64 {
    let first = positions.first().copied().unwrap_or(0.0);
    let nexts = positions.iter().skip(1).copied().chain([first + cycle]);
    positions
        .iter()
        .zip(nexts)
        .map(|(from, to)| to - from)
        .fold(f64::INFINITY, f64::min)
}

/// The place in the order of the first cylinder that does not fit when each fires as early as the
/// crank lets it; none if all fit.
pub(super) fn first_misfit(relative: &[f64], cycle: f64) -> Option<usize> {
    let mut previous = -1.0;
    for (i, r) in relative.iter().enumerate() {
        let later = *r + 360.0;
        previous = if *r > previous + ROUNDING {
            *r
        } else if later > previous + ROUNDING && later < cycle - ROUNDING {
            later
        } else {
            return Some(i);
        };
    }
    None
}

/// Whether two ways tie.
pub(super) fn tie(a: &Way, b: &Way) -> bool {
    (a.least_interval - b.least_interval).abs() <= ROUNDING
}
