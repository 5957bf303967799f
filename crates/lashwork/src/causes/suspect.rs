//! What may be the case: each cause in each place, slight or plain, alone or with others.

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
/// How many suspects, those that explain most by themselves, are weighed three at a time; equals of the last are so
/// too. This library's choice.
const THREE_OF: usize = 17;

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

    /// Where in [`Cause::ALL`] its cause stands.
    pub(super) fn at(&self) -> Option<usize> {
        let cause = self.cause()?;
        Cause::ALL.iter().position(|own| *own == cause)
    }
}

/// How plainly something shows: `None` if it is not there.
pub(super) type State = Option<(Form, bool)>;

/// One case: up to three suspects, each slight or plain.
#[derive(Clone, Copy, Debug)]
pub(super) struct Case {
    pub(super) suspects: [Option<Suspect>; 3],
    plain: [bool; 3],
    /// Before anything is seen, not yet made to sum to one.
    pub(super) prior: f64,
    /// Cases that differ only in how plain they are have the same one.
    pub(super) set: usize,
    /// The causes that are there, a bit for each of [`Cause::ALL`] in their order.
    pub(super) causes: usize,
}

impl Case {
    /// What shows in a cylinder, first what is there; none: in the engine as a whole.
    pub(super) fn states(&self, cylinder: Option<usize>) -> [State; 3] {
        let mut shown = [None; 3];
        let suspects = self.suspects.iter().zip(self.plain);
        let there = suspects.filter_map(|(suspect, plain)| Some(((*suspect)?, plain)));
        let touching =
            there.filter(|(suspect, _)| cylinder.is_none_or(|at| suspect.place.touches(at)));
        for (own, (suspect, plain)) in shown.iter_mut().zip(touching) {
            *own = Some((suspect.form, plain));
        }
        shown
    }

    /// How many causes are there that are weighed, each counted once.
    pub(super) const fn causes(&self) -> u32 {
        self.causes.count_ones()
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

/// The bit of its cause; none of what is no cause.
fn bit(suspect: Option<Suspect>) -> usize {
    let at = suspect.and_then(|there| there.at());
    at.map_or(0, |at| 1 << at)
}

/// All cases, those of one set side by side.
pub(super) struct Cases {
    pub(super) all: Vec<Case>,
    suspects: Vec<Suspect>,
    mates: f64,
    sets: usize,
    /// Of all but something else.
    sum: f64,
}

impl Cases {
    /// Nothing, each suspect, each two of them, and something else.
    pub(super) fn of(cylinders: usize, neighbours: &[[usize; 2]], priors: &CausePriors) -> Self {
        let mut cases = Self {
            all: Vec::new(),
            suspects: suspects(cylinders, neighbours, priors),
            mates: cylinders.saturating_sub(1) as f64,
            sets: 0,
            sum: 0.0,
        };
        let suspects = cases.suspects.clone();
        let mut sum = cases.add([None; 3], 1.0);
        for (i, one) in suspects.iter().enumerate() {
            let again = if in_one(one) && cases.mates > 0.0 {
                AGAIN
            } else {
                0.0
            };
            sum += cases.add([Some(*one), None, None], one.odds * (1.0 - again));
            for other in suspects.iter().skip(i + 1) {
                let odds = cases.odds(one, other);
                if odds > 0.0 {
                    sum += cases.add([Some(*one), Some(*other), None], odds);
                }
            }
        }
        let unknown = |place| Suspect {
            form: Form::Else,
            place,
            odds: 0.0,
        };
        cases.sum = sum;
        let rest = sum * ELSE / (1.0 - ELSE);
        cases.add(
            [Some(unknown(Place::Engine)), None, None],
            rest * ELSE_IN_ALL,
        );
        for cylinder in 0..cylinders {
            let prior = rest * (1.0 - ELSE_IN_ALL) / cylinders as f64;
            let place = Place::Cylinder(cylinder);
            cases.add([Some(unknown(place)), None, None], prior);
        }
        cases
    }

    /// Adds each three of the suspects that explain most by themselves; `weights` says how much each case does.
    pub(super) fn add_threes(&mut self, weights: &[f64]) {
        let mut alone: Vec<(f64, Suspect)> = Vec::new();
        let both = self.all.iter().zip(weights);
        for (case, weight) in both {
            let [Some(one), None, None] = case.suspects else {
                continue;
            };
            match alone.last_mut() {
                Some((sum, last)) if last.form == one.form && last.place == one.place => {
                    *sum += weight;
                }
                _ if one.form != Form::Else => alone.push((*weight, one)),
                _ => (),
            }
        }
        alone.sort_by(|(a, _), (b, _)| b.total_cmp(a));
        let last = alone.get(THREE_OF - 1).map_or(0.0, |(weight, _)| *weight);
        // What differs by rounding alone is equal.
        let most = alone
            .iter()
            .take_while(|(weight, _)| *weight > last * (1.0 - 1e-9));
        let most: Vec<Suspect> = most.map(|(_, suspect)| *suspect).collect();
        let mut more = 0.0;
        for (i, a) in most.iter().enumerate() {
            for (j, b) in most.iter().enumerate().skip(i + 1) {
                let of_two = self.odds(a, b);
                for c in most.iter().skip(j + 1) {
                    let [of_a, of_b] = [a, b].map(|own| self.odds(own, c));
                    if of_two > 0.0 && of_a > 0.0 && of_b > 0.0 {
                        // Of the same cause twice only one is a stranger to the third.
                        let odds = match () {
                            () if a.form == b.form && c.form == a.form => continue,
                            () if a.form == b.form => of_two * c.odds,
                            () if a.form == c.form => of_a * b.odds,
                            () if b.form == c.form => of_b * a.odds,
                            () => a.odds * b.odds * c.odds,
                        };
                        more += self.add([Some(*a), Some(*b), Some(*c)], odds);
                    }
                }
            }
        }
        // Something else keeps its share.
        for case in self.all.iter_mut().filter(|case| case.is_else()) {
            case.prior *= 1.0 + more / self.sum;
        }
    }

    /// Odds of two together; 0 where they are not weighed together.
    fn odds(&self, one: &Suspect, other: &Suspect) -> f64 {
        if one.cause() != other.cause() {
            one.odds * other.odds
        } else if one.form == other.form && in_one(one) && in_one(other) {
            // Each of the two may be the first.
            2.0 * one.odds * AGAIN / self.mates
        } else {
            0.0
        }
    }

    fn add(&mut self, suspects: [Option<Suspect>; 3], prior: f64) -> f64 {
        let graded = suspects
            .iter()
            .flatten()
            .filter(|own| own.form != Form::Else);
        let count = graded.count();
        let of = |at: usize| 1_usize << at;
        for grade in 0..of(count) {
            self.all.push(Case {
                suspects,
                plain: core::array::from_fn(|at| at >= count || grade & of(at) != 0),
                prior: prior / of(count) as f64,
                set: self.sets,
                causes: suspects.iter().fold(0, |all, own| all | bit(*own)),
            });
        }
        self.sets += 1;
        prior
    }
}

const fn in_one(suspect: &Suspect) -> bool {
    matches!(suspect.place, Place::Cylinder(_))
}
