//! Flow through a throttle as through a nozzle.
//!
//! # Source
//! St Venant and Wantzel: isentropic flow, choked from the critical ratio on; the ratio of the heats of air
//! is taken as 1.4.

use crate::quantity::{AbsolutePressure, Vacuum};
use serde::Serialize;
use uom::si::ratio::ratio;

/// Ratio of the specific heats of air.
const HEATS: f64 = 1.4;

/// Whether the flow through a throttle goes by its opening alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Choked {
    /// The air goes at the speed of sound: what is behind the throttle does not matter.
    Choked,
    /// What is behind it matters too.
    NotChoked,
}

impl Choked {
    /// Pressure behind over pressure before, at and below which the flow is choked.
    #[must_use]
    pub fn critical() -> f64 {
        libm::pow(2.0 / (HEATS + 1.0), HEATS / (HEATS - 1.0))
    }

    /// At a vacuum in air of so much pressure.
    ///
    /// ```
    /// use lashwork::mixture::balance::Choked;
    /// use lashwork::quantity::{AbsolutePressure, Vacuum};
    /// let air = AbsolutePressure::parse("101.325 kPa")?;
    /// assert_eq!(Choked::at(Vacuum::parse("18 inHg")?, air), Choked::Choked);
    /// assert_eq!(Choked::at(Vacuum::parse("9 inHg")?, air), Choked::NotChoked);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn at(vacuum: Vacuum, ambient: AbsolutePressure) -> Self {
        if behind(vacuum, ambient) <= Self::critical() {
            Self::Choked
        } else {
            Self::NotChoked
        }
    }
}

/// Pressure behind the throttle over that before it.
pub(super) fn behind(vacuum: Vacuum, ambient: AbsolutePressure) -> f64 {
    1.0 - (vacuum.si() / ambient.si()).get::<ratio>()
}

/// The flow through an opening against that through the same one choked, by the ratio of the pressures behind
/// and before it: 1 up to the critical ratio, 0 at 1.
///
/// # Source
/// St Venant and Wantzel: `psi(r) = sqrt(2k/(k-1) (r^(2/k) - r^((k+1)/k)))`, over its greatest value.
///
/// ```
/// use lashwork::mixture::balance::flow_share;
/// assert_eq!(flow_share(0.4), 1.0);
/// assert!(flow_share(0.9) < 0.7 && flow_share(1.0) == 0.0);
/// ```
#[must_use]
pub fn flow_share(behind: f64) -> f64 {
    let critical = Choked::critical();
    if behind <= critical {
        return 1.0;
    }
    let of = |r: f64| {
        let rest = libm::pow(r, 2.0 / HEATS) - libm::pow(r, (HEATS + 1.0) / HEATS);
        libm::sqrt(rest.max(0.0))
    };
    of(behind.min(1.0)) / of(critical)
}

/// How the logarithm of [`flow_share`] changes with the ratio.
pub(super) fn ln_flow_share_slope(behind: f64) -> f64 {
    if behind <= Choked::critical() {
        return 0.0;
    }
    let up = libm::pow(behind, 2.0 / HEATS - 1.0) * 2.0 / HEATS;
    let down = libm::pow(behind, 1.0 / HEATS) * (HEATS + 1.0) / HEATS;
    let rest = libm::pow(behind, 2.0 / HEATS) - libm::pow(behind, (HEATS + 1.0) / HEATS);
    0.5 * (up - down) / rest
}

/// How many times the flow is greater where a meter's drop of pressure is so many times greater: a meter that
/// works by a drop shows twice the drop for 1.41 times the flow.
///
/// # Source
/// Bernoulli: flow goes with the root of the drop.
///
/// ```
/// use lashwork::mixture::balance::flow_of_drop;
/// assert!((flow_of_drop(2.0) - 1.414).abs() < 0.001);
/// ```
#[must_use]
pub fn flow_of_drop(times: f64) -> f64 {
    libm::sqrt(times.max(0.0))
}
