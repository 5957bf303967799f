//! What is said of each kind and each subject, and what to do.

use super::alike::Last;
use super::answer::{
    BeddingReport, KindDriftReport, LookReport, OddDriftReport, SubjectDriftReport,
};
use super::{Fit, Kept, words};
use crate::history::{Drift, Figure, Forecast, HistoryError, Look, NotKnown, Service, Standing};
use crate::job::history::chart::chart;
use crate::job::text::percent;
use crate::job::work::WorkAdvice;
use crate::tolerance::{Estimate, HasLimits};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// A kind.
pub(super) fn kind<Q: HasLimits>(kind: &str, fit: &Fit<Q>, kept: &Kept<'_, Q>) -> KindDriftReport {
    let of_kind = kept.say.words.of_kind;
    match fit {
        Fit::TooFew(few) => KindDriftReport {
            kind: kind.to_string(),
            text: format!("{kind}{of_kind}: {}", words::too_few(few)),
            rate: None,
            scatter: None,
            too_few: Some(*few),
            false_alarms: None,
        },
        Fit::Fitted(drift) => {
            let rate = drift.rate();
            let is_several = drift.subjects().nth(1).is_some();
            let is_shown = rate.low >= 0.0 || rate.high <= 0.0;
            let usual = if is_several && is_shown {
                "a usual one "
            } else {
                ""
            };
            let is_compared = drift.standings().next().is_some();
            let mates = if drift.standings().any(|one| one.is_odd) {
                format!(
                    "; were all alike, one would still be named in at most {} of such kinds, however often one \
                     looks",
                    percent(Standing::FALSE_ALARMS)
                )
            } else if is_compared {
                String::from("; none stands out")
            } else if is_several {
                String::from("; too few are alike to say whether one moves unlike the others")
            } else {
                String::new()
            };
            KindDriftReport {
                kind: kind.to_string(),
                text: format!(
                    "{kind}{of_kind}: {usual}{}{mates}",
                    words::rate(&rate, kept.times, kept.say)
                ),
                rate: Some(rate),
                scatter: Some(drift.scatter()),
                too_few: None,
                false_alarms: is_compared.then_some(Standing::FALSE_ALARMS),
            }
        }
    }
}

/// The subject at a place in the record.
pub(super) fn subject<Q: HasLimits>(
    kept: &Kept<'_, Q>,
    place: usize,
    drift: Option<&Drift<Q>>,
) -> Result<SubjectDriftReport, HistoryError> {
    let (record, times, say) = (kept.record, kept.times, kept.say);
    let Some(own) = record.subjects().get(place) else {
        return Err(HistoryError::NoSubject {
            service: 0,
            subject: place,
            count: record.subjects().len(),
        });
    };
    let bands = kept.bands.iter().filter(|band| band.kind == own.kind);
    let mut limits = Vec::new();
    for band in bands.clone() {
        let (low, high) = band.limits.numbers();
        limits.extend(low);
        limits.extend(high);
    }
    let whose = kept.whose.get(place).cloned().unwrap_or_default();
    let mut told = SubjectDriftReport {
        cylinder: whose.cylinder,
        kind: own.kind.clone(),
        number: whose.number,
        name: own.name.clone(),
        last: last(kept, place),
        rate: None,
        rate_text: None,
        not_known: None,
        odd: None,
        forecast: None,
        forecast_text: None,
        looks: Vec::new(),
        bedding: Vec::new(),
        departures: Vec::new(),
        chart: chart(record, place, drift, say.unit, times, limits)?,
        advice: WorkAdvice::Leave {
            text: String::from(
                "nothing to do on account of its drift: there are too few readings to see one; write down what \
                 is found and left",
            ),
        },
    };
    let Some(drift) = drift else {
        return Ok(told);
    };
    told.rate = drift.rate_of(place);
    told.rate_text = told.rate.map(|rate| words::rate(&rate, times, say));
    told.departures = drift.departures(place);
    let standing = drift.standings().find(|one| one.subject == place);
    told.odd = standing.map(|standing| odd(&standing, kept));
    told.bedding = (drift.bedding(place).into_iter())
        .map(|one| BeddingReport {
            set_at: one.set_at,
            amount: one.amount,
            text: bedded(&one.amount, &times.at(one.set_at), kept),
        })
        .collect();
    let services = record.services();
    let end = services
        .last()
        .and_then(|service| service.used.count(times.by));
    let usual = drift.length() / (services.len().max(2) - 1) as f64;
    match drift.predicted(place, end.unwrap_or_default() + usual)? {
        Ok(forecast) => {
            told.forecast_text = Some(foreseen(&forecast, kept));
            told.forecast = Some(forecast);
        }
        Err(why) => told.not_known = Some(why),
    }
    for band in bands {
        let look = drift.look_next(place, band.limits, &kept.rule)?;
        told.looks.push(LookReport {
            specification: band.name.clone(),
            limits: band.text.clone(),
            text: words::look(&look, times, say.words.sides),
            look,
        });
    }
    told.advice = advice(&told, kept);
    Ok(told)
}

/// Its last reading.
fn last<Q: HasLimits>(kept: &Kept<'_, Q>, place: usize) -> Option<String> {
    let Last {
        word,
        read,
        service,
    } = Last::of(kept, place)?;
    let when = kept.times.service(&service.used);
    Some(format!("{word} {} on {when}", shown(&read, kept)))
}

pub(super) fn shown<Q: HasLimits>(read: &Estimate<Q>, kept: &Kept<'_, Q>) -> String {
    let said = |end: Q| (kept.say.value)(end.number());
    match (read.low(), read.high()) {
        (Some(a), Some(b)) if a == b => said(a),
        (Some(a), Some(b)) => format!("{} to {}", said(a), said(b)),
        (Some(a), None) => format!("at least {}", said(a)),
        (None, Some(b)) => format!("less than {}", said(b)),
        (None, None) => String::from("nothing"),
    }
}

fn odd<Q: HasLimits>(standing: &Standing, kept: &Kept<'_, Q>) -> OddDriftReport {
    let services = kept.record.services();
    let since = standing.since.and_then(|at| services.get(at));
    let since = since.map(|service| {
        format!(
            ", most probably since the service of {}",
            kept.times.service(&service.used)
        )
    });
    let times = if standing.evidence > 1000.0 {
        String::from("more than 1000")
    } else {
        format!("{:.0}", standing.evidence)
    };
    let text = format!(
        "it moves unlike its mates{}: its readings are {times} times more probable so, and {:.0} times are asked \
         for before it is said",
        since.unwrap_or_default(),
        standing.needed
    );
    OddDriftReport {
        is_odd: standing.is_odd,
        evidence: standing.evidence,
        needed: standing.needed,
        since: standing.since,
        text: standing.is_odd.then_some(text),
    }
}

fn bedded<Q: HasLimits>(amount: &Figure, set_at: &str, kept: &Kept<'_, Q>) -> String {
    let said = |value: f64| (kept.say.amount)(value.abs());
    if amount.low < 0.0 && amount.high > 0.0 {
        return format!(
            "new parts of {set_at}: no bedding-in is shown, at most {} either way (95 %)",
            said(amount.high.max(-amount.low))
        );
    }
    let verb = if amount.value < 0.0 {
        kept.say.words.fell
    } else {
        kept.say.words.rose
    };
    format!(
        "new parts of {set_at} {verb} by {} while they bedded in, beside the steady change",
        said(amount.value)
    )
}

fn foreseen<Q: HasLimits>(forecast: &Forecast, kept: &Kept<'_, Q>) -> String {
    let said = kept.say.value;
    format!(
        "after a usual time, at {}: {} to {} (95 %)",
        kept.times.at(forecast.at),
        said(forecast.found.low),
        said(forecast.found.high)
    )
}

/// The first look that is due, if any.
pub(super) fn first_due(told: &SubjectDriftReport) -> Option<f64> {
    let due = told.looks.iter().filter_map(|one| match one.look {
        Look::Now(due) | Look::At(due) => Some(due.at),
        _ => None,
    });
    due.min_by(f64::total_cmp)
}

pub(super) fn is_now(told: &SubjectDriftReport) -> bool {
    let mut looks = told.looks.iter();
    looks.any(|one| matches!(one.look, Look::Now(_)))
}

fn advice<Q: HasLimits>(told: &SubjectDriftReport, kept: &Kept<'_, Q>) -> WorkAdvice {
    let by = first_due(told).map(|at| kept.times.ahead(at));
    let falls = told.rate.is_none_or(|rate| rate.value < 0.0);
    if told.odd.as_ref().is_some_and(|odd| odd.is_odd) {
        let when = match (&by, is_now(told)) {
            (_, true) => String::from("now"),
            (Some(by), false) => format!("by {by} at the latest"),
            (None, false) => String::from("at the next service"),
        };
        let words = kept.say.words;
        let causes = if falls {
            words.falls_causes
        } else {
            words.rises_causes
        };
        return WorkAdvice::FindCause {
            text: format!("read it again {when}, and {}", words.odd),
            causes: causes.iter().map(ToString::to_string).collect(),
        };
    }
    match told.not_known {
        Some(NotKnown::NotRead) => {
            return WorkAdvice::Measure {
                text: String::from(kept.say.words.read),
            };
        }
        Some(NotKnown::BeddingIn) => {
            return WorkAdvice::Measure {
                text: String::from("read it once its new parts have bedded in"),
            };
        }
        None => {}
    }
    match (by, is_now(told)) {
        (_, true) => WorkAdvice::Measure {
            text: String::from(kept.say.words.read_now),
        },
        (Some(by), false) => {
            let reach = first_due(told).and_then(|due| past_reach(due, kept));
            let text = match reach {
                Some(reach) => format!(
                    "nothing to do on account of its drift by {}, as far ahead as the record reaches back; read it as \
                     often as the maker asks",
                    kept.times.ahead(reach)
                ),
                None => format!(
                    "its drift asks for a look by {by}, or when the maker asks, whichever comes first"
                ),
            };
            WorkAdvice::Leave { text }
        }
        (None, false) if told.looks.is_empty() => WorkAdvice::Leave {
            text: String::from(
                "nothing to do on account of its drift; when to look again is not said without limits that \
                 hold for it",
            ),
        },
        (None, false) => WorkAdvice::Leave {
            text: String::from(
                "nothing to do on account of its drift; read it as often as the maker asks",
            ),
        },
    }
}

/// As far ahead as the record reaches back, if a look is due only beyond that: no further is told. Our choice, no
/// source.
pub(super) fn past_reach<Q: HasLimits>(due: f64, kept: &Kept<'_, Q>) -> Option<f64> {
    let services = kept.record.services();
    let count = |service: &Service<Q>| service.used.count(kept.times.by);
    let first = services.first().and_then(count)?;
    let last = services.last().and_then(count)?;
    let reach = last + (last - first);
    (due > reach).then_some(reach)
}

/// Where to look first, if that is within reach.
pub(super) fn next<Q: HasLimits>(
    told: &[SubjectDriftReport],
    kept: &Kept<'_, Q>,
) -> Option<String> {
    let due = told.iter().filter_map(|one| Some((one, first_due(one)?)));
    let (first, at) = due.min_by(|(_, a), (_, b)| a.total_cmp(b))?;
    if past_reach(at, kept).is_some() {
        return None;
    }
    Some(if is_now(first) {
        format!("look first at {}, now", first.name)
    } else {
        format!(
            "look first at {}, by {} at the latest",
            first.name,
            kept.times.ahead(at)
        )
    })
}
