//! Estimates against limits: probabilities and the verdict.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::pointers::{Record, record_place, seen, spare};
use crate::quantity::{choose, marked};
use crate::status::lw_status;
use lashwork::quantity::{Advance, Lash, LashChange};
use lashwork::tolerance::{
    DecisionRule, Estimate, HasLimits, Judgement, Limits, Uncertainty, judge,
};

/// Which ends something has.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_span {
    /// From a low value to a high one.
    Between = 1,
    /// From a low value up; the high one is ignored.
    AtLeast = 2,
    /// Up to a high value; the low one is ignored.
    AtMost = 3,
}

pub(crate) const BETWEEN: u32 = lw_span::Between as u32;
pub(crate) const AT_LEAST: u32 = lw_span::AtLeast as u32;
pub(crate) const AT_MOST: u32 = lw_span::AtMost as u32;

/// How certain one must be before a lash is called in the band, below or above it.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_rule_kind {
    /// Not below when P(below) is 5 % or less, below from 50 %; not above up to 50 %, above beyond: the
    /// usual rule for lash, and for lash only.
    GuardedTight = 1,
    /// Simple acceptance of JCGM 106: each side is accepted up to 50 %.
    Simple = 2,
    /// ISO 14253-1: in the band, below, or above when that is 95 % probable.
    Iso14253Part1 = 3,
    /// Each side with the confidence that the rule states.
    Guarded = 4,
    /// Not above when P(above) is 5 % or less, above from 50 %; not below up to 50 %, below beyond: the usual
    /// rule for ignition points, where above is early. For those only.
    GuardedEarly = 5,
}

/// The verdict on a lash against limits.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_verdict {
    /// Nothing: the row was refused.
    Refused = 0,
    /// In the band.
    InBand = 1,
    /// Below the band: too little lash (tight); an ignition point that is late.
    Below = 2,
    /// Above the band: too much lash (loose); an ignition point that is early.
    Above = 3,
    /// Cannot say: the reading does not decide it under the rule.
    CannotSay = 4,
}

/// What is known of a lash: it lies between two values, or on one side of one, and those are known with
/// a normal standard uncertainty.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_estimate {
    /// Size of this structure, `sizeof(lw_estimate)`.
    pub struct_size: usize,
    /// Which ends it has: a value of `lw_span`.
    pub span: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
    /// The lower end in millimetres, -20 to 20; ignored if there is none.
    pub low_mm: f64,
    /// The upper end in millimetres, -20 to 20, not below the lower; ignored if there is none.
    pub high_mm: f64,
    /// Standard uncertainty of the ends in millimetres, 0 to 40.
    pub uncertainty_mm: f64,
}

/// A band of lash as printed. A lash on a limit is in the band.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_limits {
    /// Size of this structure, `sizeof(lw_limits)`.
    pub struct_size: usize,
    /// Which limits it has: a value of `lw_span`.
    pub span: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
    /// The lower limit in whole nanometres, up to ten metres either way; ignored if there is none.
    pub lower_nm: i64,
    /// The upper limit in whole nanometres, not below the lower; ignored if there is none.
    pub upper_nm: i64,
}

/// A decision rule. There is no default: it is the caller's choice.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_rule {
    /// Size of this structure, `sizeof(lw_rule)`.
    pub struct_size: usize,
    /// Which rule: a value of `lw_rule_kind`.
    pub kind: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
    /// For `LW_RULE_KIND_GUARDED`: how certain "not below" must be, 0.5 (no guard) up to below 1; other
    /// rules ignore it.
    pub below_confidence: f64,
    /// For `LW_RULE_KIND_GUARDED`: how certain "not above" must be, 0.5 (no guard) up to below 1; other
    /// rules ignore it.
    pub above_confidence: f64,
}

/// A verdict and what it rests on. A probability is at least `_least` and at most `_most`; for an
/// estimate with two ends they are equal.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_judgement {
    /// Size of this structure, `sizeof(lw_judgement)`.
    pub struct_size: usize,
    /// The verdict: a value of `lw_verdict`.
    pub verdict: u32,
    /// 1; or 0 when the uncertainty is so large that no reading could be accepted under the rule.
    pub provable: u32,
    /// Least probability to lie below the lower limit, 0 to 1.
    pub below_least: f64,
    /// The greatest.
    pub below_most: f64,
    /// Least probability to lie in the band, 0 to 1.
    pub in_band_least: f64,
    /// The greatest.
    pub in_band_most: f64,
    /// Least probability to lie above the upper limit, 0 to 1.
    pub above_least: f64,
    /// The greatest.
    pub above_most: f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_estimate {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers only.
unsafe impl Record for lw_limits {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_rule {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_judgement {
    const FIRST_SIZE: usize = size_of::<Self>();
}

/// What has no meaning yet must be zero, or it could never get one.
pub(crate) fn zero(name: &'static str, reserved: u32) -> Outcome {
    if reserved == 0 {
        return Ok(());
    }
    Err(lw_error::of(lw_status::UnknownValue, name, || {
        format!("{name} is {reserved}, not 0")
    }))
}

impl lw_estimate {
    #[expect(
        clippy::inline_always,
        reason = "what it gives back is else copied twice"
    )]
    #[inline(always)]
    pub(crate) fn typed(&self) -> Outcome<Estimate<Lash>> {
        zero("estimate.reserved", self.reserved)?;
        let (has_low, has_high) = match self.span {
            BETWEEN => (true, true),
            AT_LEAST => (true, false),
            AT_MOST => (false, true),
            other => return choose("estimate.span", other, &[]),
        };
        let u = Uncertainty::from_mm(self.uncertainty_mm)?;
        let low = has_low.then(|| Lash::from_mm(self.low_mm)).transpose()?;
        let high = has_high.then(|| Lash::from_mm(self.high_mm)).transpose()?;
        Ok(Estimate::of(low, high, u)?)
    }

    pub(crate) fn of(estimate: &Estimate<Lash>) -> Self {
        Self {
            struct_size: 0,
            span: match (estimate.low(), estimate.high()) {
                (Some(_), None) => AT_LEAST,
                (None, _) => AT_MOST,
                _ => BETWEEN,
            },
            reserved: 0,
            low_mm: estimate.low().map_or(0.0, Lash::mm),
            high_mm: estimate.high().map_or(0.0, Lash::mm),
            uncertainty_mm: estimate.normal_uncertainty().mm(),
        }
    }
}

impl lw_limits {
    #[expect(
        clippy::inline_always,
        reason = "what it gives back is else copied twice"
    )]
    #[inline(always)]
    pub(crate) fn typed(&self) -> Outcome<Limits<Lash>> {
        zero("limits.reserved", self.reserved)?;
        match self.span {
            BETWEEN => Ok(Limits::between(
                marked(self.lower_nm)?,
                marked(self.upper_nm)?,
            )?),
            AT_LEAST => Ok(Limits::at_least(marked(self.lower_nm)?)),
            AT_MOST => Ok(Limits::at_most(marked(self.upper_nm)?)),
            other => choose("limits.span", other, &[]),
        }
    }
}

impl lw_rule {
    /// The rule for a lash.
    #[inline]
    pub(crate) fn typed(&self) -> Outcome<DecisionRule> {
        self.known((lw_rule_kind::GuardedTight, Lash::USUAL_RULE))
    }

    /// The rule for an ignition point.
    pub(crate) fn of_timing(&self) -> Outcome<DecisionRule> {
        self.known((lw_rule_kind::GuardedEarly, Advance::USUAL_RULE))
    }

    /// A rule for what has no usual one of its own.
    pub(crate) fn of_any(&self) -> Outcome<DecisionRule> {
        self.known((lw_rule_kind::Simple, DecisionRule::simple()))
    }

    /// One of the rules that are for any quantity, or the usual one of this.
    #[inline]
    fn known(&self, (kind, usual): (lw_rule_kind, DecisionRule)) -> Outcome<DecisionRule> {
        const GUARDED: u32 = lw_rule_kind::Guarded as u32;
        zero("rule.reserved", self.reserved)?;
        if self.kind == GUARDED {
            let (below, above) = (self.below_confidence, self.above_confidence);
            return Ok(DecisionRule::guarded(below, above)?);
        }
        choose(
            "rule.kind",
            self.kind,
            &[
                (kind as u32, usual),
                (lw_rule_kind::Simple as u32, DecisionRule::simple()),
                (
                    lw_rule_kind::Iso14253Part1 as u32,
                    DecisionRule::iso_14253_1(),
                ),
            ],
        )
    }
}

impl From<Judgement> for lw_judgement {
    fn from(judgement: Judgement) -> Self {
        let p = judgement.probabilities;
        Self {
            struct_size: 0,
            verdict: judgement.verdict.number().into(),
            provable: u32::from(judgement.provable),
            below_least: p.below.least,
            below_most: p.below.most,
            in_band_least: p.in_band.least,
            in_band_most: p.in_band.most,
            above_least: p.above.least,
            above_most: p.above.most,
        }
    }
}

/// Judges an estimate against limits under a rule: the probabilities and the verdict.
///
/// No memory is allocated. `LW_STATUS_REFUSED` for crossed ends or limits, an uncertainty or confidence
/// out of range, NaN. `error` may be NULL. Any thread.
///
/// # Safety
/// The four structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_judge(
    estimate: *const lw_estimate,
    limits: *const lw_limits,
    rule: *const lw_rule,
    judgement: *mut lw_judgement,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (estimate, limits, rule, judgement) = unsafe {
            (
                seen("estimate", estimate, &mut spare())?.typed()?,
                seen("limits", limits, &mut spare())?.typed()?,
                seen("rule", rule, &mut spare())?.typed()?,
                record_place("judgement", judgement)?,
            )
        };
        judgement.write(&judge(&estimate, &limits, &rule).into());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The estimate after the lash has changed by an amount that is itself uncertain and independent of the
/// reading: a thermal correction is minus the change that `lw_warmth_shift` gives.
///
/// `change_mm` -40 to 40, positive opens; `change_uncertainty_mm` its standard uncertainty, 0 to 40.
/// `changed` may be `estimate` itself. `error` may be NULL. Any thread.
///
/// # Safety
/// The two structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_estimate_changed(
    estimate: *const lw_estimate,
    change_mm: f64,
    change_uncertainty_mm: f64,
    changed: *mut lw_estimate,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (estimate, changed) = unsafe {
            (
                seen("estimate", estimate, &mut spare())?.typed()?,
                record_place("changed", changed)?,
            )
        };
        let change = LashChange::from_mm(change_mm)?;
        let u = Uncertainty::from_mm(change_uncertainty_mm)?;
        changed.write(&lw_estimate::of(&estimate.shifted(change, u)));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
