//! Whether the record is the one known before with services added, and nothing else.

use super::numbers::{HistoryQuantity, NumberVisit};
use super::request::{History, PastService};
use super::time::{Times, shared};
use crate::job::known::Known;
use crate::job::text::ValveNames;
use crate::tolerance::Measurand;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The record beside the one known before.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct RecordGrowthReport {
    /// What became of the record known before.
    pub standing: RecordStanding,
    /// Both records, what differs and what to do, in words.
    pub text: String,
    /// Each difference.
    pub differences: Vec<RecordDifferenceReport>,
}

/// What became of the record known before.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum RecordStanding {
    /// It is all there, and services may have come after it.
    Grown,
    /// Its last services are not there, the rest is.
    Older,
    /// Parts of it are not there.
    Torn,
    /// It is there otherwise, or something was put in between.
    Changed,
}

/// One difference from the record known before.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct RecordDifferenceReport {
    /// Which way it differs.
    pub what: RecordDifference,
    /// The service in the record known before, from 0; none of what was put in.
    pub known_service: Option<usize>,
    /// The service in the record here, from 0; none of what is gone with its service.
    pub service: Option<usize>,
    /// In words.
    pub text: String,
}

/// Which way a record differs from the one known before.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum RecordDifference {
    /// It was there and is not.
    Gone,
    /// It is there otherwise.
    Changed,
    /// It was not there, and is no service after the last one.
    PutIn,
}

/// What must be sure where the record is not the one known before, grown.
pub(super) const NOT_GROWN: &str = "the record is put right first: it is not the one known before with services added, and what follows rests \
     on the services that are here";

/// Compares them; nothing if no record was known.
pub(super) fn report(
    asked: &History,
    names: ValveNames<'_>,
    known: Known<'_>,
    times: &Times,
) -> Option<RecordGrowthReport> {
    let before = asked.known.as_deref()?;
    let mut found = Found {
        names,
        known,
        times,
        differences: Vec::new(),
    };
    let is_tail = found.compare(before, &asked.services);
    let is = |what: RecordDifference| found.differences.iter().any(|one| one.what == what);
    let standing = if found.differences.is_empty() {
        RecordStanding::Grown
    } else if is(RecordDifference::Changed) || is(RecordDifference::PutIn) {
        RecordStanding::Changed
    } else if is_tail {
        RecordStanding::Older
    } else {
        RecordStanding::Torn
    };
    let here = found.named("the record here", &asked.services);
    let there = found.named("the one known before", before);
    let what = match standing {
        RecordStanding::Grown => "it has grown and lost nothing",
        RecordStanding::Older => "it is an older state of that",
        RecordStanding::Torn => "parts of that are not in it",
        RecordStanding::Changed => "it is not that one grown",
    };
    let mut text = format!("{here}, {there}: {what}");
    if standing != RecordStanding::Grown {
        let all: Vec<&str> = found
            .differences
            .iter()
            .map(|one| one.text.as_str())
            .collect();
        text = format!(
            "{text}: {}; keep both, put back what is gone, and correct a slip by a service after the last; what \
             follows rests on the record here",
            all.join("; ")
        );
    }
    Some(RecordGrowthReport {
        standing,
        text,
        differences: found.differences,
    })
}

struct Found<'r> {
    names: ValveNames<'r>,
    known: Known<'r>,
    times: &'r Times,
    differences: Vec<RecordDifferenceReport>,
}

impl Found<'_> {
    /// Which record, and how far it reaches.
    fn named(&self, which: &str, services: &[PastService]) -> String {
        match (services.len(), services.last()) {
            (1, Some(last)) => format!("{which} has 1 service, of {}", self.when(0, last)),
            (n, Some(last)) => {
                format!("{which} has {n} services up to {}", self.when(n - 1, last))
            }
            (_, None) => format!("{which} has no services"),
        }
    }

    /// When a service was, or which it is.
    fn when(&self, at: usize, service: &PastService) -> String {
        match self.times.service(&service.used) {
            text if text.is_empty() => format!("service {}", at + 1),
            text => text,
        }
    }

    fn note(
        &mut self,
        what: RecordDifference,
        known_service: Option<usize>,
        service: Option<usize>,
        of: &str,
    ) {
        let word = match what {
            RecordDifference::Gone => "is gone",
            RecordDifference::Changed => "is not as it was",
            RecordDifference::PutIn => "was put in",
        };
        self.differences.push(RecordDifferenceReport {
            what,
            known_service,
            service,
            text: format!("{of} {word}"),
        });
    }

    /// Each service known beside the one of its time; whether what is gone is no more than the last ones.
    fn compare(&mut self, before: &[PastService], here: &[PastService]) -> bool {
        let mut next = 0;
        let mut is_tail = true;
        for (i, known) in before.iter().enumerate() {
            let rest = here.get(next..).unwrap_or_default();
            let Some(skipped) = rest.iter().position(|one| one.used == known.used) else {
                let of = format!("the service of {}", self.when(i, known));
                self.note(RecordDifference::Gone, Some(i), None, &of);
                continue;
            };
            for (at, one) in rest.iter().enumerate().take(skipped) {
                let of = format!("the service of {}", self.when(next + at, one));
                self.note(RecordDifference::PutIn, None, Some(next + at), &of);
            }
            if let Some(one) = rest.get(skipped) {
                let count = self.differences.len();
                is_tail &= self.differences.is_empty();
                self.service((i, known), (next + skipped, one));
                is_tail &= self.differences.len() == count;
            }
            next += skipped + 1;
        }
        // Behind what is gone, only what came after the last known one is growth.
        let Some(last) = before.last().filter(|_| !self.differences.is_empty()) else {
            return is_tail;
        };
        for (at, one) in here.iter().enumerate().skip(next) {
            let mut shared = shared(&one.used, &last.used).into_iter();
            if !shared.all(|(now, before)| now >= before) {
                let of = format!("the service of {}", self.when(at, one));
                self.note(RecordDifference::PutIn, None, Some(at), &of);
            }
        }
        is_tail
    }

    fn service(&mut self, (i, known): (usize, &PastService), (at, here): (usize, &PastService)) {
        let when = self.when(i, known);
        if known.engine != here.engine {
            let of = format!("the engine of the service of {when}");
            self.note(RecordDifference::Changed, Some(i), Some(at), &of);
        }
        if known.temperature != here.temperature {
            let of = format!("the temperature of the service of {when}");
            self.note(RecordDifference::Changed, Some(i), Some(at), &of);
        }
        if known.leak_tester != here.leak_tester {
            let of = format!("the leak tester of the service of {when}");
            self.note(RecordDifference::Changed, Some(i), Some(at), &of);
        }
        let places = (i, at, when.as_str());
        let names = self.names;
        let valve = |visit: &super::LashVisit| names.of(visit.valve);
        self.visits(places, &known.lash, &here.lash, |visit| visit.valve, &valve);
        self.numbers(places, HistoryQuantity::Dwell, &known.dwell, &here.dwell);
        self.numbers(places, HistoryQuantity::Timing, &known.timing, &here.timing);
        let what = HistoryQuantity::Compression;
        self.numbers(places, what, &known.compression, &here.compression);
        let what = HistoryQuantity::LeakArea;
        self.numbers(places, what, &known.leak_area, &here.leak_area);
    }

    fn numbers<Q: Measurand>(
        &mut self,
        places: (usize, usize, &str),
        what: HistoryQuantity,
        known: &[NumberVisit<Q>],
        here: &[NumberVisit<Q>],
    ) {
        let engine = self.known.engine;
        let name = |visit: &NumberVisit<Q>| {
            let cylinder = visit.cylinder.and_then(|index| engine.cylinder(index));
            match cylinder {
                Some(cylinder) => format!("{} of cylinder {}", what.word(), cylinder.label),
                None => String::from(what.word()),
            }
        };
        self.visits(places, known, here, |visit| visit.cylinder, &name);
    }

    /// What was found and left at each, beside what is known of it.
    fn visits<V: PartialEq, K: PartialEq>(
        &mut self,
        (i, at, when): (usize, usize, &str),
        known: &[V],
        here: &[V],
        key: fn(&V) -> K,
        name: &dyn Fn(&V) -> String,
    ) {
        let pair = |of: &V, among: &[V]| among.iter().position(|one| key(one) == key(of));
        for one in known {
            let what = match pair(one, here).and_then(|place| here.get(place)) {
                None => RecordDifference::Gone,
                Some(now) if now != one => RecordDifference::Changed,
                Some(_) => continue,
            };
            let of = format!("{} in the service of {when}", name(one));
            self.note(what, Some(i), Some(at), &of);
        }
        for one in here.iter().filter(|one| pair(one, known).is_none()) {
            let of = format!("{} in the service of {when}", name(one));
            self.note(RecordDifference::PutIn, None, Some(at), &of);
        }
    }
}
