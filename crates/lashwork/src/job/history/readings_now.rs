//! What meters showed in the other sections of the document, and whether it stands beside past services.

use super::present::Told;
use super::request::PastService;
use super::{History, Now};
use crate::engine::CylinderIndex;
use crate::history::{Reset, Visit};
use crate::ignition::breaker::Dwell;
use crate::job::condition;
use crate::job::ignition::{contacts_dwell, timing_point};
use crate::job::work::{ReadWhen, WorkStep};
use crate::quantity::{Advance, Area, GaugePressure};
use crate::tolerance::{Estimate, Measurand};
use alloc::string::String;
use alloc::vec::Vec;

/// Readings of a quantity, each with whose it is, or why they do not count.
#[derive(Default)]
pub(super) enum Taken<K, Q: Measurand> {
    #[default]
    NotRead,
    Not(String),
    Read {
        visits: Vec<(K, Visit<Q>)>,
        /// What of them does not count.
        but: Option<String>,
    },
}

impl<K, Q: Measurand> Taken<K, Q> {
    pub(super) fn visits(self) -> Vec<(K, Visit<Q>)> {
        match self {
            Self::Read { visits, .. } => visits,
            Self::NotRead | Self::Not(_) => Vec::new(),
        }
    }
}

/// Readings of a meter, of a cylinder or of the engine.
pub(super) type NumberTaken<Q> = Taken<Option<CylinderIndex>, Q>;

impl<Q: Measurand> NumberTaken<Q> {
    pub(super) fn readings(&self) -> &[(Option<CylinderIndex>, Visit<Q>)] {
        match self {
            Self::Read { visits, .. } => visits,
            Self::NotRead | Self::Not(_) => &[],
        }
    }

    /// The same where no past service read it: nothing stands beside it.
    fn beside(self, is_in_past: bool) -> Self {
        match self {
            Self::Read { .. } if !is_in_past => {
                Self::Not(String::from("no past service read that"))
            }
            other => other,
        }
    }
}

/// What meters show now.
#[derive(Default)]
pub(super) struct NumbersNow {
    pub(super) dwell: NumberTaken<Dwell>,
    pub(super) timing: NumberTaken<Advance>,
    pub(super) compression: NumberTaken<GaugePressure>,
    pub(super) leak_area: NumberTaken<Area>,
}

impl NumbersNow {
    /// How each counts.
    pub(super) fn told(&self) -> [Told; 4] {
        [
            Told::of("the dwell", &self.dwell, has_dwell),
            Told::of("the ignition point", &self.timing, has_timing),
            Told::of("the compression", &self.compression, has_compression),
            Told::of("the leaks", &self.leak_area, has_leak),
        ]
    }

    /// Leaves out what a service has already.
    pub(super) fn but_for(&mut self, last: &PastService) {
        if has_dwell(last) {
            self.dwell = Taken::NotRead;
        }
        if has_timing(last) {
            self.timing = Taken::NotRead;
        }
        if has_compression(last) {
            self.compression = Taken::NotRead;
        }
        if has_leak(last) {
            self.leak_area = Taken::NotRead;
        }
    }
}

const fn has_dwell(service: &PastService) -> bool {
    !service.dwell.is_empty()
}
const fn has_timing(service: &PastService) -> bool {
    !service.timing.is_empty()
}
const fn has_compression(service: &PastService) -> bool {
    !service.compression.is_empty()
}
const fn has_leak(service: &PastService) -> bool {
    !service.leak_area.is_empty()
}

/// Reads all of it.
pub(super) fn read(asked: &History, now: Now<'_>) -> NumbersNow {
    let past = |is_in: fn(&PastService) -> bool| asked.services.iter().any(is_in);
    NumbersNow {
        dwell: dwell(now).beside(past(has_dwell)),
        timing: timing(now).beside(past(has_timing)),
        compression: compression(now).beside(past(has_compression)),
        leak_area: leak_area(now).beside(past(has_leak)),
    }
}

fn dwell(now: Now<'_>) -> NumberTaken<Dwell> {
    let read = now
        .ignition
        .and_then(|(asked, found)| contacts_dwell(asked, found));
    match read {
        None => Taken::NotRead,
        Some(Err(why)) => Taken::Not(why),
        Some(Ok(read)) => match now.order.stale(WorkStep::Contacts) {
            Some(why) => Taken::Not(why),
            None => of_engine(read, now, WorkStep::Contacts),
        },
    }
}

fn timing(now: Now<'_>) -> NumberTaken<Advance> {
    let read = now
        .ignition
        .and_then(|(asked, found)| timing_point(asked, found));
    match read {
        None => Taken::NotRead,
        Some(Err(why)) => Taken::Not(why),
        Some(Ok(read)) => match now.order.before(WorkStep::Timing).settle {
            Some(why) => Taken::Not(why),
            None => of_engine(read, now, WorkStep::Timing),
        },
    }
}

/// A reading of something that may have been set in this service, by what the log says of when.
fn of_engine<Q: Measurand>(read: Estimate<Q>, now: Now<'_>, step: WorkStep) -> NumberTaken<Q> {
    let visit = match now.order.read_when(step) {
        ReadWhen::NotSet => Visit::found(read),
        ReadWhen::BeforeSet => Visit::found(read).reset(Reset::Set),
        ReadWhen::AfterSet => Visit::unread().reset(Reset::Set).left(read),
        ReadWhen::NotSaid => {
            return Taken::Not(String::from(
                "it was set in this service, and the log does not say whether it was read before that or after",
            ));
        }
    };
    Taken::Read {
        visits: Vec::from([(None, visit)]),
        but: None,
    }
}

fn compression(now: Now<'_>) -> NumberTaken<GaugePressure> {
    let read = now
        .condition
        .and_then(|(asked, found)| condition::compression_shown(asked, found));
    of_cylinders(read, now, WorkStep::Compression)
}

fn leak_area(now: Now<'_>) -> NumberTaken<Area> {
    let read = now
        .condition
        .and_then(|(asked, found)| condition::leak_areas(asked, found));
    of_cylinders(read, now, WorkStep::Leak)
}

/// Readings of cylinders, if the steps that they lean on stand.
fn of_cylinders<Q: Measurand>(
    read: Option<Result<condition::ForRecord<Q>, String>>,
    now: Now<'_>,
    step: WorkStep,
) -> NumberTaken<Q> {
    let Some(read) = read else {
        return Taken::NotRead;
    };
    match (read, now.order.before(step).settle) {
        (Err(why), _) | (Ok(_), Some(why)) => Taken::Not(why),
        (Ok(read), None) => {
            let visits = read.readings.into_iter().filter_map(|(label, read)| {
                Some((Some(now.engine.index_of(&label)?), Visit::found(read)))
            });
            Taken::Read {
                visits: visits.collect(),
                but: read.but,
            }
        }
    }
}
