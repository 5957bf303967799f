//! How far the speed rises on leaning, by published rules that do not agree.

use super::answer::{IdleRiseReport, RiseRuleReport};
use super::{Idle, IdleRule, USUAL_SPEED};
use crate::job::assumptions::Assumptions;
use crate::job::work::{Sides, told as judged};
use crate::mixture::idle::{
    Crown, IdleCurve, IdleError, RiseJudged, RiseRule, Side, rise_by_the_rules,
};
use crate::quantity::{Altitude, CrankSpeed};
use crate::tolerance::{Estimate, Uncertainty, Verdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::f64::consts::SQRT_2;

/// Less of a rise is a mixture that is too lean already.
const SIDES: Sides = Sides {
    below: "too lean",
    above: "too rich",
};

/// How far the speed rises on leaning out from where the screw stands.
///
/// ```
/// use lashwork::job::mixture::Rise;
/// use lashwork::quantity::CrankSpeed;
/// let read = Rise { read: Some(CrankSpeed::from_rpm(40.0)?), standard_uncertainty: None };
/// assert_ne!(read, Rise::default());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Rise {
    /// As it was read; from the curve and where the screw stands now, if not stated.
    pub read: Option<CrankSpeed>,
    /// Its standard uncertainty; that of two speeds if not stated.
    pub standard_uncertainty: Option<Uncertainty<CrankSpeed>>,
}

/// How the mixture screw stands to the place where it is wanted.
#[derive(Clone, Copy)]
pub(super) struct Stands {
    /// Whether it is there.
    pub(super) is_as_wanted: bool,
    /// What place that is.
    pub(super) rule: IdleRule,
}

/// What the rules say of it.
pub(super) fn told(
    rise: &Rise,
    asked: &Idle,
    curve: Option<&IdleCurve>,
    stands: Stands,
    height: Option<Altitude>,
    assumptions: &mut Assumptions,
) -> Result<IdleRiseReport, IdleError> {
    let found = match rise.read {
        Some(read) => Ok(stated(read, rise, asked, assumptions)?),
        None => from_curve(asked, curve, stands)?,
    };
    let height = if let Some(height) = height {
        height
    } else {
        assumptions.add(
            "mixture.idle-rise-at-sea-level",
            "how high the place lies is not stated: the rule that goes by height is taken at sea level",
        );
        Altitude::from_metres(0.0)?
    };
    let known = found.as_ref().ok();
    let rules = match known {
        Some(rise) => rise_by_the_rules(rise, height)?,
        None => bands(height)?,
    };
    let said = known.map(|rise| {
        let centre = rise.centre().map_or(0.0, CrankSpeed::rpm);
        let u = rise.normal_uncertainty().number();
        (centre, u, format!("{centre:.0} rpm, u {u:.0}"))
    });
    let words = said.as_ref().map_or("", |(_, _, words)| words.as_str());
    let by_rules: Vec<RiseRuleReport> = rules.iter().map(|one| by_rule(one, words)).collect();
    let text = match (&found, &said) {
        (Ok(_), Some((_, _, words))) => {
            format!("rises {words}, on leaning; {}", together(&by_rules))
        }
        (Err(why), _) => String::from(*why),
        (Ok(_), None) => String::new(),
    };
    Ok(IdleRiseReport {
        rise: known.and_then(Estimate::centre),
        rise_u: said.map(|(_, u, _)| u),
        by_rules,
        text,
    })
}

fn stated(
    read: CrankSpeed,
    rise: &Rise,
    asked: &Idle,
    assumptions: &mut Assumptions,
) -> Result<Estimate<CrankSpeed>, IdleError> {
    let u = match (rise.standard_uncertainty, asked.scatter) {
        (Some(u), _) => u,
        (None, Some(u)) => Uncertainty::from_number(SQRT_2 * u.number())?,
        (None, None) => {
            assumptions.bears_on_verdict(
                "mixture.idle-speed-uncertainty",
                format!(
                    "uncertainty of the idle speed not stated: {USUAL_SPEED} rpm taken; common practice, no source"
                ),
            );
            Uncertainty::from_number(SQRT_2 * USUAL_SPEED)?
        }
    };
    Ok(Estimate::between(read, read, u)?)
}

/// From the curve, or why it does not show it.
fn from_curve(
    asked: &Idle,
    curve: Option<&IdleCurve>,
    stands: Stands,
) -> Result<Result<Estimate<CrankSpeed>, &'static str>, IdleError> {
    let Some(now) = asked.now else {
        return Ok(Err(
            "the rise on leaning is not known: say where the screw stands now",
        ));
    };
    let crown = curve.map(IdleCurve::crown).transpose()?;
    let (Some(curve), Some(Crown::Seen(top))) = (curve, crown) else {
        return Ok(Err(
            "the rise on leaning is not known: the readings show no crown, so read it at the mixture control",
        ));
    };
    // What is left where it stands is not called too lean.
    match stands.rule {
        IdleRule::Highest if stands.is_as_wanted => {
            return Ok(Err(
                "the screw stands at the crown: on leaning the speed only falls; these rules want a rise, so a little \
                 to the rich side of it; the book of this engine decides",
            ));
        }
        IdleRule::Beside(Side::Lean, _) if stands.is_as_wanted => {
            return Ok(Err(
                "the screw stands on the lean side of the crown, where the book of this engine wants it: on leaning the \
                 speed only falls; these rules want a rise and do not go with that book",
            ));
        }
        _ => {}
    }
    let is_out = now.place.turns() > top.best.value.turns();
    if is_out == Side::Lean.is_out(asked.screw) {
        return Ok(Err(
            "the screw stands on the lean side of the crown: on leaning the speed only falls, by every rule too lean",
        ));
    }
    Ok(Ok(curve.rise_at(now.place)?))
}

/// The rules alone, where there is no rise to judge.
fn bands(height: Altitude) -> Result<Vec<RiseJudged>, IdleError> {
    let one = |rule: RiseRule| {
        Ok(RiseJudged {
            rule,
            band: rule.band(height)?,
            judgement: None,
        })
    };
    RiseRule::ALL.into_iter().map(one).collect()
}

const fn name(rule: RiseRule) -> &'static str {
    match rule {
        RiseRule::Handbook => "handbook of an aviation authority",
        RiseRule::Metering => "manual of a maker of fuel metering",
        RiseRule::ByHeight => "service page by height",
    }
}

fn by_rule(one: &RiseJudged, found: &str) -> RiseRuleReport {
    let judged = one
        .band
        .zip(one.judgement)
        .map(|(band, judgement)| judged(found.to_string(), band.to_string(), &judgement, SIDES));
    let says = match &one.band {
        Some(band) => band.to_string(),
        None => String::from("says nothing for this height"),
    };
    let verdict = judged.as_ref().map(|one| format!(": {}", one.verdict_text));
    RiseRuleReport {
        rule: one.rule,
        least: one.band.and_then(|band| band.lower()),
        most: one.band.and_then(|band| band.upper()),
        text: format!("{}: {says}{}", name(one.rule), verdict.unwrap_or_default()),
        judged,
    }
}

/// Whether they agree.
fn together(rules: &[RiseRuleReport]) -> String {
    let verdicts = rules.iter().filter_map(|one| one.judged.as_ref());
    let verdicts: Vec<Verdict> = verdicts.map(|one| one.verdict).collect();
    let agree = verdicts.windows(2).all(|pair| pair.first() == pair.last());
    String::from(if agree {
        "the published rules that say something agree"
    } else {
        "the published rules do not agree, so go by the book of this engine"
    })
}
