//! Computation kernel for the service of older piston engines.
//!
//! Pure: no input or output, no clock, no randomness, no globals, no unsafe code; the same input
//! gives the same bits on every platform, because transcendental functions come from `libm`.
//!
//! | question | answer |
//! |---|---|
//! | Is 0.006 in the same as 0.15 mm? | [`quantity::Marked`], exact to the nanometre |
//! | When does each cylinder fire? | [`engine::Engine`] |
//! | Where is TDC, and how far down is the piston? | [`engine::PistonStops`], [`engine::SliderCrank`] |
//! | Where do I stop the crank, and what do I check there? | [`valve::ValveTrain`] |
//! | What did the leaf say? | [`feeler::Reading`] |
//! | Which leaves make 0.17 mm? | [`feeler::best_stack`] |
//! | How does the temperature of the metal change the gap? | [`thermal::Chain`], [`thermal::fit_coefficient`] |
//! | Is it in tolerance, and how certain is that? | [`tolerance::judge`] |
//! | How far do I turn the screw, which shim do I fit? | [`adjust::screw_turn`], [`adjust::ShimSeries`] |
//! | One valve, with advice? | [`clearance::judge`] |
//! | When does the spark come, and is it strong enough? | [`ignition`] |
//! | How dense is the air, how rich is the mixture? | [`mixture`] |
//! | Is a cylinder low, and what leaks? | [`condition`] |
//! | What does the lash do to the valve events? | [`events`] |
//! | How fast does it change over the years, and when to look next? | [`history`] |
//! | What do free and tight rockers say about the crank? | [`rockers::Rockers`] |
//! | What do all readings say together? | [`diagnosis::diagnose`] |
//! | What may be the matter with it, by everything found? | [`causes::CauseCheck`] |
//! | All of it, for a whole engine? | [`job::run`] |
//!
//! # Stages
//! ```text
//! quantity, statistics <- tolerance, engine <- valve, feeler, thermal, adjust, ignition, mixture, history
//!                      <- rockers, diagnosis, clearance, condition, events, causes <- job
//!
//! reading -> estimate with uncertainty -> corrected to the reference
//!         -> judged against the specification -> advice -> report
//! ```
//! An arrow never goes up, and never sideways: where two areas meet, a higher one carries the value
//! across. In `job` a folder is a section of the service, and a folder in it one question.
//!
//! # Conventions
//! - Crank positions count from firing TDC of the first cylinder in the firing order, in the running
//!   direction; the engine is only turned forward.
//! - Exact things (marks, limits, shim sizes) are whole nanometres; measured things are `f64`.
//! - Nothing is chosen silently: [`job::Report::assumptions`] lists what had to be taken.
//!
//! # Feature
//! `whole`, which is on by default: without it, what [`Whole`] stands for is left out, for a small program
//! that judges single readings.
//!
//! This library computes. The engine maker's manual, local codes and licensed practice come first.
#![no_std]
#![forbid(unsafe_code)]

extern crate alloc;
// Its `ISQ!` macro calls another macro of the crate by bare name.
#[macro_use]
extern crate uom;

pub mod adjust;
pub mod causes;
pub mod clearance;
pub mod condition;
pub mod diagnosis;
pub mod engine;
pub mod events;
pub mod feeler;
pub mod history;
pub mod ignition;
pub mod job;
pub mod mixture;
pub mod quantity;
pub mod rockers;
pub mod statistics;
pub mod thermal;
pub mod tolerance;
pub mod valve;
mod whole;

pub use quantity::Refusal;
pub use whole::{LeftOut, Whole};

/// The read-me's program runs, as a test.
#[cfg(doctest)]
#[doc = include_str!("../../../README.md")]
struct ReadMe;

/// The same of the package's own.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct OwnReadMe;
