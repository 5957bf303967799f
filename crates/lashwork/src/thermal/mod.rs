//! Tier 2: how temperature changes the gap, and what a reading would be at the reference temperature.
//!
//! # Method
//! - A [`Chain`] of parts whose lengths open or close the gap; every part expands from its length at
//!   20 C with the coefficient of its [`Material`] at its own temperature; what happens on the cam's
//!   side of a rocker reaches the valve times the rocker ratio.
//! - Without a chain, a [`LashCoefficient`] fitted to readings of one valve at two or more
//!   temperatures ([`fit_coefficient`]).
//! - Either gives a [`Correction`]: the change of lash from the reference to the temperatures of the
//!   reading, and its uncertainty budget.
//! - With neither, and metal that is not at the reference, the change is not known: [`NotAtReference`]
//!   gives its size, and no reading is held against the figures.
//! - How long to wait: a [`CoolingFit`] to temperatures and times, and the [`Wait`] until the
//!   correction's uncertainty is small enough.
//!
//! # Conventions
//! A change is lash at temperature minus lash at reference; positive means that heat opened the
//! gap. Subtract it from the reading ([`Correction::apply`]). Lengths hold at 20 C (ISO 1).
//!
//! # Not here
//! Bending, pressure, oil films, wear; gradients within a part, beyond a fraction between two
//! temperatures; terms of second order in the uncertainties: near the reference, with a doubt of 5 to 10 K
//! in the temperature, the uncertainty is up to 13 % too small.
//!
//! This module uses `quantity` and `tolerance` only.

use crate::quantity::TemperatureDifference;

mod chain;
mod cooldown;
mod cooling_fit;
mod cooling_points;
mod correction;
mod error;
mod fit;
mod link;
mod material;
mod metal;
mod part_temperatures;
mod propagate;
mod range;
mod reference;
mod shift;
mod table;
mod taken;
mod unknown_shift;
mod wait;

pub use chain::Chain;
pub use cooldown::CoolDown;
pub use cooling_fit::{CoolingFit, CoolingReading};
pub use correction::Correction;
pub use error::ThermalError;
pub use fit::{Fit, LashCoefficient, fit_coefficient};
pub use link::{Effect, Follows, Link, Side};
pub use material::{
    CONSTANT_MAX_CELSIUS, Expansion, HELD_HALF_WIDTH, MIN_CELSIUS, Material, MeanPoint,
    UNSTATED_HALF_WIDTH,
};
pub use metal::{Metal, MetalTemperature};
pub use part_temperatures::PartTemperatures;
pub use range::TemperatureRange;
pub use reference::{COLD_HALF_WIDTH, Reference};
pub use table::{material, materials};
pub use taken::TakenWith;
pub use unknown_shift::{NEAR_REFERENCE, NotAtReference, WARM_UP, WARM_UP_MM, unknown_shift};
pub use wait::Wait;

/// Standard uncertainty taken for a metal temperature that states none. Using it is an
/// assumption that a job must list.
///
/// # Source
/// This library's choice for a probe held against metal: a thermocouple of type K, class 2, may be
/// off by 2.5 K (IEC 60584-1, from memory), a rectangle of 1.4 K; contact and place add as much.
///
/// ```
/// use lashwork::thermal::ASSUMED_THERMOMETER;
/// assert_eq!(ASSUMED_THERMOMETER.kelvin(), 2.0);
/// ```
pub const ASSUMED_THERMOMETER: TemperatureDifference = TemperatureDifference::of_kelvin::<2>();
