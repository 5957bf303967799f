//! Carburettors that share the work: which screw to turn, which way and how far.

use crate::balance_answer::{lw_balance, lw_move_columns, lw_shaft_columns, lw_throttle_columns};
use crate::balance_columns::Output;
use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::judging::lw_rule;
use crate::pointers::{record, record_place};
use crate::quantity::choose;
use crate::status::lw_status;
use crate::throttles::{lw_linkage, lw_throttle_gauge, lw_throttle_looks, lw_trial_turns};
use lashwork::mixture::balance::{BalanceCheck, Linkage, Shown};
use lashwork::quantity::{AbsolutePressure, AirFlow, Vacuum};
use lashwork::tolerance::{DecisionRule, Measurand, Uncertainty};

/// Works it out for a gauge that shows `R`, and writes it.
///
/// # Safety
/// The columns have the rows they say.
unsafe fn balanced<R: Shown>(
    linkage: &Linkage,
    looks: &lw_throttle_looks,
    trials: Option<&lw_trial_turns>,
    rule: Option<DecisionRule>,
    output: Output<'_>,
) -> Outcome {
    // SAFETY: passed on under the same contract.
    let (readings, trials) = unsafe {
        (
            looks.typed()?,
            trials.map_or_else(|| Ok(Vec::new()), |trials| trials.typed())?,
        )
    };
    let stated = |number: f64| Uncertainty::<R>::from_number(number);
    let known = [(0, false), (1, true)];
    let check = BalanceCheck::<R> {
        readings,
        // Nought counts as none stated.
        scatter: Some(stated(looks.scatter)?),
        between_gauges: Some(stated(looks.between_gauges)?).filter(|u| u.number() > 0.0),
        trials,
        allowed: match looks.allowed {
            0.0 => None,
            allowed => Some(R::Difference::from_number(allowed)?),
        },
        rule,
        ambient: if choose("looks.ambient_known", looks.ambient_known, &known)? {
            Some(AbsolutePressure::from_kilopascals(looks.ambient_kpa)?)
        } else {
            None
        },
    };
    let found = check.worked_out(linkage)?;
    output.write(&found);
    Ok(())
}

/// Which screw of a linkage to turn, which way and how far, so that the throttles share the work.
///
/// `trials` may be NULL, and so may `throttles` and `shafts`; `rule` may be NULL for simple acceptance, and is not one for lash or
/// ignition points. Without trials there are ways, but no amounts. Each move is what is left to do once those before
/// it are done. A row that is no reading refuses the call, and the error names it (`lw_error_row`); trials of a screw
/// whose sense was stated the other way round refuse it as well. Taken for granted: that throttles beyond one screw
/// move alike, and readings in a straight line with the turn. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_balance_throttles(
    linkage: *const lw_linkage,
    looks: *const lw_throttle_looks,
    trials: *const lw_trial_turns,
    rule: *const lw_rule,
    balance: *mut lw_balance,
    throttles: *const lw_throttle_columns,
    moves: *const lw_move_columns,
    shafts: *const lw_shaft_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here where it is not allowed; the rest is the caller's part of the contract.
        unsafe {
            let given = record("linkage", linkage)?;
            let looks = record("looks", looks)?;
            let trials = if trials.is_null() {
                None
            } else {
                Some(record("trials", trials)?)
            };
            let rule = if rule.is_null() {
                None
            } else {
                Some(record("rule", rule)?.of_any()?)
            };
            let balance = record_place("balance", balance)?;
            let stands = if throttles.is_null() {
                None
            } else {
                Some(record("throttles", throttles)?.checked(given.throttles)?)
            };
            let moves = record("moves", moves)?.checked(given.joints)?;
            let shafts = if shafts.is_null() {
                None
            } else {
                Some(record("shafts", shafts)?.checked(given.joints)?)
            };
            let output = Output {
                balance,
                stands,
                moves,
                shafts,
            };
            let linkage = given.typed()?;
            let gauges = [
                (lw_throttle_gauge::Vacuum as u32, true),
                (lw_throttle_gauge::AirFlow as u32, false),
            ];
            if choose("looks.gauge", looks.gauge, &gauges)? {
                balanced::<Vacuum>(&linkage, &looks, trials.as_ref(), rule, output)
            } else {
                balanced::<AirFlow>(&linkage, &looks, trials.as_ref(), rule, output)
            }
        }
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
