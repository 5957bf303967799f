//! What a compression test says.

use super::{
    CompressionAssumption, CrankingFault, ExponentDoubt, GasketBetween, Level, RuleVerdict,
    Standard, WeighedCause,
};
use crate::engine::CylinderLabel;
use crate::quantity::GaugePressure;
use crate::tolerance::Estimate;
use alloc::vec::Vec;
use serde::Serialize;

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CompressionLook {
    /// Crank again, as it should be.
    CrankAgain,
    /// Valve clearances: a tight valve alone lowers a cylinder.
    Clearances,
    /// The low cylinders again with oil.
    Oil,
    /// Leak-down of the low cylinders.
    LeakDown,
    /// Valve timing, since all cylinders are low alike.
    ValveTiming,
}

/// What a cylinder's reading says.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CylinderAnswer {
    /// The cylinder.
    pub cylinder: CylinderLabel,
    /// What it should show by the good cylinders beside it.
    pub expected: Option<Estimate<GaugePressure>>,
    /// What it shows over that.
    pub share: Option<f64>,
    /// Its standard uncertainty.
    pub share_u: Option<f64>,
    /// The causes, most probable first; none without a cylinder to compare with.
    pub causes: Vec<WeighedCause>,
}

/// The answer to a [`CompressionTest`](super::CompressionTest).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CompressionAnswer {
    /// The rules, in their order.
    pub rules: Vec<RuleVerdict>,
    /// The good cylinders.
    pub standard: Option<Standard>,
    /// The engine as a whole against its dimensions.
    pub level: Option<Level>,
    /// An exponent that cannot be.
    pub doubt: Option<ExponentDoubt>,
    /// Each cylinder, in the order of the readings.
    pub cylinders: Vec<CylinderAnswer>,
    /// Head gaskets between neighbours.
    pub gaskets: Vec<GasketBetween>,
    /// What about the cranking moves the readings.
    pub faults: Vec<CrankingFault>,
    /// What to do next; none if every cylinder is sound.
    pub next: Option<CompressionLook>,
    /// What was taken for granted.
    pub assumptions: Vec<CompressionAssumption>,
}
