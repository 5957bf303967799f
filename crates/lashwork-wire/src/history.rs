//! The history section of a document.

mod columns;
mod lash;
mod leak;
mod numbers;

pub use columns::{DRIFT_OUTPUTS, DriftReadings, drift_columns};

use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::section::Section;
use crate::word::W;
use lash::{LashVisitDoc, visits};
use lashwork::history::{CountedBy, Day, DistanceUnit, HistoryError, SeatFacts, Used};
use lashwork::job::Request;
use lashwork::job::condition::GaugeUnit;
use lashwork::job::history::{History, HistoryPlace, HistoryQuantity, PastService};
use lashwork::quantity::Temperature;
use leak::PastLeakTesterDoc;
use numbers::{
    CompressionVisitDoc, DwellVisitDoc, HistoryLimitsDoc, LeakAreaVisitDoc, TimingVisitDoc,
};

named!(CountedBy as "CountedByDoc" {
    /// The hours run.
    Hours = "hours",
    /// The distance.
    Distance = "distance",
    /// The day.
    Days = "days",
});

named!(DistanceUnit as "DistanceUnitDoc" { Kilometre = "km", Mile = "mi" });

parts! {
    /// Past services, in the order of time. What the other sections read counts as the last one where the
    /// record of the document says when that was: a date as in 2019-04-27, hours as in 412.5 h, a distance as
    /// in 58000 km.
    HistorySectionDoc {
        /// Which engine it is of, as the services call it.
        engine: Option<String>,
        /// What time is counted by; the first of hours, distance and days that all services state, if not
        /// stated.
        counted_by: Option<W<CountedBy>>,
        /// What distances are said in; that in which all services state them, if not stated.
        distance_unit: Option<W<DistanceUnit>>,
        /// What pressures are said in; that of the condition section, else kPa, if not stated.
        gauge_unit: Option<W<GaugeUnit>>,
        /// How long new parts bed in, as in 20 h or 500 km; up to the first reading after them if not stated.
        bedding_in: Option<String>,
        /// What is known of fuel, seats and running; what is left out is not known.
        #[cfg_attr(feature = "schema", schemars(default))]
        seats: Option<SeatsDoc>,
        /// What meters should show.
        #[cfg_attr(feature = "schema", schemars(default))]
        limits: Option<HistoryLimitsDoc>,
        /// The services.
        services: Vec<PastServiceDoc>,
        /// The services as the record was last seen: a record only grows, and one that lost or changed
        /// anything since then is reported, with an answer all the same.
        known: Option<Vec<PastServiceDoc>>,
    }
    /// What is known of fuel, seats and running.
    SeatsDoc {
        /// Whether the fuel has no lead, nor anything that stands in for it.
        unleaded: Option<bool>,
        /// Whether the exhaust seats are inserts made for it.
        hard_seats: Option<bool>,
        /// Whether the engine runs fast for long.
        runs_fast: Option<bool>,
    }
    /// One service.
    PastServiceDoc {
        /// Which engine it was of, if that has to be told.
        engine: Option<String>,
        /// The day, as in 2019-04-27.
        date: Option<String>,
        /// The hours run, as in 412.5 h.
        hours: Option<String>,
        /// The distance run, as in 58000 km or 36000 mi.
        distance: Option<String>,
        /// How warm the metal was; as warm as the book asks, if not stated.
        temperature: Option<Q<Temperature>>,
        /// What was found and left at the valves.
        lash: Option<Vec<LashVisitDoc>>,
        /// The dwell, in degrees of the breaker's own shaft.
        dwell: Option<Vec<DwellVisitDoc>>,
        /// The ignition point.
        timing: Option<Vec<TimingVisitDoc>>,
        /// The compression shown of each cylinder.
        compression: Option<Vec<CompressionVisitDoc>>,
        /// The area through which each cylinder leaks.
        leak_area: Option<Vec<LeakAreaVisitDoc>>,
        /// The tester that the leaks were read with; without it nothing is said of whether testers differ.
        leak_tester: Option<PastLeakTesterDoc>,
    }
    /// When something was; at least one of them.
    WhenDoc {
        /// The day, as in 2019-04-27.
        date: Option<String>,
        /// The hours run, as in 412.5 h.
        hours: Option<String>,
        /// The distance run, as in 58000 km or 36000 mi.
        distance: Option<String>,
    }
}

const AT: &str = "/history";

/// The section in typed values; `request` has the engine and the clearance section.
pub(crate) fn history(
    Section(doc): Section<HistorySectionDoc>,
    request: &Request,
    problems: &mut Vec<Problem>,
) -> Option<History> {
    let faults = problems.len();
    let mut made = History::default();
    made.engine = doc.engine;
    made.counted_by = doc.counted_by.map(|word| word.0);
    made.distance_unit = doc.distance_unit.map(|word| word.0);
    made.gauge_unit = doc.gauge_unit.map(|word| word.0);
    if let Some(text) = doc.bedding_in {
        let length = Used::default().shown(&text);
        made.bedding_in = value(problems, format!("{AT}/bedding_in"), length);
    }
    if let Some(doc) = doc.seats {
        made.seats = SeatFacts {
            is_unleaded: doc.unleaded,
            has_hard_seats: doc.hard_seats,
            runs_fast: doc.runs_fast,
        };
    }
    if let Some(doc) = doc.limits {
        made.limits = numbers::limits(doc, &format!("{AT}/limits"), problems);
    }
    made.services = services(doc.services, "services", request, problems);
    made.known = (doc.known).map(|list| services(list, "known", request, problems));
    (problems.len() == faults).then_some(made)
}

/// A list of services in typed values.
fn services(
    list: Vec<PastServiceDoc>,
    field: &str,
    request: &Request,
    problems: &mut Vec<Problem>,
) -> Vec<PastService> {
    let mut made = Vec::new();
    for (i, doc) in list.into_iter().enumerate() {
        let at = format!("{AT}/{field}/{i}");
        let when = WhenDoc {
            date: doc.date,
            hours: doc.hours,
            distance: doc.distance,
        };
        let used = used(&when, &at, problems);
        let lash = visits(doc.lash.unwrap_or_default(), request, &at, problems);
        let dwell = numbers::dwell(doc.dwell, request, &at, problems);
        let timing = numbers::timing(doc.timing, request, &at, problems);
        let compression = numbers::compression(doc.compression, request, &at, problems);
        let leak_area = numbers::leak_area(doc.leak_area, request, &at, problems);
        let tester = doc.leak_tester;
        let tester =
            tester.and_then(|doc| leak::tester(doc, &format!("{at}/leak_tester"), problems));
        if let Some(used) = used {
            if used == Used::default() {
                let why = HistoryError::NoTime { service: i };
                problems.push(Problem::at(at, &why));
                continue;
            }
            let mut service = PastService::when(used);
            service.engine = doc.engine;
            service.temperature = doc.temperature.map(|it| it.0);
            service.lash = lash;
            service.dwell = dwell;
            service.timing = timing;
            service.compression = compression;
            service.leak_area = leak_area;
            service.leak_tester = tester;
            made.push(service);
        }
    }
    made
}

/// A time on all counts that are stated.
fn used(doc: &WhenDoc, at: &str, problems: &mut Vec<Problem>) -> Option<Used> {
    let mut made = Some(Used::default());
    if let Some(text) = &doc.date {
        let day = value(problems, format!("{at}/date"), Day::parse(text));
        made = day.map(Used::on);
    }
    for (field, text, is_hours) in [
        ("hours", &doc.hours, true),
        ("distance", &doc.distance, false),
    ] {
        let Some(text) = text else { continue };
        let place = format!("{at}/{field}");
        let shown = value(
            problems,
            place.as_str(),
            made.unwrap_or_default().shown(text),
        );
        let is_own = |used: &Used| {
            let by = if is_hours {
                CountedBy::Hours
            } else {
                CountedBy::Distance
            };
            used.count(by).is_some()
        };
        let is_its = shown.is_none_or(|_| {
            let alone = Used::default().shown(text);
            alone.is_ok_and(|alone| is_own(&alone))
        });
        if !is_its {
            let text = text.clone();
            problems.push(Problem::at(place, &HistoryError::Meter { text }));
            made = None;
            continue;
        }
        made = made.and(shown);
    }
    made
}

/// Where a place of the section stands in the document.
pub(crate) fn pointer(place: HistoryPlace) -> String {
    use HistoryPlace as P;
    let lash = |i: usize, j: usize, rest: &str| format!("{AT}/services/{i}/lash/{j}{rest}");
    let number = |i: usize, what: HistoryQuantity, j: usize| {
        let field = match what {
            HistoryQuantity::Dwell => "dwell",
            HistoryQuantity::Timing => "timing",
            HistoryQuantity::Compression => "compression",
            _ => "leak_area",
        };
        format!("{AT}/services/{i}/{field}/{j}")
    };
    match place {
        P::Number(i, what, j) => number(i, what, j),
        P::NumberLeftAt(i, what, j) => number(i, what, j) + "/left_at",
        P::CountedBy => format!("{AT}/counted_by"),
        P::BeddingIn => format!("{AT}/bedding_in"),
        P::Services => format!("{AT}/services"),
        P::Known => format!("{AT}/known"),
        P::Service(i) => format!("{AT}/services/{i}"),
        P::Engine(i) => format!("{AT}/services/{i}/engine"),
        P::Lash(i, j) => lash(i, j, ""),
        P::LashNumber(i, j) => lash(i, j, "/number"),
        P::LashFound(i, j) => lash(i, j, "/found"),
        P::LashLeft(i, j) => lash(i, j, "/left"),
        P::LashLeftAt(i, j) => lash(i, j, "/left_at"),
        P::Present => "/record".into(),
        _ => AT.into(),
    }
}
