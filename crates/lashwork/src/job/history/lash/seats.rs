//! Whether exhaust seats sink for want of lead, in words: a hypothesis, never a verdict.
//!
//! # Sources
//! Named in [`crate::history::recession`]; what is published is told without a rate, because none of it would
//! hold for another engine.

use crate::history::{Drift, Recession, SeatFact, SeatFacts, recession};
use crate::quantity::Lash;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Whether exhaust seats sink for want of lead: a hypothesis, without a chance.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct RecessionReport {
    /// What speaks for it, what against, what is not known.
    #[serde(flatten)]
    pub facts: Recession,
    /// What it comes to, in words.
    pub text: String,
    /// What speaks for it, in words.
    pub for_text: Vec<&'static str>,
    /// What speaks against it, in words.
    pub against_text: Vec<&'static str>,
    /// What would be worth knowing, in words.
    pub not_known_text: Vec<&'static str>,
    /// What is published on it.
    pub published: Vec<&'static str>,
}

const PUBLISHED: [&str; 3] = [
    "iron seats without inserts recede many times as fast on unleaded fuel as on leaded (SAE, 1971)",
    "speed matters more than load, and very little lead protects at low to moderate speed (SAE 861550); engines \
     of low speed did not recede (SAE 871622)",
    "two engines with soft seats showed no difference in 150 hours (DOT/FAA/CT-TN89/33)",
];

/// What speaks for it and against; nothing if the exhaust valves do not close and nothing is said of the fuel.
pub(super) fn report(
    exhaust: &Drift<Lash>,
    intake: Option<&Drift<Lash>>,
    known: SeatFacts,
) -> Option<RecessionReport> {
    let facts = recession(exhaust, intake, &known);
    let closes = facts.speaks_for.contains(&SeatFact::Closes);
    if !closes && known == SeatFacts::default() {
        return None;
    }
    let told = |all: &[SeatFact], word: fn(SeatFact) -> &'static str| -> Vec<&'static str> {
        all.iter().map(|fact| word(*fact)).collect()
    };
    let text = if facts.speaks_against.is_empty() && closes {
        "seats that sink for want of lead are possible: nothing known speaks against it, and nothing here proves it"
    } else if facts.speaks_against.is_empty() {
        "seats that sink for want of lead: the readings do not show that exhaust valves close"
    } else {
        "seats that sink for want of lead: what follows speaks against it, and does not rule it out"
    };
    Some(RecessionReport {
        text: String::from(text),
        for_text: told(&facts.speaks_for, supports),
        against_text: told(&facts.speaks_against, opposes),
        not_known_text: told(&facts.not_known, open),
        published: PUBLISHED.into(),
        facts,
    })
}

const fn supports(fact: SeatFact) -> &'static str {
    match fact {
        SeatFact::Closes => "the exhaust valves close",
        SeatFact::FasterThanIntake => "they close faster than the intake valves",
        SeatFact::Alike => "all of them move alike, and fuel reaches all",
        SeatFact::Fuel => "the fuel has no lead",
        SeatFact::Seats => "the seats are not made for it",
        SeatFact::Speed => "it runs fast for long",
    }
}

const fn opposes(fact: SeatFact) -> &'static str {
    match fact {
        SeatFact::Closes => "the exhaust valves do not close",
        SeatFact::FasterThanIntake => "they close no faster than the intake valves",
        SeatFact::Alike => "one moves unlike the others, and fuel would reach all",
        SeatFact::Fuel => "the fuel has lead, or something that stands in for it",
        SeatFact::Seats => "the seats are made for it",
        SeatFact::Speed => "it does not run fast for long",
    }
}

const fn open(fact: SeatFact) -> &'static str {
    match fact {
        SeatFact::Closes => "whether the exhaust valves close at all",
        SeatFact::FasterThanIntake => "whether they close faster than the intake valves",
        SeatFact::Alike => "whether all of them move alike",
        SeatFact::Fuel => "what the fuel is",
        SeatFact::Seats => "what the seats are made of",
        SeatFact::Speed => "whether it runs fast for long",
    }
}
