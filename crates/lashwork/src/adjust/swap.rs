//! The best use of shims: those already fitted, those on hand, those that can be bought.
//!
//! # What is best
//! In this order, each deciding only among choices equal in all before it:
//! 1. fewest valves called tight, then fewest called loose: they keep their shim, as no shim is moved
//!    or bought to end so;
//! 2. of the valves on which the rule cannot say, the worst first: fewest with the greatest risk
//!    beyond what it accepts, then fewest with the next, in [`RISK_STEPS`]; then fewest that are
//!    accepted and doubtful;
//! 3. fewest shims bought;
//! 4. fewest taken from stock;
//! 5. fewest valves that get another shim than they have;
//! 6. the least sum of squares of distances from the value to set, in which the farthest valve weighs
//!    most; the farthest alone would hide all others behind one that cannot be helped;
//! 7. fewest valves tighter than the value to set.
//!
//! # Conventions
//! - Distances are whole tenths of a micrometre, so that sums are exact; one over 1.6 mm counts as that.
//! - A valve keeps its place in the order given; choices equal in all go to the earlier shim.
//! - Which size is bought for a valve is [`size_to_buy`](super::size_to_buy)'s alone; whether to buy is
//!   part of the search.
//! - Under [`ShimRounding::NeverTighter`](super::ShimRounding::NeverTighter) no valve gets another shim
//!   that leaves less than the value to set; its own it may keep.
//!
//! # Method
//! Valves are rows, single shims columns, the aims two whole numbers each pair: an assignment of least
//! cost, exact. All valves may keep their shims, so there always is one.

use super::assign::{Cost, CostMatrix, FORBIDDEN, least_cost};
use super::outcome::{ShimOutcome, bought};
use super::{AdjustError, RISK_STEPS, ShimSlot, ShimSupply};
use crate::quantity::{Nominal, ShimThickness};
use crate::tolerance::{BandJudge, Uncertainty, Verdict};
use alloc::vec::Vec;
use serde::Serialize;

/// Where the shim of a valve comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ShimSource {
    /// It stays where it is.
    Stays,
    /// The valve with this index.
    Slot(usize),
    /// The stock shim with this index.
    Stock(usize),
    /// Bought in this size.
    Bought(Nominal),
}

/// The shim of one valve in the best use of shims.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimPlacement {
    /// Where it comes from.
    pub source: ShimSource,
    /// The valve with it; as it was read if it stays.
    pub outcome: ShimOutcome,
}

impl ShimPlacement {
    /// The two numbers of its aims, each field wide enough for its sum over `rows`.
    fn cost(&self, rows: usize) -> Cost {
        let count = usize::BITS - rows.leading_zeros();
        let packed = |fields: &[(i128, u32)]| {
            let fields = fields.iter();
            fields.fold(0_i128, |packed, (value, bits)| (packed << *bits) + value)
        };
        let is = |condition: bool| (i128::from(condition), count);
        let verdict = self.outcome.judgement.verdict;
        let is_called = matches!(verdict, Verdict::Below | Verdict::Above);
        let mut risks = [is(false); 3 + RISK_STEPS as usize];
        let ranks = [verdict == Verdict::Below, verdict == Verdict::Above];
        let steps = (1..=1 + RISK_STEPS).rev();
        let ranks = ranks
            .into_iter()
            .chain(steps.map(|step| !is_called && self.outcome.risk == step));
        for (field, rank) in risks.iter_mut().zip(ranks) {
            *field = is(rank);
        }
        let most = (1_u64 << DISTANCE_BITS) - 1;
        let distance = i128::from((self.outcome.over.unsigned_abs() / 100).min(most));
        let work = [
            is(matches!(self.source, ShimSource::Bought(_))),
            is(matches!(self.source, ShimSource::Stock(_))),
            is(self.source != ShimSource::Stays),
            (distance * distance, 2 * DISTANCE_BITS + count),
            is(self.outcome.over < 0),
        ];
        Cost::new(packed(&risks), packed(&work))
    }
}

/// Bits of one distance.
const DISTANCE_BITS: u32 = 14;

/// Most valves in one search: 100 cylinders of eight valves.
pub const MAX_SLOTS: usize = 800;

/// The best use of shims, exactly: the shim of each valve, in the order of the valves.
///
/// # Errors
/// [`AdjustError::TooManySlots`] over [`MAX_SLOTS`]; [`AdjustError::Ratio`] for a ratio outside 0.1
/// to 5.
///
/// # Examples
/// Two valves whose shims are the wrong way round need nothing bought:
/// ```
/// use lashwork::adjust::{ShimSlot, ShimSource, ShimStock, ShimSupply, best_swaps};
/// use lashwork::quantity::{Lash, Marked, ShimThickness};
/// use lashwork::tolerance::{Estimate, HasLimits, Limits, Uncertainty, Verdict, judge};
/// let rule = Lash::USUAL_RULE;
/// let slot = |shim, lash| -> Result<ShimSlot, Box<dyn std::error::Error>> {
///     let lash = Lash::parse(lash)?;
///     let lash = Estimate::between(lash, lash, Uncertainty::from_mm(0.005)?)?;
///     let set = Limits::between(Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?)?;
///     Ok(ShimSlot {
///         fitted: ShimThickness::parse(shim)?,
///         fitted_uncertainty: Uncertainty::ZERO,
///         lash,
///         set_to: Marked::parse("0.20 mm")?,
///         set,
///         found: judge(&lash, &set, &rule),
///     })
/// };
/// let slots = [slot("2.80 mm", "0.10 mm")?, slot("2.70 mm", "0.30 mm")?];
/// let supply = ShimSupply {
///     ratio_from_shim_to_gap: 1.0,
///     series: None,
///     rounding: None,
///     stock: &ShimStock::default(),
///     size_uncertainty: Uncertainty::ZERO,
///     fitted_may_move: true,
///     rule: &rule,
/// };
/// let best = best_swaps(&slots, &supply)?;
/// assert_eq!([best[0].source, best[1].source], [ShimSource::Slot(1), ShimSource::Slot(0)]);
/// assert!(best.iter().all(|p| p.outcome.judgement.verdict == Verdict::InBand));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn best_swaps(
    slots: &[ShimSlot],
    supply: &ShimSupply<'_>,
) -> Result<Vec<ShimPlacement>, AdjustError> {
    let (rows, max) = (slots.len(), MAX_SLOTS);
    if rows > max {
        return Err(AdjustError::TooManySlots { count: rows, max });
    }
    super::ShimSeat::UnderRocker.ratio(supply.ratio_from_shim_to_gap)?;
    let pieces = pieces(slots, supply);
    let columns = pieces.len() + rows;
    let (mut choices, mut costs) = (Vec::new(), Vec::new());
    for (row, slot) in slots.iter().enumerate() {
        let mut judge = BandJudge::new(&slot.set, supply.rule);
        let shims = pieces.iter().map(|piece| {
            let own = piece.source == ShimSource::Slot(row);
            if own {
                let (source, outcome) = (ShimSource::Stays, slot.as_it_is(supply.rule)?);
                return Some(ShimPlacement { source, outcome });
            }
            if matches!(piece.source, ShimSource::Slot(_)) && !supply.fitted_may_move {
                return None;
            }
            let outcome = slot.with(piece.thickness, piece.uncertainty, supply, &mut judge)?;
            let source = piece.source;
            outcome
                .serves(supply)
                .then_some(ShimPlacement { source, outcome })
        });
        choices.extend(shims);
        // What is bought for one valve is a column that the others may not have.
        let bought = bought(slot, supply, &mut judge).map(|(size, outcome)| ShimPlacement {
            source: ShimSource::Bought(size),
            outcome,
        });
        choices.extend((0..rows).map(|other| if other == row { bought } else { None }));
    }
    let cost = |choice: &Option<ShimPlacement>| choice.map_or(FORBIDDEN, |c| c.cost(rows));
    costs.extend(choices.iter().map(cost));
    let best = CostMatrix::new(columns, costs).and_then(|matrix| least_cost(&matrix));
    let best = best.map_err(|none| AdjustError::NoShim { slot: none.row })?;
    let chosen = best.iter().enumerate();
    Ok(chosen
        .filter_map(|(row, column)| choices.get(row * columns + column).copied().flatten())
        .collect())
}

/// A single shim that is fitted or on hand.
#[derive(Clone, Copy)]
struct Piece {
    source: ShimSource,
    thickness: ShimThickness,
    uncertainty: Uncertainty<ShimThickness>,
}

/// Every single shim; of one size no more than there are valves.
fn pieces(slots: &[ShimSlot], supply: &ShimSupply<'_>) -> Vec<Piece> {
    let fitted = slots.iter().enumerate().map(|(i, slot)| Piece {
        source: ShimSource::Slot(i),
        thickness: slot.fitted,
        uncertainty: slot.fitted_uncertainty,
    });
    let mut pieces: Vec<Piece> = fitted.collect();
    for (i, shim) in supply.stock.shims().iter().enumerate() {
        let Ok(thickness) = shim.thickness() else {
            continue;
        };
        let count = usize::try_from(shim.count).map_or(slots.len(), |c| c.min(slots.len()));
        let piece = Piece {
            source: ShimSource::Stock(i),
            thickness,
            uncertainty: shim.uncertainty.unwrap_or(supply.size_uncertainty),
        };
        pieces.extend(core::iter::repeat_n(piece, count));
    }
    pieces
}

/// The order to work in: groups of valves, each valve after the first getting the shim lifted out
/// of the one before it. The first of a group gets one from outside, or, where shims go round in a
/// ring, that of the last. Valves that keep their shim are in no group.
///
/// Worked so, at most one valve is without a shim once the next is begun.
///
/// ```
/// use lashwork::adjust::{ShimSource, working_order};
/// let sources = [ShimSource::Slot(2), ShimSource::Stays, ShimSource::Stock(0)];
/// assert_eq!(working_order(&sources), [[2, 0]]);
/// ```
#[must_use]
pub fn working_order(sources: &[ShimSource]) -> Vec<Vec<usize>> {
    let count = sources.len();
    let mut taker = alloc::vec![None; count];
    for (i, source) in sources.iter().enumerate() {
        if let ShimSource::Slot(from) = source
            && let Some(place) = taker.get_mut(*from)
        {
            *place = Some(i);
        }
    }
    let is_from_outside =
        |source: &ShimSource| matches!(source, ShimSource::Stock(_) | ShimSource::Bought(_));
    let is_from_slot = |source: &ShimSource| matches!(source, ShimSource::Slot(_));
    let mut is_done = alloc::vec![false; count];
    let mut groups = Vec::new();
    // Chains first: what is left then goes round in rings.
    for starts in [
        &is_from_outside as &dyn Fn(&ShimSource) -> bool,
        &is_from_slot,
    ] {
        for (start, source) in sources.iter().enumerate() {
            let mut group = Vec::new();
            let mut next = starts(source).then_some(start);
            while let Some(at) = next
                && let Some(done) = is_done.get_mut(at).filter(|done| !**done)
            {
                *done = true;
                group.push(at);
                next = taker.get(at).copied().flatten();
            }
            if !group.is_empty() {
                groups.push(group);
            }
        }
    }
    groups
}
