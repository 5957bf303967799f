//! What was found of the jets.

use crate::job::mixture::AirAroundReport;
use crate::job::work::WorkAdvice;
use crate::mixture::jets::{Circuit, JetCaution, JetRule};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Which jets go with the air there is.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct JetsReport {
    /// What came out, in words.
    pub verdict_text: String,
    /// The air the jets were chosen for; that they go to is the section's.
    pub set_for: AirAroundReport,
    /// Density of the air they go to over that they were chosen for.
    pub ratio: f64,
    /// Standard uncertainty of that.
    pub ratio_u: f64,
    /// The jets, as they were asked for.
    pub jets: Vec<JetReport>,
}

/// A jet, and what could take its place.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct JetReport {
    /// Which jet, in words.
    pub name: String,
    /// The circuit.
    pub circuit: Circuit,
    /// The number that is fitted.
    pub fitted: f64,
    /// What came out, in words.
    pub verdict_text: String,
    /// What each rule asks for, side by side.
    pub rules: Vec<JetRuleReport>,
    /// How the rules stand to each other, in words.
    pub rules_text: String,
    /// Whether lambda was known: if not, the lambdas of sizes are shares of the one it had.
    pub is_lambda_known: bool,
    /// What is fitted, in the air there is.
    pub kept: JetSizeReport,
    /// The sizes around what the rules ask for, what is fitted and what is to be fitted, rising.
    pub sizes: Vec<JetSizeReport>,
    /// The size to fit; none if there is none, or something else is to be settled first.
    pub fit: Option<f64>,
    /// What to mind.
    pub cautions: Vec<JetCautionReport>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// What a rule asks for.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct JetRuleReport {
    /// The rule.
    pub rule: JetRule,
    /// The number, between the sizes there are.
    pub number: f64,
    /// Its standard uncertainty by that of the densities; none of a book's steps.
    pub number_u: Option<f64>,
    /// The nearest size on the rich side by the number alone; none if there is none.
    pub nearest: Option<f64>,
    /// The smallest size that is rich enough by it, its doubt counted; none if there is none.
    pub size: Option<f64>,
    /// The same in words.
    pub text: String,
}

/// A size, and what it does.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct JetSizeReport {
    /// Its number.
    pub number: f64,
    /// The least lambda in the air there is, by one of theory and proportion.
    pub lambda_from: f64,
    /// The greatest, by the other.
    pub lambda_to: f64,
    /// Standard uncertainty of either.
    pub lambda_u: f64,
    /// Lambda with it in the air the jets were chosen for.
    pub back: f64,
    /// Standard uncertainty of that.
    pub back_u: f64,
    /// The same in words.
    pub text: String,
}

/// What to mind about a jet.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct JetCautionReport {
    /// What.
    pub caution: JetCaution,
    /// In words.
    pub text: String,
}
