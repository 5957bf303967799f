//! Gathers what each source of uncertainty does to the gap.

use super::ThermalError;
use super::material::{Expansion, Material, SQRT_3};
use crate::quantity::Temperature;
use crate::tolerance::{Budget, Contribution};
use alloc::string::String;
use alloc::vec::Vec;

/// A source that can move several links at once.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Source {
    /// The expansion coefficient of the material of that name.
    Coefficient(String),
    /// The temperature of that name.
    Temperature(String),
    /// A fraction between two temperatures.
    Fraction(String),
}

impl Source {
    fn words(self) -> String {
        match self {
            Self::Coefficient(name) => alloc::format!("expansion coefficient of {name}"),
            Self::Temperature(name) => alloc::format!("temperature {name}"),
            Self::Fraction(name) => alloc::format!("fraction {name}"),
        }
    }
}

/// Sensitivities gathered link by link.
#[derive(Default)]
pub(super) struct Shares {
    own: Vec<Contribution>,
    /// With its uncertainty and its sensitivity; in the order of the sources.
    shared: Vec<(Source, (f64, f64))>,
}

impl Shares {
    /// A source of one link only.
    pub(super) fn own(&mut self, source: String, u: f64, sensitivity: f64) {
        self.own.push(line(source, u, sensitivity));
    }

    /// A source that may act through other links too: sensitivities add with their signs.
    pub(super) fn shared(&mut self, source: Source, u: f64, sensitivity: f64) {
        match self
            .shared
            .binary_search_by(|(known, _)| known.cmp(&source))
        {
            Ok(at) => {
                if let Some((_, known)) = self.shared.get_mut(at) {
                    known.0 = known.0.max(u);
                    known.1 += sensitivity;
                }
            }
            Err(at) => self.shared.insert(at, (source, (u, sensitivity))),
        }
    }

    /// Independent contributions.
    pub(super) fn into_budget(self) -> Result<Budget, ThermalError> {
        let mut lines = self.own;
        for (source, (u, sensitivity)) in self.shared {
            lines.push(line(source.words(), u, sensitivity));
        }
        Ok(Budget::new(lines)?)
    }
}

const fn line(source: String, standard_uncertainty: f64, sensitivity: f64) -> Contribution {
    Contribution {
        source,
        standard_uncertainty,
        sensitivity,
        degrees_of_freedom: None,
    }
}

impl Material {
    /// Standard uncertainty of the coefficient, and the change of strain for a unit of it: per
    /// kelvin for a single coefficient, as a share for a curve, which is off as a whole; where its
    /// first mean is held it counts for more.
    pub(super) fn coefficient_share(&self, from: Temperature, to: Temperature) -> (f64, f64) {
        let rise = (to - from).kelvin();
        match self.coefficient {
            Expansion::Constant { u, .. } => (u, rise),
            Expansion::Range { low, high } => ((high - low) / 2.0 / SQRT_3, rise),
            Expansion::Mean { relative_u, .. } => {
                let weighed = |at: Temperature| {
                    let celsius = at.celsius();
                    self.coefficient.at(celsius).0 * self.coefficient.held(celsius)
                };
                (relative_u, weighed(to) - weighed(from))
            }
        }
    }
}
