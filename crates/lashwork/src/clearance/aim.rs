//! Where a reset goes: how far to turn or which shim to fit, and what the leaves should feel afterwards.

use super::as_found::AsFound;
use super::error::ClearanceError;
use super::locking::{BeforeLocking, Landing, Lands, feel_before, lands, shifts_too_far};
use super::reset::{By, Reset, ShimAdvice};
use super::setting::Setting;
use super::shim_aim::Fitted;
use super::text::length;
use crate::adjust::{Adjuster, LockNut, ScrewTurn, screw_turn};
use crate::feeler::{LeafSet, NAMED_WITHIN, best_stack};
use crate::quantity::{Lash, LashChange, Nominal};
use crate::tolerance::Estimate;
use alloc::format;
use alloc::string::{String, ToString};

/// Most leaves in a stack that is named.
const STACK_LEAVES: u8 = 3;

/// How the wanted change is made.
enum Means {
    Untold,
    Screw(ScrewTurn),
    Shim(Fitted),
}

/// Where a reset goes, worked out before it is advised.
pub(super) struct Aim<'s> {
    target: Lash,
    /// Where it lands by what can be fitted.
    aimed: Lash,
    change: Option<LashChange>,
    means: Means,
    /// What the leaves feel more than the lash at the reference, and its standard uncertainty in
    /// millimetres.
    feel_more: LashChange,
    feel_u: f64,
    nut: Option<&'s LockNut>,
}

impl<'s> Aim<'s> {
    pub(super) fn of(
        found: &AsFound,
        setting: &Setting<'s>,
        estimate: &Estimate<Lash>,
    ) -> Result<Self, ClearanceError> {
        let target = Lash::from_nominal(setting.limits.set_to().nominal())?;
        let change = estimate.centre().map(|centre| target - centre);
        let means = match estimate.centre() {
            Some(centre) => Means::of(found, setting, estimate, target - centre)?,
            None => Means::Untold,
        };
        let aimed = match &means {
            Means::Shim(fitted) => fitted.sizes().map(|(size, _)| size.choice.predicted_lash),
            _ => None,
        };
        let aimed = aimed.unwrap_or(target);
        // A flat leaf bridges a hollow, so it feels that much less than the true gap.
        let (hollow, hollow_u) = found
            .hollow
            .map_or((0.0, 0.0), |h| (h.depth.mm(), h.uncertainty.mm()));
        Ok(Self {
            target,
            aimed,
            change,
            means,
            feel_more: LashChange::from_mm(setting.warmth().mm() - hollow)?,
            feel_u: libm::hypot(setting.warmth_uncertainty_mm(), hollow_u),
            nut: setting.adjuster.lock_nut(),
        })
    }

    /// What the leaves feel afterwards.
    fn feel(&self) -> Lash {
        self.aimed + self.feel_more
    }

    /// What they feel before the nut is locked.
    fn feel_before(&self) -> Option<(&'s LockNut, Lash)> {
        let nut = self.nut?;
        Some((nut, feel_before(nut, self.aimed, self.feel_more)))
    }

    /// How it lands, where that can be told and felt.
    pub(super) fn lands(&self, setting: &Setting<'_>) -> Option<Lands> {
        let (nut, before) = self.feel_before()?;
        let felt = self.feel().mm() > 0.0 && before.mm() > 0.0;
        felt.then(|| lands(setting, nut, self.aimed, self.feel_u))?
    }

    /// The reset, or in words what must be found out before it.
    pub(super) fn reset(
        self,
        found: &AsFound,
        setting: &Setting<'_>,
        estimate: &Estimate<Lash>,
        landing: Option<Landing>,
    ) -> Result<Result<Reset, String>, ClearanceError> {
        let feel = self.feel();
        let can_feel = feel.mm() > 0.0;
        let before = self.feel_before().filter(|_| can_feel);
        if let Some((nut, before)) = before
            && before.mm() <= 0.0
        {
            return Ok(Err(shifts_too_far(nut, before)));
        }
        if let Means::Shim(fitted) = &self.means
            && let Some(text) = fitted.none_serves(setting)
        {
            return Ok(Err(text));
        }
        let stack = |feel: Lash| self.stack(feel, setting);
        let before_locking = match before {
            Some((nut, feel)) => Some(BeforeLocking {
                feel,
                stack: stack(feel)?,
                shift: nut.mean().unwrap_or(LashChange::ZERO),
            }),
            None => None,
        };
        Ok(Ok(Reset {
            text: self.words(found, setting, estimate),
            change: self.change,
            feel_now: can_feel.then_some(feel),
            stack: if can_feel { stack(feel)? } else { None },
            before_locking,
            landing,
            by: match self.means {
                Means::Screw(turn) => Some(By::Screw(turn)),
                Means::Shim(fitted) => fitted.sizes().map(|(size, others)| {
                    By::Shim(ShimAdvice {
                        size: *size,
                        others: others.clone(),
                    })
                }),
                Means::Untold => None,
            },
            shim_plan: None,
        }))
    }

    /// The stack that comes nearest; one by which a good setting would leave the band is no help.
    fn stack(&self, feel: Lash, setting: &Setting<'_>) -> Result<Option<String>, ClearanceError> {
        Ok(nearest(setting.leaves, feel)?.and_then(|(stack, error)| {
            let lands = LashChange::from_mm(error).map(|off| self.aimed + off);
            let set = setting.limits.set();
            let near = !set.contains(self.aimed) || lands.is_ok_and(|lands| set.contains(lands));
            near.then_some(stack)
        }))
    }

    fn words(&self, found: &AsFound, setting: &Setting<'_>, estimate: &Estimate<Lash>) -> String {
        let leaves_in_inches = found.in_inches();
        let mut text = format!("reset to {}", setting.limits.set_to());
        let how = match &self.means {
            _ if self.change.is_none() => open_end(estimate, self.target, leaves_in_inches),
            Means::Untold => String::new(),
            Means::Screw(turn) => format!(": screw {}", turn.words()),
            Means::Shim(fitted) => fitted.words(setting, leaves_in_inches),
        };
        text.push_str(&how);
        if self.feel().mm() <= 0.0 {
            let none = format!(
                "; there would then be no gap for the leaves at the present temperature ({}): it \
                 cannot be set with them as it is",
                length(leaves_in_inches, &|unit, decimals| self
                    .feel()
                    .show(unit, decimals.into()))
            );
            text.push_str(&none);
        }
        text
    }
}

impl Means {
    fn of(
        found: &AsFound,
        setting: &Setting<'_>,
        estimate: &Estimate<Lash>,
        change: LashChange,
    ) -> Result<Self, ClearanceError> {
        Ok(match setting.adjuster {
            Adjuster::Unstated => Self::Untold,
            Adjuster::Screw {
                thread,
                seat,
                inward_closes,
                ..
            } => {
                let closes = inward_closes.unwrap_or(true);
                Self::Screw(screw_turn(change, *thread, *seat, setting.ratio(), closes)?)
            }
            Adjuster::Shim {
                ratio,
                series,
                rules,
                ..
            } => {
                let shims = (*ratio, series.as_ref(), rules);
                Self::Shim(Fitted::of(found, setting, estimate, shims)?)
            }
        })
    }
}

/// The stack of leaves nearest to a gap, and how far off it is in millimetres; none for no gap, or if
/// none is near enough to be named.
fn nearest(leaves: &LeafSet, feel: Lash) -> Result<Option<(String, f64)>, ClearanceError> {
    if feel.mm() <= 0.0 {
        return Ok(None);
    }
    let wanted = Nominal::nearest_mm(feel.mm())?;
    let best = best_stack(leaves, wanted, STACK_LEAVES, NAMED_WITHIN).ok();
    Ok(best.map(|b| (b.stack.to_string(), b.error.mm())))
}

/// Which way to go when the reading is one-sided, and by at least how much.
fn open_end(estimate: &Estimate<Lash>, target: Lash, inches: bool) -> String {
    let shown =
        |change: LashChange| length(inches, &|unit, decimals| change.show(unit, decimals.into()));
    match (estimate.low(), estimate.high()) {
        (Some(low), None) => {
            format!("; close the gap by at least {}", shown(low - target))
        }
        (None, Some(high)) => {
            let held = if high.mm() <= 0.0 {
                "; the valve may be held off its seat: check compression before running"
            } else {
                ""
            };
            format!("; open the gap by at least {}{held}", shown(target - high))
        }
        _ => String::new(),
    }
}
