//! What the condition step needs to know, in typed values.

use super::compression::Compression;
use super::head::Head;
use super::leak::LeakDown;
use crate::condition::compression::HeadRows;
use crate::engine::CompressionRatio;
use crate::job::mixture::AirAround;
use crate::job::work::Settled;
use crate::quantity::{CrankAngle, Length, Volume};
use crate::tolerance::Uncertainty;

/// Condition: the engine's dimensions as far as they bear on it, and a field for each question.
///
/// What is left out is assumed where the kernel can, and listed in
/// [`Report::assumptions`](crate::job::Report::assumptions).
///
/// ```
/// use lashwork::job::Settled;
/// use lashwork::job::condition::Condition;
/// let mut asked = Condition::default();
/// asked.valves = Some(Settled::Yes);
/// assert!(asked.compression.is_none());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Condition {
    /// Whether the valve clearances are settled; what the clearance section found goes before it.
    pub valves: Option<Settled>,
    /// The air around; that of the mixture section, if none is stated here.
    pub air: Option<AirAround>,
    /// The printed compression ratio.
    pub ratio: Option<CompressionRatio>,
    /// Standard uncertainty of the ratio.
    pub ratio_u: Option<f64>,
    /// Where the intake closes at the running lash, after bottom dead centre; of a two-stroke, where the exhaust
    /// port closes. As printed for the valves, if it is not stated here.
    pub intake_closes: Option<CrankAngle>,
    /// Standard uncertainty of that.
    pub intake_closes_u: Option<Uncertainty<CrankAngle>>,
    /// Bore of the cylinders.
    pub bore: Option<Length>,
    /// Volume that one piston sweeps.
    pub swept: Option<Volume>,
    /// Which cylinders stand side by side under one head; by the layout of the engine, if not stated.
    pub heads: Option<HeadRows>,
    /// The head's bolts.
    pub head: Option<Head>,
    /// Cranking compression.
    pub compression: Option<Compression>,
    /// Leak-down.
    pub leak: Option<LeakDown>,
}
