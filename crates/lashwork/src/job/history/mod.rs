//! What past services say: services over the years, and a folder for each quantity that they read.
//!
//! What is read makes a record in `lash` and `numbers`; what a record says is the same for all, and is in
//! `drift`. What the other sections read counts as the last service where the document says when that was.

mod chart;
mod drift;
mod growth;
mod lash;
mod leak_testers;
mod numbers;
mod place;
mod present;
mod readings_now;
mod report;
mod request;
pub(in crate::job) mod sheet;
mod time;

pub use chart::HistoryChartReport;
pub use drift::{
    AlikeReport, BeddingReport, KindDriftReport, LookReport, OddDriftReport, QuantityHistoryReport,
    SubjectDriftReport,
};
pub use growth::{RecordDifference, RecordDifferenceReport, RecordGrowthReport, RecordStanding};
pub use lash::{LashRead, LashVisit, RecessionReport};
pub use leak_testers::LeakTestersReport;
pub use numbers::{HistoryLimits, HistoryQuantity, NumberRead, NumberVisit};
pub use place::HistoryPlace;
pub use report::{HistoryReport, PastServiceReport};
pub use request::{History, PastLeakTester, PastService};

use super::assumptions::Assumptions;
use super::clearance::{Clearance, ClearanceReport};
use super::condition::{Condition, ConditionReport, GaugeUnit};
use super::ignition::{Ignition, IgnitionReport};
use super::known::Known;
use super::place::Place;
use super::problem::Problem;
use super::record::Record;
use super::work::Order;
use crate::engine::Engine;
use crate::ignition::breaker::Dwell;
use crate::quantity::{Advance, Area, GaugePressure};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use time::Times;

/// Most services of a record; without a bound a short request could ask for an answer that takes minutes.
pub const MAX_SERVICES: usize = 200;

/// What the rest of the document says of the present.
#[derive(Clone, Copy)]
pub(super) struct Now<'r> {
    pub(super) record: &'r Record,
    pub(super) engine: &'r Engine,
    /// Where the steps of the service stand.
    pub(super) order: &'r Order,
    /// The clearance section, and what it found.
    pub(super) clearance: Option<(&'r Clearance, &'r ClearanceReport)>,
    /// The same of the condition.
    pub(super) condition: Option<(&'r Condition, &'r ConditionReport)>,
    /// The same of the ignition.
    pub(super) ignition: Option<(&'r Ignition, &'r IgnitionReport)>,
}

/// Works out the section.
pub(super) fn report(
    asked: &History,
    now: Now<'_>,
    known: Known<'_>,
    assumptions: &mut Assumptions,
) -> Result<HistoryReport, Vec<Problem>> {
    let known_before = asked.known.as_deref().unwrap_or_default();
    for (services, place) in [
        (asked.services.as_slice(), HistoryPlace::Services),
        (known_before, HistoryPlace::Known),
    ] {
        let count = services.len();
        if count > MAX_SERVICES {
            let problem = Problem::new(
                Place::History(place),
                "history.too-many-services",
                format!("{count} services are more than {MAX_SERVICES}"),
                "leave out the oldest ones",
            );
            return Err(Vec::from([problem]));
        }
    }
    let present = present::read(asked, now);
    // What was read at the time of the last service is of that service.
    let last = present.used.filter(|_| !present.is_last);
    let used: Vec<_> = (asked.services.iter().map(|service| service.used))
        .chain(last)
        .collect();
    let by = time::counted_by(asked.counted_by, &used).map_err(|problem| Vec::from([problem]))?;
    let times = Times::of(by, asked.says_distance_in(), &used);
    let facts = lash::Facts {
        asked,
        present: &present,
        clearance: now.clearance.map(|(asked, _)| asked),
        books: present::books(now),
        known,
        times: &times,
    };
    let record = growth::report(asked, facts.names(), known, &times);
    let (lash, recession) = lash::report(&facts, assumptions)?.unzip();
    let facts = numbers::Facts {
        asked,
        present: &present,
        known,
        times: &times,
        gauge: asked.gauge_unit.unwrap_or_else(|| of_section(now)),
    };
    let dwell = numbers::report::<Dwell>(&facts, assumptions)?;
    let timing = numbers::report::<Advance>(&facts, assumptions)?;
    let compression = numbers::report::<GaugePressure>(&facts, assumptions)?;
    let leak_area = numbers::report::<Area>(&facts, assumptions)?;
    let mut report = HistoryReport {
        record,
        engine: asked.engine_name().map(String::from),
        counted_by: by,
        present: present.text,
        services: used
            .iter()
            .map(|used| PastServiceReport {
                at: used.count(by),
                text: times.service(used),
            })
            .collect(),
        lash,
        recession: recession.flatten(),
        dwell,
        timing,
        compression,
        leak_area,
        leak_testers: leak_testers::report(&asked.services, &times, known.shown.inches),
    };
    report.carry_doubt();
    Ok(report)
}

/// The unit in which the condition section says pressures.
fn of_section(now: Now<'_>) -> GaugeUnit {
    let Some((asked, _)) = now.condition else {
        return GaugeUnit::default();
    };
    let of_leak = asked.leak.as_ref().map(|leak| leak.unit);
    let of_compression = asked.compression.as_ref().map(|one| one.unit);
    of_compression.or(of_leak).unwrap_or_default()
}
