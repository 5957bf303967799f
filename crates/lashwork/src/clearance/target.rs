//! What a reset aims at: the printed value, or the nearest one at which the rule is kept afterwards.
//!
//! # Method
//! How the lash lands is spread: by the lock nut where that was learned, else by hand and leaf as they
//! felt it. The rule that judges a reading is asked about that spread, and about the band a new setting
//! must lie in. Where the printed value does not keep it, the nearest value of that band that does is
//! found by halving.

use super::setting::Setting;
use super::text::printed;
use crate::quantity::shown::{by_hand, reckoned};
use crate::quantity::{Lash, Marked, QuantityError};
use crate::tolerance::{Deciding, DecidingSide, Probabilities};
use alloc::format;
use alloc::string::String;

/// Halvings of the way to the end of the band.
const HALVINGS: u32 = 24;
/// How far to look where the set band has no such end, in millimetres.
const FAR_MM: f64 = 0.5;
/// Least chance of landing in the set band for an aim that is not the printed one.
const LIKELIER_IN: f64 = 0.5;
/// What a moved aim is rounded to, in millimetres: what a hand can tell apart, and a tenth or a fifth of it
/// where that leaves the band or the rule.
const STEPS_MM: [f64; 2] = [0.01, 0.001];
/// The same in inches, in millimetres: 0.0005 and 0.0001 in.
const STEPS_INCH_MM: [f64; 2] = [0.012_7, 0.002_54];

/// What a reset aims at.
#[derive(Clone, Debug)]
pub(super) struct Target {
    pub(super) at: Lash,
    /// Whether it is the printed value.
    pub(super) is_printed: bool,
    /// Why it is not, or that no value of the band keeps the rule.
    why: Option<Why>,
}

/// Why an aim is not the printed value, or no better than it.
#[derive(Clone, Debug)]
enum Why {
    /// No value of the set band keeps to what is allowed.
    NoneKeeps(String),
    /// How the printed value would end, and how this one does.
    Moved(String),
}

impl Target {
    /// The printed value, whatever follows.
    pub(super) fn printed(setting: &Setting<'_>) -> Result<Self, QuantityError> {
        Ok(Self {
            at: Lash::from_nominal(setting.limits.set_to().nominal())?,
            is_printed: true,
            why: None,
        })
    }

    /// Why the printed value is not aimed at, or does not keep the rule, in words.
    pub(super) fn why(&self, setting: &Setting<'_>, inches: bool) -> Option<String> {
        Some(match self.why.as_ref()? {
            Why::NoneKeeps(ends) => {
                format!("set so, it ends {ends}; no value of the set band keeps to that")
            }
            Why::Moved(ends) => {
                let book = printed(setting.limits.set_to(), inches);
                format!("not to the printed {book}, which ends {ends}")
            }
        })
    }
}

/// The share that decides, and what the rule allows of it, as a sheet says it.
pub(super) fn share(why: &Deciding) -> String {
    format!("{}, {}", side(why, why.share), allowed(why))
}

fn side(why: &Deciding, share: f64) -> String {
    let side = match why.side {
        DecidingSide::Below => "tight",
        DecidingSide::Above => "loose",
        DecidingSide::InBand => "in band",
    };
    format!("{:.1} % {side}", 100.0 * share)
}

fn allowed(why: &Deciding) -> String {
    let word = match why.side {
        DecidingSide::Below | DecidingSide::Above => "allowed",
        DecidingSide::InBand => "at least",
    };
    format!("{word} {:.0} %", 100.0 * why.allowed)
}

/// The target, in steps of a hand where it can be; `after` is how the lash lies against the set band when so much is aimed at.
pub(super) fn target(
    setting: &Setting<'_>,
    inches: bool,
    after: &dyn Fn(Lash) -> Option<Probabilities>,
) -> Result<Target, QuantityError> {
    let stay = Target::printed(setting)?;
    let printed = stay.at;
    let refused = after(printed).and_then(|p| Some((p, setting.rule.deciding(&p)?)));
    let Some((p, why)) = refused else {
        return Ok(stay);
    };
    let Some(at) = nearest(setting, (printed, inches), &p, &why, after) else {
        return Ok(Target {
            why: Some(Why::NoneKeeps(format!(
                "{} ({})",
                side(&why, why.share),
                allowed(&why)
            ))),
            ..stay
        });
    };
    let then = after(at).map_or(0.0, |p| match why.side {
        DecidingSide::Below => p.below.most,
        DecidingSide::Above => p.above.most,
        DecidingSide::InBand => p.in_band.least,
    });
    Ok(Target {
        at,
        is_printed: false,
        why: Some(Why::Moved(format!(
            "{} ({}): here {}",
            side(&why, why.share),
            allowed(&why),
            side(&why, then)
        ))),
    })
}

/// The value of the set band nearest to the printed one that keeps the rule.
fn nearest(
    setting: &Setting<'_>,
    (printed, inches): (Lash, bool),
    at_printed: &Probabilities,
    why: &Deciding,
    after: &dyn Fn(Lash) -> Option<Probabilities>,
) -> Option<Lash> {
    let set = setting.limits.set();
    let mm = |mark: Option<Marked>| mark.map(Marked::mm);
    let up = match why.side {
        DecidingSide::Below => true,
        DecidingSide::Above => false,
        DecidingSide::InBand => at_printed.below.most > at_printed.above.most,
    };
    let (low, high) = (mm(set.lower()), mm(set.upper()));
    let end = match (up, why.side) {
        // What lies in the band is most in its middle.
        (_, DecidingSide::InBand) => 0.5 * (low? + high?),
        (true, _) => high.unwrap_or(printed.mm() + FAR_MM),
        (false, _) => low.unwrap_or(printed.mm() - FAR_MM),
    };
    let at = |mm: f64| after(Lash::from_mm(mm).ok()?);
    // A setting that likelier misses the band than not is no aim.
    let kept = |mm: f64| {
        at(mm)
            .is_some_and(|p| setting.rule.deciding(&p).is_none() && p.in_band.least >= LIKELIER_IN)
    };
    let passes = |mm: f64| match why.side {
        DecidingSide::InBand => kept(mm),
        DecidingSide::Below => at(mm).is_some_and(|p| setting.rule.accepts_below(&p)),
        DecidingSide::Above => at(mm).is_some_and(|p| setting.rule.accepts_above(&p)),
    };
    if !passes(end) {
        return None;
    }
    let (mut fails, mut holds) = (printed.mm(), end);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (fails + holds);
        if passes(middle) {
            holds = middle;
        } else {
            fails = middle;
        }
    }
    let steps = if inches { STEPS_INCH_MM } else { STEPS_MM };
    let rounded = steps
        .into_iter()
        .filter_map(|step| rounded(holds, end, step));
    let found = rounded.chain([holds]).find(|mm| kept(*mm))?;
    Lash::from_mm(found).ok()
}

/// Rounded away from the printed value; nothing if that goes to the end of the band or beyond.
fn rounded(mm: f64, end: f64, step: f64) -> Option<f64> {
    let up = end >= mm;
    let steps = if up {
        libm::ceil(mm / step)
    } else {
        libm::floor(mm / step)
    };
    let found = steps * step;
    (if up { found < end } else { found > end }).then_some(found)
}

/// The aim as a sheet says it: as printed, or in the unit that is read.
pub(super) fn shown(target: &Target, setting: &Setting<'_>, inches: bool) -> String {
    if target.is_printed {
        return printed(setting.limits.set_to(), inches);
    }
    let [by_hands, _] = if inches { STEPS_INCH_MM } else { STEPS_MM };
    let off = target.at.mm() / by_hands;
    if (off - libm::rint(off)).abs() < 1e-6 {
        by_hand(target.at.mm(), inches)
    } else {
        reckoned(target.at.mm(), inches)
    }
}
