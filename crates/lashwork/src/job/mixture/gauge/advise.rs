//! What to do about what the vacuum gauge says.

use super::answer::{GaugeCauseReport, GaugeReport, NextGaugeLookReport};
use super::words;
use crate::job::mixture::VacuumUnit;
use crate::job::text::percent;
use crate::job::work::{Before, WorkAdvice};
use crate::mixture::gauge::{GaugeAnswer, GaugeCause, GaugeVerdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Causes less probable than this are not told.
const TOLD: f64 = 0.01;
/// Causes that are looked for where nothing is settled.
const LOOKED_FOR: usize = 3;

/// The report of what was found.
pub(super) fn told(
    answer: &GaugeAnswer,
    is_seen: bool,
    unit: VacuumUnit,
    before: &Before,
) -> GaugeReport {
    let likely = answer.causes.iter().filter(|one| one.probability >= TOLD);
    let causes: Vec<GaugeCauseReport> = likely
        .map(|one| GaugeCauseReport {
            cause: one.cause,
            prior: one.prior,
            probability: one.probability,
            text: words::cause(one.cause),
        })
        .collect();
    let verdict = if is_seen {
        answer.verdict
    } else {
        GaugeVerdict::NothingSeen
    };
    let next = answer.next.map(|next| NextGaugeLookReport {
        at: next.at,
        text: words::look(next.at),
        bits: next.bits,
    });
    let level = answer.level_at_sea;
    let first = causes.first();
    GaugeReport {
        verdict,
        verdict_text: said(verdict, first),
        level_at_sea_from: level.map(|[from, _]| from),
        level_at_sea_to: level.map(|[_, to]| to),
        level_text: level.map(|[from, to]| {
            format!(
                "at sea level that would be {} to {}",
                unit.say(from.kilopascals()),
                unit.say(to.kilopascals())
            )
        }),
        advice: advice(verdict, &causes, next.as_ref(), before),
        next,
        causes,
    }
}

fn said(verdict: GaugeVerdict, first: Option<&GaugeCauseReport>) -> String {
    let told = || {
        let told = first.map(|one| format!("{} ({})", one.text, percent(one.probability)));
        told.unwrap_or_default()
    };
    match verdict {
        GaugeVerdict::NothingSeen => String::from("not looked at"),
        GaugeVerdict::Settled => told(),
        GaugeVerdict::Open => format!("not decided; most probably {}", told()),
        GaugeVerdict::NothingFits => String::from("none of the usual causes fits what was seen"),
    }
}

fn advice(
    verdict: GaugeVerdict,
    causes: &[GaugeCauseReport],
    next: Option<&NextGaugeLookReport>,
    before: &Before,
) -> WorkAdvice {
    if let Some(text) = &before.settle {
        return WorkAdvice::SettleFirst { text: text.clone() };
    }
    let faults = causes.iter().map(|one| one.cause);
    let faults = faults.filter(|cause| *cause != GaugeCause::Sound);
    let proofs = |most: usize| -> Vec<String> {
        let proofs = faults.clone().take(most).map(words::proof);
        proofs.map(ToString::to_string).collect()
    };
    match (verdict, causes.first()) {
        (GaugeVerdict::Settled, Some(one)) if one.cause == GaugeCause::Sound => WorkAdvice::Leave {
            text: String::from("the gauge shows a sound engine: nothing to do on its account"),
        },
        (GaugeVerdict::Settled, Some(one)) => WorkAdvice::FindCause {
            text: format!(
                "{}: make sure by another way before anything is taken apart",
                one.text
            ),
            causes: proofs(1),
        },
        (GaugeVerdict::NothingFits, _) => WorkAdvice::FindCause {
            text: String::from("the gauge does not tell: it may be more than one thing"),
            causes: proofs(LOOKED_FOR),
        },
        _ => match next {
            Some(next) => WorkAdvice::Measure {
                text: String::from(next.text),
            },
            None => WorkAdvice::FindCause {
                text: String::from("no further look at the gauge tells more"),
                causes: proofs(LOOKED_FOR),
            },
        },
    }
}
