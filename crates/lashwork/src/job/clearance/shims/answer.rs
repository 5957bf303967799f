//! Which shim goes where.

use crate::adjust::{JudgedSize, ShimRounding};
use crate::quantity::{
    CrankAngle, CyclePosition, DistributorAngle, Lash, Marked, Nominal, ShimThickness,
};
use crate::tolerance::{Probabilities, Verdict};
use crate::valve::ShimWork;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Where a shim comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
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
#[non_exhaustive]
pub struct ShimMove {
    /// The valve by name.
    pub valve: String,
    /// Which group of moves it belongs to, from 1: within a group each valve after the first gets
    /// the shim lifted out of the one before.
    pub group: usize,
    /// At which of the plan's stops it gets its new shim, from 1; nothing if there is no place where
    /// the valve is closed and the piston away from its top.
    pub stop: Option<usize>,
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
    /// What the leaves should find at the present temperature, in the middle.
    pub feel_now: Option<Lash>,
    /// The verdict to expect.
    pub verdict: Verdict,
    /// How certain it is.
    pub probabilities: Probabilities,
    /// Sizes to buy on either side of the exact thickness, without the one chosen: what they would
    /// leave. Empty unless the shim is bought.
    pub others: Vec<JudgedSize>,
    /// Why to look for a cause before it is fitted, in words, if the gap has opened far.
    pub find_cause: Option<String>,
}

/// A stop of the crank at which shims are changed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ShimStopReport {
    /// Crank degrees after firing TDC of the first cylinder in the firing order.
    pub position: CyclePosition,
    /// Turn forward from the stop before, or from where the crank is now.
    pub turn: CrankAngle,
    /// Where the distributor rotor points, from its place at the first position.
    pub rotor: DistributorAngle,
    /// Distance along the pulley's rim from the TDC mark of the first cylinder, in millimetres,
    /// against the running direction.
    pub pulley_mark_mm: Option<f64>,
    /// What is done here, in this order.
    pub work: Vec<ShimVisitReport>,
}

/// What is done at a valve.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ShimVisitReport {
    /// The valve by name.
    pub valve: String,
    /// Its step in the plan's moves, from 1.
    pub step: usize,
    /// What is done.
    pub work: ShimWork,
    /// Its cylinder's label.
    pub cylinder: String,
    /// Crank degrees after the cylinder's firing TDC; negative before it.
    pub after_firing_tdc: CrankAngle,
    /// How far one may be off the place either way, in crank degrees: beyond it the valve may open or
    /// the piston be near its top.
    pub margin: CrankAngle,
    /// How far the piston is then below its top, in millimetres, if its rod was described.
    pub piston_down_mm: Option<f64>,
    /// Whether every valve of the cylinder is closed there, not only this one.
    pub all_closed: bool,
}

/// So many shims of one size.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(
    feature = "schema",
    derive(schemars::JsonSchema),
    schemars(rename = "ShimCountOf{S}")
)]
#[non_exhaustive]
pub struct ShimCount<S> {
    /// The size.
    pub size: S,
    /// How many.
    pub count: u32,
}

/// A shim that no valve needs any more.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ShimLeft {
    /// The valve it is lifted out of.
    pub valve: String,
    /// How thick it is.
    pub thickness: ShimThickness,
}

/// A valve that is not in the band and gets no other shim.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct NotShimmed {
    /// The valve by name.
    pub valve: String,
    /// Why.
    pub reason: String,
    /// Sizes to buy on either side of the exact thickness and what they would leave, where none of
    /// them brings the valve into its band.
    pub others: Vec<JudgedSize>,
}

/// The best use of shims by one specification.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ShimPlanReport {
    /// The specification.
    pub specification: String,
    /// Whether the shims are sold, or else kept, in inch sizes; the sheet then names them so.
    pub in_inches: bool,
    /// How sizes are rounded, if that was stated; else every size is looked at.
    pub rounding: Option<ShimRounding>,
    /// Valves that get another shim, in the order in which they get it, turning the crank forward.
    pub moves: Vec<ShimMove>,
    /// Where the crank is stopped to change them.
    pub stops: Vec<ShimStopReport>,
    /// Forward turning to the last of these stops, from where the crank is now if that is known, else
    /// from the first of them.
    pub total_turn: CrankAngle,
    /// What can hurt the engine when shims are changed.
    pub cautions: Vec<&'static str>,
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
