//! How evenly the cylinders fire: mean, first harmonic, what is left, and what may be the matter.
//!
//! # Conventions
//! - A lobe is numbered from 0 along the firing order; its place is the rotor angle at which its cylinder
//!   fires, so odd-fire engines have theirs from the engine.
//! - An error ([`FiringError`]) counts in crank degrees, positive where the spark is late.
//! - About the mean: the mean is the static timing, and no matter of evenness.
//!
//! # Method
//! - Flashes: error `e` of lobe `k`. Dwell: a lobe that opens late by `e` and is symmetrical also closes
//!   early by `e`, so the closed angle before lobe `k` is longer by `e` of `k` and `e` of `k - 1`.
//! - From four lobes on `mean + a cos + b sin` over one turn of the cam is fitted by least squares; what it
//!   leaves is the residual of each lobe, with as many degrees of freedom as readings less what was fitted.
//! - With two or three lobes a harmonic would fit anything, so there is none. Four lobes leave one degree of
//!   freedom: one worn lobe is the same as a run-out with a play of every second spark.
//! - Uncertainties: every figure is a sum of weighted readings, so JCGM 100:2008, 5.1.2, exactly; that of
//!   amplitude and phase to first order.
//! - Explanations are weighed by Bayes' rule over normal models ([`UnevenCause`]); those that can make the
//!   same pattern stand in one group, with what would tell them apart.
//!
//! # Sources
//! A bench manual for flashes on a ring, within 2 distributor degrees, and for teeth or lobes, shaft and
//! bushings as causes; named in the tests. The sizes and shares of the models are this library's choice.
//!
//! # Not here
//! Static timing (`timing`), the gap that goes with a dwell (`breaker`).

mod answer;
mod assumption;
mod cause;
mod error;
mod firing_error;
mod fit;
mod gaussian;
mod harmonic;
mod readings;
mod side_play;
mod vectors;

pub use answer::{Evenness, EvennessCheck, LobeFiring, Mean};
pub use assumption::EvennessAssumption;
pub use cause::{EvennessLook, UnevenCause, UnevenExplanation, UnevenGroup, UnevenVerdict};
pub use error::EvennessError;
pub use firing_error::FiringError;
pub use harmonic::{CamSection, FirstHarmonic, Flank, RunOut};
pub use readings::{DwellShown, LobeReadings};
pub use side_play::SidePlay;
