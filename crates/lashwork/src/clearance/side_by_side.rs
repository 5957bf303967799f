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
use crate::quantity::{Lash, LashChange, Nominal, Temperature, TemperatureDifference};
use crate::statistics::{Effect, LANES, Lane, Lanes, Worked};
use crate::thermal::LashCoefficient;
use crate::tolerance::{Column, Uncertainty};

/// Room for what does not stand in a column as it is needed.
pub(super) struct SideBySide {
    a: Lane,
    b: Lane,
    u: Lane,
    lower: Lane,
    upper: Lane,
    low: Lane,
    high: Lane,
    metal: Room,
    in_range: [bool; LANES],
}

/// Likewise for columns of the metal.
struct Room {
    celsius: Lane,
    reference: Lane,
    rise: Lane,
    rise_u: Lane,
    slope: Lane,
    slope_u: Lane,
}

impl SideBySide {
    /// With what columns say of all rows.
    pub(super) fn of(columns: &ReadingColumns<'_>) -> Self {
        Self {
            a: columns.low.of_all(),
            b: columns.high.of_all(),
            u: columns.uncertainty.of_all(),
            lower: columns.lower.of_all(),
            upper: columns.upper.of_all(),
            low: [0.0; LANES],
            high: [0.0; LANES],
            metal: Room::of(columns.metal.as_ref()),
            in_range: [false; LANES],
        }
    }

    /// Takes the rows from one on, and works them out; which are in range in everything, and usual.
    #[inline(always)]
    pub(super) fn work_out(
        &mut self,
        columns: &ReadingColumns<'_>,
        from: usize,
        found: &mut Worked,
        work_out: impl Fn(&mut Worked, &Lanes<'_>),
    ) {
        let a = columns.low.lane(from, &mut self.a);
        let b = columns.high.lane(from, &mut self.b);
        let u = columns.uncertainty.lane(from, &mut self.u);
        let lower = columns.lower.lane(from, &mut self.lower);
        let upper = columns.upper.lane(from, &mut self.upper);
        let (low, high, in_range) = (&mut self.low, &mut self.high, &mut self.in_range);
        for i in 0..LANES {
            let (has_low, has_high) = (lower[i].is_finite(), upper[i].is_finite());
            low[i] = if has_low { lower[i] } else { f64::NEG_INFINITY };
            high[i] = if has_high { upper[i] } else { f64::INFINITY };
            in_range[i] = Lash::can_be(a[i])
                & Lash::can_be(b[i])
                & (a[i] <= b[i])
                & Uncertainty::<Lash>::can_be(u[i])
                & (has_low | has_high)
                & (Nominal::can_be(low[i]) | !has_low)
                & (Nominal::can_be(high[i]) | !has_high)
                & (low[i] <= high[i]);
        }
        let metal = columns.metal.as_ref();
        let effect = metal.map(|metal| self.metal.take(metal, from, in_range));
        let lanes = Lanes {
            a,
            b,
            u,
            low,
            high,
            effect,
        };
        work_out(found, &lanes);
        for (usual, in_range) in found.usual.iter_mut().zip(in_range) {
            *usual &= *in_range;
        }
        if metal.is_some() {
            for i in 0..LANES {
                found.usual[i] &= LashChange::can_be(found.change[i])
                    & Uncertainty::<Lash>::can_be(found.change_u[i]);
            }
        }
    }

    /// The limits of the rows, infinite where there is none.
    pub(super) const fn limits(&self) -> (&Lane, &Lane) {
        (&self.low, &self.high)
    }
}

impl Room {
    fn of(metal: Option<&MetalColumns<'_>>) -> Self {
        let all = |column: for<'c> fn(&MetalColumns<'c>) -> Column<'c>| {
            metal.map_or(Column::NONE, column).of_all()
        };
        Self {
            celsius: all(|metal| metal.celsius),
            reference: all(|metal| metal.reference),
            rise: [0.0; LANES],
            rise_u: all(|metal| metal.uncertainty),
            slope: all(|metal| metal.mm_per_kelvin),
            slope_u: all(|metal| metal.mm_per_kelvin_uncertainty),
        }
    }

    #[inline(always)]
    fn take<'l>(
        &'l mut self,
        metal: &MetalColumns<'l>,
        from: usize,
        in_range: &mut [bool; LANES],
    ) -> Effect<'l> {
        let celsius = metal.celsius.lane(from, &mut self.celsius);
        let reference = metal.reference.lane(from, &mut self.reference);
        let rise_u = metal.uncertainty.lane(from, &mut self.rise_u);
        let slope = metal.mm_per_kelvin.lane(from, &mut self.slope);
        let slope_u = (metal.mm_per_kelvin_uncertainty).lane(from, &mut self.slope_u);
        let rise = &mut self.rise;
        for i in 0..LANES {
            in_range[i] &= Temperature::can_be(celsius[i])
                & Temperature::can_be(reference[i])
                & TemperatureDifference::can_be(rise_u[i])
                & LashCoefficient::can_be_spread(rise_u[i])
                & LashCoefficient::can_be_spread(slope_u[i]);
            // As temperatures are kept and subtracted.
            rise[i] = Temperature::kelvin_of(celsius[i]) - Temperature::kelvin_of(reference[i]);
        }
        Effect {
            rise,
            rise_u,
            slope,
            slope_u,
        }
    }
}
