//! Whether the voltage suffices, and where in its band to set a plug's gap.

use super::{ElectricsError, Paschen};
use crate::ignition::aim::low_end;
use crate::quantity::{PlugGap, Voltage};
use crate::tolerance::known::known;
use crate::tolerance::{Estimate, Limits, Uncertainty};
use serde::Serialize;

/// How much voltage there is to spare.
///
/// ```
/// use lashwork::ignition::electrics::{Paschen, breakdown, voltage_reserve};
/// use lashwork::quantity::{AbsolutePressure, PlugGap, Voltage};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let (gap, p) = (PlugGap::parse("0.6 mm")?, AbsolutePressure::parse("8 atm")?);
/// let gap = Estimate::between(gap, gap, Uncertainty::from_number(0.02)?)?;
/// let p = Estimate::between(p, p, Uncertainty::from_number(40.0)?)?;
/// let needed = breakdown(&gap, &p, None, &Paschen::AIR)?.voltage;
/// let coil = |kv: f64| {
///     let volts = Voltage::from_volts(kv * 1000.0).unwrap();
///     Estimate::between(volts, volts, Uncertainty::from_number(500.0).unwrap())
/// };
/// let good = voltage_reserve(&coil(28.0)?, &needed, &Paschen::AIR)?;
/// assert!(good.enough > 0.99);
/// let tired = voltage_reserve(&coil(14.0)?, &needed, &Paschen::AIR)?;
/// assert!(tired.enough < 0.2 && tired.volts < 0.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct VoltageReserve {
    /// What there is less what is needed, both in the middle; negative where it does not suffice.
    pub volts: f64,
    /// Its standard uncertainty.
    pub uncertainty: f64,
    /// What there is over what is needed.
    pub ratio: f64,
    /// How probable it is that there is enough.
    pub enough: f64,
}

/// How much of the available voltage is left over what the plug needs.
///
/// # Errors
/// [`ElectricsError::VoltageTooLow`] if what is available breaks no gap in air;
/// [`ElectricsError::OneSided`].
pub fn voltage_reserve(
    available: &Estimate<Voltage>,
    needed: &Estimate<Voltage>,
    law: &Paschen,
) -> Result<VoltageReserve, ElectricsError> {
    let one_sided = |what| ElectricsError::OneSided { what };
    let (have, have_u) = known(available).ok_or_else(|| one_sided("the available voltage"))?;
    let (need, need_u) = known(needed).ok_or_else(|| one_sided("the needed voltage"))?;
    let (voltage, least) = (Voltage::from_volts(have)?, law.least()?);
    if voltage < least {
        return Err(ElectricsError::VoltageTooLow { voltage, least });
    }
    // Needed below available: as if all the normal doubt were in what is needed.
    let blur = libm::hypot(needed.normal_uncertainty().number(), have_u);
    let blurred = Estimate::of(needed.low(), needed.high(), Uncertainty::from_number(blur)?)?;
    let p = blurred.probabilities(&Limits::at_most(voltage));
    Ok(VoltageReserve {
        volts: have - need,
        uncertainty: libm::hypot(have_u, need_u),
        ratio: have / need,
        enough: p.in_band.least,
    })
}

/// Where to set a plug's gap.
///
/// ```
/// use lashwork::ignition::electrics::plug_gap_aim;
/// use lashwork::tolerance::Uncertainty;
/// let aim = plug_gap_aim(&"0.6 mm to 0.7 mm".parse()?, Uncertainty::from_number(0.01)?)?;
/// assert!((aim.set_to.mm() - 0.6164).abs() < 1e-4);
/// assert!((aim.room_to_burn_mm - 0.0836).abs() < 1e-4);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PlugGapAim {
    /// What to set.
    pub set_to: PlugGap,
    /// How probable it is that the gap then lies in the band.
    pub in_band: f64,
    /// How much the electrodes may burn away until it leaves it, in millimetres.
    pub room_to_burn_mm: f64,
}

/// Where to set a plug's gap, set with standard uncertainty `u`: to the low end of the band, because
/// electrodes burn away and the gap grows. Common practice, no source; how low is this library's rule.
///
/// # Errors
/// [`ElectricsError::BandWithOneEnd`].
pub fn plug_gap_aim(
    band: &Limits<PlugGap>,
    u: Uncertainty<PlugGap>,
) -> Result<PlugGapAim, ElectricsError> {
    let none = || ElectricsError::BandWithOneEnd;
    let at = low_end(band, u.number()).ok_or_else(none)?;
    let upper = band.upper().ok_or_else(none)?.mm();
    let set_to = PlugGap::from_mm(at)?;
    let set = Estimate::between(set_to, set_to, u)?;
    Ok(PlugGapAim {
        set_to,
        in_band: set.probabilities(band).in_band.least,
        room_to_burn_mm: upper - at,
    })
}
