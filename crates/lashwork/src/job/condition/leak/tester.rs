//! The tester of a reading.

use super::{LeakDown, LeakDownReading, at, no_bore, refused};
use crate::condition::leak::{LeakError, Tester};
use crate::job::assumptions::Assumptions;
use crate::job::condition::ground::Ground;
use crate::job::condition::place::LeakField;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::quantity::shown::reckoned;
use crate::quantity::{AbsolutePressure, GaugePressure, Length};
use crate::tolerance::{Estimate, ToleranceError, Uncertainty};
use alloc::format;

/// Standard uncertainty of a regulator and of the tester's gauge, in kilopascals; of an orifice, in
/// millimetres. This library's choice.
const GAUGE: f64 = 5.0;
const ORIFICE: f64 = 0.02;
/// The air at sea level, and what weather leaves open of it, in kilopascals.
const SEA_LEVEL: (f64, f64) = (101.325, 1.0);

/// A tester: what it supplies, and its orifice.
///
/// ```
/// use lashwork::job::condition::{LeakTester, OrificeKnown};
/// use lashwork::quantity::GaugePressure;
/// let supply = GaugePressure::parse("80 psi")?;
/// let tester = LeakTester { supply, supply_u: None, orifice: OrificeKnown::OfBore };
/// assert_eq!(tester.orifice, OrificeKnown::OfBore);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeakTester {
    /// What the regulator is set to.
    pub supply: GaugePressure,
    /// Its standard uncertainty.
    pub supply_u: Option<Uncertainty<GaugePressure>>,
    /// The orifice between the gauges.
    pub orifice: OrificeKnown,
}

/// How the orifice of a tester is known.
///
/// ```
/// use lashwork::job::condition::OrificeKnown;
/// use lashwork::quantity::Length;
/// let known = OrificeKnown::Diameter { diameter: Length::parse("0.040 in")?, u: None };
/// assert_ne!(known, OrificeKnown::OfBore);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum OrificeKnown {
    /// That for the bore, as FAA AC 43.13-1B asks.
    OfBore,
    /// By its diameter.
    Diameter {
        /// The diameter.
        diameter: Length,
        /// Its standard uncertainty.
        u: Option<Length>,
    },
    /// By what the tester shows of a hole of known size.
    Master {
        /// Diameter of the hole.
        hole: Length,
        /// Its standard uncertainty.
        u: Option<Length>,
        /// What the tester shows of it.
        shows: GaugePressure,
    },
}

/// The testers of the readings.
pub(super) struct Testers<'r> {
    pub(super) asked: &'r LeakDown,
    pub(super) ground: &'r Ground<'r>,
    pub(super) gauge: Option<Uncertainty<GaugePressure>>,
}

impl Testers<'_> {
    /// That of a reading.
    pub(super) fn of(
        &self,
        i: usize,
        reading: &LeakDownReading,
        assumptions: &mut Assumptions,
    ) -> Result<Tester, Problem> {
        let (stated, field) = match (reading.tester, self.asked.tester) {
            (Some(own), _) => (own, LeakField::OwnTester(i)),
            (None, Some(tester)) => (tester, LeakField::Tester),
            (None, None) => {
                return Err(Problem::new(
                    Place::Condition(at(LeakField::Section)),
                    "condition.leak-no-tester",
                    "what was supplied through which orifice is not stated, so what was read says nothing",
                    "give \"tester\" with its supply and its orifice",
                ));
            }
        };
        if matches!(stated.orifice, OrificeKnown::OfBore) && self.ground.bore.is_none() {
            return Err(no_bore(field));
        }
        let made = self.made(&stated, assumptions);
        made.map_err(|why| refused(Place::Condition(at(field)), &why, self.asked.unit))
    }

    fn made(
        &self,
        stated: &LeakTester,
        assumptions: &mut Assumptions,
    ) -> Result<Tester, LeakError> {
        if stated.supply_u.is_none() {
            assumptions.add(
                "condition.leak-supply-assumed",
                format!(
                    "the supply is taken to be right to a standard deviation of {}",
                    self.asked.unit.say_change(GAUGE)
                ),
            );
        }
        let usual = Uncertainty::from_number(GAUGE)?;
        let supply_u = stated.supply_u.unwrap_or(usual);
        let supply = Estimate::between(stated.supply, stated.supply, supply_u)?;
        let mut size = |u: Option<Length>| {
            if u.is_none() {
                assumptions.add(
                    "condition.leak-orifice-assumed",
                    format!(
                        "the orifice is taken to be right to a standard deviation of {}",
                        reckoned(ORIFICE, self.ground.inches)
                    ),
                );
            }
            u.map_or_else(|| Length::from_mm(ORIFICE), Ok)
        };
        match (stated.orifice, self.ground.bore) {
            (OrificeKnown::Diameter { diameter, u }, _) => {
                Tester::of_diameter(supply, diameter, size(u)?)
            }
            (OrificeKnown::Master { hole, u, shows }, _) => {
                let shown = Estimate::between(shows, shows, self.gauge.unwrap_or(usual))?;
                Tester::by_master(supply, hole, size(u)?, &shown, &self.air()?)
            }
            (OrificeKnown::OfBore, Some(bore)) => Tester::of_bore(supply, bore),
            (OrificeKnown::OfBore, None) => Err(LeakError::OneSided { what: "the bore" }),
        }
    }

    fn air(&self) -> Result<Estimate<AbsolutePressure>, LeakError> {
        if let Some(air) = self.ground.air {
            return Ok(air);
        }
        let (kpa, u) = SEA_LEVEL;
        let air = AbsolutePressure::from_kilopascals(kpa)?;
        let u: Result<_, ToleranceError> = Uncertainty::from_number(u);
        Ok(Estimate::between(air, air, u?)?)
    }
}
