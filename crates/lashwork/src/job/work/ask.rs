//! A section worked through, question by question.

use super::order::{Before, Order, Standing};
use super::step::WorkStep;
use crate::job::assumptions::Assumptions;
use crate::job::problem::Problem;
use alloc::string::String;
use alloc::vec::Vec;

/// What gathers while a section is worked through.
pub(in crate::job) struct Work<'r> {
    pub(in crate::job) order: &'r mut Order,
    pub(in crate::job) assumptions: &'r mut Assumptions,
    pub(in crate::job) problems: Vec<Problem>,
}

impl Work<'_> {
    /// Answers a question by what stands before it, and notes where its step then stands.
    pub(in crate::job) fn ask<Q, R>(
        &mut self,
        step: WorkStep,
        asked: Option<&Q>,
        report: impl FnOnce(&Q, &Before, &mut Assumptions, &mut Vec<Problem>) -> Option<R>,
        standing: impl FnOnce(&R) -> (Standing, String),
    ) -> Option<R> {
        let before = self.order.before(step);
        let found = report(asked?, &before, self.assumptions, &mut self.problems)?;
        self.order.note(step, standing(&found));
        Some(found)
    }
}
