//! What services read of the valves, made into a record.

use super::{Facts, Valves};
use crate::feeler::{Reading, ReadingEstimate};
use crate::history::{HistoryError, Record, Reset, Service, Subject, Used, Visit};
use crate::job::assumptions::Assumptions;
use crate::job::clearance::assume_leaves;
use crate::job::history::HistoryPlace;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::text::taken;
use crate::quantity::{Lash, LengthUnit, Marked, Nominal, Temperature};
use crate::tolerance::{Estimate, Uncertainty};
use crate::valve::ValveId;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Standard uncertainty of a lash that a record gives as a number without more; common practice, no source.
const NUMBER: Marked = Marked::new(
    Nominal::of_nanometres::<10_000>(),
    LengthUnit::Millimetre,
    3,
);
/// Services read warmer or colder than the book asks by more than this are not held beside the others.
/// Our choice, no source: the lash of long parts moves about as far as a hand is uncertain.
const ALIKE_WITHIN_K: f64 = 10.0;
/// Most valves of a kind in a cylinder where nothing says how many there are.
const MOST_OF_A_KIND: u8 = 4;

/// A lash as a service wrote it down.
///
/// ```
/// use lashwork::job::history::LashRead;
/// let read = LashRead::Felt("0.12 mm goes, 0.15 mm does not".parse()?);
/// assert!(matches!(read, LashRead::Felt(_)));
/// # Ok::<(), lashwork::feeler::FeelerError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub enum LashRead {
    /// Felt with leaves.
    Felt(Reading),
    /// A number.
    Number {
        /// The lash.
        lash: Lash,
        /// Its standard uncertainty; the usual one is listed as an assumption.
        uncertainty: Option<Uncertainty<Lash>>,
    },
}

/// What was found, done and left at one valve in one service.
///
/// ```
/// use lashwork::engine::CylinderIndex;
/// use lashwork::job::history::{LashRead, LashVisit};
/// use lashwork::valve::{ValveId, ValveKind};
/// let valve = ValveId { cylinder: CylinderIndex::new(0), kind: ValveKind::Exhaust, number: 1 };
/// let visit = LashVisit {
///     found: Some(LashRead::Felt("0.12 mm goes".parse()?)),
///     ..LashVisit::of(valve)
/// };
/// assert!(visit.done.is_none() && visit.left.is_none());
/// # Ok::<(), lashwork::feeler::FeelerError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct LashVisit {
    /// The valve.
    pub valve: ValveId,
    /// Before anything was done.
    pub found: Option<LashRead>,
    /// What was done; set, if a reading after it is there.
    pub done: Option<Reset>,
    /// After it was done.
    pub left: Option<LashRead>,
    /// When that was read, if not at the service itself.
    pub left_at: Option<Used>,
}

impl LashVisit {
    /// Nothing read yet.
    #[must_use]
    pub const fn of(valve: ValveId) -> Self {
        Self {
            valve,
            found: None,
            done: None,
            left: None,
            left_at: None,
        }
    }
}

/// The record that the services make, and whose its subjects are; nothing if no valve was read.
pub(super) fn record(
    facts: &Facts<'_>,
    assumptions: &mut Assumptions,
) -> Result<Option<(Record<Lash>, Valves)>, Vec<Problem>> {
    let services = &facts.asked.services;
    let past = services.iter().flat_map(|service| &service.lash);
    let now = facts.present.lash.iter().map(|(valve, _)| *valve);
    let mut valves: Valves = past.map(|visit| visit.valve).chain(now).collect();
    valves.sort_unstable();
    valves.dedup();
    if valves.is_empty() {
        return Ok(None);
    }
    // First, because of two valves that are one there is one name.
    let unknown = no_such_valves(facts);
    if !unknown.is_empty() {
        return Err(unknown);
    }
    let mut made = Making {
        facts,
        problems: Vec::new(),
        felt: Vec::new(),
        has_numbers: false,
    };
    let names = facts.names();
    let subjects = valves.iter().map(|valve| {
        let name = names.of(*valve);
        Subject::new(&name, valve.kind.word())
    });
    let engine = facts.asked.engine_name().unwrap_or("this engine");
    let at = |place, why: &HistoryError| Problem::at(Place::History(place), why);
    let record = Record::new(engine, subjects.collect());
    let mut record = record.map_err(|why| Vec::from([at(HistoryPlace::Section, &why)]))?;
    let place = |valve: &ValveId| valves.iter().position(|own| own == valve);
    let now = facts.present.lash.iter();
    let now = now.filter_map(|(valve, visit)| Some((place(valve)?, *visit)));
    for (i, service) in services.iter().enumerate() {
        let mut visits = made.visits(i, &valves);
        if facts.present.is_last && i + 1 == services.len() {
            visits.extend(now.clone());
        }
        let pushed = record.push(Service {
            engine: service.engine.clone().unwrap_or_else(|| engine.into()),
            used: service.used,
            visits,
        });
        if let Err(why) = pushed {
            made.problems.push(at(made.place(i, &valves, &why), &why));
        }
    }
    let now: Vec<_> = now.collect();
    let used = facts.present.used;
    if let Some(used) = used.filter(|_| !facts.present.is_last && !now.is_empty()) {
        let pushed = record.push(Service {
            engine: engine.into(),
            used,
            visits: now,
        });
        if let Err(why) = pushed {
            made.problems.push(at(HistoryPlace::Present, &why));
        }
    }
    made.assume(assumptions);
    if made.problems.is_empty() {
        Ok(Some((record, valves)))
    } else {
        Err(made.problems)
    }
}

/// What gathers while a record is made.
struct Making<'r> {
    facts: &'r Facts<'r>,
    problems: Vec<Problem>,
    felt: Vec<ReadingEstimate>,
    has_numbers: bool,
}

impl Making<'_> {
    fn visits(&mut self, i: usize, valves: &[ValveId]) -> Vec<(usize, Visit<Lash>)> {
        let Some(service) = self.facts.asked.services.get(i) else {
            return Vec::new();
        };
        let is_alike = is_alike(service.temperature, self.reference());
        let mut visits = Vec::new();
        for (j, asked) in service.lash.iter().enumerate() {
            let found = asked.found.as_ref();
            let found = found.and_then(|read| self.estimate(read, HistoryPlace::LashFound(i, j)));
            let left = asked.left.as_ref();
            let left = left.and_then(|read| self.estimate(read, HistoryPlace::LashLeft(i, j)));
            let Some(subject) = valves.iter().position(|valve| *valve == asked.valve) else {
                continue;
            };
            let visit = Visit {
                found: found.filter(|_| is_alike),
                reset: asked.done.or(asked.left.as_ref().map(|_| Reset::Set)),
                left: left.filter(|_| is_alike),
                left_at: asked.left_at,
            };
            visits.push((subject, visit));
        }
        visits
    }

    fn estimate(&mut self, read: &LashRead, place: HistoryPlace) -> Option<Estimate<Lash>> {
        match read {
            LashRead::Felt(reading) => {
                let used = self.facts.clearance.map(|asked| asked.gauge_use);
                match reading.estimate_with(&used.unwrap_or_default(), None) {
                    Ok(felt) => {
                        self.felt.push(felt);
                        Some(felt.estimate)
                    }
                    Err(why) => {
                        self.problems.push(Problem::at(Place::History(place), &why));
                        None
                    }
                }
            }
            LashRead::Number { lash, uncertainty } => {
                self.has_numbers |= uncertainty.is_none();
                let usual = || Uncertainty::from_mm(NUMBER.mm());
                let u = uncertainty.map_or_else(usual, Ok);
                let made = u.and_then(|u| Estimate::between(*lash, *lash, u));
                made.map_err(|why| {
                    self.problems.push(Problem::at(Place::History(place), &why));
                })
                .ok()
            }
        }
    }

    /// The temperature at which readings are held beside each other, if there is one.
    fn reference(&self) -> Option<Temperature> {
        match self.facts.books.first() {
            Some(book) => book.holds_at(),
            None => Some(Temperature::ISO_1),
        }
    }

    /// Where a refusal of a service belongs.
    fn place(&self, i: usize, valves: &[ValveId], why: &HistoryError) -> HistoryPlace {
        let names = self.facts.names();
        // The last of them: of two entries the second is one too many.
        let visit = |name: &str| {
            let service = self.facts.asked.services.get(i)?;
            let is_named = |visit: &super::LashVisit| {
                valves.contains(&visit.valve) && names.of(visit.valve) == name
            };
            service.lash.iter().rposition(is_named)
        };
        match why {
            HistoryError::OtherEngine { .. } => HistoryPlace::Engine(i),
            HistoryError::TwiceInService { name, .. } => {
                visit(name).map_or(HistoryPlace::Service(i), |j| HistoryPlace::Lash(i, j))
            }
            HistoryError::LeftWithoutReset { name, .. } => {
                visit(name).map_or(HistoryPlace::Service(i), |j| HistoryPlace::LashLeft(i, j))
            }
            HistoryError::ReadBeforeReset { name, .. } => {
                visit(name).map_or(HistoryPlace::Service(i), |j| HistoryPlace::LashLeftAt(i, j))
            }
            _ => HistoryPlace::Service(i),
        }
    }

    fn assume(&self, assumptions: &mut Assumptions) {
        let inches = self.facts.inches();
        assume_leaves(self.felt.iter(), inches, assumptions);
        if self.has_numbers {
            let text = format!(
                "uncertainty of a lash that a service gives as a number not stated: {} (standard) taken; \
                 common practice, no source",
                taken(NUMBER, inches)
            );
            assumptions.add("history.number-uncertainty", text);
        }
        let services = &self.facts.asked.services;
        if services.iter().any(|service| service.temperature.is_none()) {
            assumptions.add(
                "history.read-alike",
                "services that do not say how warm the metal was are taken to have been read as warm as the \
                 book asks",
            );
        }
        let reference = self.reference();
        let apart = services.iter().enumerate();
        let apart: Vec<String> = apart
            .filter(|(_, service)| !is_alike(service.temperature, reference))
            .map(|(i, _)| format!("{}", i + 1))
            .collect();
        if !apart.is_empty() {
            assumptions.add(
                "history.not-as-warm",
                format!(
                    "readings of service {} were not taken as warm as the book asks, and do not count; what was \
                     set then still begins a new stretch",
                    apart.join(", ")
                ),
            );
        }
    }
}

fn is_alike(temperature: Option<Temperature>, reference: Option<Temperature>) -> bool {
    match (temperature, reference) {
        (Some(was), Some(asked)) => (was.celsius() - asked.celsius()).abs() <= ALIKE_WITHIN_K,
        _ => true,
    }
}

/// Every valve that the engine does not have.
fn no_such_valves(facts: &Facts<'_>) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (i, service) in facts.asked.services.iter().enumerate() {
        for (j, LashVisit { valve, .. }) in service.lash.iter().enumerate() {
            let most = facts.valves(valve.kind).unwrap_or(MOST_OF_A_KIND);
            if (1..=most).contains(&valve.number) {
                continue;
            }
            let (kind, number) = (valve.kind.word(), valve.number);
            problems.push(Problem::new(
                Place::History(HistoryPlace::LashNumber(i, j)),
                "job.no-such-valve",
                format!(
                    "{kind} valve {number} does not exist: there are {most} of them in a cylinder"
                ),
                "check the valve's number, or how many valves each cylinder is stated to have",
            ));
        }
    }
    problems
}
