//! Shims: the series, the stock and the rules of their use.

use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::adjust::{Adjuster, ShimRules, SwapScope, UsedShims, gap_per_shim};
use lashwork::adjust::{ShimRounding, ShimSeat, ShimSeries, ShimStock, StockError, StockShim};
use lashwork::quantity::{Marked, ShimThickness};
use lashwork::tolerance::Uncertainty;

named!(ShimRounding as "RoundingDoc" {
    /// The nearer of two sizes; halfway, the thinner.
    Nearest = "nearest",
    /// The thinner of two sizes: the gap is never tighter than the value to set.
    NeverTighter = "never_tighter",
});
named!(SwapScope as "SwapDoc" {
    /// Shims of valves out of band; a valve in its band is not touched.
    OnlyOutOfBand = "only_out_of_band",
    /// Any shim, if that saves a purchase or helps another valve.
    Any = "any",
});

named!(UsedShims as "UsedShimsDoc" {
    /// A fitted shim may be moved to another valve.
    Allowed = "allowed",
    /// The maker wants new shims.
    Forbidden = "forbidden",
});

parts! {
    /// Shims: how the gap follows their thickness, the sizes available, and those on hand.
    ShimDoc {
        /// How much the gap closes for each millimetre the shim grows: 1 on a bucket. This or `shim_per_gap`.
        gap_per_shim: Option<f64>,
        /// The factor a book multiplies the difference of gaps by, often the rocker's ratio: new = old +
        /// (measured - wanted) x factor. This or `gap_per_shim`.
        shim_per_gap: Option<f64>,
        series: Option<SeriesDoc>,
        /// Shims on hand, at most 500 in all.
        stock: Option<Vec<StockDoc>>,
        /// Which of two sizes to take; what is taken if this is not stated is listed with the assumptions.
        rounding: Option<W<ShimRounding>>,
        /// Whose shims may be moved; those of valves out of band if not stated.
        swap: Option<W<SwapScope>>,
        /// Whether the maker allows shims that have run to be fitted again; taken so if not stated.
        used_shims: Option<W<UsedShims>>,
        /// Standard uncertainty of the thickness of a shim that states none of its own.
        uncertainty: Option<Q<Marked>>,
    }
    /// Shims for one valve; what a quick check takes.
    OneShimDoc {
        gap_per_shim: Option<f64>,
        shim_per_gap: Option<f64>,
        series: Option<SeriesDoc>,
        rounding: Option<W<ShimRounding>>,
        uncertainty: Option<Q<Marked>>,
    }
    /// Sizes from first to last.
    SeriesDoc { first: Q<Marked>, last: Q<Marked>, step: Q<Marked> }
    /// Shims of one size on hand.
    StockDoc {
        /// The size marked on them.
        size: Q<Marked>,
        /// What they measure, if measured; otherwise the marked size is used.
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
            gap_per_shim: one.gap_per_shim,
            shim_per_gap: one.shim_per_gap,
            series: one.series,
            stock: None,
            rounding: one.rounding,
            swap: None,
            used_shims: None,
            uncertainty: one.uncertainty,
        }
    }
}

/// Setting lash with shims.
pub(super) fn shim(doc: &ShimDoc, at: &str, problems: &mut Vec<Problem>) -> Option<Adjuster> {
    let before = problems.len();
    let series = doc.series.as_ref().and_then(|s| {
        let made = ShimSeries::new(s.first.0, s.last.0, s.step.0);
        value(problems, format!("{at}/series"), made)
    });
    let ratio = ratio(doc, at, problems);
    let list = doc.stock.as_deref().unwrap_or_default();
    let stock = stock(list, series.as_ref(), &format!("{at}/stock"), problems);
    let rules = ShimRules {
        rounding: doc.rounding.map(|r| r.0),
        swap: doc.swap.map(|s| s.0),
        used: doc.used_shims.map(|u| u.0),
        size_uncertainty: uncertainty(doc.uncertainty, &format!("{at}/uncertainty"), problems),
    };
    if problems.len() > before {
        return None;
    }
    Some(Adjuster::Shim {
        ratio: ratio?,
        series,
        stock: stock?,
        rules,
    })
}

/// How the gap follows the shim, in the one form that is given.
fn ratio(doc: &ShimDoc, at: &str, problems: &mut Vec<Problem>) -> Option<f64> {
    match (doc.gap_per_shim, doc.shim_per_gap) {
        (Some(gap), None) => {
            let made = ShimSeat::UnderRocker.ratio(gap);
            value(problems, format!("{at}/gap_per_shim"), made)
        }
        (None, Some(shim)) => value(problems, format!("{at}/shim_per_gap"), gap_per_shim(shim)),
        (both, _) => {
            problems.push(Problem::new(
                at,
                "adjust.shim-ratio",
                if both.is_some() {
                    "the shim has both \"gap_per_shim\" and \"shim_per_gap\""
                } else {
                    "how the gap follows the shim is not stated"
                },
                "give one: \"gap_per_shim\": 1 on a bucket; \"shim_per_gap\" where the book multiplies \
                 the difference of gaps by a factor, new = old + (measured - wanted) x factor",
            ));
            None
        }
    }
}

fn stock(
    list: &[StockDoc],
    series: Option<&ShimSeries>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<ShimStock> {
    if !is_short(list, place, problems) {
        return None;
    }
    let (mut shims, mut written) = (Vec::new(), Vec::new());
    for (i, doc) in list.iter().enumerate() {
        let at = format!("{place}/{i}");
        let u = uncertainty(doc.uncertainty, &format!("{at}/uncertainty"), problems);
        let measured = doc.measured.map(|m| m.0);
        match StockShim::new(doc.size.0, measured, doc.count, u) {
            Ok(shim) => {
                shims.push(shim);
                written.push(i);
            }
            Err(e) => {
                let place = format!("{at}/{}", field(&e));
                problems.push(Problem::at(place, &e));
            }
        }
    }
    match ShimStock::new(shims, series) {
        Ok(stock) => Some(stock),
        Err(faults) => {
            for (index, fault) in faults {
                let i = written.get(index).copied().unwrap_or(index);
                let at = format!("{place}/{i}/{}", field(&fault));
                problems.push(Problem::at(at, &fault));
            }
            None
        }
    }
}

/// The field of a stock shim that a fault is about.
fn field(error: &StockError) -> &'static str {
    match error {
        StockError::Count { .. } | StockError::TooMany { .. } => "count",
        StockError::MeasuredFarOff { .. } => "measured",
        _ => "size",
    }
}

/// A standard uncertainty of a thickness.
pub(super) fn uncertainty(
    written: Option<Q<Marked>>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Uncertainty<ShimThickness>> {
    value(problems, place, Uncertainty::from_mm(written?.0.mm()))
}
