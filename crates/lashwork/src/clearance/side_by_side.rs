//! Rows of columns as plain numbers side by side, for those that are in range in everything.
#![expect(
    clippy::indexing_slicing,
    reason = "all arrays have as many rows, and one number counts through them: what fills registers"
)]
#![expect(
    clippy::needless_bitwise_bool,
    reason = "a branch on what each row decides differently keeps rows apart"
)]
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere knows nothing of the registers this processor has"
)]

use super::columns::{MetalColumns, ReadingColumns};
use super::reading_rows::ReadingRows;
use crate::quantity::{Lash, LashChange, Nominal, Temperature, TemperatureDifference};
use crate::statistics::{Effect, LANES, Lane, Lanes, Worked};
use crate::thermal::LashCoefficient;
use crate::tolerance::{BandJudge, Uncertainty};

/// So many rows, and whether each is in range in all that was read.
pub(super) struct SideBySide {
    pub(super) lanes: Lanes,
    celsius: Lane,
    reference: Lane,
    in_range: [bool; LANES],
}

impl SideBySide {
    /// With what columns say of all rows.
    pub(super) fn of(columns: &ReadingColumns<'_>) -> Self {
        const NONE: Lane = [f64::NAN; LANES];
        let effect = |metal: &MetalColumns<'_>| Effect {
            rise: NONE,
            rise_u: metal.uncertainty.of_all(),
            slope: metal.mm_per_kelvin.of_all(),
            slope_u: metal.mm_per_kelvin_uncertainty.of_all(),
        };
        let metal = columns.metal.as_ref();
        Self {
            lanes: Lanes {
                a: columns.low.of_all(),
                b: columns.high.of_all(),
                u: columns.uncertainty.of_all(),
                low: columns.lower.of_all(),
                high: columns.upper.of_all(),
                effect: metal.map(effect),
            },
            celsius: metal.map_or(NONE, |metal| metal.celsius.of_all()),
            reference: metal.map_or(NONE, |metal| metal.reference.of_all()),
            in_range: [false; LANES],
        }
    }

    /// Takes the rows from one on.
    #[inline(always)]
    pub(super) fn take(&mut self, columns: &ReadingColumns<'_>, from: usize) {
        let Lanes {
            a, b, u, low, high, ..
        } = &mut self.lanes;
        columns.low.fill(from, a);
        columns.high.fill(from, b);
        columns.uncertainty.fill(from, u);
        columns.lower.fill(from, low);
        columns.upper.fill(from, high);
        for i in 0..LANES {
            let (has_low, has_high) = (low[i].is_finite(), high[i].is_finite());
            low[i] = if has_low { low[i] } else { f64::NEG_INFINITY };
            high[i] = if has_high { high[i] } else { f64::INFINITY };
            self.in_range[i] = Lash::can_be(a[i])
                & Lash::can_be(b[i])
                & (a[i] <= b[i])
                & Uncertainty::<Lash>::can_be(u[i])
                & (has_low | has_high)
                & (Nominal::can_be(low[i]) | !has_low)
                & (Nominal::can_be(high[i]) | !has_high)
                & (low[i] <= high[i]);
        }
        if let Some(metal) = &columns.metal {
            self.take_metal(metal, from);
        }
    }

    #[inline(always)]
    fn take_metal(&mut self, metal: &MetalColumns<'_>, from: usize) {
        let Some(effect) = &mut self.lanes.effect else {
            return;
        };
        let (celsius, reference) = (&mut self.celsius, &mut self.reference);
        metal.celsius.fill(from, celsius);
        metal.reference.fill(from, reference);
        metal.uncertainty.fill(from, &mut effect.rise_u);
        metal.mm_per_kelvin.fill(from, &mut effect.slope);
        metal
            .mm_per_kelvin_uncertainty
            .fill(from, &mut effect.slope_u);
        for i in 0..LANES {
            self.in_range[i] &= Temperature::can_be(celsius[i])
                & Temperature::can_be(reference[i])
                & TemperatureDifference::can_be(effect.rise_u[i])
                & LashCoefficient::can_be_spread(effect.rise_u[i])
                & LashCoefficient::can_be_spread(effect.slope_u[i]);
            // As temperatures are kept and subtracted.
            effect.rise[i] =
                Temperature::kelvin_of(celsius[i]) - Temperature::kelvin_of(reference[i]);
        }
    }

    /// Judges what was worked out of the rows; whether all are usual and in range. Those that are have the bits
    /// they get alone.
    #[inline(always)]
    pub(super) fn judge(
        &self,
        found: &mut Worked,
        band: &mut BandJudge<'_, Lash>,
        rows: &mut ReadingRows,
    ) -> bool {
        let moved = self.lanes.effect.is_some();
        let mut all = true;
        for i in 0..LANES {
            let is_change = LashChange::can_be(found.change[i])
                & Uncertainty::<Lash>::can_be(found.change_u[i]);
            found.usual[i] &= self.in_range[i] & (!moved | is_change);
            all &= found.usual[i];
        }
        let limits = (&self.lanes.low, &self.lanes.high);
        band.judge_each(found, limits, &mut rows.verdict, &mut rows.provable);
        let [below, same_below, inside, same_inside, above, same_above] = &mut rows.probabilities;
        (*below, *same_below) = (found.below, found.below);
        (*inside, *same_inside) = (found.inside, found.inside);
        (*above, *same_above) = (found.above, found.above);
        (rows.low, rows.high, rows.u) = (found.a, found.b, found.u);
        rows.at_reference = [true; LANES];
        all
    }
}
