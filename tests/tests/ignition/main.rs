//! Ignition against published values, laws and reference values.

mod evenness_laws;
mod evenness_oracles;
mod evenness_published;
mod leads_laws;
mod leads_simulation;
mod leads_trade;
mod magneto_published;
