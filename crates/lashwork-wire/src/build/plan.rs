//! Where the crank can be stopped.

use super::{cylinder, fault, value};
use crate::document::{MarkDoc, PlacesDoc, PlanDoc};
use lashwork::engine::Engine;
use lashwork::job::{PlanChoice, Problem};
use lashwork::valve::{Mark, Marks, Places, ValveError, present_position};

/// The choice of places, or what is wrong with it.
pub(super) fn plan(
    doc: PlanDoc,
    engine: &Engine,
    problems: &mut Vec<Problem>,
) -> Option<PlanChoice> {
    let before = problems.len();
    let from = doc.from.and_then(|from| {
        let made = present_position(engine.cycle(), from.0);
        value!(problems, "/plan/from", made)
    });
    let places = match (doc.places, doc.marks) {
        (Some(PlacesDoc::Marks), listed) => {
            marks(listed.unwrap_or_default(), engine, problems).map(Places::Marks)
        }
        (places, Some(_)) => {
            problems.push(Problem::new(
                "/plan/marks",
                "valve.marks-not-asked",
                "marks are listed, but the places to stop at are not \"marks\"",
                "add \"places\": \"marks\", or leave the marks out",
            ));
            places.and(None)
        }
        (Some(PlacesDoc::DeadCentres), None) => Some(Places::DeadCentres),
        (Some(PlacesDoc::AnyAngle), None) => Some(Places::AnyAngle),
        (None, None) => None,
    };
    (problems.len() == before).then_some(PlanChoice { places, from })
}

fn marks(list: Vec<MarkDoc>, engine: &Engine, problems: &mut Vec<Problem>) -> Option<Marks> {
    let got = list.len();
    if got > Marks::MAX {
        let max = Marks::MAX;
        fault!(
            problems,
            "/plan/marks",
            ValveError::TooManyMarks { got, max }
        );
        return None;
    }
    let mut made = Vec::new();
    for (i, doc) in list.into_iter().enumerate() {
        let place = format!("/plan/marks/{i}");
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
        made.extend(value!(problems, format!("{place}/{field}"), mark));
    }
    if made.len() < got {
        return None;
    }
    let made = Marks::new(made).map_err(|found| {
        for (i, error) in found {
            let place = match error {
                ValveError::NoMarks => "/plan/marks".to_owned(),
                ValveError::MarkTwice { .. } => format!("/plan/marks/{i}/label"),
                _ => format!("/plan/marks/{i}/at"),
            };
            fault!(problems, place, error);
        }
    });
    made.ok()
}
