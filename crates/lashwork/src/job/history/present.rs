//! The present readings of the clearance section as the last service, without being typed twice.

use super::{History, Now, time};
use crate::history::{Day, Reset, Used, Visit};
use crate::job::clearance::{JudgedReport, SpecificationReport};
use crate::job::record::Record;
use crate::quantity::Lash;
use crate::tolerance::Estimate;
use crate::valve::{Applicability, Specification, ValveId};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The last service.
pub(super) struct Present {
    /// When it is, if it counts.
    pub(super) used: Option<Used>,
    /// What was found and left in it.
    pub(super) lash: Vec<(ValveId, Visit<Lash>)>,
    /// Whether it counts, or why not.
    pub(super) text: String,
}

impl Present {
    fn without(text: impl Into<String>) -> Self {
        Self {
            used: None,
            lash: Vec::new(),
            text: text.into(),
        }
    }
}

/// What the document says of the present.
pub(super) fn read(asked: &History, now: Now<'_>) -> Present {
    let Some((clearance, found)) = now.clearance else {
        return Present::without("there are no present readings: the last service is the latest");
    };
    if clearance.readings.is_empty() {
        return Present::without("nothing is read at present: the last service is the latest");
    }
    if let Some(stop) = found.stop_work.first() {
        return Present::without(format!(
            "the present readings do not count here until this is settled: {}",
            stop.text
        ));
    }
    let Some(used) = when(now.record) else {
        return Present::without(
            "the present readings do not count here: the record has no date as in 2019-04-27, nor hours or \
             distance as in 412.5 h or 58000 km",
        );
    };
    let last = asked.services.last().map(|service| service.used);
    let is_typed = last.is_some_and(|last| {
        let shared = super::time::shared(&used, &last);
        !shared.is_empty()
            && shared
                .iter()
                .all(|(now, before)| now.to_bits() == before.to_bits())
    });
    if is_typed {
        return Present::without("the present readings are taken to be those of the last service");
    }
    let past = asked.services.iter().map(|service| &service.used);
    let fits = match asked.counted_by {
        Some(by) => time::states(&used, by),
        None => {
            time::common(&past).is_none()
                || time::common(&past.chain(core::iter::once(&used))).is_some()
        }
    };
    if !fits {
        return Present::without(
            "the present readings do not count here: the record does not say when on the count of the services",
        );
    }
    let pairs = clearance.readings.iter().zip(&found.valves);
    let lash = pairs.filter_map(|(reading, told)| {
        let mut visit = Visit::unread();
        visit.found = Some(estimate(told.judged.first()?)?);
        if let Some(left) = &told.left {
            visit = visit.reset(Reset::Set);
            visit.left = left.judged.first().and_then(estimate);
        }
        Some((reading.valve, visit))
    });
    Present {
        used: Some(used),
        lash: lash.collect(),
        text: String::from("the present readings of the clearances count as the last service"),
    }
}

fn estimate(judged: &JudgedReport) -> Option<Estimate<Lash>> {
    let u = crate::tolerance::Uncertainty::from_mm(judged.normal_uncertainty_mm).ok()?;
    Estimate::of(judged.low, judged.high, u).ok()
}

/// When the readings were taken, as far as the record can be read.
fn when(record: &Record) -> Option<Used> {
    let day = record
        .date
        .as_deref()
        .and_then(|text| Day::parse(text).ok());
    let used = day.map_or_else(Used::default, Used::on);
    let with = |used: Used, text: Option<&str>| {
        let shown = text.and_then(|text| used.shown(text).ok());
        shown.unwrap_or(used)
    };
    let used = with(used, record.hours.as_deref());
    let used = with(used, record.distance.as_deref());
    (used != Used::default()).then_some(used)
}

/// The books whose limits hold for these readings: all that may apply, of the condition of the first.
pub(super) fn books(now: Now<'_>) -> Vec<&Specification> {
    let Some((asked, found)) = now.clearance else {
        return Vec::new();
    };
    let may_apply = |told: &&SpecificationReport| {
        told.applicability != Applicability::DoesNotApply && told.used_instead.is_none()
    };
    let applying = found.specifications.iter().filter(may_apply);
    let named = applying.filter_map(|told| {
        let mut all = asked.specifications.iter();
        all.find(|book| book.id == told.id)
    });
    let named: Vec<&Specification> = named.collect();
    let condition = named.first().map(|book| book.condition);
    named
        .into_iter()
        .filter(|book| Some(book.condition) == condition)
        .collect()
}
