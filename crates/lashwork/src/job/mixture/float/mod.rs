//! The fuel level: against the book's, with the fuel that is burnt, and what it does at the jet.

mod advise;
mod answer;
mod fuel;
pub(super) mod sheet;

pub use answer::{FloatChamberReport, FloatFuelReport, FloatReport};

use super::place::{FloatField, MixturePlace};
use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::Standing;
use crate::mixture::float::{FloatBody, FloatError, FuelInUse};
use crate::mixture::gas::Fuel;
use crate::quantity::{Density, FuelLevel, Lambda, Length, Vacuum};
use crate::tolerance::{Estimate, Limits, Uncertainty, Verdict};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Standard uncertainty of a level where none is stated, in millimetres. Common practice, no source.
const USUAL_LEVEL: f64 = 0.5;

/// What was read of the fuel level, and what the book asks for.
///
/// ```
/// use lashwork::job::mixture::{Float, FloatChamber};
/// use lashwork::quantity::FuelLevel;
/// let front = FloatChamber { name: "front".into(), level: FuelLevel::parse("-1.2 mm")? };
/// let asked = Float::of(vec![front], "-0.5 mm to 0.5 mm".parse()?);
/// assert!(asked.read_with.is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Float {
    /// What was read in each float chamber.
    pub chambers: Vec<FloatChamber>,
    /// Standard uncertainty of each level.
    pub uncertainty: Option<Uncertainty<FuelLevel>>,
    /// The book's level, over the mark.
    pub limits: Limits<FuelLevel>,
    /// The fuel they were read with; that which is burnt, and listed, if not stated.
    pub read_with: Option<FuelInUse>,
    /// Density of the fuel that is burnt.
    pub density: Option<Estimate<Density>>,
    /// How deep the float sits in the fuel it was read with, and the standard uncertainty of that; by `body` if
    /// not stated.
    pub depth: Option<(Length, Length)>,
    /// What weighs on the float, and how wide it is.
    pub body: Option<FloatBody>,
    /// How far the jet is under the mark.
    pub jet_under_mark: Option<Length>,
    /// The nozzle that is drawn on.
    pub nozzle: Option<FloatNozzle>,
    /// Lambda with the fuel it was read with.
    pub lambda: Option<Estimate<Lambda>>,
}

impl Float {
    /// The levels and the book's limits, the rest not stated.
    #[must_use]
    pub const fn of(chambers: Vec<FloatChamber>, limits: Limits<FuelLevel>) -> Self {
        Self {
            chambers,
            uncertainty: None,
            limits,
            read_with: None,
            density: None,
            depth: None,
            body: None,
            jet_under_mark: None,
            nozzle: None,
            lambda: None,
        }
    }
}

/// What was read in a float chamber.
///
/// ```
/// use lashwork::job::mixture::FloatChamber;
/// use lashwork::quantity::FuelLevel;
/// let rear = FloatChamber { name: "rear".into(), level: FuelLevel::parse("0.05 in")? };
/// assert_eq!(rear.level.mm(), 1.27);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct FloatChamber {
    /// Its name.
    pub name: String,
    /// How high the fuel stands over the mark.
    pub level: FuelLevel,
}

/// A nozzle over the fuel, drawn on by the air.
///
/// ```
/// use lashwork::job::mixture::FloatNozzle;
/// use lashwork::quantity::{Length, Vacuum};
/// let nozzle = FloatNozzle { depression: Vacuum::parse("1 kPa")?, over_mark: Length::parse("6 mm")? };
/// assert_eq!(nozzle.over_mark.mm(), 6.0);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloatNozzle {
    /// Depression at the nozzle, under the air over the fuel.
    pub depression: Vacuum,
    /// How far its mouth is over the mark.
    pub over_mark: Length,
}

/// What the document says elsewhere.
#[derive(Clone, Copy)]
pub(super) struct Facts {
    /// The fuel the engine burns.
    pub(super) burnt: Option<Fuel>,
    /// Whether lengths are said in inches.
    pub(super) inches: bool,
}

/// Works it out. It leans on no step, so nothing is to be settled or to be sure of before it.
pub(super) fn report(
    asked: &Float,
    Facts { burnt, inches }: Facts,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<FloatReport> {
    let faults = problems.len();
    stated(asked, burnt, problems);
    if problems.len() > faults {
        return None;
    }
    let made = fuel::Read::of(asked, burnt, assumptions).and_then(|read| {
        let told = advise::Found {
            asked,
            read: &read,
            inches,
        };
        told.told()
    });
    made.map_err(|(field, why)| problems.push(Problem::at(at(field), &why)))
        .ok()
}

/// Notes what is needed and not stated.
fn stated(asked: &Float, burnt: Option<Fuel>, problems: &mut Vec<Problem>) {
    let mut refuse = |place, code: &'static str, message: &str, hint: &str| {
        problems.push(Problem::new(place, code, message, hint));
    };
    if asked.chambers.is_empty() {
        refuse(
            at(FloatField::Chambers),
            "mixture.no-float-chambers",
            "no level is stated",
            "give the level of each float chamber over the book's mark",
        );
    }
    for (i, one) in asked.chambers.iter().enumerate() {
        if asked
            .chambers
            .iter()
            .take(i)
            .any(|other| other.name == one.name)
        {
            refuse(
                at(FloatField::Chamber(i)),
                "mixture.same-chamber-name",
                &format!("two float chambers are called \"{}\"", one.name),
                "give each its own name",
            );
        }
    }
    let is_other = asked.read_with.is_some();
    if is_other && burnt.is_none() {
        refuse(
            Place::Mixture(MixturePlace::Fuel),
            "mixture.fuel-not-stated",
            "the level was read with another fuel, and the fuel the engine burns is not stated",
            "give \"fuel\" in the mixture section, as in \"E10\"",
        );
    }
    let needs_density = is_other || asked.jet_under_mark.is_some() || asked.nozzle.is_some();
    if needs_density && asked.density.is_none() {
        refuse(
            at(FloatField::Density),
            "mixture.fuel-density-not-stated",
            "the density of the fuel the engine burns is not stated",
            "give \"density\" with \"density_uncertainty\", measured or from the supplier: petrol is 0.72 to 0.775 kg/l",
        );
    }
    if is_other && asked.depth.is_none() && asked.body.is_none() {
        refuse(
            at(FloatField::Immersion),
            "mixture.immersion-not-stated",
            "another fuel carries the float higher or lower, and how deep it sits is not stated",
            "give \"immersion\", or \"body\" with what the float weighs and how wide it is",
        );
    }
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &FloatReport) -> (Standing, String) {
    let is_right = |one: &FloatChamberReport| one.judged.shown() == Verdict::InBand;
    let standing = if found.chambers.iter().all(is_right) {
        Standing::Settled
    } else {
        Standing::NotSettled
    };
    (standing, found.verdict_text.clone())
}

/// A refusal of the core, at what it is about.
type Refused = (FloatField, FloatError);

const fn at(field: FloatField) -> Place {
    Place::Mixture(MixturePlace::Float(field))
}
