//! Causes against published readings, laws, and simulated engines.

mod asked;
mod blind;
mod by_hand;
mod calibration;
mod counted_once;
mod drawn;
mod held_out;
mod idling;
mod judged;
mod laws;
mod published;
mod shown;
mod table;
mod third;
