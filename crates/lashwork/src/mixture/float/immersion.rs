//! How deep a float sits in its fuel.

use super::FloatError;
use crate::quantity::{Density, FuelLevel, GaugePressure, Length, Mass};
use crate::tolerance::known::{known, normal, together};
use crate::tolerance::{Estimate, Measurand};
use serde::Serialize;
use uom::si::acceleration::standard_gravity;
use uom::si::f64::{Acceleration, Area, Length as Distance, Volume};
use uom::si::length::millimeter;

/// Depths that are accepted, in millimetres.
const DEPTHS: (f64, f64) = (0.1, 200.0);

/// How deep a float sits in a fuel when its needle is shut: the immersed volume over the section of the float
/// at the surface.
///
/// ```
/// use lashwork::mixture::float::Immersion;
/// use lashwork::quantity::{Density, Length};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let fuel = |kg: f64| {
///     let density = Density::from_kilograms_per_cubic_metre(kg).unwrap();
///     Estimate::between(density, density, Uncertainty::from_number(2.0).unwrap()).unwrap()
/// };
/// let sits = Immersion::new(Length::from_mm(15.0)?, Length::from_mm(1.0)?, fuel(745.0))?;
/// // Ethanol carries the float higher: it shuts the needle at a lower level.
/// let change = sits.level_change(&fuel(789.0))?;
/// assert!((change.centre().unwrap().mm() + 0.84).abs() < 0.005);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Immersion {
    depth_mm: f64,
    depth_u: f64,
    fuel: Estimate<Density>,
}

/// What weighs on a float and how wide it is.
///
/// ```
/// use lashwork::mixture::float::FloatBody;
/// use lashwork::quantity::{Density, GaugePressure, Length, Mass};
/// let float = FloatBody {
///     mass: Mass::parse("10 g")?,
///     diameter: Length::parse("24 mm")?,
///     floats: 2,
///     seat: Length::parse("2.0 mm")?,
///     fuel_pressure: GaugePressure::parse("0.2 bar")?,
///     leverage: 0.4,
/// };
/// let depth = float.depth(Density::parse("0.745 kg/l")?)?;
/// assert!((depth.mm() - 18.64).abs() < 0.01);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FloatBody {
    /// Mass of all that moves with the float.
    pub mass: Mass,
    /// Diameter of a round float at the surface.
    pub diameter: Length,
    /// How many there are on one arm.
    pub floats: u8,
    /// Diameter of the needle's seat.
    pub seat: Length,
    /// Pressure of the fuel at the needle: of a pump, or of the tank's height.
    pub fuel_pressure: GaugePressure,
    /// Arm of the needle over arm of the float.
    pub leverage: f64,
}

impl FloatBody {
    /// How deep it sits when the needle holds the fuel back: as much fuel as weighs what the float weighs and
    /// what presses on the needle (Archimedes).
    ///
    /// # Errors
    /// [`FloatError::Body`] without a section or with an arm that is none; [`FloatError::Depth`] outside 0.1
    /// to 200 mm.
    pub fn depth(&self, fuel: Density) -> Result<Length, FloatError> {
        let across = |length: Length| Distance::new::<millimeter>(length.mm());
        let round = |length: Length| -> Area {
            across(length) * across(length) * (core::f64::consts::PI / 4.0)
        };
        let section = round(self.diameter) * f64::from(self.floats);
        if self.diameter.mm() <= 0.0 || self.floats == 0 || !(0.0..=2.0).contains(&self.leverage) {
            return Err(FloatError::Body);
        }
        let pressed = self.fuel_pressure.si() * round(self.seat) * self.leverage
            / Acceleration::new::<standard_gravity>(1.0);
        let immersed: Volume = (self.mass.si() + pressed) / fuel.si();
        let deep: Distance = immersed / section;
        Ok(Length::from_mm(depth(deep.get::<millimeter>())?)?)
    }

    /// How far the tang moves at the needle, either way, where the level is to change by so much.
    ///
    /// # Errors
    /// [`FloatError::Body`] with an arm that is none.
    ///
    /// ```
    /// use lashwork::mixture::float::FloatBody;
    /// use lashwork::quantity::{FuelLevel, GaugePressure, Length, Mass};
    /// let float = FloatBody {
    ///     mass: Mass::parse("10 g")?,
    ///     diameter: Length::parse("24 mm")?,
    ///     floats: 2,
    ///     seat: Length::parse("2.0 mm")?,
    ///     fuel_pressure: GaugePressure::parse("0.2 bar")?,
    ///     leverage: 0.4,
    /// };
    /// let far = float.at_needle(FuelLevel::parse("-1.5 mm")?)?;
    /// assert!((far.mm() - 0.6).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn at_needle(&self, change: FuelLevel) -> Result<Length, FloatError> {
        if !(0.0..=2.0).contains(&self.leverage) {
            return Err(FloatError::Body);
        }
        Ok(Length::from_mm(self.leverage * change.mm().abs())?)
    }
}

fn depth(got: f64) -> Result<f64, FloatError> {
    let (min, max) = DEPTHS;
    if (min..=max).contains(&got) {
        Ok(got)
    } else {
        Err(FloatError::Depth { got, min, max })
    }
}

impl Immersion {
    /// From a depth with its standard uncertainty, measured or by [`FloatBody::depth`], and the fuel it is in.
    ///
    /// # Errors
    /// [`FloatError::Depth`] outside 0.1 to 200 mm; [`FloatError::OneSided`].
    pub fn new(deep: Length, u: Length, fuel: Estimate<Density>) -> Result<Self, FloatError> {
        known(&fuel).ok_or(FloatError::OneSided {
            what: "the density",
        })?;
        Ok(Self {
            depth_mm: depth(deep.mm())?,
            depth_u: u.mm(),
            fuel,
        })
    }

    /// The depth and its standard uncertainty, in millimetres.
    pub(super) const fn depth(&self) -> (f64, f64) {
        (self.depth_mm, self.depth_u)
    }

    /// The fuel that the depth is in.
    #[must_use]
    pub const fn fuel(&self) -> Estimate<Density> {
        self.fuel
    }

    /// How much higher another fuel stands when the needle shuts; negative for a denser one.
    ///
    /// # Errors
    /// [`FloatError::OneSided`].
    pub fn level_change(
        &self,
        other: &Estimate<Density>,
    ) -> Result<Estimate<FuelLevel>, FloatError> {
        let one_sided = FloatError::OneSided {
            what: "the density",
        };
        let (here, here_u) = known(&self.fuel).ok_or(one_sided.clone())?;
        let (there, there_u) = known(other).ok_or(one_sided)?;
        let ratio = here / there;
        let u = together([
            (ratio - 1.0) * self.depth_u,
            self.depth_mm * ratio * here_u / here,
            self.depth_mm * ratio * there_u / there,
        ]);
        Ok(normal(self.depth_mm * (ratio - 1.0), u)?)
    }

    /// The level over a mark with another fuel, from that with this one.
    ///
    /// # Errors
    /// [`FloatError::OneSided`].
    ///
    /// ```
    /// use lashwork::mixture::float::Immersion;
    /// use lashwork::quantity::{Density, FuelLevel, Length};
    /// use lashwork::tolerance::{Estimate, Limits, Measurand, Uncertainty, Verdict, judge, HasLimits};
    /// fn about<Q: Measurand>(number: f64, u: f64) -> Estimate<Q> {
    ///     let value = Q::from_number(number).unwrap();
    ///     Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
    /// }
    /// let sits = Immersion::new(Length::from_mm(20.0)?, Length::from_mm(1.0)?, about(745.0, 3.0))?;
    /// let level = sits.level_with(&about::<FuelLevel>(-0.5, 0.2), &about(789.0, 3.0))?;
    /// // The book: within 0.05 in of the mark.
    /// let sight: Limits<FuelLevel> = "-0.05 in to 0.05 in".parse()?;
    /// assert_eq!(judge(&level, &sight, &FuelLevel::USUAL_RULE).verdict, Verdict::Below);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn level_with(
        &self,
        level: &Estimate<FuelLevel>,
        other: &Estimate<Density>,
    ) -> Result<Estimate<FuelLevel>, FloatError> {
        let one_sided = |what| FloatError::OneSided { what };
        let (at, at_u) = known(level).ok_or(one_sided("the level"))?;
        let (change, change_u) = known(&self.level_change(other)?).ok_or(one_sided("the level"))?;
        Ok(normal(at + change, libm::hypot(at_u, change_u))?)
    }
}

/// Immersed volume in one fuel over that in another: the other density over this one.
///
/// ```
/// use lashwork::mixture::float::immersed_ratio;
/// use lashwork::quantity::Density;
/// let (petrol, ethanol) = (Density::parse("0.745 kg/l")?, Density::parse("0.789 kg/l")?);
/// assert!((immersed_ratio(ethanol, petrol) - 0.9442).abs() < 5e-5);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn immersed_ratio(of: Density, over: Density) -> f64 {
    over.number() / of.number()
}
