//! What the document reads at present as the last service, without being typed twice.

use super::readings_now::{NumbersNow, Taken};
use super::request::PastService;
use super::{History, Now, readings_now, time};
use crate::history::{Day, Reset, Used, Visit};
use crate::job::clearance::{JudgedReport, SpecificationReport};
use crate::job::record::Record;
use crate::job::text::joined;
use crate::quantity::Lash;
use crate::tolerance::Estimate;
use crate::valve::{Applicability, Specification, ValveId};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What is read now.
pub(super) struct Present {
    /// When it was, if anything of it counts.
    pub(super) used: Option<Used>,
    /// Whether that is the last service as it is told, which lacks what counts.
    pub(super) is_last: bool,
    /// What was found and left at the valves.
    pub(super) lash: Vec<(ValveId, Visit<Lash>)>,
    /// What meters showed.
    pub(super) numbers: NumbersNow,
    /// What counts, and why the rest does not.
    pub(super) text: String,
}

impl Present {
    fn without(text: impl Into<String>) -> Self {
        Self {
            used: None,
            is_last: false,
            lash: Vec::new(),
            numbers: NumbersNow::default(),
            text: text.into(),
        }
    }
}

/// What the document says of the present.
pub(super) fn read(asked: &History, now: Now<'_>) -> Present {
    let mut lash = lash(now);
    let mut numbers = readings_now::read(asked, now);
    let mut told = Vec::from([Told::of("the clearances", &lash, |service| {
        !service.lash.is_empty()
    })]);
    told.extend(numbers.told());
    if told.iter().all(|one| one.how == How::NotRead) {
        return Present::without("nothing is read at present: the last service is the latest");
    }
    if told.iter().all(|one| one.how != How::Counts) {
        return Present::without(words(&told, false));
    }
    let Some(used) = when(now.record) else {
        return Present::without(
            "the present readings do not count here: the record has no date as in 2019-04-27, nor hours or \
             distance as in 412.5 h or 58000 km",
        );
    };
    let last = asked.services.last();
    let last = last.filter(|last| is_same(&used, &last.used));
    if let Some(last) = last {
        for one in &mut told {
            if one.how == How::Counts && (one.is_in)(last) {
                one.how = How::IsTyped;
            }
        }
        if told.iter().all(|one| one.how != How::Counts) {
            return Present::without(words(&told, true));
        }
        if !last.lash.is_empty() {
            lash = Taken::NotRead;
        }
        numbers.but_for(last);
    }
    let past = asked.services.iter().map(|service| &service.used);
    let fits = match asked.counted_by {
        Some(by) => time::states(&used, by),
        None => {
            time::common(&past).is_none()
                || time::common(&past.chain(core::iter::once(&used))).is_some()
        }
    };
    if !fits && last.is_none() {
        return Present::without(
            "the present readings do not count here: the record does not say when on the count of the services",
        );
    }
    Present {
        used: Some(used),
        is_last: last.is_some(),
        lash: lash.visits(),
        numbers,
        text: words(&told, last.is_some()),
    }
}

/// Whether two times are one, on every count that both state.
fn is_same(used: &Used, last: &Used) -> bool {
    let shared = time::shared(used, last);
    let is_one = |(now, before): &(f64, f64)| now.to_bits() == before.to_bits();
    !shared.is_empty() && shared.iter().all(is_one)
}

/// How one quantity counts.
#[derive(PartialEq)]
pub(super) enum How {
    NotRead,
    Counts,
    /// The last service has it already.
    IsTyped,
    Not(String),
}

/// One quantity as it is told.
pub(super) struct Told {
    name: &'static str,
    how: How,
    /// What of it does not count where the rest does.
    but: Option<String>,
    is_in: fn(&PastService) -> bool,
}

impl Told {
    pub(super) fn of<K, Q: crate::tolerance::Measurand>(
        name: &'static str,
        taken: &Taken<K, Q>,
        is_in: fn(&PastService) -> bool,
    ) -> Self {
        let (how, but) = match taken {
            Taken::NotRead => (How::NotRead, None),
            Taken::Not(why) => (How::Not(why.clone()), None),
            Taken::Read { but, .. } => (How::Counts, but.clone()),
        };
        Self {
            name,
            how,
            but,
            is_in,
        }
    }
}

/// What counts, and why the rest does not.
fn words(told: &[Told], is_last: bool) -> String {
    let named = |how: &How| {
        let names = told.iter().filter(|one| one.how == *how);
        let names: Vec<&str> = names.map(|one| one.name).collect();
        (!names.is_empty()).then(|| joined(&names))
    };
    let counts = named(&How::Counts).map(|names| {
        let the = if is_last {
            "the last service, of the same time"
        } else {
            "the last service"
        };
        format!("the present readings of {names} count as {the}")
    });
    let typed = named(&How::IsTyped).map(|names| {
        format!("the present readings of {names} are taken to be those of the last service")
    });
    let not = told.iter().filter_map(|one| match &one.how {
        How::Not(why) => Some(format!(
            "the present readings of {} do not count here: {why}",
            one.name
        )),
        _ => one.but.clone(),
    });
    let all: Vec<String> = counts.into_iter().chain(typed).chain(not).collect();
    all.join("; ")
}

/// What the clearance section found and left.
fn lash(now: Now<'_>) -> Taken<ValveId, Lash> {
    let Some((clearance, found)) = now.clearance else {
        return Taken::NotRead;
    };
    if clearance.readings.is_empty() {
        return Taken::NotRead;
    }
    if let Some(stop) = found.stop_work.first() {
        return Taken::Not(format!("until this is settled: {}", stop.text));
    }
    let pairs = clearance.readings.iter().zip(&found.valves);
    let visits = pairs.filter_map(|(reading, told)| {
        let mut visit = Visit::unread();
        visit.found = Some(estimate(told.judged.first()?)?);
        if let Some(left) = &told.left {
            visit = visit.reset(Reset::Set);
            visit.left = left.judged.first().and_then(estimate);
        }
        Some((reading.valve, visit))
    });
    Taken::Read {
        visits: visits.collect(),
        but: None,
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
