//! Shims: the series, the stock and the rules of their use.

use super::{fault, is_short, value};
use crate::document::{RoundingDoc, ShimDoc, StockDoc, SwapDoc};
use crate::quantity::Q;
use lashwork::adjust::{ShimRounding, ShimSeat, ShimSeries, ShimStock, StockError, StockShim};
use lashwork::job::{Adjuster, Problem, ShimRules, SwapScope};
use lashwork::quantity::{Marked, ShimThickness};
use lashwork::tolerance::Uncertainty;

/// Setting lash with shims.
pub(super) fn shim(doc: &ShimDoc, problems: &mut Vec<Problem>) -> Option<Adjuster> {
    let before = problems.len();
    let series = doc.series.as_ref().and_then(|s| {
        let made = ShimSeries::new(s.first.0, s.last.0, s.step.0);
        value!(problems, "/valves/shim/series", made)
    });
    value!(
        problems,
        "/valves/shim/ratio",
        ShimSeat::UnderRocker.ratio(doc.ratio)
    );
    let list = doc.stock.as_deref().unwrap_or_default();
    let stock = stock(list, series.as_ref(), problems);
    let rules = ShimRules {
        rounding: doc.rounding.map(|r| match r {
            RoundingDoc::Nearest => ShimRounding::Nearest,
            RoundingDoc::NeverTighter => ShimRounding::NeverTighter,
        }),
        swap: doc.swap.map(|s| match s {
            SwapDoc::OnlyOutOfBand => SwapScope::OnlyOutOfBand,
            SwapDoc::Any => SwapScope::Any,
        }),
        size_uncertainty: uncertainty(doc.uncertainty, "/valves/shim/uncertainty", problems),
    };
    if problems.len() > before {
        return None;
    }
    Some(Adjuster::Shim {
        ratio: doc.ratio,
        series,
        stock: stock?,
        rules,
    })
}

fn stock(
    list: &[StockDoc],
    series: Option<&ShimSeries>,
    problems: &mut Vec<Problem>,
) -> Option<ShimStock> {
    let place = "/valves/shim/stock";
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
                fault!(problems, place, e);
            }
        }
    }
    match ShimStock::new(shims, series) {
        Ok(stock) => Some(stock),
        Err(faults) => {
            for (index, fault) in faults {
                let i = written.get(index).copied().unwrap_or(index);
                let at = format!("{place}/{i}/{}", field(&fault));
                fault!(problems, at, fault);
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
    value!(problems, place, Uncertainty::from_mm(written?.0.mm()))
}
