//! The piston of one cylinder: how far it is down at an ignition point, and the other way round.

use super::PointError;
use crate::engine::{CylinderIndex, Engine, SliderCrank};
use crate::quantity::{Advance, CrankAngle, CyclePosition, Length, PistonTravel};

/// The piston of one cylinder.
///
/// The ignition point of an engine with an offset pin counts from its true top dead centre; with link
/// rods from where the cylinder fires by order, which is not where its piston tops.
///
/// ```
/// use lashwork::engine::{PinOffset, SliderCrank};
/// use lashwork::ignition::point::Piston;
/// use lashwork::quantity::{Advance, Length, PistonTravel};
/// let mm = |mm| Length::from_mm(mm);
/// let crank = SliderCrank::new(mm(27.0)?, mm(100.0)?, PinOffset::ZERO)?;
/// let piston = Piston::of_crank(crank);
/// let travel = piston.travel(Advance::parse("22 deg BTDC")?)?;
/// assert!((travel.mm() - 2.479).abs() < 5e-4);
/// assert!((piston.before(travel)?.degrees_before() - 22.0).abs() < 1e-9);
/// let far = piston.before(PistonTravel::parse("60 mm")?).unwrap_err();
/// assert!(far.to_string().contains("more than the stroke of 54 mm"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Piston<'e> {
    law: Law<'e>,
    stroke: Length,
}

#[derive(Clone, Copy, Debug)]
enum Law<'e> {
    Crank(SliderCrank),
    OfEngine(&'e Engine, CylinderIndex),
}

impl Piston<'static> {
    /// The piston of a crank and a rod.
    #[must_use]
    pub const fn of_crank(crank: SliderCrank) -> Self {
        Self {
            stroke: crank.stroke(),
            law: Law::Crank(crank),
        }
    }
}

impl<'e> Piston<'e> {
    /// The piston of a cylinder of an engine, on link rods as well.
    ///
    /// # Errors
    /// [`PointError::NoCylinder`]; [`PointError::NoRod`] if its rod was not described.
    pub fn of_engine(engine: &'e Engine, index: CylinderIndex) -> Result<Self, PointError> {
        let cylinder = engine.cylinder(index).ok_or(PointError::NoCylinder)?;
        let centres = engine
            .dead_centres(index)
            .ok_or_else(|| PointError::NoRod {
                cylinder: cylinder.label.clone(),
            })?;
        Ok(Self {
            law: Law::OfEngine(engine, index),
            stroke: centres.stroke,
        })
    }

    /// From top to bottom.
    #[must_use]
    pub const fn stroke(&self) -> Length {
        self.stroke
    }

    /// How far it is below its top at an ignition point.
    ///
    /// # Errors
    /// [`PointError::Quantity`] if the travel is out of range.
    pub fn travel(&self, point: Advance) -> Result<PistonTravel, PointError> {
        let down = match self.law {
            Law::Crank(crank) => {
                let at = crank.tdc_angle().degrees() - point.degrees_before();
                crank.piston_drop(CrankAngle::from_degrees(at)?)
            }
            Law::OfEngine(engine, index) => {
                let phase = CyclePosition::new(engine.cycle(), point.from_tdc());
                engine.piston_drop(index, phase).unwrap_or(self.stroke)
            }
        };
        Ok(PistonTravel::from_mm(down.mm())?)
    }

    /// The ignition point before top dead centre at which it is so far down.
    ///
    /// # Errors
    /// [`PointError::BeyondStroke`], with a hint where half the stroke may have been given.
    pub fn before(&self, travel: PistonTravel) -> Result<Advance, PointError> {
        let (before, _) = self.both(travel)?;
        Ok(Advance::from_degrees_before(before)?)
    }

    /// The ignition point after top dead centre at which it is so far down.
    ///
    /// # Errors
    /// [`PointError::BeyondStroke`].
    pub fn after(&self, travel: PistonTravel) -> Result<Advance, PointError> {
        let (_, after) = self.both(travel)?;
        Ok(Advance::from_degrees_before(-after)?)
    }

    /// Degrees before and after.
    fn both(&self, travel: PistonTravel) -> Result<(f64, f64), PointError> {
        if travel.mm() > self.stroke.mm() {
            return Err(PointError::BeyondStroke {
                travel,
                stroke: self.stroke,
            });
        }
        match self.law {
            Law::Crank(crank) => {
                let (before, after) = crank.angles_at_drop(Length::from_mm(travel.mm())?)?;
                let tdc = crank.tdc_angle().degrees();
                Ok((tdc - before.degrees(), after.degrees() - tdc))
            }
            Law::OfEngine(engine, index) => {
                let share = travel.mm() / self.stroke.mm();
                let found = engine.piston_away(index, share);
                let (before, after) = found.ok_or(PointError::NoCylinder)?;
                Ok((before.degrees(), after.degrees()))
            }
        }
    }

    /// The standard uncertainty of an ignition point that is set by a travel known to `u` millimetres,
    /// in crank degrees: half of what lies between the travels `u` more and `u` less. Close to top dead
    /// centre, where there is nothing less, what lies between the travel and `u` more.
    ///
    /// # Errors
    /// As [`Self::travel`].
    ///
    /// # Source
    /// JCGM 100:2008, 5.1.3, note 2. It stays finite at top dead centre, where the piston's speed is
    /// nought.
    ///
    /// ```
    /// use lashwork::engine::{PinOffset, SliderCrank};
    /// use lashwork::ignition::point::Piston;
    /// use lashwork::quantity::{Advance, Length};
    /// let mm = |mm| Length::from_mm(mm);
    /// let piston = Piston::of_crank(SliderCrank::new(mm(40.0)?, mm(140.0)?, PinOffset::ZERO)?);
    /// let near = piston.degrees_of(Advance::parse("10 deg BTDC")?, 0.2)?;
    /// let far = piston.degrees_of(Advance::parse("38 deg BTDC")?, 0.2)?;
    /// assert!(near > 1.0 && far < near / 3.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn degrees_of(&self, point: Advance, u: f64) -> Result<f64, PointError> {
        let is_after = point.degrees_before() < 0.0;
        let at = |mm: f64| -> Result<f64, PointError> {
            let travel = PistonTravel::from_mm(mm.clamp(0.0, self.stroke.mm()))?;
            let (before, after) = self.both(travel)?;
            Ok(if is_after { after } else { before })
        };
        let travel = self.travel(point)?.mm();
        let more = at(travel + u)?;
        Ok(if travel >= u {
            (more - at(travel - u)?) / 2.0
        } else {
            more - at(travel)?
        })
    }

    /// The same piston with the crank radius twice as large, as where half the stroke was given for the
    /// stroke; none for one of an engine, or where the rod could not pass.
    pub(super) fn of_twice_the_stroke(&self) -> Option<Self> {
        let Law::Crank(crank) = self.law else {
            return None;
        };
        let radius = Length::from_mm(2.0 * crank.crank_radius().mm()).ok()?;
        SliderCrank::new(radius, crank.rod(), crank.offset())
            .ok()
            .map(Piston::of_crank)
    }
}
