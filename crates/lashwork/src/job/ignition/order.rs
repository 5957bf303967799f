//! The order of work: each step leans on the ones before it, and takes their numbers when it is not settled.
//!
//! # Source
//! Gap or dwell before timing, since it moves the spark: makers' manuals, named in the tests. Valves before
//! ignition: common practice, no source.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// A step, in the order of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum IgnitionStep {
    /// Valve clearances, the step before ignition.
    Valves,
    /// Which lead goes where, and whether the distributor is in by the right tooth.
    Leads,
    /// Contacts: gap or dwell.
    Contacts,
    /// Timing: where the spark comes.
    Timing,
    /// Advance with speed and vacuum.
    Advance,
    /// How evenly the cylinders fire.
    Evenness,
    /// Coil, condenser and plugs.
    Electrics,
}

impl IgnitionStep {
    /// The step in words.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Valves => "valve clearances",
            Self::Leads => "leads and distributor drive",
            Self::Contacts => "contacts",
            Self::Timing => "timing",
            Self::Advance => "advance",
            Self::Evenness => "evenness",
            Self::Electrics => "coil, condenser and plugs",
        }
    }

    /// The steps it leans on.
    const fn leans_on(self) -> &'static [Self] {
        match self {
            Self::Valves | Self::Electrics => &[],
            Self::Leads | Self::Contacts => &[Self::Valves],
            Self::Timing => &[Self::Valves, Self::Leads, Self::Contacts],
            Self::Advance => &[Self::Contacts],
            Self::Evenness => &[Self::Leads, Self::Contacts],
        }
    }
}

/// How far a step is settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// As the book asks.
    Settled,
    /// Not as the book asks, or not decided by what was read.
    NotSettled,
    /// Nothing says.
    NotKnown,
}

/// Where a step stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct StepReport {
    /// The step.
    pub step: IgnitionStep,
    /// The same in words.
    pub name: &'static str,
    /// How far it is settled.
    pub standing: Standing,
    /// Why, in words.
    pub text: String,
}

/// Something to settle before the steps it concerns are acted on.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IgnitionStopReport {
    /// What was found, and what to do about it.
    pub text: String,
    /// The steps whose numbers it takes back.
    pub concerns: Vec<IgnitionStep>,
}

/// What a step hears of those before it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Before {
    /// What to settle first; with it no amount is given.
    pub(super) settle: Option<String>,
    /// What to be sure of, because nothing says.
    pub(super) sure: Vec<String>,
}

/// The steps gone through so far.
#[derive(Default)]
pub(super) struct Order {
    steps: Vec<StepReport>,
    stops: Vec<IgnitionStopReport>,
}

impl Order {
    /// Notes where a step stands.
    pub(super) fn note(&mut self, step: IgnitionStep, (standing, text): (Standing, String)) {
        self.steps.push(StepReport {
            step,
            name: step.word(),
            standing,
            text,
        });
    }

    /// Notes something that takes back the numbers of steps.
    pub(super) fn stop(&mut self, text: String, concerns: Vec<IgnitionStep>) {
        self.stops.push(IgnitionStopReport { text, concerns });
    }

    /// What a step hears of those it leans on.
    pub(super) fn before(&self, step: IgnitionStep) -> Before {
        let mut before = Before::default();
        for leaned_on in step.leans_on() {
            let noted = self.steps.iter().find(|noted| noted.step == *leaned_on);
            match noted.map(|noted| (noted.standing, &noted.text)) {
                Some((Standing::Settled, _)) => {}
                Some((Standing::NotSettled, why)) => {
                    let first = format!("settle the {} first: {why}", leaned_on.word());
                    before.settle.get_or_insert(first);
                }
                Some((Standing::NotKnown, _)) | None => before
                    .sure
                    .push(format!("the {} are settled", leaned_on.word())),
            }
        }
        before
    }

    /// The stop-work lines and the steps, in the order of work. A step that is not settled takes back the
    /// numbers of those that were read and lean on it.
    pub(super) fn told(mut self) -> (Vec<IgnitionStopReport>, Vec<StepReport>) {
        self.steps.sort_by_key(|noted| noted.step);
        for noted in &self.steps {
            let leaning = self.steps.iter().filter(|other| {
                other.step.leans_on().contains(&noted.step) && other.standing != Standing::NotKnown
            });
            let concerns: Vec<IgnitionStep> = leaning.map(|other| other.step).collect();
            if noted.standing == Standing::NotSettled && !concerns.is_empty() {
                self.stops.push(IgnitionStopReport {
                    text: format!("settle the {} first: {}", noted.step.word(), noted.text),
                    concerns,
                });
            }
        }
        (self.stops, self.steps)
    }
}
