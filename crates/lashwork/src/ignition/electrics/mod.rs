//! Coil, condenser, plug: whether there is a spark, and how much to spare.
//!
//! # Conventions
//! - Resistances are compared at the book's temperature; the coil is reckoned at its own, which is hotter.
//! - A pressure at the plug is absolute.
//! - What two formulas differ by is part of the answer's uncertainty, and both are shown.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | What is this resistance at the book's temperature? | [`resistance_at`] |
//! | How much current and energy has the coil when the contacts open? | [`PrimaryCircuit::at_speed`] |
//! | From which speed is the spark weak? | [`PrimaryCircuit::speed_at`] |
//! | What do contacts that lose metal say of the condenser? | [`metal_transfer`] |
//! | How much does a leaking condenser lose? | [`charge_lost`] |
//! | What voltage do contacts and condenser see? | [`peak_primary_voltage`] |
//! | How high is the pressure when the spark comes? | [`Compression`] |
//! | What voltage does the plug need there? | [`breakdown`] |
//! | Is there enough? | [`voltage_reserve`] |
//! | Where in the band do I set the plug? | [`plug_gap_aim`] |
//!
//! # Not here
//! Whether a resistance, a capacitance or a gap is within its limits: `tolerance::judge` does that for any
//! quantity. Magnetos (`magneto`).

mod assumption;
mod breakdown;
mod coil;
mod compression;
mod condenser;
mod error;
mod paschen;
mod plug;
mod resistance;
mod weak;

pub use assumption::ElectricsAssumption;
pub use breakdown::{Breakdown, FORMULA_DOUBT, breakdown, linear_breakdown};
pub use coil::{Charge, PrimaryCircuit};
pub use compression::Compression;
pub use condenser::{BuildUp, Capacity, Earth, charge_lost, metal_transfer, peak_primary_voltage};
pub use error::ElectricsError;
pub use paschen::Paschen;
pub use plug::{PlugGapAim, VoltageReserve, plug_gap_aim, voltage_reserve};
pub use resistance::{Conductor, Corrected, resistance_at};
pub use weak::Weak;
