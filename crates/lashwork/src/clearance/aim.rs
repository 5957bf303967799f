//! Where a reset goes: how far to turn or which shim to fit, and what the leaves should feel afterwards.

use super::as_found::AsFound;
use super::error::ClearanceError;
use super::locking::{BeforeLocking, Landing, Lands, feel_before, lands, shifts_too_far};
use super::pair::{LeavesToFind, leaves_to_find};
use super::reset::{By, Reset, ScrewStep, ShimAdvice};
use super::setting::Setting;
use super::shim_aim::Fitted;
use super::step::Step;
use super::target::{Target, shown, target};
use crate::adjust::{Adjuster, LockNut, ScrewSeat, ScrewTurn, TurnDirection, TurnRoom, screw_turn};
use crate::quantity::shown::by_hand;
use crate::quantity::{Lash, LashChange, Marked, Nominal, QuantityError, ScrewAngle};
use crate::tolerance::{Estimate, Limits, Probabilities};
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// How the wanted change is made.
enum Means {
    Untold,
    Screw(ScrewStep),
    /// The least turn for a one-sided reading, in words.
    Least(String),
    /// No angle can be told, and why.
    NoAngle(&'static str),
    Shim(Fitted),
}

const NO_RATIO: &str = "how far to turn cannot be told: the rocker ratio is not stated, and here the gap \
                        does not follow the screw one to one";
const ECCENTRIC: &str =
    "how far to turn cannot be told: what an eccentric does depends on where it stands";

/// How the lash lies after a reset, against the band to set it in and the band it is judged by.
struct After {
    set: Probabilities,
    judged: Probabilities,
}

/// Where a reset goes, worked out before it is advised.
pub(super) struct Aim {
    target: Target,
    /// Where it lands by what can be fitted.
    aimed: Lash,
    change: Option<LashChange>,
    means: Means,
    /// What the leaves feel more than the lash at the reference, and its standard uncertainty in
    /// millimetres.
    feel_more: LashChange,
    feel_u: f64,
    nut: Option<LockNut>,
    after: Option<Probabilities>,
}

impl Aim {
    pub(super) fn of(
        found: &AsFound,
        setting: &Setting<'_>,
        estimate: &Estimate<Lash>,
    ) -> Result<Self, ClearanceError> {
        // A flat leaf bridges a hollow, so it feels that much less than the true gap.
        let (hollow, hollow_u) = found
            .hollow
            .map_or((0.0, 0.0), |h| (h.depth.mm(), h.uncertainty.mm()));
        let feel_u = libm::hypot(setting.warmth_uncertainty_mm(), hollow_u);
        let nut = setting.adjuster.lock_nut();
        let after = |aim: Lash| -> Option<After> {
            if let Some(lands) = nut.and_then(|nut| lands(setting, &nut, aim, feel_u)) {
                return Some(After {
                    set: lands.set,
                    judged: lands.judged,
                });
            }
            let felt = Estimate::between(aim, aim, estimate.normal_uncertainty()).ok()?;
            Some(After {
                set: felt.probabilities(setting.limits.set()),
                judged: felt.probabilities(setting.limits.judging()),
            })
        };
        // Which shim is best is asked elsewhere, of all valves together.
        let target = match setting.adjuster {
            Adjuster::Shim { .. } => Target::printed(setting)?,
            _ => target(setting, found.in_inches(), &|aim| {
                after(aim).map(|after| after.set)
            })?,
        };
        let feel_more = LashChange::from_mm(setting.warmth().mm() - hollow)?;
        // What leaves cannot feel now is not set now.
        let target = if (target.at + feel_more).mm() > 0.0 {
            target
        } else {
            Target::printed(setting)?
        };
        let can_feel = (target.at + feel_more).mm() > 0.0;
        let change = estimate.centre().map(|centre| target.at - centre);
        let means = match estimate.centre() {
            Some(centre) if can_feel => Means::of(found, setting, estimate, (centre, target.at))?,
            None if can_feel => Means::least(found, setting, estimate, target.at)?,
            _ => Means::Untold,
        };
        let aimed = match &means {
            Means::Shim(fitted) => fitted.sizes().map(|(size, _)| size.choice.predicted_lash),
            _ => None,
        };
        let aimed = aimed.unwrap_or(target.at);
        Ok(Self {
            after: after(aimed).map(|after| after.judged),
            target,
            aimed,
            change,
            means,
            feel_more,
            feel_u,
            nut,
        })
    }

    /// How the lash lies afterwards against the band it is judged by.
    pub(super) const fn after(&self) -> Option<&Probabilities> {
        self.after.as_ref()
    }

    /// What the leaves feel afterwards.
    fn feel(&self) -> Lash {
        self.aimed + self.feel_more
    }

    /// What they feel before the nut is locked.
    fn feel_before(&self) -> Option<(LockNut, Lash)> {
        let nut = self.nut?;
        Some((nut, feel_before(&nut, self.aimed, self.feel_more)))
    }

    /// How it lands, where that can be told and felt.
    pub(super) fn lands(&self, setting: &Setting<'_>) -> Option<Lands> {
        let (nut, before) = self.feel_before()?;
        let felt = self.feel().mm() > 0.0 && before.mm() > 0.0;
        felt.then(|| lands(setting, &nut, self.aimed, self.feel_u))?
    }

    /// The reset, or in words what must be found out before it. `because` is why a valve is reset whose
    /// reading does not call it tight or loose; `first` comes before the amount.
    pub(super) fn reset(
        self,
        found: &AsFound,
        setting: &Setting<'_>,
        estimate: &Estimate<Lash>,
        landing: Option<Landing>,
        (first, because): (Vec<Step>, Option<String>),
    ) -> Result<Result<Reset, String>, ClearanceError> {
        let feel = self.feel();
        let can_feel = feel.mm() > 0.0;
        let before = self.feel_before().filter(|_| can_feel);
        if let Some((nut, before)) = before
            && before.mm() <= 0.0
        {
            return Ok(Err(shifts_too_far(&nut, before, found.in_inches())));
        }
        if let Means::Shim(fitted) = &self.means
            && let Some(text) = fitted.none_serves(setting, found.in_inches())
        {
            return Ok(Err(text));
        }
        let before_locking = match before {
            Some((nut, feel)) => Some(BeforeLocking {
                feel,
                leaves: self.leaves(feel, setting)?,
                shift: nut.mean().unwrap_or(LashChange::ZERO),
            }),
            None => None,
        };
        let inches = found.in_inches();
        let amount = self.words(inches, setting, estimate);
        let text = match (first.as_slice(), &because) {
            ([], None) => amount.clone(),
            ([], Some(because)) => format!("{amount}; {because}"),
            (steps, _) => {
                let steps: Vec<&str> = steps.iter().map(|step| step.text.as_str()).collect();
                format!("before anything is set: {}", steps.join("; "))
            }
        };
        Ok(Ok(Reset {
            text,
            first,
            amount,
            because,
            aim: self.target.at,
            aim_is_printed: self.target.is_printed,
            aim_text: self.target.why(setting, inches),
            change: self.change,
            feel_now: can_feel.then_some(feel),
            leaves: if can_feel {
                self.leaves(feel, setting)?
            } else {
                None
            },
            before_locking,
            landing,
            by: match self.means {
                Means::Screw(step) => Some(By::Screw(step)),
                Means::Shim(fitted) => fitted.sizes().map(|(size, others)| {
                    By::Shim(Box::new(ShimAdvice {
                        size: *size,
                        others: others.clone(),
                    }))
                }),
                Means::Untold | Means::Least(_) | Means::NoAngle(_) => None,
            },
            shim_plan: None,
        }))
    }

    /// The leaves by which it is recognised that the gap is `feel`, kept inside the set band where they can
    /// be.
    fn leaves(
        &self,
        feel: Lash,
        setting: &Setting<'_>,
    ) -> Result<Option<LeavesToFind>, ClearanceError> {
        let set = setting.limits.set();
        let shift = feel - self.aimed;
        let felt = |mark: Option<Marked>| -> Result<Option<Nominal>, QuantityError> {
            mark.map(|mark| Nominal::nearest_mm(mark.mm() + shift.mm()))
                .transpose()
        };
        leaves_to_find(
            setting.leaves,
            feel,
            (felt(set.lower())?, felt(set.upper())?),
        )
    }

    fn words(&self, inches: bool, setting: &Setting<'_>, estimate: &Estimate<Lash>) -> String {
        let mut text = format!("reset to {}", shown(&self.target, setting, inches));
        if self.change.is_none() {
            text.push_str(&open_end(estimate, self.target.at, inches));
        }
        let how = match &self.means {
            Means::Least(turn) => format!(": {turn}, the leaf decides"),
            Means::Untold => String::new(),
            Means::NoAngle(why) => format!("; {why}"),
            Means::Screw(step) => format!(": {} to start, the leaf decides", step.words),
            Means::Shim(fitted) => fitted.words(setting, inches),
        };
        text.push_str(&how);
        if self.feel().mm() <= 0.0 {
            let none = format!(
                "; there would then be no gap for the leaves at the present temperature ({}): it \
                 cannot be set with them as it is",
                by_hand(self.feel().mm(), inches)
            );
            text.push_str(&none);
        }
        text
    }
}

impl Means {
    /// For a reading with one end: the turn that changes the gap by the least it must. None where half of
    /// the value to set or more may be lost.
    fn least(
        found: &AsFound,
        setting: &Setting<'_>,
        estimate: &Estimate<Lash>,
        target: Lash,
    ) -> Result<Self, ClearanceError> {
        let half = 0.5 * setting.limits.set_to().mm();
        let high = estimate.high().filter(|high| high.mm() > half);
        let (Some(end), Adjuster::Screw { .. }) = (estimate.low().or(high), setting.adjuster)
        else {
            return Ok(Self::Untold);
        };
        Ok(match Self::of(found, setting, estimate, (end, target))? {
            Self::Screw(step) => {
                let way = match step.turn.direction {
                    TurnDirection::In => "in",
                    TurnDirection::Out | TurnDirection::None => "out",
                };
                let degrees = libm::floor(libm::fabs(step.turn.angle.degrees()));
                Self::Least(format!("{} {way} {degrees} deg or more", step.part))
            }
            other => other,
        })
    }

    fn of(
        found: &AsFound,
        setting: &Setting<'_>,
        estimate: &Estimate<Lash>,
        (measured, target): (Lash, Lash),
    ) -> Result<Self, ClearanceError> {
        Ok(match setting.adjuster {
            Adjuster::Unstated => Self::Untold,
            Adjuster::Eccentric => Self::NoAngle(ECCENTRIC),
            Adjuster::Screw { seat, .. }
                if seat.needs_ratio() && setting.rocker_ratio.is_none() =>
            {
                Self::NoAngle(NO_RATIO)
            }
            Adjuster::Screw {
                thread,
                seat,
                inward_closes,
                ..
            } => {
                let closes = inward_closes.unwrap_or(true);
                // Only a seat that needs it makes use of the ratio.
                let ratio = setting.rocker_ratio.unwrap_or(1.0);
                let change = target - measured;
                let turn = screw_turn(change, *thread, *seat, ratio, closes)?;
                Self::Screw(screw_step(
                    turn,
                    *seat,
                    change,
                    target,
                    setting.limits.set(),
                )?)
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

/// Part of the set band's half-width by which words may be off the degrees.
const WORDS_WITHIN: f64 = 0.25;

/// A turn with its words, which may move the lash off the target by no more than [`WORDS_WITHIN`] allows,
/// and never out of the set band.
fn screw_step(
    turn: ScrewTurn,
    seat: ScrewSeat,
    change: LashChange,
    target: Lash,
    set: &Limits<Lash>,
) -> Result<ScrewStep, QuantityError> {
    let mm = |mark: Option<Marked>| mark.map(Marked::mm);
    let to_low = mm(set.lower()).map(|low| target.mm() - low);
    let to_high = mm(set.upper()).map(|high| high - target.mm());
    let half = match (to_low, to_high) {
        (Some(low), Some(high)) => 0.5 * (low + high),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => 0.0,
    };
    let room = |to_end: Option<f64>| -> Result<ScrewAngle, QuantityError> {
        let mm = to_end.unwrap_or(half).min(WORDS_WITHIN * half).max(0.0);
        // The lash follows the screw in proportion.
        let per_mm = match change.mm() {
            change if change.abs() > 0.0 => turn.angle.degrees() / change,
            _ => 0.0,
        };
        ScrewAngle::from_degrees(mm * per_mm.abs())
    };
    let (further, back) = if change.mm() > 0.0 {
        (to_high, to_low)
    } else {
        (to_low, to_high)
    };
    let part = match seat {
        ScrewSeat::Pivot => "nut",
        ScrewSeat::ValveSide | ScrewSeat::CamSide => "screw",
    };
    let room = TurnRoom {
        short: room(back)?,
        over: room(further)?,
    };
    Ok(ScrewStep {
        turn,
        part,
        words: format!("{part} {}", turn.words(seat, room)),
    })
}

/// Which way to go when the reading is one-sided, and by at least how much.
fn open_end(estimate: &Estimate<Lash>, target: Lash, inches: bool) -> String {
    let shown = |change: LashChange| by_hand(change.mm(), inches);
    match (estimate.low(), estimate.high()) {
        (Some(low), None) => {
            format!("; close the gap by at least {}", shown(low - target))
        }
        (None, Some(high)) => format!("; open the gap by at least {}", shown(target - high)),
        _ => String::new(),
    }
}
