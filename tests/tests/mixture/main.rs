//! Mixture against published values, laws and reference values.

mod air_laws;
mod air_oracles;
mod air_published;
mod columns;
mod float_published;
mod gas_laws;
mod gas_oracles;
mod gas_published;
mod jets_laws;
mod jets_published;
