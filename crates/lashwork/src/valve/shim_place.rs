//! Where in the cycle a shim may be changed.
//!
//! # Conventions
//! - Whoever presses a bucket down, or a rocker up, to get at the shim opens the valve. So the crank
//!   stands where the cam leaves the valve closed and the piston is away from its top: else valve and
//!   piston touch.
//! - Every valve of the cylinder is to be closed there; where that is nowhere so, the valve itself.
//!
//! # Source
//! Geometry. That valve and piston can touch when a spring is pressed down: a maker's manual, named in
//! the tests. How far is away is this library's choice.
//!
//! Uses `quantity` and `engine`.

use super::{ValveId, ValveKind, ValveTrain, Window};
use crate::engine::{CylinderIndex, SAME_PLACE};
use crate::quantity::{CrankAngle, Cycle, CyclePosition};
use alloc::vec::Vec;
use serde::Serialize;

/// A piston this share of its stroke below its top is away from it: 15 mm of a stroke of 50, more than
/// a valve lifts. This library's choice.
///
/// ```
/// assert!(lashwork::valve::AWAY_SHARE < 0.5);
/// ```
pub const AWAY_SHARE: f64 = 0.3;

/// Where rods are not described a piston is taken to be away from its top so many crank degrees before
/// and after: with usual rods that is three tenths of the stroke. To be listed as an assumption.
///
/// ```
/// assert_eq!(lashwork::valve::ASSUMED_AWAY.degrees(), 60.0);
/// ```
pub const ASSUMED_AWAY: CrankAngle = CrankAngle::of_degrees::<60>();

/// A stop nearer to the end of an arc than this serves a cylinder only if the arc has no more: a crank
/// is set by eye.
const EASY: f64 = 5.0;

/// Degrees of the cycle.
pub(super) const CYCLE: f64 = 720.0;

/// An arc of the crank in which the shims of a cylinder may be changed.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::quantity::CrankAngle;
/// use lashwork::valve::{CamEvents, ValveTrain};
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
/// let d = |x| CrankAngle::from_degrees(x);
/// // Exhaust opens 120 after firing TDC, intake closes 120 before it; 20 of guard.
/// let cam = CamEvents::new(d(28.0)?, d(60.0)?, d(60.0)?, d(28.0)?)?;
/// let train = ValveTrain::new(&engine, &cam, d(20.0)?, 1, 1)?;
/// let arcs = train.shim_arcs(train.valves()[0]);
/// let ends: Vec<(f64, f64)> = arcs.iter().map(|a| (a.from.degrees(), a.length.degrees())).collect();
/// // 60 to 100 after firing TDC, and 100 to 60 before it.
/// assert_eq!(ends, [(60.0, 40.0), (620.0, 40.0)]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ShimArc {
    /// Where it begins.
    pub from: CyclePosition,
    /// How long it is.
    pub length: CrankAngle,
    /// Whether every valve of the cylinder is closed there, not only this one.
    pub all_closed: bool,
}

impl ShimArc {
    /// How far a place lies inside, to the nearer end; none outside.
    #[must_use]
    pub fn margin(&self, at: CyclePosition) -> Option<CrankAngle> {
        let inside = self.from.forward_to(at);
        let rest = self.length - inside;
        (rest.degrees() >= 0.0).then(|| if rest < inside { rest } else { inside })
    }

    /// Whether a crank set there by eye may be set so.
    pub(super) fn serves(&self, at: CyclePosition) -> bool {
        let least = EASY.min(0.49 * self.length.degrees());
        self.margin(at).is_some_and(|m| m.degrees() >= least)
    }
}

/// A piece of a circle in degrees: where it begins and how long it is.
type Piece = (f64, f64);

impl ValveTrain<'_> {
    /// Where the shim of a valve may be changed: the valves of its cylinder closed, guards kept, and the
    /// piston at least [`AWAY_SHARE`] of its stroke below its top, or [`ASSUMED_AWAY`] from it where
    /// its rod is not described. Only the valve's own window counts where the cylinder's have no such
    /// arc in common; nothing if it has none itself.
    #[must_use]
    pub fn shim_arcs(&self, valve: ValveId) -> Vec<ShimArc> {
        let own = self.pieces_of(valve.kind);
        let other = match valve.kind {
            ValveKind::Intake => ValveKind::Exhaust,
            ValveKind::Exhaust => ValveKind::Intake,
        };
        let away = self.away(valve.cylinder);
        let all = common(&[&own, &self.pieces_of(other), &away]);
        let (pieces, all_closed) = if all.is_empty() {
            (common(&[&own, &away]), false)
        } else {
            (all, true)
        };
        let arcs = pieces.into_iter().map(|(from, length)| ShimArc {
            from: self.engine().crank_at(valve.cylinder, position(from)),
            length: CrankAngle::computed(length),
            all_closed,
        });
        arcs.collect()
    }

    fn pieces_of(&self, kind: ValveKind) -> Vec<Piece> {
        let window = self.window(kind);
        let piece = |w: Window| (w.from().degrees(), w.length().degrees());
        window.map(piece).into_iter().collect()
    }

    /// Where the piston is away from its top, in the cylinder's own phase.
    fn away(&self, cylinder: CylinderIndex) -> Vec<Piece> {
        let known = self.engine().piston_away(cylinder, AWAY_SHARE);
        let (before, after) = known.unwrap_or((ASSUMED_AWAY, ASSUMED_AWAY));
        let (before, after) = (before.degrees(), after.degrees());
        let length = 360.0 - before - after;
        Vec::from([(after, length), (360.0 + after, length)])
    }
}

/// A position of the cycle.
pub(super) fn position(degrees: f64) -> CyclePosition {
    CyclePosition::new(Cycle::FourStroke, CrankAngle::computed(degrees))
}

/// What several sets of pieces have in common, in order.
fn common(sets: &[&Vec<Piece>]) -> Vec<Piece> {
    let ends = |(from, length): &Piece| [*from, from + length];
    let mut cuts: Vec<f64> = sets
        .iter()
        .flat_map(|set| set.iter().flat_map(ends))
        .map(|at| position(at).degrees())
        .collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| *a - *b <= SAME_PLACE);
    let holds = |at: f64, (from, length): &Piece| {
        position(*from).forward_to(position(at)).degrees() <= *length
    };
    let mut out: Vec<Piece> = Vec::new();
    for (i, cut) in cuts.iter().enumerate() {
        let next = cuts.get(i + 1).copied();
        let next = next.unwrap_or_else(|| cuts.first().map_or(*cut, |first| first + CYCLE));
        let (length, middle) = (next - cut, f64::midpoint(*cut, next));
        if sets.iter().all(|set| set.iter().any(|p| holds(middle, p))) {
            match out.last_mut() {
                Some((from, before)) if (*from + *before - cut).abs() <= SAME_PLACE => {
                    *before += length;
                }
                _ => out.push((*cut, length)),
            }
        }
    }
    // What goes on through the end of the cycle is one piece.
    if let [(first, length), .., (last, before)] = out.as_mut_slice()
        && (*last + *before - *first - CYCLE).abs() <= SAME_PLACE
    {
        *before += *length;
        out.remove(0);
    }
    out
}
