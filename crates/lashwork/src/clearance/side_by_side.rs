//! Rows of columns as plain numbers side by side, for those that are in range in everything.
#![expect(
    clippy::needless_bitwise_bool,
    reason = "a branch on what each row decides differently keeps rows apart"
)]
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere knows nothing of the registers this processor has"
)]

use super::columns::{MetalColumns, ReadingColumns, ReadingRow};
use crate::quantity::{Lash, LashChange, Nominal, Temperature, TemperatureDifference};
use crate::statistics::{Effect, LANES, Lane, Lanes, Worked};
use crate::thermal::LashCoefficient;
use crate::tolerance::{BandJudge, JudgedRow, Probabilities, Uncertainty};

const NONE: Lane = [f64::NAN; LANES];

/// So many rows, and whether each is in range in all that was read.
pub(super) struct SideBySide {
    pub(super) lanes: Lanes,
    in_range: [bool; LANES],
}

impl SideBySide {
    pub(super) const fn new(warm: bool) -> Self {
        let effect = Effect {
            rise: NONE,
            rise_u: NONE,
            slope: NONE,
            slope_u: NONE,
        };
        let lanes = Lanes {
            a: NONE,
            b: NONE,
            u: NONE,
            low: NONE,
            high: NONE,
            effect: if warm { Some(effect) } else { None },
        };
        let in_range = [false; LANES];
        Self { lanes, in_range }
    }

    /// Takes the rows from one on.
    #[inline(always)]
    pub(super) fn take(&mut self, columns: &ReadingColumns<'_>, from: usize) {
        let Lanes {
            a,
            b,
            u,
            low,
            high,
            effect,
        } = &mut self.lanes;
        columns.low.fill(from, a);
        columns.high.fill(from, b);
        columns.uncertainty.fill(from, u);
        columns.lower.fill(from, low);
        columns.upper.fill(from, high);
        let read = a.iter().zip(&*b).zip(&*u);
        let limits = low.iter_mut().zip(high);
        for ((in_range, ((a, b), u)), (low, high)) in self.in_range.iter_mut().zip(read).zip(limits)
        {
            let (has_low, has_high) = (low.is_finite(), high.is_finite());
            *low = if has_low { *low } else { f64::NEG_INFINITY };
            *high = if has_high { *high } else { f64::INFINITY };
            *in_range = Lash::can_be(*a)
                & Lash::can_be(*b)
                & (*a <= *b)
                & Uncertainty::<Lash>::can_be(*u)
                & (has_low | has_high)
                & (Nominal::can_be(*low) | !has_low)
                & (Nominal::can_be(*high) | !has_high)
                & (*low <= *high);
        }
        if let (Some(effect), Some(metal)) = (effect, &columns.metal) {
            take_metal(effect, metal, from, &mut self.in_range);
        }
    }

    /// The row if it is usual and in range: the bits it gets alone.
    #[inline(always)]
    pub(super) fn judged(
        &self,
        found: &Worked,
        at: usize,
        band: &mut BandJudge<'_, Lash>,
    ) -> Option<ReadingRow> {
        let usual = *self.in_range.get(at)? & *found.usual.get(at)?;
        let number = |lane: &Lane| lane.get(at).copied().unwrap_or(f64::NAN);
        if self.lanes.effect.is_some() {
            let change = number(&found.change);
            let is_change = LashChange::can_be(change);
            if !(usual & is_change & Uncertainty::<Lash>::can_be(number(&found.change_u))) {
                return None;
            }
        } else if !usual {
            return None;
        }
        let limit = |limit: f64| limit.is_finite().then_some(limit);
        band.turn_to(
            limit(number(&self.lanes.low)),
            limit(number(&self.lanes.high)),
        );
        let chances = (
            number(&found.below),
            number(&found.inside),
            number(&found.above),
        );
        let (low, high, u) = (number(&found.a), number(&found.b), number(&found.u));
        let judged = band.judge_known(Probabilities::known(chances), 0.5 * (high - low), u);
        Some(ReadingRow {
            low,
            high,
            u,
            at_reference: true,
            judged: JudgedRow::from(&judged),
        })
    }
}

#[inline(always)]
fn take_metal(
    effect: &mut Effect,
    metal: &MetalColumns<'_>,
    from: usize,
    in_range: &mut [bool; LANES],
) {
    let mut reference = NONE;
    metal.celsius.fill(from, &mut effect.rise);
    metal.uncertainty.fill(from, &mut effect.rise_u);
    metal.reference.fill(from, &mut reference);
    metal.mm_per_kelvin.fill(from, &mut effect.slope);
    metal
        .mm_per_kelvin_uncertainty
        .fill(from, &mut effect.slope_u);
    let doubts = effect.rise_u.iter().zip(&effect.slope_u);
    let temperatures = effect.rise.iter_mut().zip(&reference);
    for ((in_range, (rise_u, slope_u)), (rise, reference)) in
        in_range.iter_mut().zip(doubts).zip(temperatures)
    {
        *in_range &= Temperature::can_be(*rise)
            & Temperature::can_be(*reference)
            & TemperatureDifference::can_be(*rise_u)
            & LashCoefficient::can_be_spread(*rise_u)
            & LashCoefficient::can_be_spread(*slope_u);
        // As temperatures are kept and subtracted.
        *rise = Temperature::kelvin_of(*rise) - Temperature::kelvin_of(*reference);
    }
}
