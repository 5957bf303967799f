//! Ignition against published values, laws and reference values.

mod breaker_laws;
mod breaker_oracles;
mod breaker_published;
mod electrics_laws;
mod electrics_oracles;
mod electrics_published;
mod point_published;
mod timing_calibration;
mod timing_laws;
mod timing_oracles;
mod timing_published;
