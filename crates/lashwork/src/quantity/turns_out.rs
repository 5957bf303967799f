//! Where a mixture screw stands.

use super::scalar::scalar_type;
use uom::si::angle::revolution;

scalar_type!(
    /// How far a screw is turned out from where it seats lightly.
    ///
    /// ```
    /// use lashwork::quantity::TurnsOut;
    /// assert_eq!(TurnsOut::parse("1.5 turns")?.turns(), 1.5);
    /// assert_eq!(TurnsOut::parse("90 deg")?.turns(), 0.25);
    /// assert!(TurnsOut::parse("-1 turns").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    TurnsOut, "turns out", "turns" as "turns", (0.0, 100.0),
    from from_turns, get turns,
    "turns or deg" { "turns" | "turn" => 1.0, "deg" | "°" => 1.0 / 360.0 },
    si Angle: revolution
);
