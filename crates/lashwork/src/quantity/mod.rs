//! Tier 0: typed quantities, how they are written and how they are shown.
//!
//! # Conventions
//! - A mark, a printed limit and a shim size are exact: whole nanometres ([`Nominal`], [`Marked`]).
//! - Measured and computed values are `f64` in a type of their own ([`Lash`], [`LashChange`],
//!   [`Length`], [`ShimThickness`]); uom carries the unit inside.
//! - Crank, cam, distributor, screw and frame angles are different types, in degrees: marks and
//!   firing intervals are whole or simple fractions of degrees, radians would lose them.
//! - A temperature is a point, a temperature difference is an amount.
//!
//! # Not here
//! Uncertainty and limits (`tolerance`), anything about an engine.
//!
//! This module uses no other module of the crate.

mod angle;
mod conversion;
mod elapsed;
mod error;
mod length;
mod nominal;
mod quoted;
mod refusal;
#[cfg(feature = "schema")]
mod schema;
pub(crate) mod si;
mod temperature;
mod written;

pub use angle::{
    AxisAngle, CamAngle, CrankAngle, Cycle, CyclePosition, DistributorAngle, ScrewAngle,
};
pub use conversion::TemperatureUnit;
pub use elapsed::Elapsed;
pub use error::QuantityError;
pub use length::{Lash, LashChange, Length, PinOffset, ScrewTravel, ShimThickness};
pub use nominal::{LengthUnit, Marked, Nominal};
pub use quoted::Quoted;
pub use refusal::Refusal;
pub use temperature::{Temperature, TemperatureDifference};
pub use written::Written;
