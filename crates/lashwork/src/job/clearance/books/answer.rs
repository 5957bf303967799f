//! What is said of a specification.

use crate::quantity::Temperature;
use crate::thermal::NotAtReference;
use crate::valve::{Applicability, Condition};
use alloc::string::String;
use serde::Serialize;

/// A specification as understood.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SpecificationReport {
    /// Its identifier in the request.
    pub id: String,
    /// The document it is printed in, with edition and what it is for.
    pub provenance: String,
    /// Whether it applies to this engine.
    pub applicability: Applicability,
    /// Whether its limits hold for a cold or a hot engine.
    pub condition: Condition,
    /// Temperature at which its limits hold; nothing for a hot engine if none is printed.
    pub reference: Option<Temperature>,
    /// Why no reading can be held against it, if the metal is not at that temperature and nothing says how
    /// the lash follows.
    pub not_at_reference: Option<NotAtReference>,
    /// The other column, cold or hot, of the same book, if that fits the metal's temperature better and
    /// is used instead.
    pub used_instead: Option<String>,
    /// Where the gap is measured, if it says so.
    pub measured_at: Option<String>,
    /// Intake limits in words.
    pub intake: String,
    /// Exhaust limits in words.
    pub exhaust: String,
}
