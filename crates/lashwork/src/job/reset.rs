//! Bringing a valve to its set value: which way, how far to turn or which shim to fit, and what the
//! leaves should feel afterwards.

use super::locking::{Landing, before_locking};
use super::shown::length;
use super::{Action, Adjuster, Advice, Problem, Request, ValveReading};
use crate::adjust::{AdjustError, ShimChoice, ShimFit, ShimRounding, ShimSeries, screw_turn};
use crate::feeler::best_stack;
use crate::quantity::{Lash, LashChange, Nominal, QuantityError, ShimThickness};
use crate::tolerance::{Estimate, ValveLimits};
use alloc::format;
use alloc::string::{String, ToString};

/// Widest miss of a stack that is still worth naming: 0.05 mm.
const STACK_WITHIN: i64 = 50_000;

/// Fills in the advice to reset, and how it lands where that can be told. `warmth` is what the metal's
/// temperature adds to the lash, with the standard uncertainty of that in millimetres.
pub(super) fn reset(
    request: &Request,
    read: &ValveReading,
    limits: &ValveLimits,
    estimate: &Estimate<Lash>,
    warmth: (LashChange, f64),
    place: &str,
    advice: &mut Advice,
) -> Result<Option<Landing>, Problem> {
    let wrong = |e: QuantityError| Problem::new(place, e.code(), e.to_string(), e.hint());
    let refused = |e: AdjustError| Problem::new(place, e.code(), e.to_string(), e.hint());
    let target = Lash::from_nominal(limits.set_to().nominal()).map_err(wrong)?;
    advice.action = Action::Reset;
    advice.text = format!("reset to {}", limits.set_to());
    let mut aimed = target;
    let inches = read.in_inches();
    if let Some(found) = estimate.centre() {
        advice.change = Some(target - found);
        match (&request.adjuster, read.shim) {
            (Adjuster::Unstated, _) => {}
            (
                Adjuster::Screw {
                    thread,
                    seat,
                    inward_closes,
                    ..
                },
                _,
            ) => {
                let ratio = request.rocker_ratio.unwrap_or(1.0);
                let change = target - found;
                let closes = inward_closes.unwrap_or(true);
                let turn = screw_turn(change, *thread, *seat, ratio, closes).map_err(refused)?;
                add(advice, &format!(": screw {}", turn.words()));
                advice.screw = Some(turn);
            }
            (Adjuster::Shim { .. }, None) => {
                add(advice, "; measure the fitted shim to choose the new one");
            }
            (
                Adjuster::Shim {
                    ratio,
                    series,
                    rules,
                    ..
                },
                Some(old),
            ) => {
                let sizes = (series.as_ref(), rules.rounding);
                let inches = (request.adjuster.shims_in_inches(), inches);
                let (text, choice) =
                    shim(old, found, target, *ratio, sizes, limits, inches).map_err(refused)?;
                add(advice, &text);
                aimed = choice.map_or(target, |c| c.predicted_lash);
                advice.shim = choice;
            }
        }
    } else {
        add(advice, &open_end(estimate, target, inches));
    }
    // A flat leaf bridges a hollow, so it feels that much less than the true gap.
    let (hollow, hollow_u) = read
        .hollow
        .map_or((0.0, 0.0), |h| (h.depth.mm(), h.uncertainty.mm()));
    let more = LashChange::from_mm(warmth.0.mm() - hollow).map_err(wrong)?;
    let stack = |feel: Lash| -> Result<Option<String>, Problem> {
        if feel.mm() <= 0.0 {
            return Ok(None);
        }
        let wanted = Nominal::nearest_mm(feel.mm()).map_err(wrong)?;
        let within = Nominal::from_nanometres(STACK_WITHIN).map_err(wrong)?;
        let best = best_stack(&request.leaves, wanted, 3, within).ok();
        // A stack by which a good setting would leave the band is no help.
        let near = best.filter(|b| {
            let lands = LashChange::from_mm(b.error.mm()).map(|off| aimed + off);
            let set = limits.set();
            !set.contains(aimed) || lands.is_ok_and(|lands| set.contains(lands))
        });
        Ok(near.map(|b| b.stack.to_string()))
    };
    let feel = aimed + more;
    if feel.mm() <= 0.0 {
        let none = format!(
            "; the leaves would then find no gap at the present temperature ({}): it cannot be set \
             by them as it is",
            length(inches, &|unit, decimals| feel.show(unit, decimals.into()))
        );
        add(advice, &none);
        return Ok(None);
    }
    advice.feel_now = Some(feel);
    advice.stack = stack(feel)?;
    let more = (more, libm::hypot(warmth.1, hollow_u));
    before_locking(request, limits, aimed, more, stack, advice)
}

fn add(advice: &mut Advice, text: &str) {
    advice.text.push_str(text);
}

/// Which way to go when the reading has one end only, and by at least how much.
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

/// The shim to fit, by the series and its rounding rule; with a warning if it misses the set band.
fn shim(
    old: ShimThickness,
    measured: Lash,
    target: Lash,
    ratio: f64,
    (series, rounding): (Option<&ShimSeries>, Option<ShimRounding>),
    limits: &ValveLimits,
    (shims_in_inches, leaves_in_inches): (bool, bool),
) -> Result<(String, Option<ShimChoice>), AdjustError> {
    let fit = ShimFit {
        old,
        measured,
        target,
        ratio_from_shim_to_gap: ratio,
    };
    let wanted = fit.wanted()?;
    let exact = length(shims_in_inches, &|unit, decimals| {
        wanted.show(unit, decimals.into())
    });
    let Some(series) = series else {
        return Ok((format!(": shim of {exact}"), None));
    };
    let choice = match series.choose(&fit, rounding, limits.set()) {
        Ok(choice) => choice,
        Err(error) => return Ok((format!(": shim of {exact} wanted, but {error}"), None)),
    };
    let size = length(shims_in_inches, &|unit, decimals| {
        choice.size.show(unit, decimals.into())
    });
    let then = choice.predicted_lash;
    let lash = length(leaves_in_inches, &|unit, decimals| {
        then.show(unit, decimals.into())
    });
    let miss = match rounding {
        _ if choice.is_in(limits.set()) => "",
        None => ", outside the set band: no size lands in it",
        Some(_) => ", outside the set band",
    };
    let text = format!(": shim {size} (exactly {exact}), lash then {lash}{miss}");
    Ok((text, Some(choice)))
}
