//! Whether valve seats sink because the fuel has no lead: what speaks for it and what against.
//!
//! Published facts, none of them a rate that could be computed with:
//! - integral iron seats recede ten to twenty times as fast on unleaded fuel (SAE, 1971);
//! - soft seats failed within 10 to 20 hours at full throttle and 4000 rpm (B. J. Mitchell, 1996);
//! - 0.05 g of lead in a gallon protect at low to moderate speed, and speed matters more than load
//!   (SAE 861550); engines of low speed did not recede (SAE 871622);
//! - two engines with seats of HRB 40 showed no difference in 150 hours (DOT/FAA/CT-TN89/33).

use super::Drift;
use crate::quantity::Lash;
use alloc::vec::Vec;
use serde::Serialize;

/// From this chance on one rate is called faster than another.
const FASTER: f64 = 0.95;

/// What is known of fuel, seats and running; what is not is left out.
///
/// ```
/// use lashwork::history::SeatFacts;
/// let facts = SeatFacts { is_unleaded: Some(true), ..SeatFacts::default() };
/// assert_eq!(facts.has_hard_seats, None);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SeatFacts {
    /// Whether the fuel has no lead, nor anything that stands in for it.
    pub is_unleaded: Option<bool>,
    /// Whether the exhaust seats are inserts made for it.
    pub has_hard_seats: Option<bool>,
    /// Whether the engine runs fast for long.
    pub runs_fast: Option<bool>,
}

/// A fact that bears on it.
///
/// ```
/// use lashwork::history::SeatFact;
/// assert_ne!(SeatFact::Fuel, SeatFact::Seats);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum SeatFact {
    /// Whether the lash of the exhaust valves closes.
    Closes,
    /// Whether it closes faster than that of the intake valves.
    FasterThanIntake,
    /// Whether all of them move alike: fuel reaches all, a loose or overheated seat is one.
    Alike,
    /// Whether the fuel lacks lead.
    Fuel,
    /// Whether the seats are soft.
    Seats,
    /// Whether the engine runs fast for long.
    Speed,
}

/// What speaks for seats that sink for want of lead, and what against. No chance is given: nothing published
/// would hold it up.
///
/// ```
/// use lashwork::history::{Recession, SeatFact};
/// let found = Recession { speaks_for: vec![SeatFact::Fuel], speaks_against: vec![], not_known: vec![] };
/// assert_eq!(found.speaks_for, [SeatFact::Fuel]);
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Recession {
    /// Facts for it.
    pub speaks_for: Vec<SeatFact>,
    /// Facts against it.
    pub speaks_against: Vec<SeatFact>,
    /// Facts that are not known, or that the readings do not decide.
    pub not_known: Vec<SeatFact>,
}

/// Gathers what speaks for and against seats that sink for want of lead, from the drift of the exhaust valves,
/// that of the intake valves if it is known, and what else is.
///
/// ```
/// use lashwork::history::{
///     DriftAnswer, DriftChoice, Record, SeatFact, SeatFacts, Service, Subject, Used, Visit, drift, recession,
/// };
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::Estimate;
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let mut record = Record::<Lash>::new("barn engine", vec![Subject::new("1 exhaust", "exhaust")])?;
/// for (hours, mm) in [(0.0, 0.300), (50.0, 0.281), (100.0, 0.262), (150.0, 0.239)] {
///     record.push(Service {
///         engine: "barn engine".into(),
///         used: Used::default().hours(hours)?,
///         visits: vec![(0, Visit::found(Estimate::from_numbers(mm, mm, 0.0)?))],
///     })?;
/// }
/// let DriftAnswer::Fitted(exhaust) = drift(&record, "exhaust", &DriftChoice::default())? else {
///     return Err("four readings are enough".into());
/// };
/// let facts = SeatFacts { has_hard_seats: Some(true), ..SeatFacts::default() };
/// let found = recession(&exhaust, None, &facts);
/// assert_eq!(found.speaks_for, [SeatFact::Closes]);
/// assert_eq!(found.speaks_against, [SeatFact::Seats]);
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[must_use]
pub fn recession(
    exhaust: &Drift<Lash>,
    intake: Option<&Drift<Lash>>,
    facts: &SeatFacts,
) -> Recession {
    let rate = exhaust.rate_mix();
    let decided = |chance: f64| {
        if chance >= FASTER {
            Some(true)
        } else if chance <= 1.0 - FASTER {
            Some(false)
        } else {
            None
        }
    };
    let is_compared = exhaust.standings().next().is_some();
    let is_alike = is_compared.then(|| !exhaust.standings().any(|standing| standing.is_odd));
    let mut found = Recession::default();
    for (fact, holds) in [
        (SeatFact::Closes, decided(rate.below(0.0))),
        (
            SeatFact::FasterThanIntake,
            intake.and_then(|intake| decided(rate.chance_below(&intake.rate_mix()))),
        ),
        (SeatFact::Alike, is_alike),
        (SeatFact::Fuel, facts.is_unleaded),
        (SeatFact::Seats, facts.has_hard_seats.map(|hard| !hard)),
        (SeatFact::Speed, facts.runs_fast),
    ] {
        match holds {
            Some(true) => found.speaks_for.push(fact),
            Some(false) => found.speaks_against.push(fact),
            None => found.not_known.push(fact),
        }
    }
    found
}
