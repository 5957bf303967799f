//! What a meter showed over the years: dwell, ignition point, compression, the area of a leak.

mod quantity;
mod read;
mod words;

pub use quantity::{HistoryLimits, HistoryQuantity};
pub use read::{NumberRead, NumberVisit};

use super::drift::{self, Band, Kept, QuantityHistoryReport, Say, Whose};
use super::present::Present;
use super::time::Times;
use super::{History, HistoryPlace};
use crate::engine::CylinderIndex;
use crate::history::{HistoryError, Record, Service, Subject};
use crate::job::assumptions::Assumptions;
use crate::job::condition::GaugeUnit;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use quantity::Number;

/// What is asked and what is known.
pub(super) struct Facts<'r> {
    pub(super) asked: &'r History,
    pub(super) present: &'r Present,
    pub(super) known: Known<'r>,
    pub(super) times: &'r Times,
    /// What pressures are said in.
    pub(super) gauge: GaugeUnit,
}

/// Works one quantity out; nothing if no service read it.
pub(super) fn report<Q: Number>(
    facts: &Facts<'_>,
    assumptions: &mut Assumptions,
) -> Result<Option<QuantityHistoryReport>, Vec<Problem>> {
    let &Facts {
        asked,
        present,
        known,
        times,
        gauge,
    } = facts;
    let owners = owners::<Q>(facts);
    if owners.is_empty() {
        return Ok(None);
    }
    let label = |owner: &Option<_>| {
        let cylinder = owner.and_then(|index| known.engine.cylinder(index));
        cylinder.map(|cylinder| cylinder.label.to_string())
    };
    let names = owners.iter().map(|owner| match label(owner) {
        Some(label) => format!("cylinder {label}"),
        None => Q::ALONE.into(),
    });
    let kind = Q::QUANTITY.word();
    let subjects: Vec<Subject> = names.map(|name| Subject::new(&name, kind)).collect();
    let at = |place, why: &HistoryError| Problem::at(Place::History(place), why);
    let engine = asked.engine_name().unwrap_or("this engine");
    let record = Record::new(engine, subjects);
    let mut record = record.map_err(|why| Vec::from([at(HistoryPlace::Section, &why)]))?;
    let mut problems = Vec::new();
    let mut is_assumed = false;
    let now = Q::now(&present.numbers)
        .iter()
        .filter_map(|(owner, visit)| {
            let subject = owners.iter().position(|own| own == owner);
            Some((subject?, *visit))
        });
    for (i, service) in asked.services.iter().enumerate() {
        let mut visits = Vec::new();
        if present.is_last && i + 1 == asked.services.len() {
            visits.extend(now.clone());
        }
        for (j, asked) in Q::visits(service).iter().enumerate() {
            let subject = owners.iter().position(|owner| *owner == asked.cylinder);
            let place = HistoryPlace::Number(i, Q::QUANTITY, j);
            match read::visit(asked, &mut is_assumed) {
                Ok(visit) => visits.extend(subject.map(|subject| (subject, visit))),
                Err(why) => problems.push(Problem::at(Place::History(place), &why)),
            }
        }
        let pushed = record.push(Service {
            engine: service.engine.clone().unwrap_or_else(|| engine.into()),
            used: service.used,
            visits,
        });
        if let Err(why) = pushed {
            problems.push(at(place::<Q>(facts, i, &why, &record), &why));
        }
    }
    let now: Vec<_> = now.collect();
    if let Some(used) = present.used.filter(|_| !present.is_last && !now.is_empty()) {
        let pushed = record.push(Service {
            engine: engine.into(),
            used,
            visits: now,
        });
        if let Err(why) = pushed {
            problems.push(at(HistoryPlace::Present, &why));
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    if is_assumed {
        assumptions.add(Q::QUANTITY.assumption(), Q::USUAL_TEXT);
    }
    let limits = Q::limits(&asked.limits);
    let bands = limits.iter().map(|limits| Band {
        kind,
        name: String::from("limits"),
        text: Q::band(limits, gauge),
        limits,
    });
    let kept = Kept {
        whose: (owners.iter())
            .map(|owner| Whose {
                cylinder: label(owner),
                number: None,
            })
            .collect(),
        bands: bands.collect(),
        record: &record,
        rule: Q::USUAL_RULE,
        times,
        bedding_in: asked.bedding_in,
        say: Say {
            words: Q::WORDS,
            unit: Q::unit(gauge),
            amount: &|number| Q::amount(number, gauge),
            value: &|number| Q::value(number, gauge),
        },
    };
    let (report, _) = drift::report(&kept, assumptions)?;
    Ok(Some(report))
}

/// Whose readings there are: cylinders, or the engine.
fn owners<Q: Number>(facts: &Facts<'_>) -> Vec<Option<CylinderIndex>> {
    let past = facts.asked.services.iter();
    let past = past.flat_map(|service| Q::visits(service));
    let now = Q::now(&facts.present.numbers).iter();
    let all = past.map(|visit| visit.cylinder);
    let mut owners: Vec<_> = all.chain(now.map(|(owner, _)| *owner)).collect();
    owners.sort_unstable();
    owners.dedup();
    owners
}

/// Where a refusal of a service belongs.
fn place<Q: Number>(
    facts: &Facts<'_>,
    i: usize,
    why: &HistoryError,
    record: &Record<Q>,
) -> HistoryPlace {
    let (HistoryError::TwiceInService { name, .. }
    | HistoryError::LeftWithoutReset { name, .. }
    | HistoryError::ReadBeforeReset { name, .. }) = why
    else {
        return match why {
            HistoryError::OtherEngine { .. } => HistoryPlace::Engine(i),
            _ => HistoryPlace::Service(i),
        };
    };
    let subject = record.subjects().iter().position(|own| own.name == *name);
    let owners = owners::<Q>(facts);
    let owner = subject.and_then(|subject| owners.get(subject));
    let services = &facts.asked.services;
    let visits = services
        .get(i)
        .map_or(&[][..], |service| Q::visits(service));
    // The last of them: of two entries the second is one too many.
    let visit = visits
        .iter()
        .rposition(|visit| Some(&visit.cylinder) == owner);
    match (visit, why) {
        (None, _) => HistoryPlace::Service(i),
        (Some(j), HistoryError::ReadBeforeReset { .. }) => {
            HistoryPlace::NumberLeftAt(i, Q::QUANTITY, j)
        }
        (Some(j), _) => HistoryPlace::Number(i, Q::QUANTITY, j),
    }
}
