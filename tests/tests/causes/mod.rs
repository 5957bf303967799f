//! Causes against published readings, laws, and simulated engines.

mod calibration;
mod drawn;
mod laws;
mod published;
mod shown;
