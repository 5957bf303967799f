//! What an effect does that grows in proportion to something.
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere cannot stand side by side in a register"
)]

/// A slope times a rise, each with a standard uncertainty.
///
/// ```
/// use lashwork_tails::Proportion;
/// let effect = Proportion { rise: 50.0, rise_u: 2.0, slope: -0.001, slope_u: 0.0002 };
/// assert_eq!(effect.change(), -0.05);
/// assert_eq!(effect.spreads(), (0.01, 0.002));
/// ```
///
/// # Source
/// First-order propagation, JCGM 100:2008, 5.1.2.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proportion {
    /// By how much that differs which causes the effect.
    pub rise: f64,
    /// Standard uncertainty of that.
    pub rise_u: f64,
    /// What each unit of it does.
    pub slope: f64,
    /// Standard uncertainty of that.
    pub slope_u: f64,
}

impl Proportion {
    /// What the effect does.
    #[must_use]
    #[inline(always)]
    pub fn change(&self) -> f64 {
        self.slope * self.rise
    }

    /// What the uncertainty of the slope makes of that, and what that of the rise does; independent of one
    /// another.
    #[must_use]
    #[inline(always)]
    pub fn spreads(&self) -> (f64, f64) {
        (
            (self.rise * self.slope_u).abs(),
            (self.slope * self.rise_u).abs(),
        )
    }
}
