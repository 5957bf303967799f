//! What to do about uneven sparks.

use super::answer::{EvennessReport, LobeFiringReport, UnevenGroupReport};
use super::{UnevenCause, UnevenVerdict, Verdict};
use crate::job::work::{Before, WorkAdvice};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Nothing was read.
pub(super) fn not_read(before: &Before) -> EvennessReport {
    let text = String::from(
        "read every cylinder with a lamp on its lead at its own mark, or its dwell, at one steady speed",
    );
    EvennessReport {
        first: before.sure.clone(),
        lobes: Vec::new(),
        mean: None,
        spread: None,
        tolerance: None,
        once_round: None,
        parts: Vec::new(),
        verdict: None,
        verdict_text: String::from("not read"),
        explanations: Vec::new(),
        looks: Vec::new(),
        advice: settle(before).unwrap_or(WorkAdvice::Measure { text }),
    }
}

fn settle(before: &Before) -> Option<WorkAdvice> {
    let text = before.settle.clone()?;
    Some(WorkAdvice::SettleFirst { text })
}

/// Whether nothing is wrong: no cause found, and every spark proved within the tolerance.
pub(super) fn is_even(
    verdict: UnevenVerdict,
    lobes: &[LobeFiringReport],
    groups: &[UnevenGroupReport],
) -> bool {
    verdict == UnevenVerdict::Settled
        && cause(groups) == Some(UnevenCause::Even)
        && lobes
            .iter()
            .all(|lobe| lobe.judged.shown() == Verdict::InBand)
}

fn cause(groups: &[UnevenGroupReport]) -> Option<UnevenCause> {
    let first = groups.first().and_then(|group| group.explanations.first());
    first.map(|one| one.cause)
}

/// The advice for what was found.
pub(super) fn advise(
    verdict: UnevenVerdict,
    lobes: &[LobeFiringReport],
    groups: &[UnevenGroupReport],
    looks: &[String],
    before: &Before,
) -> WorkAdvice {
    if let Some(advice) = settle(before) {
        return advice;
    }
    if is_even(verdict, lobes, groups) {
        return WorkAdvice::Leave {
            text: String::from("every spark comes at its place: leave the distributor as it is"),
        };
    }
    let again = "read every cylinder again, several times at one steady speed, and take the means";
    let text = |text: String| WorkAdvice::Measure { text };
    match (verdict, cause(groups)) {
        (UnevenVerdict::Settled, Some(UnevenCause::Misread)) => {
            let of = groups.first().and_then(|group| group.explanations.first());
            let cylinder = of.and_then(|one| one.cylinder.clone()).unwrap_or_default();
            text(format!(
                "read cylinder {cylinder} once more: its reading alone stands out"
            ))
        }
        (UnevenVerdict::Settled, Some(UnevenCause::Even)) | (_, None) => text(again.to_string()),
        (UnevenVerdict::Settled, Some(cause)) => WorkAdvice::FindCause {
            text: String::from("turning the body moves all sparks alike and cures no unevenness"),
            causes: look_at(cause),
        },
        _ => text(match looks.first() {
            Some(look) => format!("not told apart yet; look next: {look}"),
            None => again.to_string(),
        }),
    }
}

/// Where to look, the likeliest first. Common practice, no source.
fn look_at(cause: UnevenCause) -> Vec<String> {
    let said: &[&str] = match cause {
        UnevenCause::RunOut => &[
            "bushings: push and pull the shaft sideways with a dial gauge at the cam",
            "a bent shaft: turn it once under the gauge",
            "the cam on its shaft: dirt under it, or worn",
        ],
        UnevenCause::LobeWorn => &["that lobe: compare the gap on top of it with the others"],
        UnevenCause::EveryOther => &[
            "two sets of contacts set apart: set them alike",
            "play in the drive: rock the rotor",
        ],
        UnevenCause::RunOutAndEveryOther => &[
            "bushings and shaft, with a dial gauge at the cam",
            "two sets of contacts set apart, or play in the drive",
        ],
        UnevenCause::EveryLobe => &[
            "the cam: compare the gaps on all lobes",
            "a loose breaker plate, a worn thrust face or follower",
        ],
        UnevenCause::Even | UnevenCause::Misread => &[],
    };
    said.iter().map(ToString::to_string).collect()
}
