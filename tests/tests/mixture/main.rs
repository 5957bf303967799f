//! Mixture and condition against published values, laws and reference values.

mod air_laws;
mod air_oracles;
mod air_published;
mod balance_laws;
mod balance_oracles;
mod balance_published;
mod balance_simulation;
mod columns;
// In one program with the mixture: linking another costs more than running it.
#[path = "../condition/mod.rs"]
mod condition;
mod float_published;
mod gas_laws;
mod gas_oracles;
mod gas_published;
mod gauge_laws;
mod gauge_published;
mod gauge_simulation;
mod idle_laws;
mod idle_oracles;
mod idle_published;
mod jets_laws;
mod jets_published;
