//! What is said of the head's bolts.

use crate::job::work::WorkAdvice;
use crate::quantity::Torque;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The head's bolts: whether they are to be tightened, in which order, and with what on the wrench.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct HeadReport {
    /// Where they stand, in words.
    pub verdict_text: String,
    /// The order in which they are tightened: the maker's if it is stated, else from the middle outward.
    pub order: Vec<String>,
    /// That in words.
    pub order_text: Option<String>,
    /// What is odd about the order that is stated.
    pub order_faults: Vec<String>,
    /// What to set on the wrench, if the torque is stated.
    pub set: Option<Torque>,
    /// That in words, with the force it leaves.
    pub torque_texts: Vec<String>,
    /// What the tightening does to the valve clearances.
    pub lash_text: Option<String>,
    /// What to do.
    pub advice: WorkAdvice,
}
