//! How much a material expands.

use super::ThermalError;
use crate::quantity::Temperature;
use alloc::borrow::Cow;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde::Serialize;

/// Half-width of the rectangle round a coefficient whose source states no uncertainty, as a share
/// of the coefficient: this library's choice.
pub const UNSTATED_HALF_WIDTH: f64 = 0.05;

/// Least temperature, in degrees Celsius, at which any coefficient is used: this library's choice.
pub const MIN_CELSIUS: f64 = -40.0;

/// Greatest temperature, in degrees Celsius, at which a single room temperature coefficient is
/// used; hotter parts need mean coefficients: this library's choice.
pub const CONSTANT_MAX_CELSIUS: f64 = 300.0;

/// Half-width, as a share of the coefficient, that a mean held below its first printed point has at
/// the base temperature; between the two it grows evenly from zero. This library's choice: every
/// printed point of the table lies within it when it is foretold from any later one.
pub const HELD_HALF_WIDTH: f64 = 0.2;

/// Square root of 3: half-width of a rectangle over its standard deviation.
pub(super) const SQRT_3: f64 = 1.732_050_807_568_877_2;

/// Greatest size of a coefficient, per kelvin; above that of any metal.
const MAX_PER_KELVIN: f64 = 1e-3;

/// A point of a curve of mean coefficients.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MeanPoint {
    /// Upper end of the range the mean is taken over, in degrees Celsius.
    pub celsius: f64,
    /// Mean coefficient from the base temperature to there, per kelvin.
    pub per_kelvin: f64,
}

/// What is known of a material's expansion.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Expansion {
    /// One coefficient near room temperature.
    Constant {
        /// Coefficient per kelvin.
        per_kelvin: f64,
        /// Its standard uncertainty, per kelvin.
        u: f64,
    },
    /// Sources or grades disagree: anything between is equally likely, the middle is used.
    Range {
        /// Least coefficient, per kelvin.
        low: f64,
        /// Greatest coefficient, per kelvin.
        high: f64,
    },
    /// Mean coefficients from a base temperature. Between two points the mean is interpolated in a
    /// straight line: the printed points themselves are met exactly, and what the line leaves out
    /// is small against the uncertainty of the curve. Below the first point the mean stays, with
    /// an uncertainty that grows by [`HELD_HALF_WIDTH`].
    Mean {
        /// Where every mean starts, in degrees Celsius.
        base_celsius: f64,
        /// The curve, in rising temperature.
        points: Cow<'static, [MeanPoint]>,
        /// Standard uncertainty of the whole curve as a share of it.
        relative_u: f64,
    },
}

impl Expansion {
    /// A curve of means from 20 C, given as pairs of degrees Celsius and coefficient per kelvin,
    /// with the uncertainty of [`UNSTATED_HALF_WIDTH`].
    ///
    /// # Source
    /// The uncertainty is this library's choice.
    ///
    /// ```
    /// use lashwork::thermal::{Expansion, Material};
    /// use lashwork::quantity::Temperature;
    /// let stem = Material {
    ///     name: "stem".into(),
    ///     source: "data sheet".into(),
    ///     coefficient: Expansion::mean_from_20(&[(300.0, 17.5e-6), (500.0, 18.5e-6)]),
    /// };
    /// let strain = stem.strain(Temperature::from_celsius(300.0)?, Temperature::from_celsius(500.0)?)?;
    /// assert!((strain * 100.0 - 0.398).abs() < 1e-12);
    /// # Ok::<(), lashwork::thermal::ThermalError>(())
    /// ```
    #[must_use]
    pub fn mean_from_20(points: &[(f64, f64)]) -> Self {
        let point = |&(celsius, per_kelvin)| MeanPoint {
            celsius,
            per_kelvin,
        };
        Self::Mean {
            base_celsius: 20.0,
            points: Cow::Owned(points.iter().map(point).collect::<Vec<_>>()),
            relative_u: UNSTATED_HALF_WIDTH / SQRT_3,
        }
    }

    /// Least and greatest temperature in degrees Celsius.
    fn range(&self) -> (f64, f64) {
        let max = match self {
            Self::Mean { points, .. } => points.last().map_or(MIN_CELSIUS, |p| p.celsius),
            Self::Constant { .. } | Self::Range { .. } => CONSTANT_MAX_CELSIUS,
        };
        (MIN_CELSIUS, max)
    }

    /// By how much a held mean is less sure than the curve it belongs to; 1 within the curve, and for
    /// a curve that is stated without uncertainty.
    pub(super) fn held(&self, celsius: f64) -> f64 {
        let Self::Mean {
            base_celsius,
            points,
            relative_u,
        } = self
        else {
            return 1.0;
        };
        let first = points.first().map_or(celsius, |p| p.celsius);
        if celsius >= first || *relative_u <= 0.0 || first <= *base_celsius {
            return 1.0;
        }
        let below = (first - celsius) / (first - base_celsius);
        libm::hypot(1.0, below * HELD_HALF_WIDTH / SQRT_3 / relative_u)
    }

    /// Strain from the base temperature and its slope (the instantaneous coefficient, per kelvin).
    pub(super) fn at(&self, celsius: f64) -> (f64, f64) {
        match self {
            Self::Constant { per_kelvin, .. } => (per_kelvin * (celsius - 20.0), *per_kelvin),
            Self::Range { low, high } => {
                let middle = f64::midpoint(*low, *high);
                (middle * (celsius - 20.0), middle)
            }
            Self::Mean {
                base_celsius,
                points,
                ..
            } => {
                let (mean, slope) = mean_at(points, celsius);
                let rise = celsius - base_celsius;
                (mean * rise, mean + slope * rise)
            }
        }
    }

    /// What is wrong with the numbers, if anything.
    fn problem(&self) -> Option<&'static str> {
        let usable = |c: f64| c.abs() <= MAX_PER_KELVIN;
        match self {
            Self::Constant { per_kelvin, u } => (!(usable(*per_kelvin) && usable(*u) && *u >= 0.0))
                .then_some("the coefficient or its uncertainty is not usable"),
            Self::Range { low, high } => (!(usable(*low) && usable(*high) && low <= high))
                .then_some("the range of coefficients is not usable"),
            Self::Mean {
                base_celsius,
                points,
                relative_u,
            } => {
                let rising = points.windows(2).all(|pair| match pair {
                    [a, b] => a.celsius < b.celsius,
                    _ => true,
                });
                if points.is_empty() || !rising {
                    Some("the curve has no points or does not rise in temperature")
                } else if points.iter().any(|p| {
                    !(usable(p.per_kelvin)
                        && p.celsius >= MIN_CELSIUS
                        && p.celsius <= Temperature::MAX_CELSIUS)
                }) || !(*base_celsius >= MIN_CELSIUS
                    && *base_celsius <= Temperature::MAX_CELSIUS)
                {
                    Some("a point of the curve is not usable")
                } else if !(*relative_u >= 0.0 && *relative_u <= 1.0) {
                    Some("the relative uncertainty is outside 0 to 1")
                } else {
                    None
                }
            }
        }
    }
}

/// Mean coefficient at a temperature and how it changes, interpolated.
fn mean_at(points: &[MeanPoint], celsius: f64) -> (f64, f64) {
    let Some(first) = points.first() else {
        return (0.0, 0.0);
    };
    if celsius <= first.celsius {
        return (first.per_kelvin, 0.0);
    }
    let mut end = *first;
    for pair in points.windows(2) {
        if let [a, b] = pair {
            if celsius <= b.celsius {
                let slope = (b.per_kelvin - a.per_kelvin) / (b.celsius - a.celsius);
                return (a.per_kelvin + slope * (celsius - a.celsius), slope);
            }
            end = *b;
        }
    }
    (end.per_kelvin, 0.0)
}

/// A material, what it expands by, and who says so.
///
/// ```
/// use lashwork::quantity::Temperature;
/// use lashwork::thermal::material;
/// let iron = material("grey iron").ok_or("not in the table")?;
/// let strain = iron.strain(Temperature::from_celsius(20.0)?, Temperature::from_celsius(80.0)?)?;
/// assert!((strain * 300.0 - 0.2052).abs() < 1e-12);
/// assert!(iron.strain(Temperature::from_celsius(20.0)?, Temperature::from_celsius(900.0)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Material {
    /// Name, as [`material`](super::material()) finds it.
    pub name: Cow<'static, str>,
    /// Where the coefficient comes from.
    pub source: Cow<'static, str>,
    /// The coefficient.
    pub coefficient: Expansion,
}

impl Material {
    /// Expansion from one temperature to another as a share of the length at the curve's base
    /// temperature (20 C); negative on cooling.
    ///
    /// # Units
    /// Metres per metre.
    ///
    /// # Errors
    /// [`ThermalError::OutsideCurve`] if the coefficient is not known at either temperature;
    /// [`ThermalError::BadMaterial`] if the numbers of the material cannot be used.
    ///
    /// # Source
    /// Difference of two expansions from the base, each mean coefficient times rise (EN 10090 and
    /// ASME BPVC II-D define their tables so). The mean over 20 to 500 C is not the coefficient
    /// between 300 and 500 C.
    pub fn strain(&self, from: Temperature, to: Temperature) -> Result<f64, ThermalError> {
        Ok(self.checked(to)?.0 - self.checked(from)?.0)
    }

    /// Instantaneous coefficient, per kelvin: the slope of the expansion at a temperature.
    ///
    /// # Errors
    /// As [`Self::strain`].
    ///
    /// # Source
    /// Derivative of mean coefficient times rise.
    ///
    /// ```
    /// use lashwork::quantity::Temperature;
    /// use lashwork::thermal::material;
    /// let steel = material("steel 4140").ok_or("not in the table")?;
    /// assert_eq!(steel.instantaneous(Temperature::from_celsius(20.0)?)?, 12.3e-6);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn instantaneous(&self, at: Temperature) -> Result<f64, ThermalError> {
        Ok(self.checked(at)?.1)
    }

    /// Refuses numbers that cannot be used.
    pub(super) fn check(&self) -> Result<(), ThermalError> {
        self.coefficient.problem().map_or(Ok(()), |problem| {
            Err(ThermalError::BadMaterial {
                material: self.name.to_string(),
                problem,
            })
        })
    }

    /// Strain and slope where the coefficient is known.
    fn checked(&self, at: Temperature) -> Result<(f64, f64), ThermalError> {
        /// Kelvin keep 20 C only to the last bits.
        const ROUNDING: f64 = 1e-9;
        self.check()?;
        let celsius = at.celsius();
        let (min, max) = self.coefficient.range();
        if celsius < min - ROUNDING || celsius > max + ROUNDING {
            return Err(ThermalError::OutsideCurve {
                material: String::from(self.name.as_ref()),
                celsius,
                min,
                max,
            });
        }
        Ok(self.coefficient.at(celsius))
    }
}
