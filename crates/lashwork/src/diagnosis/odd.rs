//! Which valves are far from their kind, by a rule that a few of them cannot upset.
//!
//! # Method
//! Each reading stands for its middle, or for the one end it has; a gap under half its set value with
//! no lower end stands for half that end. Its distance is that from the set value, less the median
//! distance of its kind (of both kinds where a kind has fewer than three readings), in spreads of its
//! kind: the set band, the stray of a service and a tenth of the set value together. Where the engine
//! itself spreads wider (1.4826 times the median of all distances, the usual robust estimate of a
//! standard deviation), distances are counted in that. A valve 5 or more away is odd. Of two middle
//! values the one nearer to zero is the median, so that half of a kind may be odd.
//!
//! # How often it is wrong
//! `tests/tests/diagnosis_simulation` draws healthy engines and prints the share with a valve named:
//! under 1 % on engines like the model, under 2 % on neglected ones that spread by 18 %.
//!
//! # Source
//! Median and median absolute deviation: textbook statistics. The numbers are this library's choice.

use super::evidence::{Seen, Source};
use super::model::set_spread_mm;
use crate::quantity::LashChange;
use crate::valve::ValveKind;
use alloc::vec::Vec;

/// From so many spreads on a valve is odd.
pub(crate) const ODD_FROM: f64 = 5.0;
/// Fewest readings of a kind that give a middle of their own.
const FEWEST_OF_A_KIND: usize = 3;
/// The standard deviation of a normal distribution over its median absolute deviation.
const MAD_TO_DEVIATION: f64 = 1.482_602_218_505_602;

/// A valve far from its kind.
///
/// ```
/// use lashwork::diagnosis::OddValve;
/// use lashwork::quantity::LashChange;
/// let tight = OddValve { reading: 3, off: LashChange::from_mm(-0.22)?, spreads: 5.9 };
/// assert!(!tight.is_looser());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OddValve {
    /// The place of its reading in the evidence.
    pub reading: usize,
    /// How far it is from the middle of its kind; positive is looser.
    pub off: LashChange,
    /// The same in spreads, without a sign.
    pub spreads: f64,
}

impl OddValve {
    /// Whether it is looser than its kind, else tighter.
    #[must_use]
    pub fn is_looser(&self) -> bool {
        self.off.mm() > 0.0
    }
}

/// The valves far from their kind, the farthest first.
pub(super) fn odd_valves(readings: &[Seen], source: &Source) -> Vec<OddValve> {
    let off: Vec<f64> = readings.iter().map(|seen| from_set(seen, source)).collect();
    let of = |kind: ValveKind| -> Vec<f64> {
        let both = readings.iter().zip(&off);
        both.filter(|(seen, _)| seen.valve.kind == kind)
            .map(|(_, off)| *off)
            .collect()
    };
    let middle = |kind: ValveKind| {
        let own = of(kind);
        median(if own.len() < FEWEST_OF_A_KIND {
            off.clone()
        } else {
            own
        })
    };
    let (intake, exhaust) = (middle(ValveKind::Intake), middle(ValveKind::Exhaust));
    let away: Vec<(f64, f64)> = readings
        .iter()
        .zip(&off)
        .map(|(seen, off)| {
            let middle = match seen.valve.kind {
                ValveKind::Intake => intake,
                ValveKind::Exhaust => exhaust,
            };
            let spread = set_spread_mm(source.limits(seen.valve.kind));
            (off - middle, (off - middle) / spread)
        })
        .collect();
    let usual = MAD_TO_DEVIATION * median(away.iter().map(|(_, spreads)| spreads.abs()).collect());
    let wider = usual.max(1.0);
    let mut odd: Vec<OddValve> = away
        .iter()
        .enumerate()
        .map(|(reading, (mm, spreads))| OddValve {
            reading,
            off: LashChange::computed(*mm),
            spreads: spreads.abs() / wider,
        })
        .filter(|valve| valve.spreads >= ODD_FROM)
        .collect();
    odd.sort_by(|a, b| b.spreads.total_cmp(&a.spreads));
    odd
}

/// How far a reading is from its set value, in millimetres.
fn from_set(seen: &Seen, source: &Source) -> f64 {
    let set = source.limits(seen.valve.kind).set_to().mm();
    let warmth = source.warmth.mm();
    let felt = &seen.felt;
    let mm = match (felt.centre(), felt.low(), felt.high()) {
        (Some(at), ..) | (None, Some(at), _) => at.mm() - warmth,
        (None, None, Some(high)) => {
            let most = high.mm() - warmth;
            if most < 0.5 * set { 0.5 * most } else { most }
        }
        (None, None, None) => set,
    };
    mm - set
}

/// The middle of a list, of two middle values the one nearer to zero; 0 of none.
fn median(mut list: Vec<f64>) -> f64 {
    list.sort_by(f64::total_cmp);
    let half = list.len() / 2;
    let at = |i: usize| list.get(i).copied().unwrap_or(0.0);
    let (low, high) = (at(half.saturating_sub(1)), at(half));
    if list.len() % 2 == 1 || high.abs() <= low.abs() {
        high
    } else {
        low
    }
}
