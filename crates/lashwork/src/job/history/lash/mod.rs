//! Valve clearances over the years: how fast each changes, when to look next, which moves unlike its mates.

mod advise;
mod answer;
mod read;
mod seats;
pub(super) mod sheet;
mod words;

pub use answer::{
    LashBeddingReport, LashDriftReport, LashHistoryReport, LashLookReport, OddLashReport,
    RecessionReport, ValveDriftReport,
};
pub use read::{LashRead, LashVisit};

use super::present::Present;
use super::time::Times;
use super::{History, HistoryPlace};
use crate::history::{Drift, DriftAnswer, DriftChoice, Record, drift};
use crate::job::assumptions::Assumptions;
use crate::job::clearance::Clearance;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::text::ValveNames;
use crate::quantity::Lash;
use crate::tolerance::{DecisionRule, HasLimits};
use crate::valve::{Specification, ValveId, ValveKind};
use alloc::vec::Vec;

/// What is asked and what is known.
pub(super) struct Facts<'r> {
    pub(super) asked: &'r History,
    pub(super) present: &'r Present,
    pub(super) clearance: Option<&'r Clearance>,
    /// The books whose limits the valves are held against.
    pub(super) books: Vec<&'r Specification>,
    pub(super) known: Known<'r>,
    pub(super) times: &'r Times,
}

impl Facts<'_> {
    fn names(&self) -> ValveNames<'_> {
        let count = |kind: ValveKind| self.valves(kind).unwrap_or_else(|| self.seen(kind));
        ValveNames {
            engine: self.known.engine,
            intake: count(ValveKind::Intake),
            exhaust: count(ValveKind::Exhaust),
        }
    }

    /// Valves of a kind in each cylinder, if that is said.
    fn valves(&self, kind: ValveKind) -> Option<u8> {
        self.clearance.map(|asked| match kind {
            ValveKind::Intake => asked.intake_valves,
            ValveKind::Exhaust => asked.exhaust_valves,
        })
    }

    /// The same as the services show it.
    fn seen(&self, kind: ValveKind) -> u8 {
        let visits = self.asked.services.iter().flat_map(|s| &s.lash);
        let own = visits.filter(|visit| visit.valve.kind == kind);
        own.map(|visit| visit.valve.number).max().unwrap_or(1)
    }

    fn rule(&self) -> DecisionRule {
        let stated = self.clearance.and_then(|asked| asked.rule);
        stated.unwrap_or(Lash::USUAL_RULE)
    }

    fn inches(&self) -> bool {
        self.known.shown.inches
    }
}

/// The drift of a kind of valves, or nothing.
enum Fit {
    Fitted(alloc::boxed::Box<Drift<Lash>>),
    TooFew(crate::history::TooFew),
}

/// Works it out; nothing if no service read a valve.
pub(super) fn report(
    facts: &Facts<'_>,
    assumptions: &mut Assumptions,
) -> Result<Option<LashHistoryReport>, Vec<Problem>> {
    let Some((record, valves)) = read::record(facts, assumptions)? else {
        return Ok(None);
    };
    let mut drifts: Vec<(ValveKind, Fit)> = Vec::new();
    for kind in [ValveKind::Intake, ValveKind::Exhaust] {
        if valves.iter().any(|valve| valve.kind == kind) {
            let fit = fitted(&record, kind, facts).map_err(|problem| Vec::from([problem]))?;
            drifts.push((kind, fit));
        }
    }
    for (_, fit) in &drifts {
        if let Fit::Fitted(drift) = fit {
            assumptions.add_all(drift.assumptions());
        }
    }
    let drift_of = |kind: ValveKind| {
        drifts.iter().find_map(|(own, fit)| match fit {
            Fit::Fitted(drift) if *own == kind => Some(&**drift),
            _ => None,
        })
    };
    let mut told = Vec::new();
    for (at, valve) in valves.iter().enumerate() {
        let one = advise::valve(facts, &record, (at, *valve), drift_of(valve.kind));
        told.push(one.map_err(|why| {
            Vec::from([Problem::at(Place::History(HistoryPlace::Section), &why)])
        })?);
    }
    let recession = drift_of(ValveKind::Exhaust)
        .and_then(|exhaust| seats::report(exhaust, drift_of(ValveKind::Intake), facts.asked.seats));
    Ok(Some(LashHistoryReport {
        next: advise::next(&told, facts),
        sure: words::SURE.into(),
        kinds: drifts
            .iter()
            .map(|(kind, fit)| advise::kind(*kind, fit, facts))
            .collect(),
        valves: told,
        recession,
    }))
}

fn fitted(record: &Record<Lash>, kind: ValveKind, facts: &Facts<'_>) -> Result<Fit, Problem> {
    let by = facts.times.by;
    let at = |place, why| Problem::at(Place::History(place), &why);
    let bedding_in = match facts.asked.bedding_in {
        None => None,
        Some(used) => Some(used.count(by).ok_or_else(|| {
            Problem::new(
                Place::History(HistoryPlace::BeddingIn),
                "history.bedding-in-count",
                alloc::format!("the bedding-in is not stated on what time is counted by, {by}"),
                alloc::format!(
                    "state it in {}, or choose what time is counted by",
                    by.unit()
                ),
            )
        })?),
    };
    let choice = DriftChoice {
        counted_by: Some(by),
        bedding_in,
        scatter: None,
    };
    match drift(record, kind.word(), &choice) {
        Ok(DriftAnswer::Fitted(drift)) => Ok(Fit::Fitted(alloc::boxed::Box::new(drift))),
        Ok(DriftAnswer::TooFew(few)) => Ok(Fit::TooFew(few)),
        Err(why @ crate::history::HistoryError::BeddingIn { .. }) => {
            Err(at(HistoryPlace::BeddingIn, why))
        }
        Err(why) => Err(at(HistoryPlace::Section, why)),
    }
}

/// The valves of a record, in the order of its subjects.
type Valves = Vec<ValveId>;
