//! What the vacuum gauge says of causes.
//!
//! # Conventions
//! - Level, drop and rebound are what the gauge shows at the manifold of a warm engine at idle.
//! - Nothing said is nothing known: what was not looked at moves no probability.
//! - A normal level is one of sea level; the altitude's share is taken off both ways it can be reckoned, with
//!   the truth anywhere between ([`at_sea_level`]).
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | What would it show at sea level, or here? | [`at_sea_level`], [`from_sea_level`] |
//! | What may be the matter? | [`GaugeCause`] |
//! | How probable is each, and where to look next? | [`GaugeCheck`] |
//!
//! # Method
//! Bayes' rule over causes, as for leads and rockers: a chance of each movement for each cause, a band for
//! each level and drop, blurred by the gauge and by altitude, a chance of a wrong look that mixes in anything,
//! and the next look by the information expected of it for its effort. The signs of one cause are taken as
//! independent of each other.
//!
//! # Sources
//! Which movement, level and amount points to which cause is published; the texts are named in the tests. How
//! often each cause is met, how often it shows the movement it is known by, and the bands of causes without a
//! printed amount are this library's choice ([`GaugeAssumption`]).
//!
//! # Not here
//! Compression, timing and clearances themselves: what was found of them comes in as evidence.

mod assumption;
mod cause;
mod check;
mod error;
mod level;
mod look;
mod model;

pub use assumption::GaugeAssumption;
pub use cause::{GaugeCause, GaugePriors};
pub use check::{GaugeAnswer, GaugeCheck, GaugeVerdict, NextGaugeLook, SETTLED, WeighedCause};
pub use error::GaugeError;
pub use level::{ByAltitude, at_sea_level, from_sea_level};
pub use look::{
    Blip, CompressionFound, GaugeLook, LashFound, Level, Movement, TimingFound, WithSpeed,
};
