//! Pressures: absolute, over that of the air around, and under it.
//!
//! Three types, because the same number means different pressures: 0 bar of a gauge is about 1 bar
//! absolute, and 20 inHg of vacuum are 20 inHg below the air, not above nothing.

use super::scalar::scalar_type;
use uom::si::pressure::kilopascal;

/// Kilopascals of an inch of mercury (conventional, 3386.389 Pa).
const INCH_OF_MERCURY: f64 = 3.386_389;
/// Kilopascals of a millimetre of mercury (conventional, 133.3224 Pa).
const MILLIMETRE_OF_MERCURY: f64 = 0.133_322_4;
/// Kilopascals of a pound-force on a square inch.
const POUND_ON_SQUARE_INCH: f64 = 6.894_757_293_168;
/// Kilopascals of a standard atmosphere.
const ATMOSPHERE: f64 = 101.325;
/// Kilopascals of a kilogram-force on a square centimetre.
const KILOGRAM_ON_SQUARE_CENTIMETRE: f64 = 98.0665;
/// Kilopascals of an inch of water (conventional).
const INCH_OF_WATER: f64 = 0.249_088_9;

scalar_type!(
    /// A pressure above nothing.
    ///
    /// ```
    /// use lashwork::quantity::AbsolutePressure;
    /// assert_eq!(AbsolutePressure::parse("1 bar")?.kilopascals(), 100.0);
    /// assert!(AbsolutePressure::parse("-1 bar").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    /// It is not what a gauge shows:
    /// ```compile_fail
    /// use lashwork::quantity::{AbsolutePressure, GaugePressure};
    /// let inside: AbsolutePressure = GaugePressure::parse("8 bar").unwrap();
    /// ```
    AbsolutePressure, "absolute pressure", "kPa" as "kpa", (0.0, 1e6),
    from from_kilopascals, get kilopascals,
    "kPa, bar, mbar, psi, inHg, mmHg, inH2O, kgf/cm2 or atm" {
        "kPa" | "kpa" => 1.0, "bar" => 100.0, "mbar" | "hPa" => 0.1, "Pa" => 1e-3,
        "psi" => POUND_ON_SQUARE_INCH, "inHg" => INCH_OF_MERCURY,
        "mmHg" | "Torr" => MILLIMETRE_OF_MERCURY, "inH2O" => INCH_OF_WATER,
        "kgf/cm2" | "kgf/cm²" | "at" => KILOGRAM_ON_SQUARE_CENTIMETRE, "atm" => ATMOSPHERE
    },
    si Pressure: kilopascal
);

scalar_type!(
    /// A pressure as a gauge shows it: over that of the air around, negative under it.
    ///
    /// ```
    /// use lashwork::quantity::GaugePressure;
    /// assert!((GaugePressure::parse("150 psi")?.kilopascals() - 1034.21).abs() < 0.01);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    GaugePressure, "gauge pressure", "kPa" as "kpa", (-200.0, 1e6),
    from from_kilopascals, get kilopascals,
    "kPa, bar, mbar, psi, inHg, mmHg, inH2O or kgf/cm2" {
        "kPa" | "kpa" => 1.0, "bar" => 100.0, "mbar" | "hPa" => 0.1, "psi" => POUND_ON_SQUARE_INCH,
        "inHg" => INCH_OF_MERCURY, "mmHg" | "Torr" => MILLIMETRE_OF_MERCURY, "inH2O" => INCH_OF_WATER,
        "kgf/cm2" | "kgf/cm²" | "at" => KILOGRAM_ON_SQUARE_CENTIMETRE
    },
    si Pressure: kilopascal
);

scalar_type!(
    /// Vacuum as a gauge on the manifold shows it: how far the pressure is under that of the air around.
    ///
    /// ```
    /// use lashwork::quantity::Vacuum;
    /// assert!((Vacuum::parse("20 inHg")?.kilopascals() - 67.728).abs() < 0.001);
    /// assert!(Vacuum::parse("-3 inHg").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Vacuum, "vacuum", "kPa" as "kpa", (0.0, 110.0),
    from from_kilopascals, get kilopascals,
    "inHg, mmHg, inH2O, kPa, mbar, psi or kgf/cm2" {
        "kPa" | "kpa" => 1.0, "bar" => 100.0, "mbar" | "hPa" => 0.1,
        "inHg" => INCH_OF_MERCURY, "mmHg" | "Torr" => MILLIMETRE_OF_MERCURY,
        "inH2O" => INCH_OF_WATER, "psi" => POUND_ON_SQUARE_INCH,
        "kgf/cm2" | "kgf/cm²" | "at" => KILOGRAM_ON_SQUARE_CENTIMETRE
    },
    si Pressure: kilopascal
);

scalar_type!(
    /// How much one pressure, or one vacuum, is over another; negative if under it.
    ///
    /// ```
    /// use lashwork::quantity::PressureDifference;
    /// assert!((PressureDifference::parse("-20 mmHg")?.kilopascals() + 2.666).abs() < 0.001);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    PressureDifference, "pressure difference", "kPa" as "kpa", (-1e6, 1e6),
    from from_kilopascals, get kilopascals,
    "kPa, bar, mbar, psi, inHg, mmHg, inH2O or kgf/cm2" {
        "kPa" | "kpa" => 1.0, "bar" => 100.0, "mbar" | "hPa" => 0.1,
        "psi" => POUND_ON_SQUARE_INCH, "inHg" => INCH_OF_MERCURY,
        "mmHg" | "Torr" => MILLIMETRE_OF_MERCURY, "inH2O" => INCH_OF_WATER,
        "kgf/cm2" | "kgf/cm²" | "at" => KILOGRAM_ON_SQUARE_CENTIMETRE
    },
    si Pressure: kilopascal
);
