//! The head's bolts: in which order, with what wrench setting, and what force that leaves in them.
//!
//! # Conventions
//! - A torque that is set on a wrench, a torque at the bolt and the force along the bolt are three things.
//! - A maker's order, where there is one, comes before one by geometry.
//! - A head that is tightened again moves the lash: valves are set after it.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | In which order are bolts tightened? | [`sequence`] |
//! | Does an order run from the middle outward? | [`check_order`] |
//! | What is set on a wrench with an adapter? | [`Adapter`] |
//! | Is the wrench good enough for a printed band? | [`Wrench`] |
//! | What force does a torque leave, and with how much scatter? | [`Preload`], [`Scatter`] |
//! | Are two printed torques one? | [`torques_agree`] |
//! | What does a head that goes down do to the lash? | [`lash_after_settling`] |
//!
//! # Sources
//! Named at each function. Tightening from the middle outward: common practice, no source.
//!
//! # Not here
//! Angles of stretch bolts: the maker's alone.

mod error;
mod order;
mod preload;
mod printed;
mod scatter;
mod settling;
mod wrench;

pub use error::HeadError;
pub use order::{Bolt, OrderFault, check_order, sequence};
pub use preload::{Friction, Preload, nut_factor};
pub use printed::torques_agree;
pub use scatter::{Scatter, Tightening};
pub use settling::{RockerPivot, lash_after_settling};
pub use wrench::{Adapter, Wrench};
