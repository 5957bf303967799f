//! What the gas says of the idle mixture, whatever the speed says of it.

use super::advise::{Found, out};
use super::{Gas, GasReadAt, reckon, words};
use crate::job::assumptions::Assumptions;
use crate::job::mixture::of_idle::OfIdle;
use crate::job::work::Before;
use crate::mixture::gas::Fuel;
use crate::mixture::idle::Side;
use crate::tolerance::Verdict;
use alloc::vec::Vec;

/// What it says; none if it does not count, or does not decide.
pub(in crate::job::mixture) fn of_idle(asked: &Gas, fuel: Option<&Fuel>) -> Option<OfIdle> {
    let mut missing = Vec::new();
    reckon::missing(asked, &mut missing);
    let counts = asked.ran() == GasReadAt::Idle && words::spoilt(asked).is_none();
    if !counts || !missing.is_empty() {
        return None;
    }
    // The gas lists its own assumptions when its turn comes.
    let reckoned = reckon::reckoned(asked, fuel?, &mut Assumptions::default()).ok()?;
    if !reckoned.doubts.is_empty() {
        return None;
    }
    let found = Found {
        asked,
        screw: None,
        is_idle_left: false,
        before: &Before::default(),
        reckoned,
    };
    let judged = found.judged();
    match out(&judged) {
        (true, true) => None,
        (true, false) => Some(OfIdle::Toward(Side::Lean)),
        (false, true) => Some(OfIdle::Toward(Side::Rich)),
        (false, false) => {
            let mut all = [&judged.lambda, &judged.co]
                .into_iter()
                .flatten()
                .peekable();
            all.peek()?;
            let holds = all.all(|one| one.shown() == Verdict::InBand);
            holds.then_some(OfIdle::InBand)
        }
    }
}
