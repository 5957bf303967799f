//! Density and mass, humidity and height of air, shares by volume and lambda.

use super::scalar::scalar_type;
use uom::si::length::meter;
use uom::si::mass::gram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::{percent, ratio};

scalar_type!(
    /// A mass of a volume: of air, of fuel.
    ///
    /// ```
    /// use lashwork::quantity::Density;
    /// assert_eq!(Density::parse("0.745 kg/l")?.kilograms_per_cubic_metre(), 745.0);
    /// assert!(Density::parse("-1 kg/m3").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Density, "density", "kg/m3" as "kg_per_m3", (1e-6, 1e5),
    from from_kilograms_per_cubic_metre, get kilograms_per_cubic_metre,
    "kg/m3 or kg/l" { "kg/m3" | "kg/m³" | "kg_per_m3" => 1.0, "kg/l" | "kg/L" | "g/cm3" => 1e3 },
    si MassDensity: kilogram_per_cubic_meter
);

scalar_type!(
    /// A mass: of a float.
    ///
    /// ```
    /// use lashwork::quantity::Mass;
    /// assert_eq!(Mass::parse("12.5 g")?.grams(), 12.5);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Mass, "mass", "g" as "grams", (0.0, 1e6),
    from from_grams, get grams,
    "g, kg or oz" { "g" | "grams" => 1.0, "kg" => 1e3, "oz" => 28.349_523_125 },
    si Mass: gram
);

scalar_type!(
    /// A share by volume: of a gas in the exhaust.
    ///
    /// ```
    /// use lashwork::quantity::VolumeShare;
    /// assert_eq!(VolumeShare::parse("250 ppm")?.percent(), 0.025);
    /// assert!(VolumeShare::parse("-0.1 %").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    VolumeShare, "share by volume", "%" as "percent", (0.0, 100.0),
    from from_percent, get percent,
    "% or ppm" { "%" | "percent" | "vol%" => 1.0, "ppm" => 1e-4 },
    si Ratio: percent
);

scalar_type!(
    /// How much of the water vapour it could hold the air holds.
    ///
    /// ```
    /// use lashwork::quantity::RelativeHumidity;
    /// assert_eq!(RelativeHumidity::parse("60 %")?.percent(), 60.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    RelativeHumidity, "relative humidity", "%" as "percent", (0.0, 100.0),
    from from_percent, get percent,
    "%" { "%" | "percent" => 1.0 },
    si Ratio: percent
);

scalar_type!(
    /// A height over the sea.
    ///
    /// ```
    /// use lashwork::quantity::Altitude;
    /// assert!((Altitude::parse("5000 ft")?.metres() - 1524.0).abs() < 1e-9);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Altitude, "altitude", "m" as "metres", (-1_600.0, 11_000.0),
    from from_metres, get metres,
    "m or ft" { "m" | "metres" => 1.0, "ft" => 0.3048 },
    si Length: meter
);

scalar_type!(
    /// Lambda: the air that was taken in over the air that burns the fuel; under 1 is rich.
    ///
    /// An air-fuel ratio is no unit of it: that depends on the fuel.
    ///
    /// ```
    /// use lashwork::quantity::Lambda;
    /// assert_eq!(Lambda::parse("0.95 lambda")?.ratio(), 0.95);
    /// assert!(Lambda::parse("14.7 AFR").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Lambda, "lambda", "lambda" as "lambda", (0.01, 1e4),
    from from_ratio, get ratio,
    "lambda" { "lambda" | "\u{3bb}" => 1.0 },
    si Ratio: ratio
);
