//! Ignition against published values, laws and reference values.

mod breaker_laws;
mod breaker_oracles;
mod breaker_published;
mod electrics_laws;
mod electrics_oracles;
mod electrics_published;
