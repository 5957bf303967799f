//! What a request leaves open and what is assumed instead, gathered for the report.

use crate::causes::CauseAssumption;
use crate::condition::compression::CompressionAssumption;
use crate::condition::leak::LeakAssumption;
use crate::engine::EngineAssumption;
use crate::events::EventsAssumption;
use crate::history::HistoryAssumption;
use crate::ignition::breaker::BreakerAssumption;
use crate::ignition::electrics::ElectricsAssumption;
use crate::ignition::evenness::EvennessAssumption;
use crate::ignition::leads::LeadAssumption;
use crate::mixture::air::AirAssumption;
use crate::mixture::balance::BalanceAssumption;
use crate::mixture::float::FloatAssumption;
use crate::mixture::gas::GasAssumption;
use crate::mixture::gauge::GaugeAssumption;
use crate::mixture::idle::IdleAssumption;
use crate::mixture::jets::JetAssumption;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt::Display;
use serde::Serialize;

/// Something the kernel had to assume because the request did not say it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Assumption {
    /// A short name that never changes.
    pub code: String,
    /// What was assumed, with values.
    pub text: String,
    /// What may hang on it.
    pub bears_on: BearsOn,
}

/// What may hang on an assumption.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum BearsOn {
    /// What a reading is judged to be.
    Verdict,
    /// Where the crank is stopped for a valve.
    Place,
    /// Neither: an amount, an order of work, a finding.
    Other,
}

/// What an answer of the core takes for granted, with its short name.
pub(super) trait TakenForGranted: Display {
    fn short_name(&self) -> &'static str;
}

macro_rules! taken_for_granted {
    ($($type:ty),+ $(,)?) => {$(
        impl TakenForGranted for $type {
            fn short_name(&self) -> &'static str {
                self.code()
            }
        }
    )+};
}

taken_for_granted!(
    CauseAssumption,
    EngineAssumption,
    CompressionAssumption,
    LeakAssumption,
    EventsAssumption,
    BreakerAssumption,
    ElectricsAssumption,
    EvennessAssumption,
    AirAssumption,
    LeadAssumption,
    BalanceAssumption,
    GasAssumption,
    GaugeAssumption,
    IdleAssumption,
    JetAssumption,
    FloatAssumption,
    HistoryAssumption,
);

/// The assumptions of one run, each once.
#[derive(Default)]
pub(super) struct Assumptions(Vec<Assumption>);

impl Assumptions {
    /// Notes one on which neither a verdict nor a place hangs.
    pub(super) fn add(&mut self, code: &str, text: impl Into<String>) {
        self.note(code, text.into(), BearsOn::Other);
    }

    /// Notes what answers of the core take for granted.
    pub(super) fn add_all<'t, T: TakenForGranted + 't>(
        &mut self,
        taken: impl IntoIterator<Item = &'t T>,
    ) {
        for one in taken {
            self.add(one.short_name(), one.to_string());
        }
    }

    /// Notes one that could change what a reading is judged to be.
    pub(super) fn bears_on_verdict(&mut self, code: &str, text: impl Into<String>) {
        self.note(code, text.into(), BearsOn::Verdict);
    }

    /// Notes one that could change where the crank is stopped for a valve.
    pub(super) fn bears_on_place(&mut self, code: &str, text: impl Into<String>) {
        self.note(code, text.into(), BearsOn::Place);
    }

    fn note(&mut self, code: &str, text: String, bears_on: BearsOn) {
        self.0.push(Assumption {
            code: code.to_string(),
            text,
            bears_on,
        });
    }

    /// The list, in order of codes.
    pub(super) fn list(mut self) -> Vec<Assumption> {
        self.0.sort();
        self.0.dedup();
        self.0
    }
}
