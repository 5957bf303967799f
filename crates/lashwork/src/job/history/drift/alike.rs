//! What is to be said of several alike, said once.

use super::advise::{first_due, is_now, past_reach};
use super::answer::{AlikeReport, SubjectDriftReport};
use super::{Kept, words};
use crate::history::{Figure, Service, Visit};
use crate::job::text::joined;
use crate::job::work::WorkAdvice;
use crate::tolerance::{Estimate, HasLimits};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The last reading of one.
pub(super) struct Last<'r, Q: HasLimits> {
    /// Whether it was found or left.
    pub(super) word: &'static str,
    pub(super) read: Estimate<Q>,
    pub(super) service: &'r Service<Q>,
}

impl<'r, Q: HasLimits> Last<'r, Q> {
    pub(super) fn of(kept: &Kept<'r, Q>, place: usize) -> Option<Self> {
        let mut services = kept.record.services().iter().rev();
        services.find_map(|service| {
            let mut visits = service.visits.iter();
            let (_, visit) = visits.find(|(subject, _)| *subject == place)?;
            let Visit { found, left, .. } = visit;
            let (word, read) = match (left, found) {
                (Some(left), _) => ("left", *left),
                (None, Some(found)) => ("found", *found),
                (None, None) => return None,
            };
            Some(Self {
                word,
                read,
                service,
            })
        })
    }
}

/// Those of whom the same is to be said; none that moves unlike its mates, is due now, or has new parts to tell of.
pub(super) fn report<Q: HasLimits>(
    told: &[SubjectDriftReport],
    kept: &Kept<'_, Q>,
) -> Vec<AlikeReport> {
    let mut groups: Vec<(Option<&WorkAdvice>, Vec<usize>)> = Vec::new();
    for (place, one) in told.iter().enumerate() {
        let is_odd = one.odd.as_ref().is_some_and(|odd| odd.is_odd);
        if is_odd || is_now(one) || !one.bedding.is_empty() {
            continue;
        }
        // Those with a date of their own are alike but for that.
        let key = by(one, kept).is_none().then_some(&one.advice);
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, places)) => places.push(place),
            None => groups.push((key, Vec::from([place]))),
        }
    }
    groups.retain(|(_, places)| places.len() > 1);
    let made = groups.into_iter().map(|(key, places)| AlikeReport {
        texts: texts(told, &places, kept),
        advice: key.map_or_else(|| dated(told, &places, kept), each),
        subjects: places,
    });
    made.collect()
}

/// When its drift asks for a look, within reach.
fn by<Q: HasLimits>(one: &SubjectDriftReport, kept: &Kept<'_, Q>) -> Option<f64> {
    let due = first_due(one).filter(|_| one.not_known.is_none())?;
    past_reach(due, kept).is_none().then_some(due)
}

fn dated<Q: HasLimits>(
    told: &[SubjectDriftReport],
    places: &[usize],
    kept: &Kept<'_, Q>,
) -> WorkAdvice {
    let of = places.iter().filter_map(|place| told.get(*place));
    let mut due: Vec<(f64, &str)> = of
        .filter_map(|one| Some((by(one, kept)?, one.name.as_str())))
        .collect();
    due.sort_by(|a, b| a.0.total_cmp(&b.0));
    // One date is said once, before those whose it is.
    let mut dates: Vec<(String, Vec<&str>)> = Vec::new();
    for (at, name) in due {
        let when = kept.times.ahead(at);
        match dates.last_mut().filter(|(last, _)| *last == when) {
            Some((_, names)) => names.push(name),
            None => dates.push((when, Vec::from([name]))),
        }
    }
    let said: Vec<String> = (dates.iter())
        .map(|(when, names)| format!("by {when} {}", joined(names)))
        .collect();
    WorkAdvice::Leave {
        text: format!(
            "their drift asks for a look, or when the maker asks, whichever comes first: {}",
            said.join("; ")
        ),
    }
}

fn each(advice: &WorkAdvice) -> WorkAdvice {
    match advice {
        WorkAdvice::Leave { text } => WorkAdvice::Leave {
            text: format!("each: {text}"),
        },
        WorkAdvice::Measure { text } => WorkAdvice::Measure {
            text: format!("each: {text}"),
        },
        other => other.clone(),
    }
}

/// A text for all that differ in their cylinder alone.
fn texts<Q: HasLimits>(
    told: &[SubjectDriftReport],
    places: &[usize],
    kept: &Kept<'_, Q>,
) -> Vec<String> {
    let mut lines: Vec<(Option<String>, Vec<usize>)> = Vec::new();
    for place in places {
        let Some(one) = told.get(*place) else {
            continue;
        };
        let behind = behind(one);
        match lines.iter_mut().find(|(known, _)| *known == behind) {
            Some((_, own)) => own.push(*place),
            None => lines.push((behind, Vec::from([*place]))),
        }
    }
    let text = |(behind, own): &(Option<String>, Vec<usize>)| {
        let of: Vec<&SubjectDriftReport> = own.iter().filter_map(|at| told.get(*at)).collect();
        let mut said = Vec::from([read(own, kept)]);
        let rates: Vec<Figure> = of.iter().filter_map(|one| one.rate).collect();
        if rates.len() == of.len() {
            said.push(words::rates(&rates, kept.times, kept.say));
        }
        said.extend(
            of.first()
                .and_then(|one| one.not_known)
                .map(|why| String::from(words::not_known(why))),
        );
        format!("{}: {}", who(&of, behind.as_deref()), said.join("; "))
    };
    lines.iter().map(text).collect()
}

/// What stands behind the cylinder in a name.
fn behind(one: &SubjectDriftReport) -> Option<String> {
    let cylinder = one.cylinder.as_ref()?;
    let before = format!("cylinder {cylinder}");
    one.name.strip_prefix(before.as_str()).map(String::from)
}

fn who(of: &[&SubjectDriftReport], behind: Option<&str>) -> String {
    let labels: Option<Vec<&str>> = of.iter().map(|one| one.cylinder.as_deref()).collect();
    match (labels, behind) {
        (Some(labels), Some(behind)) if labels.len() > 1 => {
            format!("cylinders {}{behind}", joined(&labels))
        }
        _ => joined(&of.iter().map(|one| one.name.as_str()).collect::<Vec<_>>()),
    }
}

/// Between what their last readings lie, and when that was if it was one time.
fn read<Q: HasLimits>(places: &[usize], kept: &Kept<'_, Q>) -> String {
    let all: Vec<Last<'_, Q>> = (places.iter())
        .filter_map(|place| Last::of(kept, *place))
        .collect();
    let Some(first) = all.first().filter(|_| all.len() == places.len()) else {
        return String::from("not each was read");
    };
    let is_one = |same: fn(&Last<'_, Q>, &Last<'_, Q>) -> bool| all.iter().all(|l| same(l, first));
    let word = if is_one(|a, b| a.word == b.word) {
        first.word
    } else {
        "read"
    };
    let said = |end: f64| (kept.say.value)(end);
    let ends = |end: fn(&Estimate<Q>) -> Option<Q>| -> Option<Vec<f64>> {
        all.iter().map(|l| end(&l.read).map(Q::number)).collect()
    };
    let low = ends(Estimate::low).map(|all| all.into_iter().fold(f64::INFINITY, f64::min));
    let high = ends(Estimate::high).map(|all| all.into_iter().fold(f64::NEG_INFINITY, f64::max));
    let range = match (low.map(said), high.map(said)) {
        (Some(low), Some(high)) if low == high => low,
        (Some(low), Some(high)) => format!("between {low} and {high}"),
        (Some(low), None) => format!("at least {low}"),
        (None, Some(high)) => format!("less than {high}"),
        (None, None) => String::from("from one side only"),
    };
    if is_one(|a, b| core::ptr::eq(a.service, b.service)) {
        let when = kept.times.service(&first.service.used);
        format!("{word} {range} on {when}")
    } else {
        format!("last {word} {range}")
    }
}
