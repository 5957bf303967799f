//! Resistance, voltage, current, inductance, capacitance and energy of an ignition.

use super::scalar::scalar_type;
use uom::si::capacitance::microfarad;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::energy::millijoule;
use uom::si::inductance::millihenry;

scalar_type!(
    /// A resistance: of a coil, a ballast resistor, a lead; never zero.
    ///
    /// ```
    /// use lashwork::quantity::Resistance;
    /// assert_eq!(Resistance::parse("8.2 kohm")?.ohms(), 8_200.0);
    /// assert!(Resistance::from_ohms(0.0).is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Resistance, "resistance", "ohm" as "ohm", (1e-6, 1e9),
    from from_ohms, get ohms,
    "ohm, kohm or Mohm" {
        "ohm" | "ohms" | "Ω" | "\u{2126}" => 1.0, "kohm" | "kΩ" => 1e3, "Mohm" | "MΩ" => 1e6, "mohm" => 1e-3
    },
    si ElectricalResistance: ohm
);

scalar_type!(
    /// A voltage.
    ///
    /// ```
    /// use lashwork::quantity::Voltage;
    /// assert_eq!(Voltage::parse("12 kV")?.volts(), 12_000.0);
    /// assert!(Voltage::parse("12").is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Voltage, "voltage", "V" as "volts", (0.0, 1e6),
    from from_volts, get volts,
    "V or kV" { "V" | "volt" | "volts" => 1.0, "kV" => 1e3 },
    si ElectricPotential: volt
);

scalar_type!(
    /// A current.
    ///
    /// ```
    /// use lashwork::quantity::Current;
    /// assert_eq!(Current::parse("3.5 A")?.amperes(), 3.5);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Current, "current", "A" as "amperes", (0.0, 1e4),
    from from_amperes, get amperes,
    "A or mA" { "A" | "amperes" => 1.0, "mA" => 1e-3 },
    si ElectricCurrent: ampere
);

scalar_type!(
    /// An inductance: of a coil's primary winding.
    ///
    /// ```
    /// use lashwork::quantity::Inductance;
    /// assert_eq!(Inductance::parse("0.010 H")?.millihenries(), 10.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Inductance, "inductance", "mH" as "millihenries", (1e-6, 1e6),
    from from_millihenries, get millihenries,
    "mH or H" { "mH" | "millihenries" => 1.0, "H" => 1e3 },
    si Inductance: millihenry
);

scalar_type!(
    /// A capacitance: of a condenser.
    ///
    /// ```
    /// use lashwork::quantity::Capacitance;
    /// assert_eq!(Capacitance::parse("220 nF")?.microfarads(), 0.22);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Capacitance, "capacitance", "uF" as "microfarads", (1e-9, 1e6),
    from from_microfarads, get microfarads,
    "uF, nF or pF" { "uF" | "µF" | "\u{3bc}F" | "microfarads" => 1.0, "nF" => 1e-3, "pF" => 1e-6 },
    si Capacitance: microfarad
);

scalar_type!(
    /// An energy: stored in a coil.
    ///
    /// ```
    /// use lashwork::quantity::Energy;
    /// assert_eq!(Energy::parse("0.03 J")?.millijoules(), 30.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Energy, "energy", "mJ" as "millijoules", (0.0, 1e9),
    from from_millijoules, get millijoules,
    "mJ or J" { "mJ" | "millijoules" => 1.0, "J" => 1e3 },
    si Energy: millijoule
);
