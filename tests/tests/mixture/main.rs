//! Mixture against published values, laws and reference values.

mod gas_laws;
mod gas_oracles;
mod gas_published;
