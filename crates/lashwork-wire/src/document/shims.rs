//! Shims: what can be had, what is on hand, and how they may be used.

use super::{JsonSchema, Marked, Q, ShimThickness};

words!(RoundingDoc {
    /// The nearer of two sizes; halfway, the thinner.
    Nearest = "nearest",
    /// The thinner of two sizes: the gap is never tighter than the value to set.
    NeverTighter = "never_tighter",
});
words!(SwapDoc {
    /// Shims of valves out of band; a valve in its band is not touched.
    OnlyOutOfBand = "only_out_of_band",
    /// Any shim, if that saves a purchase or helps another valve.
    Any = "any",
});

parts! {
    /// Shims: how the gap follows their thickness, the sizes that can be had, and those on hand.
    ShimDoc {
        /// Change of gap for one unit of shim: 1 on a bucket.
        ratio: f64,
        series: Option<SeriesDoc>,
        /// Shims on hand, at most 500 in all.
        stock: Option<Vec<StockDoc>>,
        /// Which of two sizes to take; for what is taken if not stated, see the assumptions.
        rounding: Option<RoundingDoc>,
        /// Whose shims may be moved; those of valves out of band if not stated.
        swap: Option<SwapDoc>,
        /// Standard uncertainty of the thickness of a shim that states none of its own.
        uncertainty: Option<Q<Marked>>,
    }
    /// Shims where one valve is looked at; what a quick check takes.
    OneShimDoc {
        ratio: f64,
        series: Option<SeriesDoc>,
        rounding: Option<RoundingDoc>,
        uncertainty: Option<Q<Marked>>,
    }
    /// Sizes from first to last.
    SeriesDoc { first: Q<Marked>, last: Q<Marked>, step: Q<Marked> }
    /// Shims of one size on hand.
    StockDoc {
        /// The size marked on them.
        size: Q<Marked>,
        /// What they measure, if measured; else they are taken at their mark.
        measured: Option<Q<ShimThickness>>,
        /// How many there are.
        count: i64,
        /// Standard uncertainty of the thickness.
        uncertainty: Option<Q<Marked>>,
    }
}

impl From<OneShimDoc> for ShimDoc {
    fn from(one: OneShimDoc) -> Self {
        Self {
            ratio: one.ratio,
            series: one.series,
            stock: None,
            rounding: one.rounding,
            swap: None,
            uncertainty: one.uncertainty,
        }
    }
}
