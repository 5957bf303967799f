//! Which reading takes away most doubt.

use super::check::{needed, turn_variance};
use super::readings::Levels;
use super::response::Slope;
use super::{JoinedBy, Linkage};
use alloc::vec::Vec;
use serde::Serialize;

/// Less than this part of the doubt is not worth a reading.
const WORTH: f64 = 1e-3;

/// What to read next.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", tag = "read")]
pub enum NextReading {
    /// A throttle once more.
    Again {
        /// Which, from 0.
        throttle: usize,
        /// The doubt of all turns together now, in degrees.
        doubt: f64,
        /// And then.
        then: f64,
    },
    /// The throttles before and after a known turn of a screw, without which there is no amount.
    Trial {
        /// Its joint, from 0.
        joint: usize,
    },
    /// Such a trial once more.
    TrialAgain {
        /// Its joint, from 0.
        joint: usize,
        /// The doubt of all turns together now, in degrees.
        doubt: f64,
        /// And then.
        then: f64,
    },
}

/// The doubt of all turns together, in degrees squared.
fn doubt(linkage: &Linkage, levels: &Levels, variances: &[f64], slopes: &[(usize, Slope)]) -> f64 {
    let moves = needed(linkage, &levels.mean, variances);
    let of = |joint: usize| slopes.iter().find(|(own, _)| *own == joint);
    let each = moves.iter().filter_map(|change| {
        let (_, slope) = of(change.joint)?;
        Some(turn_variance(change, slope))
    });
    each.sum()
}

/// The one that takes away most; the first of equals.
pub(super) fn next_reading(
    linkage: &Linkage,
    levels: &Levels,
    slopes: &[(usize, Slope)],
) -> Option<NextReading> {
    let screws = linkage.branches().iter().filter(|branch| {
        matches!(
            linkage.joined_by(branch.joint),
            Some(JoinedBy::Screw { .. })
        )
    });
    let known = |joint: usize| {
        slopes
            .iter()
            .any(|(own, slope)| *own == joint && slope.is_clear())
    };
    let unknown = screws
        .map(|branch| branch.joint)
        .find(|joint| !known(*joint));
    if let Some(joint) = unknown {
        return Some(NextReading::Trial { joint });
    }
    let now = doubt(linkage, levels, &levels.variances(), slopes);
    let mut best: Option<(f64, NextReading)> = None;
    let mut offer = |then: f64, at: &dyn Fn(f64, f64) -> NextReading| {
        let least = best.map_or(now * (1.0 - WORTH), |(least, _)| least * (1.0 - 1e-9));
        if then < least {
            best = Some((then, at(libm::sqrt(now), libm::sqrt(then))));
        }
    };
    for throttle in 0..linkage.count() {
        let then = doubt(linkage, levels, &levels.variances_after(throttle), slopes);
        offer(then, &|doubt, then| NextReading::Again {
            throttle,
            doubt,
            then,
        });
    }
    for (joint, _) in slopes {
        let more = |(own, slope): &(usize, Slope)| {
            let is_it = linkage.are_alike() || own == joint;
            (*own, if is_it { slope.with_one_more() } else { *slope })
        };
        let slopes: Vec<(usize, Slope)> = slopes.iter().map(more).collect();
        let then = doubt(linkage, levels, &levels.variances(), &slopes);
        let joint = *joint;
        offer(then, &|doubt, then| NextReading::TrialAgain {
            joint,
            doubt,
            then,
        });
    }
    best.map(|(_, next)| next)
}
