//! What past services tell, in typed values.

use super::lash::LashVisit;
use super::numbers::{HistoryLimits, NumberVisit};
use crate::history::{CountedBy, SeatFacts, Used};
use crate::ignition::breaker::Dwell;
use crate::quantity::{Advance, Area, GaugePressure, Temperature};
use alloc::string::String;
use alloc::vec::Vec;

/// Services over the years, in the order of time.
///
/// ```
/// use lashwork::history::{Day, Used};
/// use lashwork::job::history::{History, PastService};
/// let mut asked = History::default();
/// asked.services.push(PastService::when(Used::on(Day::parse("2016-04-30")?)));
/// assert!(asked.counted_by.is_none());
/// # Ok::<(), lashwork::history::HistoryError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct History {
    /// Which engine it is of, as its services call it.
    pub engine: Option<String>,
    /// What time is counted by; hours before distance before days if not chosen.
    pub counted_by: Option<CountedBy>,
    /// How long new parts bed in, on the same count; up to the first reading if not known.
    pub bedding_in: Option<Used>,
    /// What is known of fuel, seats and running.
    pub seats: SeatFacts,
    /// What meters should show; the limits of the lash are those of the clearance section.
    pub limits: HistoryLimits,
    /// The services.
    pub services: Vec<PastService>,
}

impl History {
    /// What the engine is called: as stated, or as the first service has it that says so.
    pub(super) fn engine_name(&self) -> Option<&str> {
        let of_services = || self.services.iter().find_map(|s| s.engine.as_deref());
        self.engine.as_deref().or_else(of_services)
    }
}

/// One service.
///
/// ```
/// use lashwork::history::Used;
/// use lashwork::job::history::PastService;
/// let service = PastService::when(Used::default().shown("412.5 h")?);
/// assert!(service.lash.is_empty() && service.temperature.is_none());
/// # Ok::<(), lashwork::history::HistoryError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct PastService {
    /// Which engine it was of, if it says so.
    pub engine: Option<String>,
    /// When it was.
    pub used: Used,
    /// How warm the metal was.
    pub temperature: Option<Temperature>,
    /// What was found and left at the valves.
    pub lash: Vec<LashVisit>,
    /// The dwell.
    pub dwell: Vec<NumberVisit<Dwell>>,
    /// The ignition point.
    pub timing: Vec<NumberVisit<Advance>>,
    /// The compression shown of each cylinder.
    pub compression: Vec<NumberVisit<GaugePressure>>,
    /// The area through which each cylinder leaks.
    pub leak_area: Vec<NumberVisit<Area>>,
}

impl PastService {
    /// A service at a time, of which nothing else is known.
    #[must_use]
    pub const fn when(used: Used) -> Self {
        Self {
            engine: None,
            used,
            temperature: None,
            lash: Vec::new(),
            dwell: Vec::new(),
            timing: Vec::new(),
            compression: Vec::new(),
            leak_area: Vec::new(),
        }
    }
}
