//! Air: how dense it is where the engine breathes.
//!
//! # Conventions
//! - Density comes from readings (CIPM-2007) or from the height alone (ISO 2533); the answer names which.
//! - A pressure is that of the place; a barometer set to sea level is another thing ([`Barometer`]).
//! - Heights are geopotential, as in the standard atmosphere.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How dense is the air, by readings? | [`density`] |
//! | How dense, by the height, alone or with a thermometer? | [`density_at`], [`density_at_temperature`] |
//! | At which height is the standard atmosphere as dense? | [`density_altitude`] |
//! | What does this barometer show? | [`Barometer::station`] |
//! | What is a gauge's reading above nothing? | [`absolute`], [`absolute_under`] |
//! | Are two printed pressures one? | [`printed_pair`] |
//! | How dense, for columns of readings? | [`density_columns`] |
//!
//! # Not here
//! What it does to the mixture (`jets`).

mod answer;
mod assumption;
mod barometer;
mod columns;
mod error;
mod moist;
mod printed_pair;
mod standard;

pub use answer::{
    AirDensity, AirReading, DensityLaw, WEATHER_SHARE, density, density_at, density_at_temperature,
    laws_differ_by,
};
pub use assumption::AirAssumption;
pub use barometer::{Barometer, BarometerDoubt, absolute, absolute_under};
pub use columns::{AirColumns, DensityRow, density_columns};
pub use error::AirError;
pub use moist::MoistAir;
pub use printed_pair::{PrintedPair, printed_pair};
pub use standard::{
    StandardAir, density_altitude, sea_level_setting, standard_air, station_pressure,
};
