//! What was found of an engine.

use super::{
    CompressionSign, DriftSign, DwellSign, LambdaSign, LashSign, LeakSign, MonoxideSign,
    OxygenSign, PlugSign, PressureSign, SeatSign, Seen, TimingSign, UnburntSign,
};
use crate::mixture::gauge::GaugeCheck;

/// What was found of one cylinder; whatever is left out is not known.
///
/// ```
/// use lashwork::causes::{CylinderSigns, PlugSign};
/// let third = CylinderSigns { plug: Some(PlugSign::Oily.into()), ..CylinderSigns::default() };
/// assert!(third.lash.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CylinderSigns {
    /// Its clearances, as found.
    pub lash: Option<Seen<LashSign>>,
    /// How they went since they were set.
    pub drift: Option<Seen<DriftSign>>,
    /// Its compression.
    pub compression: Option<Seen<CompressionSign>>,
    /// Its leak.
    pub leak: Option<Seen<LeakSign>>,
    /// Its plug.
    pub plug: Option<Seen<PlugSign>>,
}

/// What was found of the engine as a whole; whatever is left out is not known.
///
/// ```
/// use lashwork::causes::{EngineSigns, TimingSign};
/// let signs = EngineSigns { timing: Some(TimingSign::Late.into()), ..EngineSigns::default() };
/// assert!(signs.gauge.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct EngineSigns {
    /// How the exhaust valves went together since they were set.
    pub seats: Option<Seen<SeatSign>>,
    /// Compression against what this engine should show.
    pub pressure: Option<Seen<PressureSign>>,
    /// What the vacuum gauge shows; findings other than the gauge's own are left out of it.
    pub gauge: Option<GaugeCheck>,
    /// Carbon monoxide.
    pub monoxide: Option<Seen<MonoxideSign>>,
    /// Unburnt fuel.
    pub unburnt: Option<Seen<UnburntSign>>,
    /// Oxygen.
    pub oxygen: Option<Seen<OxygenSign>>,
    /// Lambda; left out where carbon monoxide or oxygen is given, of which it is reckoned.
    pub lambda: Option<Seen<LambdaSign>>,
    /// Ignition timing.
    pub timing: Option<Seen<TimingSign>>,
    /// Dwell.
    pub dwell: Option<Seen<DwellSign>>,
}
