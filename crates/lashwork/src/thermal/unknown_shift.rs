//! Metal that is not at the book's temperature, with nothing to say how the lash follows.

use super::{COLD_HALF_WIDTH, Metal, Reference};
use crate::quantity::shown::by_hand;
use crate::quantity::{Lash, LengthUnit, Temperature, TemperatureDifference, TemperatureUnit};
use crate::tolerance::{ToleranceError, Uncertainty};
use alloc::format;
use alloc::string::String;
use serde::Serialize;

/// What a whole warm-up, [`WARM_UP`], does to a lash of which nothing is known: standard uncertainty in
/// millimetres, either way. Using it is an assumption that a job must list.
///
/// # Source
/// The root mean square of three published changes from cold to hot is 0.09 mm: +0.05 mm for an
/// overhead-cam alloy head (0.30 to 0.40 mm cold, 0.35 to 0.45 mm hot), -0.08 and -0.13 mm for the intake
/// and exhaust valves of a diesel (0.018 and 0.030 in cold, 0.015 and 0.025 in hot). The pages are named in
/// the tests. Sign and size differ by engine.
///
/// ```
/// use lashwork::thermal::WARM_UP_MM;
/// let published: [f64; 3] = [0.05, -0.0762, -0.127];
/// let mean_square = published.iter().map(|mm| mm * mm).sum::<f64>() / 3.0;
/// assert!((WARM_UP_MM - mean_square.sqrt()).abs() < 0.01);
/// ```
pub const WARM_UP_MM: f64 = 0.1;

/// From cold to running temperature.
///
/// # Source
/// Common practice, no source: from about 20 C to about 80 C.
///
/// ```
/// use lashwork::thermal::WARM_UP;
/// assert_eq!(WARM_UP.kelvin(), 60.0);
/// ```
pub const WARM_UP: TemperatureDifference = TemperatureDifference::of_kelvin::<60>();

/// Metal this near to a printed temperature is taken to be at it; by [`unknown_shift`] it may be off by
/// 0.008 mm. This library's choice. What a book calls cold is wider: [`COLD_HALF_WIDTH`].
///
/// ```
/// use lashwork::thermal::NEAR_REFERENCE;
/// assert_eq!(NEAR_REFERENCE.kelvin(), 5.0);
/// ```
pub const NEAR_REFERENCE: TemperatureDifference = TemperatureDifference::of_kelvin::<5>();

/// Standard uncertainty of a lash whose metal is so far from the reference, where nothing says how the
/// lash follows: [`WARM_UP_MM`] in proportion.
///
/// # Errors
/// [`ToleranceError`] for a difference by which no lash can be so uncertain; none in practice.
///
/// ```
/// use lashwork::quantity::TemperatureDifference;
/// use lashwork::thermal::unknown_shift;
/// let u = unknown_shift(TemperatureDifference::from_kelvin(-30.0)?)?;
/// assert!((u.mm() - 0.05).abs() < 1e-15);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn unknown_shift(by: TemperatureDifference) -> Result<Uncertainty<Lash>, ToleranceError> {
    let share = (by.kelvin() / WARM_UP.kelvin()).abs();
    Uncertainty::from_mm(WARM_UP_MM * share)
}

/// Why a reading cannot be held against a book: its metal is not at the temperature the book's figures
/// hold at, or not known to be, and nothing says how the lash follows.
///
/// ```
/// use lashwork::quantity::Temperature;
/// use lashwork::thermal::{Metal, MetalTemperature, Reference};
/// let hot = Metal::At(MetalTemperature::of(Temperature::parse("64 C")?));
/// let off = hot.not_at(Reference::Cold)?.ok_or("44 K are no matter?")?;
/// assert!(off.is_too_warm());
/// use lashwork::quantity::{LengthUnit, TemperatureUnit};
/// let told = off.shown_in(LengthUnit::Inch, TemperatureUnit::Fahrenheit);
/// assert!(told.temperatures().starts_with("the metal is at 147 F"));
/// assert!(told.text().contains("may differ by 0.003 in"));
/// assert!((off.uncertainty_mm - 0.074).abs() < 0.001);
/// assert_eq!(Metal::Unstated.not_at(Reference::Cold)?, None);
/// assert!(Metal::Unstated.not_at(Reference::Hot)?.is_some());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct NotAtReference {
    /// The metal's temperature, if it is stated.
    pub is: Option<Temperature>,
    /// The temperature the figures hold at; nothing for a book that says hot without one.
    pub reference: Option<Temperature>,
    /// How far apart the two are taken to be, doubts included, in kelvin.
    pub apart_k: f64,
    /// What that may do to the lash: standard uncertainty in millimetres, either way.
    pub uncertainty_mm: f64,
    #[serde(skip)]
    inches: bool,
    #[serde(skip)]
    shown: TemperatureUnit,
}

impl NotAtReference {
    /// The same, said in these units; without it in millimetres and degrees Celsius.
    #[must_use]
    pub const fn shown_in(self, length: LengthUnit, temperature: TemperatureUnit) -> Self {
        Self {
            inches: length.is_inch(),
            shown: temperature,
            ..self
        }
    }

    /// Whether it is a matter of waiting: the metal is warmer than the book's figures ask for.
    #[must_use]
    pub fn is_too_warm(&self) -> bool {
        matches!((self.is, self.reference), (Some(is), Some(wanted)) if is > wanted)
    }

    /// The two temperatures in words.
    #[must_use]
    pub fn temperatures(&self) -> String {
        let metal = match self.is {
            Some(is) => format!("the metal is at {}", is.show(self.shown, 0)),
            None => String::from("the metal's temperature is not stated"),
        };
        let book = match self.reference {
            Some(wanted) => format!("the figures hold at {}", wanted.show(self.shown, 0)),
            None => String::from("the figures hold at an unstated running temperature"),
        };
        format!("{metal}, {book}")
    }

    /// The finding in words.
    #[must_use]
    pub fn text(&self) -> String {
        format!(
            "no reading can be judged: {}, and nothing says how the lash of this engine follows the \
             temperature; it may differ by {} (standard uncertainty) either way",
            self.temperatures(),
            by_hand(self.uncertainty_mm, self.inches)
        )
    }
}

impl Metal {
    /// Whether a reading of this metal cannot be held against figures of that reference, and why not;
    /// nothing if it can: the metal is within [`NEAR_REFERENCE`] of it ([`COLD_HALF_WIDTH`] where either
    /// is only known to be cold) and known that well, or something says how the lash follows.
    ///
    /// Metal that is not stated is taken to be cold.
    ///
    /// # Errors
    /// [`ToleranceError::Quantity`] for temperatures further apart than two can be.
    pub fn not_at(&self, reference: Reference) -> Result<Option<NotAtReference>, ToleranceError> {
        let stated = match self {
            Self::At(temperature) | Self::Coefficient { temperature, .. } => Some(*temperature),
            Self::Unstated | Self::Chain { .. } => None,
        };
        let apart_k = match reference.temperature() {
            None => WARM_UP.kelvin(),
            Some(_) if self.has_rule() => return Ok(None),
            Some(wanted) => {
                let is = stated.map_or(Temperature::ISO_1, |t| t.is);
                let apart = (is - wanted).kelvin();
                let (u, near) = match (stated, reference) {
                    (None, _) => (Reference::Cold.standard_uncertainty_k(), COLD_HALF_WIDTH),
                    (Some(t), Reference::Cold) => {
                        (t.standard_uncertainty().kelvin(), COLD_HALF_WIDTH)
                    }
                    (Some(t), _) => (t.standard_uncertainty().kelvin(), NEAR_REFERENCE),
                };
                if apart.abs() <= near.kelvin() && u <= near.kelvin() {
                    return Ok(None);
                }
                libm::hypot(libm::hypot(apart, u), reference.standard_uncertainty_k())
            }
        };
        let apart = TemperatureDifference::from_kelvin(apart_k)?;
        Ok(Some(NotAtReference {
            is: stated.map(|t| t.is),
            reference: reference.temperature(),
            apart_k,
            uncertainty_mm: unknown_shift(apart)?.mm(),
            inches: false,
            shown: TemperatureUnit::Celsius,
        }))
    }
}
