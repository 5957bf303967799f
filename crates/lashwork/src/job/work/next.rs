//! What comes next in a section: one step, so that nobody has to find it among the stops and the standings.
//!
//! # Source
//! Our choice, no source: what stops the work; then the first step in the order of work that was begun and is
//! not settled; then what was not stated, and last what was not begun.

use super::order::{Order, Standing, StepReport, WorkStopReport};
use super::step::{Section, WorkStep};
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;
use serde::Serialize;

/// What comes next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct NextWorkReport {
    /// The step to go to.
    pub step: WorkStep,
    /// The same in words.
    pub name: &'static str,
    /// Why it is next, in words.
    pub text: String,
}

impl Order {
    /// The step that comes next in a section, its own or one that it leans on; none if nothing is left.
    pub(in crate::job) fn next(&self, of: Section) -> Option<NextWorkReport> {
        let (stops, steps) = self.told(of);
        self.next_among(&stops, &steps, &[of])
    }

    /// The step that comes next over all sections that are asked for.
    pub(super) fn next_of_all(&self, sections: &[Section]) -> Option<NextWorkReport> {
        self.next_among(&self.stops, &self.noted(), sections)
    }

    fn next_among(
        &self,
        stops: &[WorkStopReport],
        steps: &[StepReport],
        of: &[Section],
    ) -> Option<NextWorkReport> {
        let next = |step: WorkStep, text: String| NextWorkReport {
            step,
            name: step.word(),
            text,
        };
        let noted = |one: &StepReport| next(one.step, one.text.clone());
        let open = || steps.iter().filter(|one| one.standing != Standing::Settled);
        let is_own = |step: WorkStep| of.contains(&step.section());
        let cannot_wait = |one: &&StepReport| !self.may_wait.contains(&one.step);
        let stop = || {
            // What only says again that a step is not settled is found with the steps.
            let stop = stops.iter().find(|stop| self.stops.contains(stop))?;
            let step = stop.concerns.iter().find(|step| is_own(**step))?;
            Some(next(*step, stop.text.clone()))
        };
        let begun = || {
            let begun =
                |one: &&StepReport| is_own(one.step) || one.standing == Standing::NotSettled;
            open().filter(cannot_wait).find(begun).map(noted)
        };
        let to_state = || {
            let first = open().find(cannot_wait)?;
            let text = format!("{}; say whether {}", first.text, first.step.settled());
            Some(next(first.step, text))
        };
        let not_begun = || {
            let last = steps
                .iter()
                .map(|one| one.step)
                .filter(|step| is_own(*step))
                .max();
            let mut after = WorkStep::ALL
                .into_iter()
                .filter(|step| is_own(*step) && Some(*step) > last);
            let step = after.find(|step| of.iter().any(|section| section.leans_on(*step)))?;
            Some(next(step, String::from("not read yet")))
        };
        stop()
            .or_else(begun)
            .or_else(to_state)
            .or_else(not_begun)
            .or_else(|| open().next().map(noted))
    }
}

/// Writes what comes next, on the sheet.
pub(in crate::job) fn write_next(out: &mut String, next: Option<&NextWorkReport>) {
    if let Some(next) = next {
        // Why stands in the order of work, or is what stops the work.
        wrap::write(out, "Next: ", next.name);
    }
}
