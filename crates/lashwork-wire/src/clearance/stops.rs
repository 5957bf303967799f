//! Where the crank can be stopped.

use crate::engine::cylinder;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::engine::{CylinderIndex, Engine};
use lashwork::job::clearance::StopOptions;
use lashwork::quantity::CrankAngle;
use lashwork::valve::{Mark, Marks, Method, StoppingPoints, ValveError, present_position};

words!(PlacesDoc {
    /// At the marks listed in `marks`.
    Marks = "marks",
    /// At each cylinder's top dead centre, firing and overlap.
    DeadCentres = "tdc",
    /// Anywhere, with a degree wheel.
    AnyAngle = "any_angle",
});

named!(Method as "MethodDoc" {
    /// Each cylinder at its own firing top dead centre.
    CylinderByCylinder = "cylinder_by_cylinder",
    /// Two positions one turn apart.
    TwoPosition = "two_position",
    /// As few stops as the places allow.
    FewestStops = "fewest_stops",
    /// The intake where the exhaust begins to open, the exhaust where the intake has just closed.
    OppositeValve = "opposite_valve",
    /// Each valve while the same kind in the companion cylinder is fully open.
    FullyOpenValve = "fully_open_valve",
});

parts! {
    /// Where the crank can be stopped, where it is now, and what the book says of it.
    PlanDoc {
        /// Not stated: each cylinder's top dead centre is taken, or any angle if those do not serve
        /// every valve; the choice is listed as an assumption.
        places: Option<PlacesDoc>,
        /// The marks on the pulley; with `"places": "marks"` only.
        marks: Option<Vec<MarkDoc>>,
        /// Where the crank is now: degrees after firing TDC of the first cylinder in the firing
        /// order, 0 up to the cycle's length. If it is given, the turning to the first stop is counted.
        from: Option<Q<CrankAngle>>,
        /// The way the book prescribes for this cam, which overrides what would be recommended.
        prescribed: Option<W<Method>>,
        /// Whether the cam ring of a radial engine floats on its spigot, so that open valves push it
        /// aside. Not stated: taken to float, so that cylinder by cylinder is the plan; listed as an
        /// assumption.
        ring_floats: Option<bool>,
    }
    /// A mark on the pulley. It comes to the pointer once in every turn of the crank.
    MarkDoc {
        /// What is printed there.
        label: String,
        /// Crank degrees after top dead centre at which it is at the pointer, 0 up to 360: 10
        /// before TDC is 350.
        at: Q<CrankAngle>,
        /// The cylinder whose top dead centre is meant; not stated, the first in the firing order.
        after: Option<String>,
    }
}

/// The choice of places, or what is wrong with it.
pub(super) fn plan(
    doc: PlanDoc,
    start: Option<CylinderIndex>,
    engine: &Engine,
    problems: &mut Vec<Problem>,
) -> Option<StopOptions> {
    let before = problems.len();
    let from = doc.from.and_then(|from| {
        let made = present_position(engine.cycle(), from.0);
        value(problems, "/clearance/plan/from", made)
    });
    let places = match (doc.places, doc.marks) {
        (Some(PlacesDoc::Marks), listed) => {
            marks(listed.unwrap_or_default(), engine, problems).map(StoppingPoints::Marks)
        }
        (places, Some(_)) => {
            problems.push(Problem::new(
                "/clearance/plan/marks",
                "valve.marks-not-asked",
                "marks are listed, but the places to stop at are not \"marks\"",
                "add \"places\": \"marks\", or leave the marks out",
            ));
            places.and(None)
        }
        (Some(PlacesDoc::DeadCentres), None) => Some(StoppingPoints::DeadCentres),
        (Some(PlacesDoc::AnyAngle), None) => Some(StoppingPoints::AnyAngle),
        (None, None) => None,
    };
    (problems.len() == before).then_some(StopOptions {
        places,
        from,
        start,
        prescribed: doc.prescribed.map(|method| method.0),
        ring_floats: doc.ring_floats,
    })
}

fn marks(list: Vec<MarkDoc>, engine: &Engine, problems: &mut Vec<Problem>) -> Option<Marks> {
    let got = list.len();
    if got > Marks::MAX {
        let max = Marks::MAX;
        problems.push(Problem::at(
            "/clearance/plan/marks",
            &ValveError::TooManyMarks { got, max },
        ));
        return None;
    }
    let mut made = Vec::new();
    for (i, doc) in list.into_iter().enumerate() {
        let place = format!("/clearance/plan/marks/{i}");
        let index = match doc.after {
            Some(label) => cylinder(engine, &label, &format!("{place}/after"), problems),
            None => engine.order().first().copied(),
        };
        let Some(index) = index else { continue };
        let mark = Mark::new(doc.label, engine.dead_centre(index), doc.at.0);
        let field = match mark {
            Err(ValveError::MarkUnnamed) => "label",
            _ => "at",
        };
        made.extend(value(problems, format!("{place}/{field}"), mark));
    }
    if made.len() < got {
        return None;
    }
    let made = Marks::new(made).map_err(|found| {
        for (i, error) in found {
            let place = match error {
                ValveError::NoMarks => "/clearance/plan/marks".to_owned(),
                ValveError::MarkTwice { .. } => format!("/clearance/plan/marks/{i}/label"),
                _ => format!("/clearance/plan/marks/{i}/at"),
            };
            problems.push(Problem::at(place, &error));
        }
    });
    made.ok()
}
