//! What must be settled before any valve is set, and whose numbers it takes back.

pub(in crate::job) mod answer;
pub(in crate::job) mod sheet;

use crate::clearance::Advice;
use crate::job::clearance::settle::StopWorkCode;
use crate::job::text::ValveNames;
use crate::quantity::Lash;
use crate::valve::{ValveId, ValveLimits};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use answer::StopWorkReport;

/// A finding that comes before every setting it spoils.
pub(in crate::job) struct StopWork {
    code: StopWorkCode,
    text: String,
    spoils: Vec<ValveId>,
}

impl StopWork {
    pub(in crate::job) fn new(code: StopWorkCode, text: String, spoils: Vec<ValveId>) -> Self {
        Self { code, text, spoils }
    }

    pub(in crate::job) fn text(&self) -> &str {
        &self.text
    }

    pub(in crate::job) fn spoils(&self, valve: ValveId) -> bool {
        self.spoils.contains(&valve)
    }

    /// As the report shows it.
    pub(in crate::job) fn report(&self, names: ValveNames<'_>) -> StopWorkReport {
        StopWorkReport {
            code: self.code,
            text: self.text.clone(),
            valves: self.spoils.iter().map(|v| names.of(*v)).collect(),
        }
    }
}

/// What to do at a valve instead of setting it; none if nothing spoils its numbers.
pub(in crate::job) fn settle(found: &[StopWork], valve: ValveId) -> Option<Advice> {
    let mut what: Vec<&str> = Vec::new();
    // Which temperature to wait for is said in the valve's own advice, which holds no amount either.
    let settled_here = |one: &&StopWork| one.code != StopWorkCode::NotAtReference;
    for one in found
        .iter()
        .filter(|one| one.spoils(valve))
        .filter(settled_here)
    {
        let words = one.code.what();
        if !what.contains(&words) {
            what.push(words);
        }
    }
    let text = format!("settle first: {}", what.join("; "));
    (!what.is_empty()).then_some(Advice::SettleFirst { text })
}

/// One valve with what each book that may apply says about it.
pub(in crate::job) struct ByBooks<'r> {
    pub(in crate::job) valve: ValveId,
    pub(in crate::job) said: Vec<(&'r ValveLimits, &'r Advice)>,
}

/// That books which may apply ask for different things at a valve.
pub(in crate::job) fn books(ids: &[&str], valves: &[ByBooks<'_>]) -> Option<StopWork> {
    let apart = valves.iter().filter(|one| are_apart(&one.said));
    let spoils: Vec<ValveId> = apart.map(|one| one.valve).collect();
    let count = match spoils.len() {
        0 => return None,
        1 => String::from("1 valve"),
        n => format!("{n} valves"),
    };
    let text = format!(
        "{} ask for different things at {count}: settle first which book applies to this engine \
         (its number, its plate, what it was last set to)",
        ids.join(" and ")
    );
    Some(StopWork::new(StopWorkCode::BooksDisagree, text, spoils))
}

/// Whether one book would have the valve set and another would not, or not to a value the first
/// allows.
fn are_apart(said: &[(&ValveLimits, &Advice)]) -> bool {
    let sets = |advice: &Advice| matches!(advice, Advice::Reset(_));
    let leaves = |advice: &Advice| matches!(advice, Advice::Leave { .. } | Advice::Measure { .. });
    let allows = |a: &ValveLimits, b: &ValveLimits| {
        Lash::from_nominal(b.set_to().nominal()).is_ok_and(|to| a.set().contains(to))
    };
    said.iter().enumerate().any(|(i, (limits, advice))| {
        said.iter().skip(i + 1).any(|(others, other)| {
            (sets(advice) && leaves(other))
                || (leaves(advice) && sets(other))
                || (sets(advice)
                    && sets(other)
                    && !(allows(limits, others) && allows(others, limits)))
        })
    })
}
