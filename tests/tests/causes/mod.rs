//! Causes against published readings, laws, and simulated engines.

mod blind;
mod calibration;
mod drawn;
mod held_out;
mod judged;
mod laws;
mod published;
mod shown;
mod table;
mod third;
