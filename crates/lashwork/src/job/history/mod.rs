//! What past services say: services over the years, and a folder for each quantity that they read.
//!
//! What is read makes a record in `lash` and `numbers`; what a record says is the same for all, and is in
//! `drift`. What the clearance section read counts
//! as the last service where the document says when that was.

mod chart;
mod drift;
mod lash;
mod numbers;
mod place;
mod present;
mod report;
mod request;
pub(in crate::job) mod sheet;
mod time;

pub use chart::HistoryChartReport;
pub use drift::{
    BeddingReport, KindDriftReport, LookReport, OddDriftReport, QuantityHistoryReport,
    SubjectDriftReport,
};
pub use lash::{LashRead, LashVisit, RecessionReport};
pub use numbers::{HistoryLimits, HistoryQuantity, NumberRead, NumberVisit};
pub use place::HistoryPlace;
pub use report::{HistoryReport, PastServiceReport};
pub use request::{History, PastService};

use super::assumptions::Assumptions;
use super::clearance::{Clearance, ClearanceReport};
use super::known::Known;
use super::place::Place;
use super::problem::Problem;
use super::record::Record;
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
    /// The clearance section, and what it found.
    pub(super) clearance: Option<(&'r Clearance, &'r ClearanceReport)>,
}

/// Works out the section.
pub(super) fn report(
    asked: &History,
    now: Now<'_>,
    known: Known<'_>,
    assumptions: &mut Assumptions,
) -> Result<HistoryReport, Vec<Problem>> {
    let count = asked.services.len();
    if count > MAX_SERVICES {
        let problem = Problem::new(
            Place::History(HistoryPlace::Services),
            "history.too-many-services",
            format!("{count} services are more than {MAX_SERVICES}"),
            "leave out the oldest ones",
        );
        return Err(Vec::from([problem]));
    }
    let present = present::read(asked, now);
    let used: Vec<_> = (asked.services.iter().map(|service| service.used))
        .chain(present.used)
        .collect();
    let by = time::counted_by(asked.counted_by, &used).map_err(|problem| Vec::from([problem]))?;
    let times = Times::of(by, &used);
    let facts = lash::Facts {
        asked,
        present: &present,
        clearance: now.clearance.map(|(asked, _)| asked),
        books: present::books(now),
        known,
        times: &times,
    };
    let (lash, recession) = lash::report(&facts, assumptions)?.unzip();
    let dwell = numbers::report::<Dwell>(asked, known, &times, assumptions)?;
    let timing = numbers::report::<Advance>(asked, known, &times, assumptions)?;
    let compression = numbers::report::<GaugePressure>(asked, known, &times, assumptions)?;
    let leak_area = numbers::report::<Area>(asked, known, &times, assumptions)?;
    Ok(HistoryReport {
        engine: asked.engine_name().map(String::from),
        counted_by: by,
        present: present.text,
        services: asked
            .services
            .iter()
            .map(|service| PastServiceReport {
                at: service.used.count(by),
                text: times.service(&service.used),
            })
            .chain(present.used.map(|used| PastServiceReport {
                at: used.count(by),
                text: times.service(&used),
            }))
            .collect(),
        lash,
        recession: recession.flatten(),
        dwell,
        timing,
        compression,
        leak_area,
    })
}
