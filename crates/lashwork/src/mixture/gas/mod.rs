//! Exhaust gas: how rich the engine runs, and whether the gases can be believed.
//!
//! # Conventions
//! - Shares are of dry gas, in per cent by volume; hydrocarbons as the tester shows them, with what a
//!   molecule of them counts for.
//! - The fuel is always stated: petrol with 10 % of ethanol needs 4 % less air than without.
//! - Gases that cannot stand side by side are an answer with causes, not an error: a leak behind the
//!   cylinders makes a rich engine look lean, and leaning it out then hurts it.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How much air burns this fuel? | [`Fuel::air_fuel_ratio`] |
//! | What is lambda from the four or five gases? | [`lambda`] |
//! | What from carbon monoxide alone? | [`lambda_from_co`] |
//! | How far may the tester be off? | [`AnalyserClass::uncertainty`] |
//! | What does not fit together, and why? | [`GasDoubt`] |
//! | All of it for columns of readings? | [`lambda_columns`] |
//!
//! # Not here
//! Whether carbon monoxide or lambda is within a stated limit: `tolerance::judge` does that.

mod analyser;
mod answer;
mod assumption;
mod atoms;
mod columns;
mod contradiction;
mod error;
mod from_co;
mod fuel;
mod readings;

pub use analyser::{AnalyserClass, GasUncertainty};
pub use answer::{LambdaOfGas, lambda};
pub use assumption::GasAssumption;
pub use columns::{GasColumns, LambdaRow, lambda_columns};
pub use contradiction::{GasCause, GasContradiction, GasDoubt, co_without_air};
pub use error::GasError;
pub use from_co::{LambdaFromCo, lambda_from_co};
pub use fuel::{BlendRule, Fuel, blended_air_fuel_ratio};
pub use readings::{ExhaustGas, HydrocarbonFactor, Hydrocarbons};
