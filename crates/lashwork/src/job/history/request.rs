//! What past services tell, in typed values.

use super::lash::LashVisit;
use super::numbers::{HistoryLimits, NumberVisit};
use crate::history::{CountedBy, DistanceUnit, SeatFacts, Used};
use crate::ignition::breaker::Dwell;
use crate::job::condition::GaugeUnit;
use crate::quantity::{Advance, Area, GaugePressure, Length, Temperature};
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
    /// What distances are said in; in what all services state them, if not chosen.
    pub distance_unit: Option<DistanceUnit>,
    /// What pressures are said in; that of the condition section, if not chosen.
    pub gauge_unit: Option<GaugeUnit>,
    /// How long new parts bed in, on the same count; up to the first reading if not known.
    pub bedding_in: Option<Used>,
    /// What is known of fuel, seats and running.
    pub seats: SeatFacts,
    /// What meters should show; the limits of the lash are those of the clearance section.
    pub limits: HistoryLimits,
    /// The services.
    pub services: Vec<PastService>,
    /// The services as the record was last seen, if that is known: a record only grows.
    pub known: Option<Vec<PastService>>,
}

impl History {
    /// What the engine is called: as stated, or as the first service has it that says so.
    pub(super) fn engine_name(&self) -> Option<&str> {
        let of_services = || self.services.iter().find_map(|s| s.engine.as_deref());
        self.engine.as_deref().or_else(of_services)
    }

    /// What distances are said in.
    pub(super) fn says_distance_in(&self) -> DistanceUnit {
        let stated = self.services.iter().filter_map(|s| s.used.distance_unit());
        let mut others = stated.clone().filter(|unit| *unit != DistanceUnit::Mile);
        let usual = match (stated.clone().next(), others.next()) {
            (Some(_), None) => DistanceUnit::Mile,
            _ => DistanceUnit::Kilometre,
        };
        self.distance_unit.unwrap_or(usual)
    }
}

/// The tester that a service read leaks with: what it is called, its orifice, or both.
///
/// ```
/// use lashwork::job::history::PastLeakTester;
/// let tester = PastLeakTester { name: None, orifice: Some("0.040 in".parse()?) };
/// assert_ne!(tester, PastLeakTester { name: Some("the old one".into()), orifice: None });
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct PastLeakTester {
    /// What it is called.
    pub name: Option<String>,
    /// Diameter of the orifice between its gauges.
    pub orifice: Option<Length>,
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
    /// The tester that the leaks were read with.
    pub leak_tester: Option<PastLeakTester>,
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
            leak_tester: None,
        }
    }
}
