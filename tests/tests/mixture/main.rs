//! Mixture against published values, laws and reference values.

mod balance_laws;
mod balance_oracles;
mod balance_published;
mod balance_simulation;
mod gauge_laws;
mod gauge_published;
mod gauge_simulation;
mod idle_laws;
mod idle_oracles;
mod idle_published;
