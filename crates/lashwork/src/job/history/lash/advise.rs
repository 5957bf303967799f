//! What is said of each kind and each valve, and what to do.

use super::answer::{
    LashBeddingReport, LashDriftReport, LashLookReport, OddLashReport, ValveDriftReport,
};
use super::{Facts, Fit, words};
use crate::clearance::text::printed_limits;
use crate::history::{
    Drift, Figure, Forecast, HistoryError, Look, NotKnown, Record, Standing, Visit,
};
use crate::job::history::chart::chart;
use crate::job::text::{ends, percent};
use crate::job::work::WorkAdvice;
use crate::quantity::Lash;
use crate::quantity::shown::reckoned;
use crate::tolerance::Estimate;
use crate::valve::{ValveId, ValveKind};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// A kind of valves.
pub(super) fn kind(kind: ValveKind, fit: &Fit, facts: &Facts<'_>) -> LashDriftReport {
    let (times, inches) = (facts.times, facts.inches());
    match fit {
        Fit::TooFew(few) => LashDriftReport {
            kind,
            text: format!("{} valves: {}", kind.word(), words::too_few(few)),
            rate: None,
            scatter_mm: None,
            too_few: Some(*few),
            false_alarms: None,
        },
        Fit::Fitted(drift) => {
            let rate = drift.rate();
            let is_compared = drift.standings().next().is_some();
            let alarms = if is_compared {
                format!(
                    "; were all alike, one would still be named in at most {} of such kinds, however often one \
                     looks",
                    percent(Standing::FALSE_ALARMS)
                )
            } else {
                String::from("; too few are alike to say whether one moves unlike the others")
            };
            LashDriftReport {
                kind,
                text: format!(
                    "{} valves: {}{alarms}",
                    kind.word(),
                    words::rate(&rate, times, inches)
                ),
                rate: Some(rate),
                scatter_mm: Some(drift.scatter()),
                too_few: None,
                false_alarms: is_compared.then_some(Standing::FALSE_ALARMS),
            }
        }
    }
}

/// One valve; `place` is its place in the record.
pub(super) fn valve(
    facts: &Facts<'_>,
    record: &Record<Lash>,
    (place, valve): (usize, ValveId),
    drift: Option<&Drift<Lash>>,
) -> Result<ValveDriftReport, HistoryError> {
    let names = facts.names();
    let label = names.engine.cylinder(valve.cylinder);
    let mut told = ValveDriftReport {
        cylinder: label.map(|c| c.label.to_string()).unwrap_or_default(),
        kind: valve.kind,
        number: valve.number,
        name: names.of(valve),
        last: last(record, place, facts),
        rate: None,
        rate_text: None,
        not_known: None,
        odd: None,
        forecast: None,
        forecast_text: None,
        looks: Vec::new(),
        bedding: Vec::new(),
        departures: Vec::new(),
        chart: chart(record, place, drift, facts.times)?,
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
    let (times, inches) = (facts.times, facts.inches());
    told.rate = drift.rate_of(place);
    told.rate_text = told.rate.map(|rate| words::rate(&rate, times, inches));
    told.departures = drift.departures(place);
    let standing = drift.standings().find(|one| one.subject == place);
    told.odd = standing.map(|standing| odd(&standing, facts));
    told.bedding = (drift.bedding(place).into_iter())
        .map(|one| LashBeddingReport {
            set_at: one.set_at,
            amount: one.amount,
            text: bedded(&one.amount, &times.at(one.set_at), inches),
        })
        .collect();
    let services = record.services();
    let end = services
        .last()
        .and_then(|service| service.used.count(times.by));
    let usual = drift.length() / (services.len().max(2) - 1) as f64;
    match drift.predicted(place, end.unwrap_or_default() + usual)? {
        Ok(forecast) => {
            told.forecast_text = Some(foreseen(&forecast, facts));
            told.forecast = Some(forecast);
        }
        Err(why) => told.not_known = Some(why),
    }
    let rule = facts.rule();
    for book in &facts.books {
        let limits = book.limits(valve.kind).judging();
        let look = drift.look_next(place, limits, &rule)?;
        let (low_mm, high_mm) = limits.numbers();
        told.looks.push(LashLookReport {
            specification: book.id.clone(),
            limits: printed_limits(limits, inches),
            low_mm,
            high_mm,
            text: words::look(&look, times),
            look,
        });
    }
    told.advice = advice(&told, facts);
    Ok(told)
}

/// The last reading of a valve.
fn last(record: &Record<Lash>, place: usize, facts: &Facts<'_>) -> Option<String> {
    let mut services = record.services().iter().rev();
    services.find_map(|service| {
        let mut visits = service.visits.iter();
        let (_, visit) = visits.find(|(subject, _)| *subject == place)?;
        let Visit { found, left, .. } = visit;
        let (word, read) = match (left, found) {
            (Some(left), _) => ("left", left),
            (None, Some(found)) => ("found", found),
            (None, None) => return None,
        };
        let when = facts.times.service(&service.used);
        Some(format!("{word} {} on {when}", lash(read, facts.inches())))
    })
}

fn lash(read: &Estimate<Lash>, inches: bool) -> String {
    ends(read.low(), read.high(), &|mm| reckoned(mm, inches))
}

fn odd(standing: &Standing, facts: &Facts<'_>) -> OddLashReport {
    let services = &facts.asked.services;
    let used = standing.since.and_then(|at| {
        let past = services.get(at).map(|service| service.used);
        past.or(facts.present.used)
    });
    let since = used.map(|used| {
        format!(
            ", most probably since the service of {}",
            facts.times.service(&used)
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
    OddLashReport {
        is_odd: standing.is_odd,
        evidence: standing.evidence,
        needed: standing.needed,
        since: standing.since,
        text: standing.is_odd.then_some(text),
    }
}

fn bedded(amount: &Figure, set_at: &str, inches: bool) -> String {
    let said = |value: f64| reckoned(value.abs(), inches);
    if amount.low < 0.0 && amount.high > 0.0 {
        return format!(
            "new parts of {set_at}: no bedding-in is shown, at most {} either way (95 %)",
            said(amount.high.max(-amount.low))
        );
    }
    let verb = if amount.value < 0.0 {
        "closed"
    } else {
        "opened"
    };
    format!(
        "new parts of {set_at} {verb} by {} while they bedded in, beside the steady change",
        said(amount.value)
    )
}

fn foreseen(forecast: &Forecast, facts: &Facts<'_>) -> String {
    let said = |value: f64| reckoned(value.max(0.0), facts.inches());
    format!(
        "after a usual time, at {}: {} to {} (95 %)",
        facts.times.at(forecast.at),
        said(forecast.found.low),
        said(forecast.found.high)
    )
}

/// The first look that is due, if any.
fn first_due(told: &ValveDriftReport) -> Option<f64> {
    let due = told.looks.iter().filter_map(|one| match one.look {
        Look::Now(due) | Look::At(due) => Some(due.at),
        _ => None,
    });
    due.min_by(f64::total_cmp)
}

fn is_now(told: &ValveDriftReport) -> bool {
    let mut looks = told.looks.iter();
    looks.any(|one| matches!(one.look, Look::Now(_)))
}

fn advice(told: &ValveDriftReport, facts: &Facts<'_>) -> WorkAdvice {
    let by = first_due(told).map(|at| facts.times.ahead(at));
    let closes = told.rate.is_none_or(|rate| rate.value < 0.0);
    if told.odd.as_ref().is_some_and(|odd| odd.is_odd) {
        let when = match (&by, is_now(told)) {
            (_, true) => String::from("now"),
            (Some(by), false) => format!("by {by} at the latest"),
            (None, false) => String::from("at the next service"),
        };
        let causes = if closes { words::CLOSES } else { words::OPENS };
        return WorkAdvice::FindCause {
            text: format!(
                "read it again {when}, and find out why it moves unlike its mates before setting hides it; a drift \
                 is no verdict on the valve"
            ),
            causes: causes.into_iter().map(ToString::to_string).collect(),
        };
    }
    match told.not_known {
        Some(NotKnown::NotRead) => {
            return WorkAdvice::Measure {
                text: String::from(
                    "read it from both sides, a leaf that goes and one that does not, and write it down as left",
                ),
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
            text: String::from(
                "read it now; what the clearance section says of that reading goes before any forecast",
            ),
        },
        (Some(by), false) => WorkAdvice::Leave {
            text: format!(
                "its drift asks for a look by {by}, or when the maker asks, whichever \
                 comes first"
            ),
        },
        (None, false) if told.looks.is_empty() => WorkAdvice::Leave {
            text: String::from(
                "nothing to do on account of its drift; when to look again is not said without the limits of a \
                 specification",
            ),
        },
        (None, false) => WorkAdvice::Leave {
            text: String::from(
                "nothing to do on account of its drift; read it as often as the maker asks",
            ),
        },
    }
}

/// Where to look first.
pub(super) fn next(told: &[ValveDriftReport], facts: &Facts<'_>) -> Option<String> {
    let due = told.iter().filter_map(|one| Some((one, first_due(one)?)));
    let (first, at) = due.min_by(|(_, a), (_, b)| a.total_cmp(b))?;
    Some(if is_now(first) {
        format!("look first at {}, now", first.name)
    } else {
        format!(
            "look first at {}, by {} at the latest",
            first.name,
            facts.times.ahead(at)
        )
    })
}
