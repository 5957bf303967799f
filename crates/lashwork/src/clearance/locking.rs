//! Setting a valve whose lock nut shifts the gap: what to feel before locking, and whether to reset
//! at all.

use super::pair::LeavesToFind;
use super::setting::Setting;
use super::text::printed_limits;
use crate::adjust::LockNut;
use crate::quantity::shown::{by_hand, reckoned};
use crate::quantity::{Lash, LashChange};
use crate::tolerance::{Judgement, Probabilities, Uncertainty, Verdict};
use crate::valve::ValveLimits;
use alloc::format;
use alloc::string::String;
use serde::Serialize;

/// Greatest chance of being tight at which a valve may be left for the lock nut's sake: that at which
/// the default rule accepts a valve as not tight.
const LEAVE_TIGHT: f64 = 0.05;

/// The chances after a reset, where the spread of the lock nut's shift was learned.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Landing {
    /// Chance of being in the set band.
    pub lands_in_band: f64,
    /// Chance of being below the set band.
    pub lands_tight: f64,
}

/// What to feel with the screw set and the lock nut still loose.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BeforeLocking {
    /// The gap the leaves should find, at the present temperature.
    pub feel: Lash,
    /// The leaves to find then.
    pub leaves: Option<LeavesToFind>,
    /// How locking then changes the gap.
    pub shift: LashChange,
}

impl BeforeLocking {
    /// What to feel, one line; in inches if asked.
    pub(crate) fn line(&self, inches: bool) -> String {
        let leaves = self.leaves.as_ref().map(|l| format!(": {}", l.text));
        format!(
            "with the nut still loose it must be {}{}; locking {} the gap by {}",
            by_hand(self.feel.mm(), inches),
            leaves.unwrap_or_default(),
            way(self.shift),
            size(self.shift, inches)
        )
    }
}

/// How a reset lands, and the chances against the band that is judged.
#[derive(Clone, Copy)]
pub(super) struct Lands {
    pub(super) told: Landing,
    pub(super) set: Probabilities,
    pub(super) judged: Probabilities,
}

/// What must be felt with the nut still loose for the gap to end at the target, whether or not leaves
/// can feel it. `feel_more` is what they feel more than the lash at the reference.
pub(super) fn feel_before(nut: &LockNut, target: Lash, feel_more: LashChange) -> Lash {
    nut.before(target) + feel_more
}

/// How a reset to the target lands; `feel_u` is the standard uncertainty, in millimetres, of what the
/// leaves feel more than the lash at the reference.
pub(super) fn lands(
    setting: &Setting<'_>,
    nut: &LockNut,
    target: Lash,
    feel_u: f64,
) -> Option<Lands> {
    let extra = Uncertainty::from_mm(feel_u).ok()?;
    let next = nut.after(nut.before(target), extra)?;
    let set = next.probabilities(setting.limits.set());
    Some(Lands {
        told: Landing {
            lands_in_band: set.in_band.least,
            lands_tight: set.below.least,
        },
        set,
        judged: next.probabilities(setting.limits.judging()),
    })
}

/// Why a loose valve is better left as it is: a reset would not make it likelier to be in the band it
/// is judged by, and it is not risky on the tight side. `None` if it is not.
pub(super) fn better_left(
    judgement: &Judgement,
    landing: &Lands,
    limits: &ValveLimits,
    inches: bool,
) -> Option<String> {
    let now = &judgement.probabilities;
    let (stays, lands) = (now.in_band.least, landing.judged.in_band.most);
    let both_ends = now.in_band.least >= now.in_band.most;
    let worth = stays < lands;
    let risky = now.below.most > LEAVE_TIGHT;
    if judgement.verdict != Verdict::Above || !both_ends || worth || risky {
        return None;
    }
    Some(format!(
        "leave it alone: the chance of being in {} is {:.1} % now, and would be only {:.1} % after \
         resetting, because the lock nut shifts the gap by more than the band allows; find out \
         why, or measure more pairs",
        printed_limits(limits.judging(), inches),
        stays * 100.0,
        lands * 100.0
    ))
}

/// Why the valve cannot be set before it is known what the nut does.
pub(super) fn shifts_too_far(nut: &LockNut, feel: Lash, inches: bool) -> String {
    let shift = nut.mean().unwrap_or(LashChange::ZERO);
    format!(
        "find out first why locking {} the gap by {}: with the nut still loose there would be no gap \
         to feel ({})",
        way(shift),
        size(shift, inches),
        by_hand(feel.mm(), inches)
    )
}

/// Closes or opens.
pub(crate) fn way(shift: LashChange) -> &'static str {
    if shift.mm() < 0.0 { "closes" } else { "opens" }
}

/// How far, without the sign.
pub(crate) fn size(shift: LashChange, inches: bool) -> String {
    reckoned(libm::fabs(shift.mm()), inches)
}
