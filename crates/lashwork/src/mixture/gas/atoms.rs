//! Lambda from the atoms in the exhaust gas.

use super::fuel::OXYGEN_OF_AIR;
use super::{ExhaustGas, Fuel};
use crate::quantity::VolumeShare;

/// CO times H2O over CO2 times H2: the water-gas equilibrium as it freezes in an exhaust.
pub(super) const WATER_GAS: f64 = 3.5;

/// The gases as plain numbers, in per cent, with the atoms of the fuel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Atoms {
    pub(super) co2: f64,
    pub(super) co: f64,
    pub(super) o2: f64,
    pub(super) no: f64,
    pub(super) hc: f64,
    /// Atoms of carbon for a molecule of `hc`.
    pub(super) factor: f64,
    pub(super) fuel: Fuel,
}

/// A value and its slopes by CO2, CO, O2, HC and NO.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sloped {
    pub(super) value: f64,
    slopes: [f64; 5],
}

impl Sloped {
    /// The slope by one of them.
    pub(super) fn slope(&self, of: usize) -> f64 {
        self.slopes.get(of).copied().unwrap_or(0.0)
    }

    /// Standard uncertainty for independent readings (JCGM 100:2008, equation (11a)).
    pub(super) fn uncertainty(&self, of: [f64; 5]) -> f64 {
        let shares = self.slopes.iter().zip(of);
        shares.fold(0.0, |sum, (slope, u)| libm::hypot(sum, slope * u))
    }
}

impl Atoms {
    pub(super) fn of(gas: &ExhaustGas, fuel: &Fuel) -> Self {
        Self {
            co2: gas.co2().percent(),
            co: gas.co().percent(),
            o2: gas.o2().percent(),
            no: gas.no().map_or(0.0, VolumeShare::percent),
            hc: gas.hc().map_or(0.0, |hc| hc.read.percent()),
            factor: gas.hc().map_or(0.0, |hc| hc.factor.number()),
            fuel: *fuel,
        }
    }

    /// Half a molecule of water for each atom of burnt carbon, and its slopes by CO2 and CO.
    fn water(&self) -> (f64, f64, f64) {
        let quarter = self.fuel.hydrogen() / 4.0 * WATER_GAS;
        let sum = WATER_GAS * self.co2 + self.co;
        (
            quarter * self.co2 / sum,
            quarter * self.co / (sum * sum),
            -quarter * self.co2 / (sum * sum),
        )
    }

    /// Oxygen that came with the air, in per cent of the dry gas.
    pub(super) fn oxygen(&self) -> Sloped {
        let (water, by_co2, by_co) = self.water();
        let burnt = self.co2 + self.co;
        let bound = water - self.fuel.oxygen() / 2.0;
        Sloped {
            value: self.co2 + self.co / 2.0 + self.o2 + self.no / 2.0 + bound * burnt,
            slopes: [
                1.0 + by_co2 * burnt + bound,
                0.5 + by_co * burnt + bound,
                1.0,
                0.0,
                0.5,
            ],
        }
    }

    /// Brettschneider's balance (Bosch Technische Berichte 6 (1979) 4, 177-186).
    pub(super) fn lambda(&self) -> Sloped {
        let oxygen = self.oxygen();
        let carbon = self.co2 + self.co + self.factor * self.hc;
        let needed = self.fuel.oxygen_needed();
        let burns = needed * carbon;
        // What is over or short of what burns all of it: nothing, to the bit, for carbon dioxide alone.
        let unburnt = self.fuel.hydrogen() / 4.0 * self.co / (WATER_GAS * self.co2 + self.co);
        let over = self.o2 + self.no / 2.0
            - self.co / 2.0
            - unburnt * (self.co2 + self.co)
            - needed * self.factor * self.hc;
        let value = 1.0 + over / burns;
        let [co2, co, o2, _, no] = oxygen.slopes;
        let lost = value / carbon;
        Sloped {
            value,
            slopes: [
                co2 / burns - lost,
                co / burns - lost,
                o2 / burns,
                -lost * self.factor,
                no / burns,
            ],
        }
    }

    /// All of the dry gas: what was read, the hydrogen and what came with the oxygen. 100 per cent if the
    /// readings and the fuel fit together; air that was added changes nothing.
    pub(super) fn total(&self) -> Sloped {
        let (water, by_co2, by_co) = self.water();
        let (burnt, oxygen) = (self.co2 + self.co, self.oxygen());
        let free = self.fuel.hydrogen() / 2.0 - 2.0 * water;
        let rest = (1.0 - OXYGEN_OF_AIR) / OXYGEN_OF_AIR;
        let [co2, co, o2, _, no] = oxygen.slopes;
        Sloped {
            value: burnt + self.o2 + self.hc + self.no + free * burnt + rest * oxygen.value,
            slopes: [
                1.0 + free - 2.0 * by_co2 * burnt + rest * co2,
                1.0 + free - 2.0 * by_co * burnt + rest * co,
                1.0 + rest * o2,
                1.0,
                1.0 + rest * no,
            ],
        }
    }

    /// Spindt's air-fuel ratio over what it is for carbon dioxide alone. It knows no oxygen in the fuel and
    /// takes the hydrocarbons as a share of the carbon.
    pub(super) fn spindt(&self) -> f64 {
        // Printed with 12.011 and 1.008 for the atoms, 11.492 and 120 for the air (from memory).
        let carbon = 12.011 / (12.011 + 1.008 * self.fuel.hydrogen());
        let ratio = |r: f64, q: f64| {
            11.492 * carbon * (1.0 + r / 2.0 + q) / (1.0 + r)
                + 120.0 * (1.0 - carbon) / (WATER_GAS + r)
        };
        let burnt = self.co2 + self.co;
        let share = burnt / (burnt + self.factor * self.hc);
        share * ratio(self.co / self.co2, self.o2 / self.co2) / ratio(0.0, 0.0)
    }
}
