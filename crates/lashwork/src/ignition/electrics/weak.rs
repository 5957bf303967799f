//! The speed from which a coil no longer holds what a spark needs.
//!
//! # Method
//! The current has risen to the share `x` of its end after `t = -L/R ln(1 - x)`; the cam turns through the
//! dwell in that time at the speed asked for. Current and energy only fall with speed, so that there is
//! one such speed, exact in closed form.

use super::coil::Plain;
use super::{ElectricsError, PrimaryCircuit};
use crate::ignition::breaker::{BreakerCam, Dwell};
use crate::quantity::{BriefTime, CrankSpeed, Current, Energy};
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, normal, together};
use serde::Serialize;
use uom::si::ratio::ratio;

/// From when a spark is called weak.
///
/// ```
/// use lashwork::ignition::electrics::Weak;
/// assert_ne!(Weak::BelowShareOfCurrent(0.8), Weak::BelowShareOfEnergy(0.64));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Weak {
    /// Below this share of the current that flows in the end.
    BelowShareOfCurrent(f64),
    /// Below this share of the energy that is stored in the end.
    BelowShareOfEnergy(f64),
    /// Below this current.
    BelowCurrent(Current),
    /// Below this energy.
    BelowEnergy(Energy),
}

/// The share of the full current that is wanted, and how its logarithm follows those of supply,
/// resistance and inductance.
struct Wanted {
    share: f64,
    by_supply: f64,
    by_resistance: f64,
    by_inductance: f64,
}

impl PrimaryCircuit {
    /// The crank speed above which the coil is weak.
    ///
    /// # Errors
    /// [`ElectricsError::Share`]; [`ElectricsError::NeverReached`] where even closed for ever the contacts
    /// do not give that much; [`ElectricsError::OneSided`], and as
    /// [`Lobes::check`](crate::ignition::breaker::Lobes::check).
    ///
    /// ```
    /// use lashwork::ignition::breaker::{BreakerCam, CamSpeed, Dwell, Lobes};
    /// use lashwork::ignition::electrics::{PrimaryCircuit, Weak};
    /// use lashwork::quantity::{Energy, Inductance, Resistance, Voltage};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let (v, r) = (Voltage::parse("12 V")?, Resistance::parse("3 ohm")?);
    /// let l = Inductance::parse("10 mH")?;
    /// let circuit = PrimaryCircuit {
    ///     supply: Estimate::between(v, v, Uncertainty::ZERO)?,
    ///     resistance: Estimate::between(r, r, Uncertainty::ZERO)?,
    ///     inductance: Estimate::between(l, l, Uncertainty::ZERO)?,
    /// };
    /// let cam = BreakerCam { lobes: Lobes::new(4)?, speed: CamSpeed::HalfCrank };
    /// let dwell = Dwell::from_degrees(60.0)?;
    /// let dwell = Estimate::between(dwell, dwell, Uncertainty::from_number(1.0)?)?;
    /// let weak = circuit.speed_at(Weak::BelowEnergy(Energy::parse("30 mJ")?), cam, &dwell)?;
    /// assert!((weak.centre().unwrap().rpm() - 6331.0).abs() < 1.0);
    /// let never = circuit.speed_at(Weak::BelowEnergy(Energy::parse("90 mJ")?), cam, &dwell);
    /// assert!(never.is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn speed_at(
        &self,
        weak: Weak,
        cam: BreakerCam,
        dwell: &Estimate<Dwell>,
    ) -> Result<Estimate<CrankSpeed>, ElectricsError> {
        let what = "the dwell";
        let (degrees, dwell_u) = known(dwell).ok_or(ElectricsError::OneSided { what })?;
        let plain = self.plain()?;
        let wanted = wanted(weak, &plain)?;
        let rise = -libm::log1p(-wanted.share);
        let time = BriefTime::of_si(plain.inductance.si() / plain.resistance.si() * rise)?;
        // At one revolution a minute everything takes so long; time and speed are inverse.
        let slow = cam.closed_time(Dwell::from_degrees(degrees)?, CrankSpeed::from_rpm(1.0)?)?;
        let rpm = slow.milliseconds() / time.milliseconds();
        let by_share = wanted.share / ((1.0 - wanted.share) * rise);
        let u = together([
            dwell_u / degrees,
            by_share * wanted.by_supply * plain.supply_u,
            (by_share * wanted.by_resistance - 1.0) * plain.resistance_u,
            (by_share * wanted.by_inductance + 1.0) * plain.inductance_u,
        ]);
        Ok(normal(rpm, rpm * u)?)
    }
}

fn wanted(weak: Weak, plain: &Plain) -> Result<Wanted, ElectricsError> {
    let (v, r, l) = (
        plain.supply.si(),
        plain.resistance.si(),
        plain.inductance.si(),
    );
    let free = |share: f64| {
        if share > 0.0 && share < 1.0 {
            Ok(share)
        } else {
            Err(ElectricsError::Share { got: share })
        }
    };
    let reached = |share: f64, wanted: f64, full: f64, unit: &'static str| {
        if share < 1.0 {
            free(share)
        } else {
            Err(ElectricsError::NeverReached { wanted, full, unit })
        }
    };
    let full = v / r;
    let of_itself = |share| Wanted {
        share,
        by_supply: 0.0,
        by_resistance: 0.0,
        by_inductance: 0.0,
    };
    Ok(match weak {
        Weak::BelowShareOfCurrent(share) => of_itself(free(share)?),
        Weak::BelowShareOfEnergy(share) => of_itself(libm::sqrt(free(share)?)),
        Weak::BelowCurrent(current) => {
            let share = (current.si() / full).get::<ratio>();
            let most = Current::of_si(full)?.amperes();
            Wanted {
                share: reached(share, current.amperes(), most, "A")?,
                by_supply: -1.0,
                by_resistance: 1.0,
                by_inductance: 0.0,
            }
        }
        Weak::BelowEnergy(energy) => {
            let stored = 0.5 * l * full * full;
            let share = libm::sqrt((energy.si() / stored).get::<ratio>());
            let most = Energy::of_si(stored)?.millijoules();
            Wanted {
                share: reached(share, energy.millijoules(), most, "mJ")?,
                by_supply: -1.0,
                by_resistance: 1.0,
                by_inductance: -0.5,
            }
        }
    })
}
