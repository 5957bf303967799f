//! What to do about what the vacuum gauge says.

use super::answer::{GaugeCauseReport, GaugeReport, NextGaugeLookReport};
use super::words;
use crate::job::mixture::VacuumUnit;
use crate::job::text::percent;
use crate::job::work::{Before, WorkAdvice};
use crate::mixture::gauge::{
    CompressionFound, GaugeAnswer, GaugeCause, GaugeCheck, GaugeVerdict, LashFound, TimingFound,
};
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
    check: &GaugeCheck,
    is_seen: bool,
    unit: VacuumUnit,
    before: &Before,
) -> GaugeReport {
    let is_low = check
        .compression
        .is_some_and(|found| found != CompressionFound::Even);
    let is_found_elsewhere = is_low
        || check
            .timing
            .is_some_and(|found| found != TimingFound::Right)
        || check.lash.is_some_and(|found| found != LashFound::InLimits);
    let likely = answer.causes.iter().filter(|one| one.probability >= TOLD);
    let causes: Vec<GaugeCauseReport> = likely
        .map(|one| GaugeCauseReport {
            cause: one.cause,
            prior: one.prior,
            probability: one.probability,
            text: words::cause(one.cause, is_found_elsewhere),
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
    let level = answer.level_at_sea.filter(|_| check.ambient.is_some());
    let not_reckoned = answer.level_at_sea.map(|_| {
        String::from("taken as read at sea level: neither altitude nor barometer is stated")
    });
    let first = causes.first();
    GaugeReport {
        verdict,
        verdict_text: said(verdict, first),
        level_at_sea_from: level.map(|[from, _]| from),
        level_at_sea_to: level.map(|[_, to]| to),
        level_text: level.map_or(not_reckoned, |[from, to]| {
            Some(format!(
                "at sea level that would be {} to {}",
                unit.say(from.kilopascals()),
                unit.say(to.kilopascals())
            ))
        }),
        advice: advice(verdict, &causes, next.as_ref(), is_low, before),
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
    is_low: bool,
    before: &Before,
) -> WorkAdvice {
    if let Some(text) = &before.settle {
        return WorkAdvice::SettleFirst { text: text.clone() };
    }
    let faults = causes.iter().map(|one| one.cause);
    let faults = faults.filter(|cause| *cause != GaugeCause::Sound);
    let proofs = |most: usize| -> Vec<String> {
        let low = is_low.then_some(words::LOW);
        let proofs = low.into_iter().chain(faults.clone().map(words::proof));
        proofs.take(most).map(ToString::to_string).collect()
    };
    match (verdict, causes.first()) {
        (GaugeVerdict::Settled, Some(one)) if one.cause == GaugeCause::Sound && is_low => {
            WorkAdvice::FindCause {
                text: String::from("the gauge itself shows no fault"),
                causes: proofs(1),
            }
        }
        (GaugeVerdict::Settled, Some(one)) if one.cause == GaugeCause::Sound => WorkAdvice::Leave {
            text: String::from("the gauge shows a sound engine: nothing to do on its account"),
        },
        (GaugeVerdict::Settled, Some(one)) => WorkAdvice::FindCause {
            text: format!(
                "{}: make sure by another way before anything is taken apart",
                one.text
            ),
            causes: Vec::from([String::from(words::proof(one.cause))]),
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
