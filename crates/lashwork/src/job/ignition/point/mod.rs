//! One ignition point said by every tool at hand, the surest first, and where the lamp flashes for each
//! cylinder.

pub(super) mod sheet;

use super::IgnitionPlace;
use super::cam::drive;
use super::request::Distributor;
use crate::engine::{CylinderIndex, CylinderLabel};
use crate::ignition::point::{
    Dial, Flash, MarkSide, PairFits, Piston, PointError, Said, Sparks, TAPE_U_MM, Tools, WHEEL_U,
    WaySaid, every_way, flashes, pair_fits,
};
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::quantity::shown::{by_hand, part};
use crate::quantity::{Advance, LengthUnit, PistonTravel};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Which ignition point, and what there is to read it with. Pulley, crank and rod are the engine's.
///
/// ```
/// use lashwork::job::ignition::IgnitionPoint;
/// use lashwork::quantity::Advance;
/// let mut asked = IgnitionPoint::default();
/// asked.at = Some(Advance::parse("22 deg BTDC")?);
/// assert!(!asked.wheel);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct IgnitionPoint {
    /// The point; where the timing is to be set if not stated.
    pub at: Option<Advance>,
    /// On which cylinder the dial gauge stands; the first of the firing order if not stated.
    pub cylinder: Option<CylinderIndex>,
    /// A dial gauge in its plug hole.
    pub dial: Option<Dial>,
    /// The piston travel the book prints for the same point, to be held against it.
    pub book_travel: Option<PistonTravel>,
    /// Whether there is a degree wheel.
    pub wheel: bool,
    /// Whether the mark on the rim is laid off with a tape and not the maker's.
    pub by_tape: bool,
    /// How often a plug sparks; once a cycle if not stated.
    pub sparks: Option<Sparks>,
}

/// One ignition point by every tool.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IgnitionPointReport {
    /// The point.
    pub at: Advance,
    /// What each tool shows there, the surest first.
    pub ways: Vec<PointWayReport>,
    /// What the book's piston travel says of the angle.
    pub pair: Option<String>,
    /// Where the lamp flashes on each lead, in the order in which they come.
    pub flashes: Vec<FlashReport>,
}

/// What one tool shows at the point.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct PointWayReport {
    /// In words.
    pub text: String,
    /// Standard uncertainty of a point set by it, in crank degrees.
    pub uncertainty_deg: f64,
}

/// A flash of the lamp.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct FlashReport {
    /// On whose lead the lamp is.
    pub cylinder: String,
    /// How far behind the first cylinder's timing mark the place of the rim is that is at the pointer.
    pub behind_first_mark_deg: f64,
    /// Whether the spark falls into the overlap.
    pub is_wasted: bool,
    /// What is then at the pointer, in words.
    pub place: String,
}

/// Works it out; `aim` is where the timing is to be set.
pub(super) fn report(
    asked: &IgnitionPoint,
    known: Known<'_>,
    distributor: &Distributor,
    aim: Option<Advance>,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<IgnitionPointReport> {
    let place = Place::Ignition(IgnitionPlace::Point);
    let Some(at) = asked.at.or(aim) else {
        problems.push(Problem::new(
            place,
            "ignition.no-point",
            "no ignition point is given",
            "give \"at\", or the timing with its limits",
        ));
        return None;
    };
    match work(asked, known, distributor, at, assumptions) {
        Ok(made) => Some(made),
        Err(why) => {
            problems.push(Problem::at(place, &why));
            None
        }
    }
}

fn work(
    asked: &IgnitionPoint,
    known: Known<'_>,
    distributor: &Distributor,
    at: Advance,
    assumptions: &mut Assumptions,
) -> Result<IgnitionPointReport, PointError> {
    let engine = known.engine;
    let inches = known.shown.inches;
    let index = asked.cylinder.or_else(|| engine.order().first().copied());
    let index = index.ok_or(PointError::NoCylinder)?;
    let needs_piston = asked.dial.is_some() || asked.book_travel.is_some();
    let piston = needs_piston
        .then(|| Piston::of_engine(engine, index))
        .transpose()?;
    if let Some(dial) = asked.dial
        && !dial.is_stated()
    {
        let text = format!(
            "uncertainty of the dial gauge not stated: {} taken",
            by_hand(Dial::USUAL_U_MM, inches)
        );
        assumptions.add("ignition.dial-uncertainty", text);
    }
    let drive = drive(known, distributor);
    let tools = Tools {
        wheel: asked.wheel.then_some(WHEEL_U),
        rim: known.pulley.map(|pulley| (pulley, asked.by_tape)),
        rotor: Some(drive),
        dial: piston.zip(asked.dial),
    };
    assumptions.add(
        "ignition.tools",
        format!(
            "what marks, tape, wheel and the distributor's scale can be read to is common practice: 1 crank \
             degree either way, {}, {WHEEL_U} and 1 degree taken",
            part(TAPE_U_MM, inches)
        ),
    );
    let ways = every_way(at, &tools)?;
    let pair = match (piston, asked.book_travel) {
        (Some(piston), Some(travel)) => {
            let u = asked
                .dial
                .map_or(Dial::USUAL_U_MM, |dial| dial.travel_u_mm());
            let fits = pair_fits(&piston, at, travel, 0.5, u)?;
            Some(said_pair(fits.first().copied()))
        }
        _ => None,
    };
    let sparks = asked.sparks.unwrap_or(Sparks::OnceACycle);
    let all = flashes(engine, at, drive, sparks)?;
    Ok(IgnitionPointReport {
        at,
        ways: ways.iter().map(|way| said_way(way, inches)).collect(),
        pair,
        flashes: all
            .iter()
            .filter_map(|flash| {
                let cylinder = &engine.cylinder(flash.cylinder)?.label;
                Some(said_flash(flash, cylinder))
            })
            .collect(),
    })
}

fn said_way(way: &WaySaid, inches: bool) -> PointWayReport {
    let (unit, coarse, fine) = if inches {
        (LengthUnit::Inch, 2, 3)
    } else {
        (LengthUnit::Millimetre, 1, 2)
    };
    let said = match way.said {
        Said::CrankDegrees(at) => format!("degree wheel on the crank: {}", at.show(1)),
        Said::DistributorDegrees(at) => format!(
            "distributor's scale or rotor: {:.1} of its degrees before where it stands at TDC",
            at.degrees_before()
        ),
        Said::Rim(mark) => {
            let side = match mark.side {
                MarkSide::Ahead => " ahead of the TDC mark, in the running direction",
                MarkSide::Behind => " behind the TDC mark, against the running direction",
                MarkSide::On => ", the TDC mark itself",
            };
            format!(
                "mark on the rim: {}{side}",
                mark.along_rim.show(unit, coarse)
            )
        }
        Said::PistonTravel { dial, piston } => {
            let along = if dial == piston {
                String::new()
            } else {
                format!(" (the piston is {} down)", piston.show(unit, fine))
            };
            format!(
                "dial gauge: {} from TDC{along}, coming up on compression",
                dial.show(unit, fine)
            )
        }
    };
    PointWayReport {
        text: format!("{said}; u {:.1} crank deg", way.crank_degrees_u),
        uncertainty_deg: way.crank_degrees_u,
    }
}

fn said_pair(fits: Option<PairFits>) -> String {
    String::from(match fits {
        Some(PairFits::AsGiven) => "the book's angle and piston travel agree",
        Some(PairFits::RadiusGivenForStroke) => {
            "the book's angle and travel agree only with twice the stroke: was half of it, the crank radius, given?"
        }
        Some(PairFits::DistributorDegrees) => {
            "the book's travel goes with twice the angle: does the angle count at the distributor?"
        }
        Some(PairFits::HalfTheAngle) => {
            "the book's travel goes with half the angle: was it doubled although it counts at the crank?"
        }
        None => {
            "the book's angle and piston travel are not one point, and no common slip makes them one"
        }
    })
}

fn said_flash(flash: &Flash, cylinder: &CylinderLabel) -> FlashReport {
    let mark = if flash.at_first_mark {
        String::from("at the pointer is the first cylinder's timing mark")
    } else {
        format!(
            "at the pointer is the place of the rim {:.0} deg behind the first cylinder's timing mark",
            flash.behind_first_mark.degrees()
        )
    };
    FlashReport {
        place: mark,
        behind_first_mark_deg: flash.behind_first_mark.degrees(),
        is_wasted: flash.is_wasted,
        cylinder: cylinder.as_str().into(),
    }
}
