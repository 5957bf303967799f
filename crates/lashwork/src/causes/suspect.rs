//! What may be the case: each cause in each place, slight or plain, alone or with another.

use super::chances::Form;
use super::{Cause, CausePriors, Place};
use alloc::vec::Vec;

/// The chance of something that is not weighed here. This library's choice.
const ELSE: f64 = 0.03;
/// The chance that some cylinder leaks for the moment, though nothing is the matter. This library's choice.
const PASSING: f64 = 0.03;
/// What sits in one cylinder, and its part of the cause: of burnt valves those that have sunk, of tight ones those
/// that closed since they were set, of worn cams those that opened the clearance. This library's choice.
const IN_ONE: [(Form, f64); 7] = [
    (Form::Burnt, 0.5),
    (Form::Sunk, 0.5),
    (Form::Tight, 0.6),
    (Form::Closed, 0.4),
    (Form::Nose, 0.4),
    (Form::Follower, 0.6),
    (Form::Passing, 1.0),
];
/// Of worn rings, leaks of air and weak sparks, the part that is in all cylinders. This library's choice.
const IN_ALL: [f64; 3] = [0.6, 0.6, 0.3];
/// Of what is not weighed, the part that shows in all cylinders. This library's choice.
const ELSE_IN_ALL: f64 = 0.5;
/// Of gaskets that leak, the part that leaks between two neighbours. This library's choice.
const BETWEEN: f64 = 0.7;
/// Of causes that sit in a cylinder, the part that sits in a second one as well. This library's choice.
const AGAIN: f64 = 0.2;

/// Something that may be there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Suspect {
    pub(super) form: Form,
    pub(super) place: Place,
    /// Odds of it among engines, before anything is seen.
    odds: f64,
}

impl Suspect {
    fn cause(&self) -> Option<Cause> {
        self.form.cause()
    }
}

/// How plainly something shows: `None` if it is not there.
pub(super) type State = Option<(Form, bool)>;

/// One case: up to two suspects, each slight or plain.
#[derive(Clone, Copy, Debug)]
pub(super) struct Case {
    pub(super) suspects: [Option<Suspect>; 2],
    plain: [bool; 2],
    /// Before anything is seen, not yet made to sum to one.
    pub(super) prior: f64,
    /// Cases that differ only in how plain they are have the same one.
    pub(super) set: usize,
    /// The causes that are there, by their place in [`Cause::ALL`]; past its end if there is none.
    pub(super) causes: [usize; 2],
}

impl Case {
    /// What shows in a cylinder; none: in the engine as a whole.
    pub(super) fn states(&self, cylinder: Option<usize>) -> [State; 2] {
        let state = |suspect: Option<Suspect>, plain: bool| {
            let there = suspect?;
            let touches = cylinder.is_none_or(|at| there.place.touches(at));
            touches.then_some((there.form, plain))
        };
        let ([a, b], [plain_a, plain_b]) = (self.suspects, self.plain);
        [state(a, plain_a), state(b, plain_b)]
    }

    /// How many causes are there, something else being one.
    pub(super) fn count(&self) -> usize {
        let there = self.suspects.iter().flatten();
        there
            .filter(|suspect| suspect.form != Form::Passing)
            .count()
    }

    /// Whether nothing is there but a leak that may pass.
    pub(super) fn is_passing(&self) -> bool {
        self.count() == 0 && self.suspects.iter().flatten().next().is_some()
    }

    pub(super) fn is_else(&self) -> bool {
        let mut there = self.suspects.iter().flatten();
        there.any(|suspect| suspect.form == Form::Else)
    }
}

/// Forms of a cause: which, where, and what part.
fn suspects(cylinders: usize, neighbours: &[[usize; 2]], priors: &CausePriors) -> Vec<Suspect> {
    let mut all = Vec::new();
    let mut add = |form: Form, places: &[Place], part: f64| {
        let percent = form
            .cause()
            .map_or(100.0 * PASSING, |cause| priors.percent(cause));
        let odds = part * percent / (100.0 - percent) / places.len() as f64;
        let some = places.iter().filter(|_| odds > 0.0);
        all.extend(some.map(|place| Suspect {
            form,
            place: *place,
            odds,
        }));
    };
    let engine = [Place::Engine];
    let each: Vec<Place> = (0..cylinders).map(Place::Cylinder).collect();
    let between: Vec<Place> = neighbours
        .iter()
        .map(|[one, other]| Place::Between(*one, *other))
        .collect();
    for (form, part) in IN_ONE {
        add(form, &each, part);
    }
    for form in [Form::Tooth, Form::Late, Form::Rich, Form::Lean] {
        add(form, &engine, 1.0);
    }
    let in_all_or_one = [
        (Form::RingsAll, Form::RingsOne),
        (Form::AirAll, Form::AirOne),
        (Form::SparkAll, Form::SparkOne),
    ];
    for ((in_all, in_one), part) in in_all_or_one.into_iter().zip(IN_ALL) {
        add(in_all, &engine, part);
        add(in_one, &each, 1.0 - part);
    }
    if between.is_empty() {
        add(Form::Gasket, &each, 1.0);
    } else {
        add(Form::Gasket, &between, BETWEEN);
        add(Form::Gasket, &each, 1.0 - BETWEEN);
    }
    all
}

/// Where in [`Cause::ALL`] its cause stands; past the end if it is none.
fn at(suspect: Option<Suspect>) -> usize {
    let cause = suspect.and_then(|there| there.cause());
    let all = Cause::ALL;
    all.iter()
        .position(|own| Some(*own) == cause)
        .unwrap_or(all.len())
}

/// All cases, those of one set side by side.
pub(super) fn cases(
    cylinders: usize,
    neighbours: &[[usize; 2]],
    priors: &CausePriors,
) -> Vec<Case> {
    let suspects = suspects(cylinders, neighbours, priors);
    let mut cases = Vec::new();
    let mut set = 0;
    let mut add = |one: Option<Suspect>, other: Option<Suspect>, prior: f64, graded: bool| {
        let plains: &[[bool; 2]] = match (graded, other) {
            (false, _) => &[[true, true]],
            (true, None) => &[[false, true], [true, true]],
            (true, Some(_)) => &[[false, false], [false, true], [true, false], [true, true]],
        };
        cases.extend(plains.iter().map(|plain| Case {
            suspects: [one, other],
            plain: *plain,
            prior: prior / plains.len() as f64,
            set,
            causes: [one, other].map(at),
        }));
        set += 1;
        prior
    };
    let mut sum = add(None, None, 1.0, false);
    let in_one = |suspect: &Suspect| matches!(suspect.place, Place::Cylinder(_));
    for (i, one) in suspects.iter().enumerate() {
        let mates = cylinders.saturating_sub(1) as f64;
        let again = if in_one(one) && mates > 0.0 {
            AGAIN
        } else {
            0.0
        };
        sum += add(Some(*one), None, one.odds * (1.0 - again), true);
        for other in suspects.iter().skip(i + 1) {
            if one.cause() != other.cause() {
                sum += add(Some(*one), Some(*other), one.odds * other.odds, true);
            } else if one.form == other.form && in_one(one) && in_one(other) {
                // Each of the two may be the first.
                let odds = 2.0 * one.odds * AGAIN / mates;
                sum += add(Some(*one), Some(*other), odds, true);
            }
        }
    }
    let unknown = |place| Suspect {
        form: Form::Else,
        place,
        odds: 0.0,
    };
    let rest = sum * ELSE / (1.0 - ELSE);
    add(
        Some(unknown(Place::Engine)),
        None,
        rest * ELSE_IN_ALL,
        false,
    );
    for cylinder in 0..cylinders {
        let prior = rest * (1.0 - ELSE_IN_ALL) / cylinders as f64;
        let place = Place::Cylinder(cylinder);
        add(Some(unknown(place)), None, prior, false);
    }
    cases
}
