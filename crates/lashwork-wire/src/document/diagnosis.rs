//! What the diagnosis over all readings is told.

use schemars::JsonSchema;

parts! {
    /// What the diagnosis over all readings is told.
    DiagnosisDoc {
        /// Probability, before any reading, that anything is special; 0.1 is taken, and listed.
        prior: f64,
    }
}
