//! What the height of the fuel does at the jet.

use super::FloatError;
use crate::quantity::{Density, FuelLevel, GaugePressure, Length, Vacuum};
use uom::si::acceleration::standard_gravity;
use uom::si::f64::{Acceleration, Length as Distance, Pressure};
use uom::si::length::millimeter;
use uom::si::pressure::kilopascal;
use uom::si::ratio::ratio;

/// The pressure of so much fuel over a jet.
///
/// # Errors
/// [`FloatError::Quantity`] never for a [`Length`].
///
/// ```
/// use lashwork::mixture::float::head_at_jet;
/// use lashwork::quantity::{Density, Length};
/// let head = head_at_jet(Length::parse("30 mm")?, Density::parse("0.745 kg/l")?)?;
/// assert!((head.kilopascals() - 0.2192).abs() < 1e-4);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn head_at_jet(height: Length, fuel: Density) -> Result<GaugePressure, FloatError> {
    Ok(GaugePressure::of_si(column(height.mm(), fuel))?)
}

/// The depression at the nozzle from which fuel comes out: what lifts it from its level to the nozzle's mouth.
///
/// # Errors
/// [`FloatError::Quantity`] never for a [`Length`].
///
/// ```
/// use lashwork::mixture::float::depression_to_lift;
/// use lashwork::quantity::{Density, Length};
/// let lift = depression_to_lift(Length::parse("6 mm")?, Density::parse("0.745 kg/l")?)?;
/// assert!((lift.kilopascals() - 0.0438).abs() < 1e-4);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn depression_to_lift(lift: Length, fuel: Density) -> Result<Vacuum, FloatError> {
    Ok(Vacuum::of_si(column(lift.mm(), fuel))?)
}

pub(super) fn column(mm: f64, fuel: Density) -> Pressure {
    Distance::new::<millimeter>(mm) * Acceleration::new::<standard_gravity>(1.0) * fuel.si()
}

/// A nozzle over the fuel, drawn on by the air.
///
/// ```
/// use lashwork::mixture::float::Nozzle;
/// use lashwork::quantity::{Density, FuelLevel, Length, Vacuum};
/// let petrol = Density::parse("0.745 kg/l")?;
/// let nozzle = Nozzle { depression: Vacuum::parse("1 kPa")?, lift: Length::parse("6 mm")? };
/// let lower = nozzle.mass_flow(petrol, petrol, FuelLevel::from_mm(-2.0)?)?;
/// assert!((lower - 0.9923).abs() < 1e-4, "2 mm lower, 0.8 % leaner");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nozzle {
    /// Depression at the nozzle, under the air over the fuel.
    pub depression: Vacuum,
    /// How far the nozzle's mouth is over the fuel.
    pub lift: Length,
}

impl Nozzle {
    /// Mass of fuel that flows with another level and another fuel, over that before: the root of what is left
    /// of the depression, times the root of the density.
    ///
    /// # Errors
    /// [`FloatError::NoFlow`] if the depression does not lift one of them to the nozzle.
    pub fn mass_flow(
        &self,
        before: Density,
        after: Density,
        level: FuelLevel,
    ) -> Result<f64, FloatError> {
        let drawn =
            self.left(after, self.lift.mm() - level.mm())? / self.left(before, self.lift.mm())?;
        let denser = after.si() / before.si();
        Ok(libm::sqrt((drawn * denser).get::<ratio>()))
    }
    /// What of the depression draws fuel after lifting it so many millimetres.
    pub(super) fn left(&self, fuel: Density, lift: f64) -> Result<Pressure, FloatError> {
        let needed = column(lift, fuel);
        let left = self.depression.si() - needed;
        if left > Pressure::new::<kilopascal>(0.0) {
            Ok(left)
        } else {
            Err(FloatError::NoFlow {
                depression: self.depression.kilopascals(),
                needed: needed.get::<kilopascal>(),
            })
        }
    }
}
