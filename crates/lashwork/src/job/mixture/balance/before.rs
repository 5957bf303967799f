//! On what ground the balance stands: what must be right beforehand.

use super::Elsewhere;
use super::answer::BalanceBeforeReport;
use crate::job::work::{Before, Standing};
use crate::mixture::balance::{Before as What, Beforehand, Stands};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What was said of what must be right beforehand, here or by the steps before.
pub(super) struct Ground {
    pub(super) known: Beforehand,
    /// What is not right and no step of its own.
    pub(super) wrong: Option<&'static str>,
    /// What to settle first; with it no screw is turned.
    pub(super) settle: Option<String>,
    /// What to be sure of, because nothing says.
    pub(super) sure: Vec<String>,
}

impl Ground {
    pub(super) fn of(stated: Beforehand, elsewhere: Elsewhere<'_>, before: &Before) -> Self {
        let settled = |standing: Option<Standing>| match standing {
            Some(Standing::Settled) => Some(true),
            Some(Standing::NotSettled) => Some(false),
            Some(Standing::NotKnown) | None => None,
        };
        let known = Beforehand {
            clearances: stated.clearances.or(settled(elsewhere.valves)),
            ignition: stated.ignition.or(settled(elsewhere.timing)),
            float_level: stated.float_level.or(settled(elsewhere.float)),
            compression: stated.compression.or(elsewhere.compression),
            ..stated
        };
        let missing = known.unsettled();
        let mut not_right = missing.iter().filter(|(_, why)| *why == Stands::NotRight);
        let first = not_right.clone().next();
        let low = low(stated, elsewhere);
        let first = first.map(|(what, why)| match &low {
            Some(low) if *what == What::Compression => format!("see to it first: {low}"),
            _ => format!("see to it first: {}", told(*what, *why)),
        });
        let wrong = not_right.find(|(what, _)| sure(*what).is_some());
        let not_checked = missing.iter().filter(|(_, why)| *why == Stands::NotChecked);
        // Of those that are steps the order of work says it.
        let sure = not_checked.filter_map(|(what, _)| sure(*what));
        let mut all = before.sure.clone();
        all.extend(sure.map(ToString::to_string));
        Self {
            known,
            wrong: wrong.map(|(what, why)| told(*what, *why)),
            settle: before.settle.clone().or(first),
            sure: all,
        }
    }

    /// All that the balance does not rest on, for the report.
    pub(super) fn told(&self) -> Vec<BalanceBeforeReport> {
        let missing = self.known.unsettled().into_iter();
        missing
            .map(|(what, stands)| BalanceBeforeReport {
                what,
                stands,
                text: told(what, stands),
            })
            .collect()
    }
}

/// The cylinders that were found low, in words.
fn low(stated: Beforehand, elsewhere: Elsewhere<'_>) -> Option<String> {
    if stated.compression.is_some() {
        return None;
    }
    let low = elsewhere.by_cylinder.iter().filter(|(_, wrong)| *wrong);
    let low: Vec<&str> = low.map(|(label, _)| label.as_str()).collect();
    (!low.is_empty()).then(|| {
        format!(
            "compression was found low on cylinder {}, and no screw of the linkage mends that",
            low.join(", ")
        )
    })
}

/// Whether the balance cannot be right because of it, whatever the gauge shows.
pub(super) fn is_wrong(one: &BalanceBeforeReport) -> bool {
    one.stands == Stands::NotRight && sure(one.what).is_some()
}

const fn sure(what: What) -> Option<&'static str> {
    match what {
        What::Compression => {
            Some("compression is within its limits on every cylinder: a screw would hide it")
        }
        What::Sealing => Some("no air is drawn in behind a throttle: a screw would hide it"),
        What::IdleSpeed => Some("the engine idles at the speed the book asks for"),
        What::Clearances | What::Ignition | What::FloatLevel => None,
    }
}

const fn told(what: What, stands: Stands) -> &'static str {
    match (what, stands) {
        (What::Clearances, Stands::NotChecked) => "valve clearances were not checked",
        (What::Clearances, Stands::NotRight) => "valve clearances are not right",
        (What::Compression, Stands::NotChecked) => "compression was not tested",
        (What::Compression, Stands::NotRight) => {
            "compression is not even or not within its limits, and no screw of the linkage mends that"
        }
        (What::Sealing, Stands::NotChecked) => {
            "nobody looked whether air is drawn in behind a throttle"
        }
        (What::Sealing, Stands::NotRight) => {
            "air is drawn in behind a throttle, and a screw would only hide it"
        }
        (What::Ignition, Stands::NotChecked) => "the ignition was not checked",
        (What::Ignition, Stands::NotRight) => "the ignition is not right",
        (What::FloatLevel, Stands::NotChecked) => "the fuel level was not checked",
        (What::FloatLevel, Stands::NotRight) => "the fuel level is not right",
        (What::IdleSpeed, Stands::NotChecked) => "the idle speed was not checked",
        (What::IdleSpeed, Stands::NotRight) => "the idle speed is not that of the book",
    }
}
