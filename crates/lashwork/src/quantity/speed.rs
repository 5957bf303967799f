//! Speeds of the crank and of the distributor, which turn differently fast.

use super::Cycle;
use super::scalar::scalar_type;
use uom::si::frequency::cycle_per_minute;

scalar_type!(
    /// How fast the crank turns.
    ///
    /// ```
    /// use lashwork::quantity::{CrankSpeed, Cycle};
    /// let idle = CrankSpeed::parse("900 rpm")?;
    /// assert_eq!(idle.at_distributor(Cycle::FourStroke).rpm(), 450.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    /// It is not the speed of the distributor:
    /// ```compile_fail
    /// use lashwork::quantity::{CrankSpeed, DistributorSpeed};
    /// let speed: CrankSpeed = DistributorSpeed::parse("450 rpm").unwrap();
    /// ```
    CrankSpeed, "crank speed", "rpm" as "rpm", (0.0, 30_000.0),
    from from_rpm, get rpm,
    "rpm" { "rpm" | "r/min" | "1/min" | "/min" | "min-1" => 1.0 },
    si Frequency: cycle_per_minute
);

scalar_type!(
    /// How fast the distributor shaft turns.
    ///
    /// ```
    /// use lashwork::quantity::{Cycle, DistributorSpeed};
    /// let speed = DistributorSpeed::parse("1100 rpm")?;
    /// assert_eq!(speed.at_crank(Cycle::FourStroke).rpm(), 2200.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    DistributorSpeed, "distributor speed", "rpm" as "rpm", (0.0, 30_000.0),
    from from_rpm, get rpm,
    "rpm" { "rpm" | "r/min" | "1/min" | "/min" | "min-1" => 1.0 },
    si Frequency: cycle_per_minute
);

impl CrankSpeed {
    /// The speed of a distributor that turns once a cycle.
    #[must_use]
    pub const fn at_distributor(self, cycle: Cycle) -> DistributorSpeed {
        DistributorSpeed(self.0 / cycle.crank_turns())
    }
}

impl DistributorSpeed {
    /// The speed of the crank of a distributor that turns once a cycle; like a product, it is not held to
    /// the range again.
    #[must_use]
    pub const fn at_crank(self, cycle: Cycle) -> CrankSpeed {
        CrankSpeed(self.0 * cycle.crank_turns())
    }
}
