//! Computation kernel for valve clearance work on piston engines.
#![no_std]
#![forbid(unsafe_code)]

extern crate alloc;
// Its `ISQ!` macro calls another macro of the crate by bare name.
#[macro_use]
extern crate uom;

pub mod adjust;
pub mod engine;
pub mod feeler;
pub mod job;
pub mod quantity;
pub mod thermal;
pub mod tolerance;
pub mod valve;
