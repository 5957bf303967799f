//! Flow of air through a restriction.

/// Ratio of the specific heats of air.
const HEATS: f64 = 1.4;
/// Pressure behind over pressure before a restriction, at or under which its flow is choked:
/// `(2 / 2.4)^3.5`.
///
/// ```
/// assert!((lashwork::condition::leak::CHOKED_BELOW - (2.0_f64 / 2.4).powf(3.5)).abs() < 1e-15);
/// ```
pub const CHOKED_BELOW: f64 = 0.528_281_787_717_174_6;

/// The flow of air through a restriction, for the pressure behind it over that before it, both above nothing:
/// the mass in a time is `area x pressure before x this / sqrt(R T)`.
///
/// # Range
/// 0 to 1; above 1 nothing flows.
///
/// # Source
/// `sqrt(2 k / (k - 1) (r^(2 / k) - r^((k + 1) / k)))`, at the choked ratio below it.
///
/// ```
/// use lashwork::condition::leak::flow_function;
/// assert!((flow_function(0.3) - 0.684_731).abs() < 1e-6);
/// assert_eq!(flow_function(1.0), 0.0);
/// ```
#[must_use]
pub fn flow_function(ratio: f64) -> f64 {
    let ratio = ratio.clamp(CHOKED_BELOW, 1.0);
    let under = libm::pow(ratio, 2.0 / HEATS) - libm::pow(ratio, (HEATS + 1.0) / HEATS);
    libm::sqrt((2.0 * HEATS / (HEATS - 1.0) * under).max(0.0))
}
