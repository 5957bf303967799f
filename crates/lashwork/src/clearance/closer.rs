//! Leaves at hand that would tell closer than the bracket that was felt.

use super::advice::Case;
use super::next::with_ends;
use crate::feeler::{Combination, Stack, assumed_joint, assumed_leaf_tolerance, best_stack};
use crate::quantity::{LengthUnit, Marked, Nominal};
use crate::tolerance::{Verdict, judge};
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Most leaves in a stack that is named.
const STACK_LEAVES: u8 = 2;

/// The leaf, or the leaves of a stack, to try between the two that were felt, if one way of its being felt
/// decides. A drag is no bracket: nothing lies between.
pub(super) fn closer(case: &Case<'_, '_>) -> Option<Vec<String>> {
    if let Some(next) = case.next {
        return Some(alloc::vec![next.leaf_text()]);
    }
    let (low, high) = (case.felt.low()?, case.felt.high()?);
    let limits = case.setting.limits.judging();
    let shift = case.shift();
    // A stack at a limit splits the bracket where it matters.
    let at_limits = [limits.lower(), limits.upper()].into_iter().flatten();
    let mut stacks = at_limits.filter_map(|limit| {
        let wanted = Nominal::nearest_mm(limit.mm() - shift).ok()?;
        let width = Nominal::nearest_mm((high - low).mm()).ok()?;
        Some(
            best_stack(case.setting.leaves, wanted, STACK_LEAVES, width)
                .ok()?
                .stack,
        )
    });
    stacks
        .find(|stack| {
            let size = stack.thickness().mm();
            let leaves = stack.leaves().len() > 1;
            let hollow = case.felt_shift();
            let between = low.mm() < size + hollow && size + hollow < high.mm();
            leaves && between && decides(case, stack, shift)
        })
        .map(|stack| {
            let marks = stack.leaves().iter().map(|leaf| leaf.mark.to_string());
            marks.collect()
        })
}

/// Whether the verdict would be settled if the stack goes, or if it does not.
fn decides(case: &Case<'_, '_>, stack: &Stack, shift: f64) -> bool {
    let mark = Marked::new(stack.thickness(), LengthUnit::Millimetre, 6);
    // What the stack is less certain by than a single leaf.
    let tolerance = |stack: &Stack| {
        let worst = Combination::WorstCase;
        stack
            .tolerance(worst, assumed_leaf_tolerance(), assumed_joint())
            .ok()
    };
    let one = stack
        .leaves()
        .first()
        .and_then(|leaf| tolerance(&Stack::of(*leaf).ok()?));
    let (all, one) = (tolerance(stack).unwrap_or(0.0), one.unwrap_or(0.0));
    let more_u = libm::sqrt((all * all - one * one).max(0.0) / 3.0);
    let settles = |ends| {
        with_ends(case.estimate, shift, ends, more_u).is_some_and(|would_be| {
            let judged = judge(&would_be, case.setting.limits.judging(), case.setting.rule);
            judged.verdict != Verdict::CannotSay
        })
    };
    settles((Some(mark), None)) || settles((None, Some(mark)))
}
