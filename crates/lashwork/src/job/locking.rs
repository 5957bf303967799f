//! Setting a valve whose lock nut shifts the gap: what to feel before locking, and whether to reset
//! at all.

use super::shown::length;
use super::{Adjuster, Advice, BeforeLocking, LockingReport, Problem, Request};
use crate::adjust::LockNut;
use crate::quantity::{Lash, LashChange, LengthUnit};
use crate::tolerance::{Judgement, Probabilities, Uncertainty, ValveLimits, Verdict};
use alloc::format;
use alloc::string::String;

const MM: LengthUnit = LengthUnit::Millimetre;

/// Greatest chance of being tight at which a valve may be left for the lock nut's sake: that at which
/// the default rule accepts a valve as not tight.
const LEAVE_TIGHT: f64 = 0.05;

/// The lock nut, if its shift is known at all.
pub(super) fn lock_nut(request: &Request) -> Option<&LockNut> {
    match &request.adjuster {
        Adjuster::Screw { lock_nut, .. } => lock_nut.as_ref().filter(|nut| nut.pairs() > 0),
        _ => None,
    }
}

/// Chances against the set band and against the band that is judged, after a reset to `target`.
#[derive(Clone, Copy)]
pub(super) struct Landing {
    set: Probabilities,
    judged: Probabilities,
}

/// Fills in what to feel before locking and how the reset lands. `feel_less` is what the leaves feel
/// less or more than the lash at the reference, `extra_mm` the standard uncertainty of that.
pub(super) fn before_locking(
    request: &Request,
    limits: &ValveLimits,
    target: Lash,
    (feel_more, extra_mm): (LashChange, f64),
    stack: impl Fn(Lash) -> Result<Option<String>, Problem>,
    advice: &mut Advice,
) -> Result<Option<Landing>, Problem> {
    let Some(nut) = lock_nut(request) else {
        return Ok(None);
    };
    let set = nut.before(target);
    let feel = set + feel_more;
    if feel.mm() <= 0.0 {
        let shift = nut.mean().unwrap_or(LashChange::ZERO);
        let none = format!(
            "; with the nut still loose there would be no gap to feel ({}), because locking {} it \
             by {}: find out why it shifts so far",
            feel.show(MM, 3),
            way(shift),
            size(shift)
        );
        advice.text.push_str(&none);
        return Ok(None);
    }
    advice.before_locking = Some(BeforeLocking {
        feel,
        stack: stack(feel)?,
        shift: nut.mean().unwrap_or(LashChange::ZERO),
    });
    let extra = Uncertainty::from_mm(extra_mm);
    let next = extra.ok().and_then(|extra| nut.after(set, extra));
    Ok(next.map(|next| {
        let landing = Landing {
            set: next.probabilities(limits.set()),
            judged: next.probabilities(limits.judging()),
        };
        advice.lands_in_band = Some(landing.set.in_band.least);
        advice.lands_tight = Some(landing.set.below.least);
        landing
    }))
}

/// Why a loose valve is better left as it is: a reset would not make it likelier to be in the band it
/// is judged by, and it is not risky on the tight side. `None` if it is not.
pub(super) fn better_left(
    judgement: &Judgement,
    landing: &Landing,
    limits: &ValveLimits,
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
        "leave it alone: it is in {} with {:.1} % now, and after a reset it would be with {:.1} % \
         only, because the lock nut shifts the gap by more than the band forgives; find out why, \
         or feel more pairs",
        limits.judging(),
        stays * 100.0,
        lands * 100.0
    ))
}

/// Takes back the numbers of a reset that is not advised.
pub(super) fn take_back(advice: &mut Advice, why: String) {
    advice.action = super::Action::Leave;
    advice.text = why;
    advice.change = None;
    advice.screw = None;
    advice.feel_now = None;
    advice.stack = None;
    advice.before_locking = None;
}

/// What was learned of the lock nut, if anything was given.
pub(super) fn locking_report(request: &Request) -> Option<LockingReport> {
    let Adjuster::Screw {
        lock_nut: Some(nut),
        ..
    } = &request.adjuster
    else {
        return None;
    };
    let half_width = nut.half_width(0.95);
    let text = match (nut.mean(), nut.spread(), half_width) {
        (Some(mean), Some(spread), Some(half)) => format!(
            "locking {} the gap by {} on the mean of {} pairs, standard deviation {:.4} mm as felt; \
             the next within {:.4} mm of that with 95 %",
            way(mean),
            size(mean),
            nut.pairs(),
            spread.mm(),
            half.mm()
        ),
        (Some(mean), ..) => format!(
            "locking {} the gap by {} in one pair; one pair does not show how much that varies",
            way(mean),
            size(mean)
        ),
        _ => String::from("no pairs: the shift of the gap on locking is not known, none is taken"),
    };
    Some(LockingReport {
        pairs: nut.pairs(),
        mean: nut.mean(),
        spread_mm: nut.spread().map(Uncertainty::mm),
        half_width_95_mm: half_width.map(Uncertainty::mm),
        gap_uncertainty_mm: nut.uncertainty().mm(),
        text,
    })
}

fn way(shift: LashChange) -> &'static str {
    if shift.mm() < 0.0 { "closes" } else { "opens" }
}

fn size(shift: LashChange) -> String {
    let size = if shift.mm() < 0.0 { -shift } else { shift };
    size.show(MM, 4)
}

impl BeforeLocking {
    /// What to feel, one line; in inches too if asked.
    pub(super) fn line(&self, inches: bool) -> String {
        let stack = self.stack.as_ref().map(|s| format!(" (nearest: {s})"));
        format!(
            "with the nut still loose they should feel {}{}: locking {} the gap by {}",
            length(inches, &|unit, decimals| self
                .feel
                .show(unit, decimals.into())),
            stack.unwrap_or_default(),
            way(self.shift),
            size(self.shift)
        )
    }
}
