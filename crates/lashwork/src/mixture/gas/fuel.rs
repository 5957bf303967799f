//! What the fuel is made of, and how much air burns it.

use super::GasError;
use crate::quantity::Density;
use serde::Serialize;

/// Atomic masses in g/mol (IUPAC, abridged; from memory).
const CARBON: f64 = 12.011;
const HYDROGEN: f64 = 1.008;
const OXYGEN: f64 = 15.999;
const NITROGEN: f64 = 14.007;
/// Molar mass of dry air in g/mol and its share of oxygen.
const AIR: f64 = 28.965;
pub(super) const OXYGEN_OF_AIR: f64 = 0.2095;
/// Atoms of another element for each of carbon that are accepted: from coke to methane, and to formic acid.
const MOST_HYDROGEN: f64 = 4.0;
const MOST_OXYGEN: f64 = 2.0;
const MOST_NITROGEN: f64 = 2.0;

/// A fuel by the atoms of hydrogen, oxygen and nitrogen for each atom of carbon.
///
/// ```
/// use lashwork::mixture::gas::Fuel;
/// assert!((Fuel::of_formula("C8H18")?.air_fuel_ratio() - 15.13).abs() < 0.005);
/// assert!((Fuel::PETROL.with_ethanol(10.0)?.air_fuel_ratio() - 13.99).abs() < 0.01);
/// assert!(Fuel::of_formula("H2").is_err());
/// # Ok::<(), lashwork::mixture::gas::GasError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Fuel {
    hydrogen: f64,
    oxygen: f64,
    nitrogen: f64,
}

impl Fuel {
    /// Petrol without alcohol, CH1.85. Common practice, no source; with 5 and 10 % of ethanol it gives the
    /// compositions of the reference fuels E5 and E10 (UN Regulation No. 83, from memory).
    pub const PETROL: Self = Self::of(1.85, 0.0, 0.0);
    /// The petrol that exhaust testers take, CH1.7261O0.0176 (from memory).
    pub const TESTER_PETROL: Self = Self::of(1.7261, 0.0176, 0.0);
    /// Ethanol, C2H6O.
    pub const ETHANOL: Self = Self::of(3.0, 0.5, 0.0);
    /// Methanol, CH4O.
    pub const METHANOL: Self = Self::of(4.0, 1.0, 0.0);
    /// Propane, C3H8.
    pub const PROPANE: Self = Self::of(8.0 / 3.0, 0.0, 0.0);
    /// Liquefied petroleum gas, CH2.525 (UN Regulation No. 83, from memory).
    pub const LPG: Self = Self::of(2.525, 0.0, 0.0);
    /// Methane, CH4, for which natural gas is taken.
    pub const METHANE: Self = Self::of(4.0, 0.0, 0.0);
    /// Nitromethane, CH3NO2.
    pub const NITROMETHANE: Self = Self::of(3.0, 2.0, 1.0);

    /// Kilograms of a cubic metre of petrol without alcohol that are taken; from memory.
    pub const PETROL_DENSITY: f64 = 745.0;
    /// Kilograms of a cubic metre of ethanol; from memory.
    pub const ETHANOL_DENSITY: f64 = 789.0;

    const fn of(hydrogen: f64, oxygen: f64, nitrogen: f64) -> Self {
        Self {
            hydrogen,
            oxygen,
            nitrogen,
        }
    }

    /// From atoms for each atom of carbon.
    ///
    /// # Errors
    /// [`GasError::Composition`]: more than 4 of hydrogen, 2 of oxygen or 2 of nitrogen, negative, or a
    /// compound that holds all the oxygen it burns with.
    ///
    /// ```
    /// use lashwork::mixture::gas::Fuel;
    /// assert_eq!(Fuel::from_atoms(1.7261, 0.0176, 0.0)?, Fuel::TESTER_PETROL);
    /// assert!(Fuel::from_atoms(0.0, 2.0, 0.0).is_err(), "carbon dioxide does not burn");
    /// # Ok::<(), lashwork::mixture::gas::GasError>(())
    /// ```
    pub fn from_atoms(hydrogen: f64, oxygen: f64, nitrogen: f64) -> Result<Self, GasError> {
        let fuel = Self::of(hydrogen, oxygen, nitrogen);
        let burns = (0.0..=MOST_HYDROGEN).contains(&hydrogen)
            && (0.0..=MOST_OXYGEN).contains(&oxygen)
            && (0.0..=MOST_NITROGEN).contains(&nitrogen)
            && fuel.oxygen_needed() > 0.1;
        if burns {
            Ok(fuel)
        } else {
            Err(GasError::Composition {
                hydrogen,
                oxygen,
                nitrogen,
            })
        }
    }

    /// Reads a formula of C, H, O and N, such as `C8H18`, `CH1.85` or `C2H5OH`.
    ///
    /// # Errors
    /// [`GasError::Formula`] if it is not one or has no carbon; [`GasError::Composition`].
    ///
    /// ```
    /// use lashwork::mixture::gas::Fuel;
    /// assert_eq!(Fuel::of_formula("C2H5OH")?, Fuel::ETHANOL);
    /// assert!(Fuel::of_formula("petrol").is_err());
    /// # Ok::<(), lashwork::mixture::gas::GasError>(())
    /// ```
    pub fn of_formula(text: &str) -> Result<Self, GasError> {
        let refused = || GasError::Formula { text: text.into() };
        let (mut c, mut h, mut o, mut n) = (0.0, 0.0, 0.0, 0.0);
        let mut rest = text.trim();
        while let Some(symbol) = rest.chars().next() {
            rest = rest.get(symbol.len_utf8()..).unwrap_or("");
            let end = rest
                .find(|c: char| !(c.is_ascii_digit() || c == '.'))
                .unwrap_or(rest.len());
            let (digits, after) = rest.split_at(end);
            let atoms = match digits {
                "" => 1.0,
                digits => digits.parse::<f64>().map_err(|_| refused())?,
            };
            rest = after;
            match symbol {
                'C' => c += atoms,
                'H' => h += atoms,
                'O' => o += atoms,
                'N' => n += atoms,
                _ => return Err(refused()),
            }
        }
        if c > 0.0 {
            Self::from_atoms(h / c, o / c, n / c)
        } else {
            Err(refused())
        }
    }

    /// This fuel with so many per cent of ethanol by volume, both at the densities this type names.
    ///
    /// # Errors
    /// [`GasError::EthanolShare`] outside 0 to 100.
    ///
    /// ```
    /// use lashwork::mixture::gas::Fuel;
    /// let e5 = Fuel::PETROL.with_ethanol(5.0)?;
    /// // The reference fuel E5 is CH1.89O0.016.
    /// assert!((e5.hydrogen() - 1.89).abs() < 0.005 && (e5.oxygen() - 0.016).abs() < 0.0005);
    /// assert!(Fuel::PETROL.with_ethanol(110.0).is_err());
    /// # Ok::<(), lashwork::mixture::gas::GasError>(())
    /// ```
    pub fn with_ethanol(self, percent: f64) -> Result<Self, GasError> {
        if !(0.0..=100.0).contains(&percent) {
            return Err(GasError::EthanolShare { got: percent });
        }
        let carbon = |share: f64, density: f64, fuel: Self| share * density / fuel.molar_mass();
        let ours = carbon(100.0 - percent, Self::PETROL_DENSITY, self);
        let theirs = carbon(percent, Self::ETHANOL_DENSITY, Self::ETHANOL);
        let mixed = |a: f64, b: f64| (ours * a + theirs * b) / (ours + theirs);
        Self::from_atoms(
            mixed(self.hydrogen, Self::ETHANOL.hydrogen),
            mixed(self.oxygen, Self::ETHANOL.oxygen),
            mixed(self.nitrogen, Self::ETHANOL.nitrogen),
        )
    }

    /// Reads a name: `E0` to `E100`, `ethanol`, `methanol`, `propane`, `LPG`, `methane`, `CNG`,
    /// `nitromethane`, or a formula.
    ///
    /// # Errors
    /// As [`Self::of_formula`] and [`Self::with_ethanol`]. `petrol` is refused: what is sold as petrol holds
    /// up to 10 % of ethanol, and that shifts the air it needs by 4 %.
    ///
    /// ```
    /// use lashwork::mixture::gas::Fuel;
    /// assert_eq!(Fuel::named("E0")?, Fuel::PETROL);
    /// assert!(Fuel::named("petrol").is_err());
    /// # Ok::<(), lashwork::mixture::gas::GasError>(())
    /// ```
    pub fn named(name: &str) -> Result<Self, GasError> {
        let name = name.trim();
        if let Some(Ok(percent)) = name.strip_prefix('E').map(str::parse::<u8>) {
            return Self::PETROL.with_ethanol(f64::from(percent));
        }
        match name {
            "ethanol" => Ok(Self::ETHANOL),
            "methanol" => Ok(Self::METHANOL),
            "propane" => Ok(Self::PROPANE),
            "LPG" => Ok(Self::LPG),
            "methane" | "CNG" => Ok(Self::METHANE),
            "nitromethane" => Ok(Self::NITROMETHANE),
            other => Self::of_formula(other),
        }
    }

    /// Atoms of hydrogen for each of carbon.
    #[must_use]
    pub const fn hydrogen(&self) -> f64 {
        self.hydrogen
    }

    /// Atoms of oxygen for each of carbon.
    #[must_use]
    pub const fn oxygen(&self) -> f64 {
        self.oxygen
    }

    /// Atoms of nitrogen for each of carbon.
    #[must_use]
    pub const fn nitrogen(&self) -> f64 {
        self.nitrogen
    }

    /// Molecules of oxygen that burn as much of the fuel as has one atom of carbon.
    ///
    /// ```
    /// use lashwork::mixture::gas::Fuel;
    /// assert_eq!(Fuel::METHANE.oxygen_needed(), 2.0);
    /// ```
    #[must_use]
    pub fn oxygen_needed(&self) -> f64 {
        1.0 + self.hydrogen / 4.0 - self.oxygen / 2.0
    }

    /// Grams of fuel for each mole of carbon in it.
    fn molar_mass(self) -> f64 {
        CARBON + HYDROGEN * self.hydrogen + OXYGEN * self.oxygen + NITROGEN * self.nitrogen
    }

    /// Mass of dry air, 20.95 % oxygen, that burns a mass of the fuel.
    ///
    /// ```
    /// use lashwork::mixture::gas::Fuel;
    /// assert!((Fuel::METHANOL.air_fuel_ratio() - 6.472).abs() < 0.001);
    /// ```
    #[must_use]
    pub fn air_fuel_ratio(&self) -> f64 {
        self.oxygen_needed() * AIR / OXYGEN_OF_AIR / self.molar_mass()
    }
}

/// How the air-fuel ratio of a blend is reckoned from those of its parts. Printed figures follow both.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BlendRule {
    /// The average by volume, which is only right for parts of equal density.
    ByVolume,
    /// The average by mass, which is right.
    ByMass {
        /// Density of the first part.
        first: Density,
        /// Density of the second part.
        second: Density,
    },
}

/// The air-fuel ratio of a blend of two fuels, the second with so many per cent by volume.
///
/// # Errors
/// [`GasError::EthanolShare`] for a share outside 0 to 100.
///
/// ```
/// use lashwork::mixture::gas::{BlendRule, blended_air_fuel_ratio};
/// // What is often printed for E10.
/// let e10 = blended_air_fuel_ratio(14.7, 9.0, 10.0, BlendRule::ByVolume)?;
/// assert!((e10 - 14.13).abs() < 1e-9);
/// # Ok::<(), lashwork::mixture::gas::GasError>(())
/// ```
pub fn blended_air_fuel_ratio(
    first: f64,
    second: f64,
    percent: f64,
    rule: BlendRule,
) -> Result<f64, GasError> {
    if !(0.0..=100.0).contains(&percent) {
        return Err(GasError::EthanolShare { got: percent });
    }
    let (a, b) = match rule {
        BlendRule::ByVolume => (100.0 - percent, percent),
        BlendRule::ByMass {
            first: d1,
            second: d2,
        } => (
            (100.0 - percent) * d1.kilograms_per_cubic_metre(),
            percent * d2.kilograms_per_cubic_metre(),
        ),
    };
    Ok((a * first + b * second) / (a + b))
}
