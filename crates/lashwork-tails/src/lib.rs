//! The numbers behind a verdict: the chances that a rectangle with a normal part lies below, in and above a
//! band.
//!
//! A crate of its own, because it is built for speed where everything else is built for size; `lashwork`
//! offers what is of use to others in its `statistics`.
//!
//! # Conventions
//! - A tail is computed as a tail, never as one minus the rest; each result states its error.
//! - Standard deviations are positive; all numbers of one call are in one unit.

#![no_std]
#![forbid(unsafe_code)]

mod lanes;
mod normal;
mod proportion;
mod rectangular_normal;
mod tail_fit;

pub use lanes::{Effect, LANES, Lane, Lanes, Worked};
pub use normal::{ONE_SIDED_95, normal_cdf, normal_tail};
pub use proportion::Proportion;
pub use rectangular_normal::{RectangularNormal, mean, phi_difference};
pub use tail_fit::mills;
