//! What the mixture step needs to know, in typed values.

use super::air::AirAround;
use super::balance::Balance;
use super::float::Float;
use super::gas::Gas;
use super::gauge::Gauge;
use super::idle::Idle;
use super::jets::Jets;
use crate::job::work::Settled;
use crate::mixture::gas::Fuel;

/// Mixture: the air and the fuel, and a field for each question.
///
/// What is left out is assumed where the kernel can, and listed in
/// [`Report::assumptions`](crate::job::Report::assumptions).
///
/// ```
/// use lashwork::job::Settled;
/// use lashwork::job::mixture::Mixture;
/// let mut asked = Mixture::default();
/// asked.timing = Some(Settled::Yes);
/// assert!(asked.air.is_none());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Mixture {
    /// Whether the valve clearances are settled; what the clearance section found goes before it.
    pub valves: Option<Settled>,
    /// Whether the timing is settled; what the ignition section found goes before it.
    pub timing: Option<Settled>,
    /// The air the engine breathes.
    pub air: Option<AirAround>,
    /// The fuel it burns.
    pub fuel: Option<Fuel>,
    /// What the vacuum gauge showed.
    pub gauge: Option<Gauge>,
    /// The fuel level in the float chambers.
    pub float: Option<Float>,
    /// Which jets go with that air.
    pub jets: Option<Jets>,
    /// How evenly throttles share the work.
    pub balance: Option<Balance>,
    /// Idle speed and mixture.
    pub idle: Option<Idle>,
    /// What the exhaust gas showed.
    pub gas: Option<Gas>,
}
