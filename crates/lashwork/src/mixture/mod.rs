//! Tier 2: mixture: the air an engine breathes, the fuel that is metered into it, and what the exhaust says.
//!
//! # Conventions
//! - Absolute and gauge pressure and vacuum are three types; a barometer set to sea level is not the air
//!   around.
//! - Lambda is air over the air that burns the fuel: under 1 is rich.
//! - Where published rules disagree, each is given by its name; none is merged.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How dense is the air here? | [`air`] |
//! | Which jet goes with it? | [`jets`] |
//! | How high does the fuel stand? | [`float`] |
//! | What does the exhaust gas say? | [`gas`] |
//! | Do the carburettors share the work? | [`balance`] |
//! | Where is the mixture screw best? | [`idle`] |
//! | What does the vacuum gauge say? | [`gauge`] |
//!
//! # Not here
//! The order of work and the words of the sheet (`job`).

pub mod air;
pub mod balance;
pub mod float;
pub mod gas;
pub mod gauge;
pub mod idle;
pub mod jets;
mod measured;
