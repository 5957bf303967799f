//! How much air goes through a throttle.

use super::scalar::scalar_type;
use uom::si::mass_rate::kilogram_per_hour;

scalar_type!(
    /// A mass of air in a time, as a flow meter on a carburettor shows it.
    ///
    /// ```
    /// use lashwork::quantity::AirFlow;
    /// assert_eq!(AirFlow::parse("2 g/s")?.kilograms_per_hour(), 7.2);
    /// assert!(AirFlow::parse("-1 kg/h").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    AirFlow, "air flow", "kg/h" as "kg_per_h", (0.0, 1e5),
    from from_kilograms_per_hour, get kilograms_per_hour,
    "kg/h or g/s" { "kg/h" | "kg_per_h" => 1.0, "g/s" => 3.6 },
    si MassRate: kilogram_per_hour
);

scalar_type!(
    /// How much one air flow is over another; negative if under it.
    ///
    /// ```
    /// use lashwork::quantity::AirFlowDifference;
    /// assert_eq!(AirFlowDifference::parse("-0.5 kg/h")?.kilograms_per_hour(), -0.5);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    AirFlowDifference, "air flow difference", "kg/h" as "kg_per_h", (-1e5, 1e5),
    from from_kilograms_per_hour, get kilograms_per_hour,
    "kg/h or g/s" { "kg/h" | "kg_per_h" => 1.0, "g/s" => 3.6 },
    si MassRate: kilogram_per_hour
);
