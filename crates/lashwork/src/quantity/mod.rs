//! Tier 0: typed quantities, how they are written and how they are shown.
//!
//! # Conventions
//! - A mark, a printed limit and a shim size are exact: whole nanometres ([`Nominal`], [`Marked`]).
//! - Measured and computed values are `f64` in a type of their own ([`Lash`], [`LashChange`],
//!   [`Length`], [`ShimThickness`]); uom carries the unit inside.
//! - Crank, cam, distributor, magneto, screw and frame angles are different types, in degrees: marks and
//!   firing intervals are whole or simple fractions of degrees, radians would lose them.
//! - A temperature is a point, a temperature difference is an amount; so are an ignition point
//!   ([`Advance`]) and a crank angle.
//! - Absolute and gauge pressure and vacuum are three types, crank and distributor speed two.
//!
//! # Not here
//! Uncertainty and limits (`tolerance`), anything about an engine.
//!
//! This module uses no other module of the crate.

mod advance;
mod air;
mod angle;
mod brief_time;
mod bulk;
mod conversion;
mod elapsed;
mod electric;
mod error;
mod flow;
mod length;
mod nominal;
mod pressure;
mod quoted;
mod refusal;
mod scalar;
#[cfg(feature = "schema")]
mod schema;
pub(crate) mod shown;
pub(crate) mod si;
mod speed;
mod temperature;
mod turns_out;
mod written;

pub use advance::{Advance, DistributorAdvance};
pub use air::{Altitude, Density, Lambda, Mass, RelativeHumidity, VolumeShare};
pub use angle::{
    AxisAngle, CamAngle, CrankAngle, Cycle, CyclePosition, DistributorAngle, MagnetoAngle,
    ScrewAngle,
};
pub use brief_time::BriefTime;
pub use bulk::{Area, Force, Torque, Volume};
pub use conversion::TemperatureUnit;
pub use elapsed::Elapsed;
pub use electric::{Capacitance, Current, Energy, Inductance, Resistance, Voltage};
pub use error::QuantityError;
pub(crate) use error::check;
pub use flow::{AirFlow, AirFlowDifference};
pub use length::{
    ContactGap, FuelLevel, Lash, LashChange, Length, PinOffset, PistonTravel, PlugGap, ScrewTravel,
    ShimThickness,
};
pub use nominal::{LengthUnit, Marked, Nominal};
pub use pressure::{AbsolutePressure, GaugePressure, PressureDifference, Vacuum};
pub use quoted::Quoted;
pub use refusal::Refusal;
pub use speed::{CrankSpeed, DistributorSpeed};
pub use temperature::{Temperature, TemperatureDifference};
pub use turns_out::TurnsOut;
pub use written::Written;
