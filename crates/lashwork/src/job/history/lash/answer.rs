//! What is said of valve clearances over the years.

use crate::history::{Departure, Figure, Forecast, Look, NotKnown, Recession, TooFew};
use crate::job::history::HistoryChartReport;
use crate::job::work::WorkAdvice;
use crate::valve::ValveKind;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Valve clearances over the years.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LashHistoryReport {
    /// Where to look first, and when; nothing if that cannot be said.
    pub next: Option<String>,
    /// What must be sure before any of it is relied on.
    pub sure: Vec<&'static str>,
    /// The drift of each kind of valves.
    pub kinds: Vec<LashDriftReport>,
    /// Each valve, by cylinder, intake before exhaust.
    pub valves: Vec<ValveDriftReport>,
    /// Whether exhaust seats sink for want of lead: what speaks for it and against, if they close.
    pub recession: Option<RecessionReport>,
}

/// How fast the lash of a kind of valves changes.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LashDriftReport {
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// In words.
    pub text: String,
    /// The rate of the kind, in millimetres for a unit of the count; negative where the lash closes.
    pub rate: Option<Figure>,
    /// How far readings scatter about their lines besides what they state, in millimetres.
    pub scatter_mm: Option<f64>,
    /// Why there is no rate.
    pub too_few: Option<TooFew>,
    /// How often one would be called odd though none is, if valves are compared.
    pub false_alarms: Option<f64>,
}

/// One valve.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ValveDriftReport {
    /// Cylinder label.
    pub cylinder: String,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// Which of its kind, from 1.
    pub number: u8,
    /// The valve by name.
    pub name: String,
    /// Its last reading, in words.
    pub last: Option<String>,
    /// Its rate, in millimetres for a unit of the count; negative where the lash closes.
    pub rate: Option<Figure>,
    /// The same in words.
    pub rate_text: Option<String>,
    /// Why nothing is forecast, if readings do not show where it stands.
    pub not_known: Option<NotKnown>,
    /// Whether it moves unlike its mates; nothing where there are too few of them to say.
    pub odd: Option<OddLashReport>,
    /// What it will be at the next service, if that comes after the usual time.
    pub forecast: Option<Forecast>,
    /// The same in words.
    pub forecast_text: Option<String>,
    /// When to look next, by each specification that may apply.
    pub looks: Vec<LashLookReport>,
    /// What its new parts did before they had bedded in.
    pub bedding: Vec<LashBeddingReport>,
    /// How far it departs from its kind from service to service, for a chart.
    pub departures: Vec<Departure>,
    /// Its readings and its line, for a chart, in millimetres.
    pub chart: HistoryChartReport,
    /// What to do on account of its drift.
    pub advice: WorkAdvice,
}

/// How a valve compares with its mates.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct OddLashReport {
    /// Whether it moves unlike its mates.
    pub is_odd: bool,
    /// How many times more probable its readings are if it does.
    pub evidence: f64,
    /// How many times it takes to say so.
    pub needed: f64,
    /// After which service that most probably began, from 0.
    pub since: Option<usize>,
    /// In words, if it is odd.
    pub text: Option<String>,
}

/// When to look at a valve next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LashLookReport {
    /// The specification.
    pub specification: String,
    /// Its limits, as printed.
    pub limits: String,
    /// The lower one in millimetres, for a chart.
    pub low_mm: Option<f64>,
    /// The upper one, likewise.
    pub high_mm: Option<f64>,
    /// When, on the count of the history.
    pub look: Look,
    /// The same in words.
    pub text: String,
}

/// What new parts did before they had bedded in.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LashBeddingReport {
    /// When they were set, on the count of the history.
    pub set_at: f64,
    /// By how much the lash changed, in millimetres.
    pub amount: Figure,
    /// In words.
    pub text: String,
}

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
