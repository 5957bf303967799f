//! Areas and volumes, forces and torques.

use super::scalar::scalar_type;
use uom::si::area::square_millimeter;
use uom::si::force::kilonewton;
use uom::si::torque::newton_meter;
use uom::si::volume::milliliter;

/// Newton metres of a pound-force foot (0.3048 m of 4.448 221 615 260 5 N).
const POUND_FOOT: f64 = 1.355_817_948_331_400_4;
/// Newtons of a kilogram-force.
const KILOGRAM_FORCE: f64 = 9.806_65;
/// Kilonewtons of a pound-force.
const POUND_FORCE: f64 = 4.448_221_615_260_5e-3;
/// Square millimetres of a square inch, cubic centimetres of a cubic inch.
const SQUARE_INCH: f64 = 645.16;
const CUBIC_INCH: f64 = 16.387_064;

scalar_type!(
    /// An area: of a leak, of an orifice.
    ///
    /// ```
    /// use lashwork::quantity::Area;
    /// assert_eq!(Area::parse("0.81 mm2")?.square_millimetres(), 0.81);
    /// assert!(Area::parse("-1 mm2").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Area, "area", "mm2" as "mm2", (0.0, 1e6),
    from from_square_millimetres, get square_millimetres,
    "mm2, cm2 or in2" {
        "mm2" | "mm²" => 1.0, "cm2" | "cm²" => 100.0, "in2" | "in²" => SQUARE_INCH
    },
    si Area: square_millimeter
);

scalar_type!(
    /// A volume: of a cylinder, of oil.
    ///
    /// ```
    /// use lashwork::quantity::Volume;
    /// assert_eq!(Volume::parse("0.5 l")?.millilitres(), 500.0);
    /// assert!(Volume::parse("-1 ml").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Volume, "volume", "ml" as "ml", (0.0, 1e7),
    from from_millilitres, get millilitres,
    "ml, cm3, l or in3" {
        "ml" | "cm3" | "cm³" | "cc" => 1.0, "l" | "L" => 1e3, "in3" | "in³" => CUBIC_INCH
    },
    si Volume: milliliter
);

scalar_type!(
    /// A force: along a bolt, on a piston.
    ///
    /// ```
    /// use lashwork::quantity::Force;
    /// assert!((Force::parse("1000 lbf")?.kilonewtons() - 4.448).abs() < 1e-3);
    /// assert!(Force::parse("-1 kN").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Force, "force", "kN" as "kn", (0.0, 1e5),
    from from_kilonewtons, get kilonewtons,
    "kN, N, kgf or lbf" {
        "kN" | "kn" => 1.0, "N" => 1e-3, "kgf" => KILOGRAM_FORCE * 1e-3, "lbf" => POUND_FORCE
    },
    si Force: kilonewton
);

scalar_type!(
    /// A torque: of a bolt, of a crank. A manual's "kg m" or "ft lb" is a kilogram-force metre or a
    /// pound-force foot.
    ///
    /// ```
    /// use lashwork::quantity::Torque;
    /// assert!((Torque::parse("35 lbf ft")?.newton_metres() - 47.454).abs() < 5e-4);
    /// assert_eq!(Torque::parse("35 ft lb")?, Torque::parse("420 lbf in")?);
    /// assert!(Torque::parse("35").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    /// It is no force:
    /// ```compile_fail
    /// use lashwork::quantity::{Force, Torque};
    /// let preload: Force = Torque::parse("50 Nm").unwrap();
    /// ```
    Torque, "torque", "Nm" as "nm", (0.0, 1e6),
    from from_newton_metres, get newton_metres,
    "Nm, kgf m, lbf ft or lbf in" {
        "Nm" | "N m" | "N·m" | "nm" => 1.0,
        "kgf m" | "kgfm" | "kgf·m" | "kg m" | "kgm" | "mkg" => KILOGRAM_FORCE,
        "kgf cm" | "kg cm" => KILOGRAM_FORCE * 0.01,
        "lbf ft" | "lb ft" | "ft lb" | "ft lbf" | "lbf·ft" => POUND_FOOT,
        "lbf in" | "lb in" | "in lb" | "in lbf" | "lbf·in" => POUND_FOOT / 12.0
    },
    si Torque: newton_meter
);
