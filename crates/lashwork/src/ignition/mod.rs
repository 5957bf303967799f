//! Tier 2: ignition by contact breaker or magneto: when the spark comes, how that is read, and what to turn.
//!
//! # Conventions
//! - An ignition point counts in crank degrees before firing top dead centre ([`Advance`]); an amount of
//!   turning is an angle of the crank or of the distributor, never a bare number.
//! - A lobe, a cap tower and a flash are numbered from 0 in the order in which the rotor passes them.
//! - What a tool adds to the uncertainty is a term with its source; what nobody published is marked as
//!   common practice.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | The same ignition point as degrees, rim, dial, rotor? | [`point`] |
//! | Which gap goes with which dwell, and what does timing do? | [`breaker`] |
//! | Is the timing right, and which way do I turn the body? Is the curve? | [`timing`] |
//! | Do all cylinders fire evenly? | [`evenness`] |
//! | Is a lead, or the distributor, one place off? | [`leads`] |
//! | Is the spark strong enough? Coil, condenser, plug | [`electrics`] |
//! | Is the magneto right inside, on the engine, and beside the other one? | [`magneto`] |
//!
//! # Not here
//! The order of work and the words of the sheet (`job`).
//!
//! [`Advance`]: crate::quantity::Advance

mod aim;
pub mod breaker;
pub mod electrics;
pub mod evenness;
pub mod leads;
pub mod magneto;
mod measured;
pub mod point;
pub mod timing;
