//! What is said of one quantity over the years.

use crate::history::{Departure, Figure, Forecast, Look, NotKnown, TooFew};
use crate::job::history::HistoryChartReport;
use crate::job::work::WorkAdvice;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// One quantity over the years.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct QuantityHistoryReport {
    /// Where to look first, and when; nothing if that cannot be said.
    pub next: Option<String>,
    /// What must be sure before any of it is relied on.
    pub sure: Vec<&'static str>,
    /// What rates and readings are in: `mm`, `deg`, `kPa` or `mm2`.
    pub unit: &'static str,
    /// The drift of each kind.
    pub kinds: Vec<KindDriftReport>,
    /// Each valve, cylinder or whatever was read, by cylinder.
    pub subjects: Vec<SubjectDriftReport>,
    /// Those of whom the same is to be said, said once; the others have words of their own.
    pub alike: Vec<AlikeReport>,
}

/// Several of whom the same is to be said.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct AlikeReport {
    /// Which, by place among the subjects, from 0.
    pub subjects: Vec<usize>,
    /// Who they are, what was last read of them and how fast they change, a text for each kind.
    pub texts: Vec<String>,
    /// What to do on account of their drift.
    pub advice: WorkAdvice,
}

/// How fast a kind changes: exhaust valves, the compression of the cylinders.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct KindDriftReport {
    /// Intake or exhaust, or what is read.
    pub kind: String,
    /// In words.
    pub text: String,
    /// The rate of the kind, in the unit of the quantity for a unit of the count; negative where it falls, or a lash closes.
    pub rate: Option<Figure>,
    /// How far readings scatter about their lines besides what they state, in the unit of the
    /// quantity.
    pub scatter: Option<f64>,
    /// Why there is no rate.
    pub too_few: Option<TooFew>,
    /// How often one would be called odd though none is, if valves are compared.
    pub false_alarms: Option<f64>,
}

/// One valve, cylinder, or whatever was read.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SubjectDriftReport {
    /// Cylinder label, if it is of one.
    pub cylinder: Option<String>,
    /// Intake or exhaust, or what is read.
    pub kind: String,
    /// Which of its kind in the cylinder, from 1, if there can be several.
    pub number: Option<u8>,
    /// By name.
    pub name: String,
    /// Its last reading, in words.
    pub last: Option<String>,
    /// Its rate, in the unit of the quantity for a unit of the count; negative where it falls, or a lash closes.
    pub rate: Option<Figure>,
    /// The same in words.
    pub rate_text: Option<String>,
    /// Why nothing is forecast, if readings do not show where it stands.
    pub not_known: Option<NotKnown>,
    /// Whether it moves unlike its mates; nothing where there are too few of them to say.
    pub odd: Option<OddDriftReport>,
    /// What it will be at the next service, if that comes after the usual time.
    pub forecast: Option<Forecast>,
    /// The same in words.
    pub forecast_text: Option<String>,
    /// When to look next, by each specification that may apply.
    pub looks: Vec<LookReport>,
    /// What its new parts did before they had bedded in.
    pub bedding: Vec<BeddingReport>,
    /// How far it departs from its kind from service to service, for a chart.
    pub departures: Vec<Departure>,
    /// Its readings and its line, for a chart.
    pub chart: HistoryChartReport,
    /// What to do on account of its drift.
    pub advice: WorkAdvice,
}

/// How one compares with its mates.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct OddDriftReport {
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

/// When to look at one next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LookReport {
    /// Whose limits they are.
    pub specification: String,
    /// Its limits, as printed.
    pub limits: String,
    /// When, on the count of the history.
    pub look: Look,
    /// The same in words.
    pub text: String,
}

/// What new parts did before they had bedded in.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BeddingReport {
    /// When they were set, on the count of the history.
    pub set_at: f64,
    /// By how much it changed, in the unit of the quantity.
    pub amount: Figure,
    /// In words.
    pub text: String,
}
