//! Mixture against published values, laws and reference values.

mod balance_laws;
mod balance_oracles;
mod balance_published;
mod balance_simulation;
