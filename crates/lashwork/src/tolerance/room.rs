//! How much wider than a spread a band must be for some reading of that spread to be accepted for certain.

/// Many times what rounding moves a sum of limits and spreads by, as a share of them.
pub(super) const ROUNDING: f64 = 1e-12;

/// A bound for the width of the band: so many times half the width of the rectangle, and so many times the normal
/// part.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    half: f64,
    u: f64,
}

impl Room {
    /// Nobody asked; no band is known to be wide enough.
    pub(super) const UNKNOWN: Self = Self {
        half: f64::INFINITY,
        u: f64::INFINITY,
    };
    /// On a side that accepts an even chance the middle of a reading may lie on the limit.
    const EVEN: Self = Self { half: 0.0, u: 0.0 };

    /// On a side that accepts so small a risk: the risk of the whole is at most that of the near end of the
    /// rectangle, and the same room is needed for the far half.
    pub(super) fn of_risk(accepted: f64) -> Self {
        if accepted >= 0.5 {
            return Self::EVEN;
        }
        Self {
            half: 1.0,
            u: far_enough(accepted),
        }
    }

    /// On both sides.
    pub(super) fn with(self, other: Self) -> Self {
        Self {
            half: self.half + other.half,
            u: self.u + other.u,
        }
    }

    /// Whether two limits certainly leave it, by more than rounding.
    #[inline]
    pub(super) fn is_between(self, lower: f64, upper: f64, half: f64, u: f64) -> bool {
        let spare = (upper - lower) - (self.half * half + self.u * u);
        spare > ROUNDING * (1.0 + lower.abs() + upper.abs())
    }
}

/// A distance in standard deviations with less than this share beyond it, by more than rounding.
///
/// # Source
/// Abramowitz and Stegun 26.2.23: error below 4.5e-4 for a share from 0 to a half.
fn far_enough(share: f64) -> f64 {
    const SPARE: f64 = 0.01;
    let t = libm::sqrt(-2.0 * libm::log(share));
    let above = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let below = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    t - above / below + SPARE
}
