//! The metal of both kinds of valve.

use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::units::Shown;
use crate::quantity::TemperatureDifference;
use crate::quantity::shown::reckoned;
use crate::thermal::Metal;
use crate::valve::ValveKind;
use alloc::format;
use alloc::vec::Vec;

/// By how much more an exhaust valve of austenitic steel grows than one of martensitic steel: 17 less 12
/// millionths, over a stem of 95 mm, in millimetres over the temperature difference that is said with it.
///
/// # Source
/// EN 10090 for the coefficients; the length is common practice, no source.
const OTHER_STEEL_MM: f64 = 0.025;
/// The difference.
const OTHER_STEEL_OVER: TemperatureDifference = TemperatureDifference::of_kelvin::<50>();

/// How warm the metal is and how the lash of each kind of valve follows.
#[derive(Clone, Copy)]
pub(in crate::job) struct Metals<'r> {
    pub(in crate::job) intake: &'r Metal,
    /// Nothing where one is stated for both.
    pub(in crate::job) exhaust: Option<&'r Metal>,
}

impl<'r> Metals<'r> {
    /// That of a kind of valve.
    pub(in crate::job) fn of(self, kind: ValveKind) -> &'r Metal {
        match kind {
            ValveKind::Intake => self.intake,
            ValveKind::Exhaust => self.exhaust.unwrap_or(self.intake),
        }
    }

    /// Every metal once.
    pub(in crate::job) fn each(self) -> impl Iterator<Item = &'r Metal> {
        core::iter::once(self.intake).chain(self.exhaust)
    }

    /// Chains that do not add up, temperatures that nothing follows.
    pub(in crate::job) fn check(self, problems: &mut Vec<Problem>) {
        for metal in self.each() {
            if let Err(e) = metal.check() {
                problems.push(Problem::at(Place::Metal, &e));
            }
        }
    }

    /// One rule for both kinds of valve.
    pub(in crate::job) fn assume(self, shown: Shown, assumptions: &mut Assumptions) {
        if self.exhaust.is_none() && self.intake.has_rule() {
            assumptions.bears_on_verdict(
                "thermal.one-for-both",
                format!(
                    "one rule taken for intake and exhaust valves: an exhaust valve of austenitic steel \
                     would close the gap by some {} more when it is {} warmer",
                    reckoned(OTHER_STEEL_MM, shown.inches),
                    OTHER_STEEL_OVER.show(shown.temperature)
                ),
            );
        }
    }
}
