//! The best use of shims: those already fitted, those on hand, those that can be bought.
//!
//! # What is best
//! In this order, each deciding only among choices equal in all before it:
//! 1. fewest valves outside their band;
//! 2. of those, the least sum of distances from the value to set;
//! 3. fewest shims bought;
//! 4. fewest taken from stock;
//! 5. fewest valves that get another shim than they have;
//! 6. the least sum of distances from the value to set, over all valves;
//! 7. fewest valves tighter than the value to set.
//!
//! # Conventions
//! - Distances are whole nanometres, so that sums are exact; one over 16.7 mm counts as that.
//! - A valve keeps its place in the order given; choices equal in all seven go to the earlier shim.
//! - Which size is bought for a valve follows the rounding rule alone ([`ShimSeries::choose`]), or is
//!   the end of the series nearer to it; whether to buy is part of the search.
//! - Under [`ShimRounding::NeverTighter`] no valve gets another shim that leaves less than the value
//!   to set; its own it may keep.
//!
//! # Method
//! Valves are rows, single shims columns, the seven aims one whole number each pair: an assignment of
//! least cost, exact.

use super::assign::{CostMatrix, FORBIDDEN, least_cost};
use super::{AdjustError, ShimFit, ShimRounding, ShimSeries, ShimStock};
use crate::quantity::{Lash, Marked, Nominal, ShimThickness};
use crate::tolerance::Limits;
use alloc::vec::Vec;
use serde::Serialize;

/// A valve whose shim may be changed or lent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimSlot {
    /// The shim that is fitted.
    pub fitted: ShimThickness,
    /// The lash with it, at the temperature the limits hold at; the best estimate.
    pub lash: Lash,
    /// The value to set.
    pub set_to: Marked,
    /// The band a new setting must lie in.
    pub set: Limits<Lash>,
    /// Whether it is good as it is, by whatever band an old setting is judged.
    pub is_good: bool,
}

/// Where shims may come from, besides the valves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimSupply<'s> {
    /// How much the gap closes for each millimetre a shim grows; see
    /// [`ShimSeat::ratio`](super::ShimSeat::ratio).
    pub ratio_from_shim_to_gap: f64,
    /// Sizes that can be bought, any number of each; none if nothing can.
    pub series: Option<&'s ShimSeries>,
    /// Which size to take; if not stated, see [`ShimSeries::choose`].
    pub rounding: Option<ShimRounding>,
    /// Shims on hand.
    pub stock: &'s ShimStock,
}

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
    /// How thick it is.
    pub thickness: ShimThickness,
    /// The lash to expect with it.
    pub predicted: Lash,
    /// Whether that is in the set band, or the valve is good and keeps its shim.
    pub is_good: bool,
}

/// What one choice of shim costs: counts of none or one, and a distance.
#[derive(Clone, Copy)]
struct Aims {
    out: u8,
    bought: u8,
    stock: u8,
    moved: u8,
    distance: i128,
    tighter: u8,
}

impl Aims {
    /// Bits of one distance.
    const DISTANCE_BITS: u32 = 24;

    /// One number whose sum over `rows` keeps the aims apart: each field has room for its sum.
    fn packed(self, rows: usize) -> i128 {
        let count = usize::BITS - rows.leading_zeros();
        let sum = Self::DISTANCE_BITS + count;
        let miss = self.distance * i128::from(self.out);
        let fields = [
            (i128::from(self.out), count),
            (miss, sum),
            (i128::from(self.bought), count),
            (i128::from(self.stock), count),
            (i128::from(self.moved), count),
            (self.distance, sum),
            (i128::from(self.tighter), count),
        ];
        fields
            .iter()
            .fold(0, |packed, (value, bits)| (packed << bits) + value)
    }
}

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
/// use lashwork::tolerance::Limits;
/// let slot = |shim, lash| -> Result<ShimSlot, Box<dyn std::error::Error>> {
///     Ok(ShimSlot {
///         fitted: ShimThickness::parse(shim)?,
///         lash: Lash::parse(lash)?,
///         set_to: Marked::parse("0.20 mm")?,
///         set: Limits::between(Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?)?,
///         is_good: false,
///     })
/// };
/// let slots = [slot("2.80 mm", "0.10 mm")?, slot("2.70 mm", "0.30 mm")?];
/// let supply = ShimSupply {
///     ratio_from_shim_to_gap: 1.0,
///     series: None,
///     rounding: None,
///     stock: &ShimStock::default(),
/// };
/// let best = best_swaps(&slots, &supply)?;
/// assert_eq!([best[0].source, best[1].source], [ShimSource::Slot(1), ShimSource::Slot(0)]);
/// assert!((best[0].predicted.mm() - 0.20).abs() < 1e-12 && best[1].is_good);
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
    let pieces = pieces(slots, supply.stock);
    let columns = pieces.len() + rows;
    let (mut choices, mut costs) = (Vec::new(), Vec::new());
    for (row, slot) in slots.iter().enumerate() {
        // What is bought for one valve is a column that the others may not have.
        let bought = bought(slot, supply);
        let own = (0..rows).map(|other| if other == row { bought } else { None });
        for piece in pieces.iter().copied().map(Some).chain(own) {
            let choice =
                piece.and_then(|(source, thickness)| choose(slot, row, source, thickness, supply));
            costs.push(choice.map_or(FORBIDDEN, |(_, aims)| aims.packed(rows)));
            choices.push(choice.map(|(placement, _)| placement));
        }
    }
    let best = CostMatrix::new(columns, costs).and_then(|matrix| least_cost(&matrix));
    let best = best.map_err(|none| AdjustError::NoShim { slot: none.row })?;
    let chosen = best.iter().enumerate();
    Ok(chosen
        .filter_map(|(row, column)| choices.get(row * columns + column).copied().flatten())
        .collect())
}

/// Every single shim that is fitted or on hand; of one size no more than there are valves.
fn pieces(slots: &[ShimSlot], stock: &ShimStock) -> Vec<(ShimSource, ShimThickness)> {
    let fitted = slots.iter().enumerate();
    let mut pieces: Vec<_> = fitted
        .map(|(i, slot)| (ShimSource::Slot(i), slot.fitted))
        .collect();
    for (i, shim) in stock.shims().iter().enumerate() {
        let Ok(thickness) = shim.thickness() else {
            continue;
        };
        let count = usize::try_from(shim.count).map_or(slots.len(), |c| c.min(slots.len()));
        pieces.extend(core::iter::repeat_n(
            (ShimSource::Stock(i), thickness),
            count,
        ));
    }
    pieces
}

/// The size to buy for a valve: by the rule, else the end of the series nearer to it.
fn bought(slot: &ShimSlot, supply: &ShimSupply<'_>) -> Option<(ShimSource, ShimThickness)> {
    let series = supply.series?;
    let fit = ShimFit {
        old: slot.fitted,
        measured: slot.lash,
        target: Lash::from_nominal(slot.set_to.nominal()).ok()?,
        ratio_from_shim_to_gap: supply.ratio_from_shim_to_gap,
    };
    let size = if let Ok(choice) = series.choose(&fit, supply.rounding, &slot.set) {
        choice.size
    } else {
        let (first, last) = series.ends();
        let is_thin = fit.wanted().ok()? < first.nominal();
        if is_thin { first } else { last }.nominal()
    };
    let thickness = ShimThickness::from_nominal(size).ok()?;
    Some((ShimSource::Bought(size), thickness))
}

/// What a valve would be with a shim, and at what cost; nothing if it may not have it.
fn choose(
    slot: &ShimSlot,
    row: usize,
    source: ShimSource,
    thickness: ShimThickness,
    supply: &ShimSupply<'_>,
) -> Option<(ShimPlacement, Aims)> {
    let stays = source == ShimSource::Slot(row);
    let predicted = if stays {
        slot.lash
    } else {
        let ratio = supply.ratio_from_shim_to_gap;
        super::predicted_lash(slot.fitted, thickness, slot.lash, ratio).ok()?
    };
    let exact = Nominal::nearest_mm(predicted.mm()).ok()?;
    let over = exact.minus(slot.set_to.nominal()).ok()?.nanometres();
    let is_tighter = over < 0;
    if is_tighter && !stays && supply.rounding == Some(ShimRounding::NeverTighter) {
        return None;
    }
    let is_good = slot.set.holds(exact) || (stays && slot.is_good);
    let most = (1_i128 << Aims::DISTANCE_BITS) - 1;
    let aims = Aims {
        out: u8::from(!is_good),
        bought: u8::from(matches!(source, ShimSource::Bought(_))),
        stock: u8::from(matches!(source, ShimSource::Stock(_))),
        moved: u8::from(!stays),
        distance: i128::from(over).abs().min(most),
        tighter: u8::from(is_tighter),
    };
    let placement = ShimPlacement {
        source: if stays { ShimSource::Stays } else { source },
        thickness,
        predicted,
        is_good,
    };
    Some((placement, aims))
}

/// The order to work in: groups of valves, each valve after the first getting the shim lifted out
/// of the one before it. The first of a group gets one from outside, or, where shims go round in a
/// ring, that of the last. Valves that keep their shim are in no group.
///
/// Worked so, at most one valve is without a shim once the next is begun.
///
/// ```
/// use lashwork::adjust::{ShimPlacement, ShimSource, working_order};
/// use lashwork::quantity::{Lash, ShimThickness};
/// let from = |source| -> Result<ShimPlacement, lashwork::quantity::QuantityError> {
///     Ok(ShimPlacement {
///         source,
///         thickness: ShimThickness::from_mm(2.5)?,
///         predicted: Lash::from_mm(0.2)?,
///         is_good: true,
///     })
/// };
/// let placements = [
///     from(ShimSource::Slot(2))?, from(ShimSource::Stays)?, from(ShimSource::Stock(0))?,
/// ];
/// assert_eq!(working_order(&placements), [[2, 0]]);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn working_order(placements: &[ShimPlacement]) -> Vec<Vec<usize>> {
    let count = placements.len();
    let mut taker = alloc::vec![None; count];
    for (i, placement) in placements.iter().enumerate() {
        if let ShimSource::Slot(from) = placement.source
            && let Some(place) = taker.get_mut(from)
        {
            *place = Some(i);
        }
    }
    let is_from_outside =
        |p: &ShimPlacement| matches!(p.source, ShimSource::Stock(_) | ShimSource::Bought(_));
    let is_from_slot = |p: &ShimPlacement| matches!(p.source, ShimSource::Slot(_));
    let mut is_done = alloc::vec![false; count];
    let mut groups = Vec::new();
    // Chains first: what is left then goes round in rings.
    for starts in [
        &is_from_outside as &dyn Fn(&ShimPlacement) -> bool,
        &is_from_slot,
    ] {
        for (start, placement) in placements.iter().enumerate() {
            let mut group = Vec::new();
            let mut next = starts(placement).then_some(start);
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
