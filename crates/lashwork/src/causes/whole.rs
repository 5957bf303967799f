//! What is the matter on the whole: nothing, something else, several things at once.

use super::suspect::Case;
use super::{Cause, LikelyCause};

/// Chances that are of no single cause.
pub(super) struct Whole {
    pub(super) nothing: f64,
    pub(super) passing: f64,
    pub(super) something_else: f64,
    pub(super) several: f64,
}

impl Whole {
    /// As reckoned if the likeliest cause is there and if it is not, with the chance that it is there as it is stated
    /// (R. C. Jeffrey, The logic of decision, 1965, from memory). So nothing is never likelier than the likeliest cause leaves.
    pub(super) fn of(cases: &[Case], probabilities: &[f64], causes: &[LikelyCause]) -> Self {
        let first = causes.first();
        let at = first.and_then(|first| Cause::ALL.iter().position(|own| *own == first.cause));
        let has_first = |case: &Case| at.is_some_and(|at| case.causes >> at & 1 == 1);
        let sum = |is: &dyn Fn(&Case) -> bool| -> f64 {
            let both = cases.iter().zip(probabilities);
            both.filter(|(case, _)| is(case)).map(|(_, p)| p).sum()
        };
        let stated = first.map_or(0.0, |first| first.probability);
        let (with, without) = (sum(&has_first), sum(&|case| !has_first(case)));
        let part = |stated: f64, reckoned: f64| {
            if reckoned > 0.0 {
                stated / reckoned
            } else {
                0.0
            }
        };
        let (with, without) = (part(stated, with), part(1.0 - stated, without));
        let settled = |is: &dyn Fn(&Case) -> bool| {
            with * sum(&|case| has_first(case) && is(case))
                + without * sum(&|case| !has_first(case) && is(case))
        };
        // Two that are likely cannot but be there together at times.
        let second = causes.get(1).map_or(0.0, |second| second.probability);
        Self {
            nothing: settled(&|case| case.count() == 0),
            passing: settled(&Case::is_passing),
            something_else: settled(&Case::is_else),
            several: settled(&|case| case.causes() > 1).max(stated + second - 1.0),
        }
    }
}
