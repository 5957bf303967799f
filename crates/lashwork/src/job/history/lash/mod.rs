//! Valve clearances over the years: how fast each changes, when to look next, which moves unlike its mates.

mod read;
mod seats;
pub(super) mod sheet;
mod words;

pub use read::{LashRead, LashVisit};
pub use seats::RecessionReport;

use super::History;
use super::drift::{self, Band, Kept, QuantityHistoryReport, Say, Whose};
use super::present::Present;
use super::time::Times;
use crate::clearance::text::printed_limits;
use crate::job::assumptions::Assumptions;
use crate::job::clearance::Clearance;
use crate::job::known::Known;
use crate::job::problem::Problem;
use crate::job::text::ValveNames;
use crate::quantity::shown::reckoned;
use crate::quantity::{Lash, LengthUnit};
use crate::tolerance::{DecisionRule, HasLimits};
use crate::valve::{Specification, ValveId, ValveKind};
use alloc::string::ToString;
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
    pub(super) fn names(&self) -> ValveNames<'_> {
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

/// Works it out; nothing if no service read a valve.
pub(super) fn report(
    facts: &Facts<'_>,
    assumptions: &mut Assumptions,
) -> Result<Option<(QuantityHistoryReport, Option<RecessionReport>)>, Vec<Problem>> {
    let Some((record, valves)) = read::record(facts, assumptions)? else {
        return Ok(None);
    };
    let inches = facts.inches();
    let engine = facts.known.engine;
    let whose = valves.iter().map(|valve| Whose {
        cylinder: engine
            .cylinder(valve.cylinder)
            .map(|cylinder| cylinder.label.to_string()),
        number: Some(valve.number),
    });
    let mut bands = Vec::new();
    for book in &facts.books {
        for kind in [ValveKind::Intake, ValveKind::Exhaust] {
            let limits = book.limits(kind).judging();
            bands.push(Band {
                kind: kind.word(),
                name: book.id.clone(),
                text: printed_limits(limits, inches),
                limits,
            });
        }
    }
    let unit = if inches {
        LengthUnit::Inch
    } else {
        LengthUnit::Millimetre
    };
    let kept = Kept {
        record: &record,
        whose: whose.collect(),
        bands,
        rule: facts.rule(),
        times: facts.times,
        bedding_in: facts.asked.bedding_in,
        say: Say {
            words: &words::WORDS,
            unit: (unit.convert(1.0, LengthUnit::Millimetre), unit.symbol()),
            amount: &|mm| reckoned(mm, inches),
            value: &|mm| reckoned(mm.max(0.0), inches),
        },
    };
    let (report, fits) = drift::report(&kept, assumptions)?;
    let of = |kind: ValveKind| fits.of(kind.word());
    let recession = of(ValveKind::Exhaust)
        .and_then(|exhaust| seats::report(exhaust, of(ValveKind::Intake), facts.asked.seats));
    Ok(Some((report, recession)))
}

/// The valves of a record, in the order of its subjects.
type Valves = Vec<ValveId>;
