//! Ignition against published values, laws and reference values.

mod point_published;
mod timing_calibration;
mod timing_laws;
mod timing_oracles;
mod timing_published;
