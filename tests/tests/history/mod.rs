//! The record of past services against published values, laws, reference values and simulated engines.

mod charts_published;
mod columns;
mod drift_oracles;
mod drift_published;
mod make;
mod odd_simulation;
mod record_laws;
mod sinking_seat;
