//! Which shim goes where.

use crate::quantity::{Lash, Marked, Nominal, ShimThickness};
use crate::tolerance::{Probabilities, Verdict};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Where a shim comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ShimFrom {
    /// Out of another valve, by name.
    Valve(String),
    /// From stock, by the size marked on it.
    Stock(Marked),
    /// Bought in this size.
    Buy(Nominal),
}

/// A valve that gets another shim.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShimMove {
    /// The valve by name.
    pub valve: String,
    /// Which group of moves it belongs to, from 1: within a group each valve after the first gets
    /// the shim lifted out of the one before.
    pub group: usize,
    /// Where the shim comes from.
    pub from: ShimFrom,
    /// The shim that is lifted out.
    pub old: ShimThickness,
    /// The shim that is fitted.
    pub new: ShimThickness,
    /// Lower end of the lash to expect, at the reference temperature.
    pub low: Option<Lash>,
    /// Upper end of the lash to expect, at the reference temperature.
    pub high: Option<Lash>,
    /// Standard uncertainty of that lash in all, in millimetres: the reading, the correction, and
    /// both shims.
    pub standard_uncertainty_mm: Option<f64>,
    /// The set band it is judged against, as printed.
    pub limits: String,
    /// Whether its best estimate lies in the set band.
    pub in_set: bool,
    /// The verdict to expect.
    pub verdict: Verdict,
    /// How certain it is.
    pub probabilities: Probabilities,
}

/// So many shims of one size.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(
    feature = "schema",
    derive(schemars::JsonSchema),
    schemars(rename = "ShimCountOf{S}")
)]
pub struct ShimCount<S> {
    /// The size.
    pub size: S,
    /// How many.
    pub count: u32,
}

/// A shim that no valve needs any more.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShimLeft {
    /// The valve it is lifted out of.
    pub valve: String,
    /// How thick it is.
    pub thickness: ShimThickness,
}

/// A valve that is not in the band and gets no other shim.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct NotShimmed {
    /// The valve by name.
    pub valve: String,
    /// Why.
    pub reason: &'static str,
}

/// The best use of shims by one specification.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShimPlanReport {
    /// The specification.
    pub specification: String,
    /// Whether the shims are sold, or else kept, in inch sizes; the sheet then shows both units.
    pub in_inches: bool,
    /// Valves that get another shim, in working order.
    pub moves: Vec<ShimMove>,
    /// What to buy, thinnest first.
    pub buy: Vec<ShimCount<Nominal>>,
    /// What to take from stock, in the order of the stock.
    pub from_stock: Vec<ShimCount<Marked>>,
    /// Shims lifted out that no valve needs.
    pub left_over: Vec<ShimLeft>,
    /// Valves in the band that keep their shim.
    pub keep: Vec<String>,
    /// Valves that are not planned, or that no shim would serve better.
    pub cannot: Vec<NotShimmed>,
}
