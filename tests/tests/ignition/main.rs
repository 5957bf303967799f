//! Ignition against published values, laws and reference values.

mod breaker_laws;
mod breaker_oracles;
mod breaker_published;
mod electrics_laws;
mod electrics_oracles;
mod electrics_published;
mod evenness_laws;
mod evenness_oracles;
mod evenness_published;
mod leads_laws;
mod leads_oracles;
mod leads_simulation;
mod leads_trade;
mod magneto_published;
mod point_published;
mod timing_calibration;
mod timing_laws;
mod timing_oracles;
mod timing_published;
