//! Readings judged side by side, each by limits of its own.
#![expect(
    clippy::indexing_slicing,
    reason = "all arrays have as many rows, and one number counts through them: what fills registers"
)]
#![expect(
    clippy::needless_bitwise_bool,
    reason = "a branch on what each row decides differently keeps rows apart"
)]
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere knows nothing of the registers this processor has"
)]

use super::{BandJudge, HasLimits, Probabilities, Verdict};
use crate::statistics::{LANES, Lane, Worked};

impl<Q: HasLimits> BandJudge<'_, Q> {
    /// [`Verdict::number`] of each row that is usual, and whether it could be proven at all, by limits that are
    /// infinite where there is none: what [`BandJudge::judge`] gives alone.
    #[inline(always)]
    pub(crate) fn judge_each(
        &mut self,
        found: &Worked,
        (low, high): (&Lane, &Lane),
        verdicts: &mut [u8; LANES],
        provable: &mut [bool; LANES],
    ) {
        let mut all = true;
        for i in 0..LANES {
            let chances = (found.below[i], found.inside[i], found.above[i]);
            let verdict = self.rule.verdict(&Probabilities::known(chances));
            verdicts[i] = verdict.number();
            let one_sided = (low[i] == f64::NEG_INFINITY) | (high[i] == f64::INFINITY);
            let room = self
                .room
                .is_between(low[i], high[i], half(found, i), found.u[i]);
            provable[i] = (verdict == Verdict::InBand) | one_sided | room;
            all &= provable[i] | !found.usual[i];
        }
        if !all {
            self.prove_rest(found, (low, high), provable);
        }
    }

    /// Asks the rule where no simple bound says it.
    #[inline(never)]
    fn prove_rest(
        &mut self,
        found: &Worked,
        (low, high): (&Lane, &Lane),
        provable: &mut [bool; LANES],
    ) {
        for i in 0..LANES {
            if !provable[i] & found.usual[i] {
                provable[i] = self.could_accept(half(found, i), found.u[i], low[i], high[i]);
            }
        }
    }
}

/// Half the width of the rectangle.
#[inline(always)]
fn half(found: &Worked, i: usize) -> f64 {
    0.5 * (found.b[i] - found.a[i])
}
